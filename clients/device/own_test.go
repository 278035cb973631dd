package device_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"google.golang.org/protobuf/types/known/fieldmaskpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// inFolder opens a device whose folder is a copy of another's, as that of a
// phone set up from a backup.
func inFolder(t *testing.T, from *device.Device) *device.Device {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(from.Dir())); err != nil {
		t.Fatal(err)
	}
	return open(t, dir)
}

// at is a device that joined a real server, and the site it made there.
func at(t *testing.T, s *servertest.Server) (d *device.Device, siteID string) {
	t.Helper()
	d = open(t, t.TempDir())
	enter(t, d, s, "")
	siteID, err := d.Set(t.Context(), siteEdit("Barn"))
	if err != nil {
		t.Fatal(err)
	}
	syncNow(t, d)
	return d, siteID
}

// enter lets a device in: as one more of a member's, or as a new member.
func enter(t *testing.T, d *device.Device, s *servertest.Server, of string) {
	t.Helper()
	in := &freshetv1.CreateInvitationRequest{}
	if of != "" {
		in.Role = freshetv1.Role_ROLE_GROWER
	}
	made, err := s.Steward().Accounts.CreateInvitation(t.Context(), in)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Join(t.Context(), device.Invitation{Code: made.GetCode(), Address: s.GRPCAddress().String(), Device: "phone", Person: of}); err != nil {
		t.Fatal(err)
	}
}

func readingAt(siteID string, minute, digits int) *freshetv1.Event {
	e := reading(minute, digits)
	e.SiteId = siteID
	return e
}

// sameEverywhere syncs all twice and compares what each reads, in order.
func sameEverywhere(t *testing.T, want string, devices ...*device.Device) {
	t.Helper()
	for range 2 {
		for _, d := range devices {
			if p := syncNow(t, d); p.Waiting != 0 {
				t.Fatalf("%d wait", p.Waiting)
			}
		}
	}
	for i, d := range devices {
		words := strings.Fields(told(t, d))
		slices.Sort(words)
		if got := strings.Join(words, " "); got != want {
			t.Errorf("device %d reads %q, want %q", i, got, want)
		}
	}
}

// Two phones are one install: whichever comes to the server first, the other
// takes an install of its own, and what waited on both is stored once.
func TestACopiedPhoneTakesAnInstallOfItsOwn(t *testing.T) {
	for _, order := range []string{"the first comes first", "the copy comes first"} {
		t.Run(order, func(t *testing.T) {
			s := servertest.New(t)
			first, siteID := at(t, s)
			other, _ := at(t, s)
			note(t, first, readingAt(siteID, 0, 70))
			syncNow(t, first)
			note(t, first, readingAt(siteID, 1, 71))
			second := inFolder(t, first)
			note(t, first, readingAt(siteID, 2, 72))
			note(t, second, readingAt(siteID, 3, 62), readingAt(siteID, 4, 63))
			both := []*device.Device{first, second}
			if order != "the first comes first" {
				slices.Reverse(both)
			}
			for _, d := range both {
				before := told(t, d)
				syncNow(t, d)
				for word := range strings.FieldsSeq(before) {
					if !strings.Contains(told(t, d), word) {
						t.Errorf("%s is gone from who noted it", word)
					}
				}
			}
			sameEverywhere(t, "62 63 70 71 72", first, second, other)
			if first.Install() == second.Install() {
				t.Error("both still are one install")
			}
		})
	}
}

// Records that a copy made keep what was entered about them.
func TestACopyTakesItsRecordsAlong(t *testing.T) {
	s := servertest.New(t)
	first, siteID := at(t, s)
	second := inFolder(t, first)
	for i, d := range []*device.Device{first, second} {
		tank := tankAt(t, d, siteID, []string{"North", "South"}[i])
		e := readingAt(siteID, i, 70+i)
		e.GetReading().PlaceId = tank
		if _, err := d.Group(t.Context(), e, readingAt(siteID, i, 80+i)); err != nil {
			t.Fatal(err)
		}
	}
	sameEverywhere(t, "70 71 80 81", first, second)
	names := map[string]string{}
	records, err := second.Records(t.Context(), "vessel")
	if err != nil || len(records) != 2 {
		t.Fatalf("%d vessels, %v", len(records), err)
	}
	for _, r := range records {
		names[r.ID] = r.Message.Interface().(*freshetv1.Vessel).GetName()
	}
	entries, err := first.Entries(t.Context(), device.Want{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		r := e.Event.GetReading()
		if want := map[int64]string{70: "North", 71: "South"}[r.GetDigits()]; names[r.GetPlaceId()] != want {
			t.Errorf("reading %d is of %q, want %q", r.GetDigits(), names[r.GetPlaceId()], want)
		}
	}
}

// Who joins again in the folder of before goes on, as the same member or as another.
func TestJoiningAgainInTheSameFolder(t *testing.T) {
	for _, person := range []string{"", "Oda"} {
		s := servertest.New(t)
		d, siteID := at(t, s)
		enter(t, d, s, person)
		e := readingAt(siteID, 0, 70)
		if person != "" { // a new member makes a site of her own
			made, err := d.Set(t.Context(), siteEdit("Shed"))
			if err != nil {
				t.Fatal(err)
			}
			e.SiteId = made
		}
		note(t, d, e)
		if p := syncNow(t, d); p.Left != 0 || p.Waiting != 0 || told(t, d) != "70 " {
			t.Errorf("%q: %d left, %d wait, read %q", person, p.Left, p.Waiting, told(t, d))
		}
	}
}

func siteEdit(name string) *freshetv1.Edit {
	return &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}}, Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: name}}}
}

// tankAt makes a system with one tank of the same name, and gives the tank's id.
func tankAt(t *testing.T, d *device.Device, siteID, name string) string {
	t.Helper()
	system, err := d.Set(t.Context(), &freshetv1.Edit{SiteId: siteID, Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: name}}})
	if err != nil {
		t.Fatal(err)
	}
	tank, err := d.Set(t.Context(), &freshetv1.Edit{SiteId: siteID, Fields: &fieldmaskpb.FieldMask{Paths: []string{"system_id", "name", "kind"}},
		Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{SystemId: system, Name: name, Kind: freshetv1.VesselKind_VESSEL_KIND_FISH_TANK}}})
	if err != nil {
		t.Fatal(err)
	}
	return tank
}

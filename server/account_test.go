package server_test

import (
	"context"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

const (
	steward = freshetv1.Role_ROLE_STEWARD
	grower  = freshetv1.Role_ROLE_GROWER
	helper  = freshetv1.Role_ROLE_HELPER
	reader  = freshetv1.Role_ROLE_READER
	sensor  = freshetv1.Role_ROLE_SENSOR
	again   = freshetv1.Role_ROLE_UNSPECIFIED // a further device
)

// wantReason fails unless an error has the reason and, where one is given, the
// field.
func wantReason(t *testing.T, what string, err error, reason, field string) {
	t.Helper()
	gotReason, gotField := "", ""
	for _, detail := range status.Convert(err).Details() {
		switch d := detail.(type) {
		case *errdetails.ErrorInfo:
			gotReason = d.GetReason()
		case *errdetails.BadRequest:
			gotField = d.GetFieldViolations()[0].GetField()
		}
	}
	if gotReason != reason || gotField != field {
		t.Errorf("%s: %v (%s %q), want %s %q", what, err, gotReason, gotField, reason, field)
	}
}

func TestJoiningAndWhoAmI(t *testing.T) {
	s := servertest.New(t)
	mara := s.Join(grower, "Mara Oduya")
	site := mara.NewSite(t, "North barn")
	phone := s.Invited(mara, again, "Mara's second phone")
	if phone.MemberID != mara.MemberID || phone.DeviceID == mara.DeviceID || phone.Role != grower {
		t.Errorf("the further device is %+v", phone)
	}
	me, err := phone.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	if err != nil || me.GetDisplayName() != "Mara Oduya" || me.GetRole() != grower || me.GetDeviceId() != phone.DeviceID ||
		len(me.GetSiteIds()) != 1 || me.GetSiteIds()[0] != site || me.GetCooperativeId() == "" {
		t.Errorf("%v %v", me, err)
	}
	visitor := s.Invited(mara, reader, "Tilo Brand", site)
	me, err = visitor.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	if err != nil || len(me.GetSiteIds()) != 0 {
		t.Errorf("a reader may enter records: %v %v", me, err)
	}
	if _, err := visitor.Accounts.ListSharing(t.Context(), &freshetv1.ListSharingRequest{SiteId: site}); err != nil {
		t.Errorf("a reader at a site: %v", err)
	}
	members, err := mara.Accounts.ListMembers(t.Context(), &freshetv1.ListMembersRequest{})
	if err != nil || len(members.GetMembers()) != 3 || members.GetMembers()[0].GetDisplayName() != "Ines Vaart" {
		t.Errorf("%v %v", members, err)
	}
}

func TestACodeIsUsedOnce(t *testing.T) {
	s := servertest.New(t)
	invitation, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower})
	if err != nil {
		t.Fatal(err)
	}
	if days := time.Until(time.UnixMilli(invitation.GetExpiresMs())).Hours() / 24; days < 2.9 || days > 3 {
		t.Errorf("it ends in %v days", days)
	}
	typed := strings.ToLower(strings.ReplaceAll(invitation.GetCode(), "-", " "))
	request := &freshetv1.JoinRequest{Code: typed, DeviceName: "phone", DisplayName: "Jo Amsel"}
	var joined, refused int
	var mu sync.Mutex
	var all sync.WaitGroup
	for range 6 {
		all.Go(func() {
			_, err := s.Stranger().Accounts.Join(context.WithoutCancel(t.Context()), request)
			mu.Lock()
			defer mu.Unlock()
			if err == nil {
				joined++
			} else if status.Code(err) == codes.PermissionDenied {
				refused++
			}
		})
	}
	all.Wait()
	if joined != 1 || refused != 5 {
		t.Errorf("%d joined and %d were refused", joined, refused)
	}
}

func TestCodesEnd(t *testing.T) {
	s := servertest.New(t)
	invitation, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower, ValidHours: 1})
	if err != nil {
		t.Fatal(err)
	}
	behind(t, s, "UPDATE invitations SET expires_at = now() - interval '1 second'")
	_, err = s.Stranger().Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: invitation.GetCode(), DeviceName: "phone", DisplayName: "Jo Amsel"})
	wantReason(t, "an ended code", err, "INVITATION_INVALID", "")
}

func TestGuessedCodesMeetALimit(t *testing.T) {
	s := servertest.New(t)
	good, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower})
	if err != nil {
		t.Fatal(err)
	}
	stranger := s.Stranger()
	join := func(code string) error {
		_, err := stranger.Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: code, DeviceName: "phone", DisplayName: "Jo Amsel"})
		return err
	}
	for i := range 10 {
		code := "AAAA-AAAA-AAA" + string("0123456789"[i])
		if i%2 == 1 {
			code = "not a code"
		}
		if reason := status.Code(join(code)); reason != codes.PermissionDenied {
			t.Errorf("try %d: %v", i, reason)
		}
	}
	wantReason(t, "try 11", join("AAAA-AAAA-AAAA"), "TOO_MANY_CALLS", "")
	wantReason(t, "the right code, after ten wrong ones", join(good.GetCode()), "TOO_MANY_CALLS", "")
}

func TestNamesAreLookedAt(t *testing.T) {
	s := servertest.New(t)
	code := func() string {
		invitation, err := s.Steward().Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: grower})
		if err != nil {
			t.Fatal(err)
		}
		return invitation.GetCode()
	}
	for _, c := range []struct{ device, person, reason, field string }{
		{"", "Jo Amsel", "FIELD_MISSING", "device_name"},
		{"phone", "", "FIELD_MISSING", "display_name"},
		{strings.Repeat("é", 81), "Jo Amsel", "TOO_LONG", "device_name"},
		{"phone", "Jo\nAmsel", "BAD_TEXT", "display_name"},
		{"phone\x00", "Jo Amsel", "BAD_TEXT", "device_name"},
		{"phone", "Jo\u202eAmsel", "BAD_TEXT", "display_name"},
	} {
		_, err := s.Stranger().Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: code(), DeviceName: c.device, DisplayName: c.person})
		wantReason(t, c.field, err, c.reason, c.field)
	}
	kept := code()
	if _, err := s.Stranger().Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: kept, DeviceName: "phone"}); err == nil {
		t.Fatal("joined without a name")
	}
	if _, err := s.Stranger().Accounts.Join(t.Context(), &freshetv1.JoinRequest{Code: kept, DeviceName: strings.Repeat("é", 80), DisplayName: "Jo Amsel"}); err != nil {
		t.Errorf("a refused name used the code up, or 80 letters are too long: %v", err)
	}
}

func TestWhoMayInviteWhom(t *testing.T) {
	s := servertest.New(t)
	mara, theo := s.Join(grower, "Mara Oduya"), s.Join(grower, "Theo Lind")
	own, other := mara.NewSite(t, "North barn"), theo.NewSite(t, "Roof")
	hand := s.Invited(mara, helper, "Tilo Brand", own)
	for _, c := range []struct {
		what          string
		by            *servertest.Person
		role          freshetv1.Role
		sites         []string
		hours         uint32
		reason, field string
	}{
		{"steward, grower", s.Steward(), grower, nil, 720, "", ""},
		{"steward, steward", s.Steward(), steward, nil, 0, "", ""},
		{"steward, into another's site", s.Steward(), helper, []string{own}, 0, "SITE_NOT_YOURS", "site_ids[0]"},
		{"grower, helper", mara, helper, []string{own}, 1, "", ""},
		{"grower, helper nowhere", mara, helper, nil, 0, "FIELD_MISSING", "site_ids"},
		{"grower, helper at another's", mara, helper, []string{own, other}, 0, "SITE_NOT_YOURS", "site_ids[1]"},
		{"grower, grower", mara, grower, []string{own}, 0, "ROLE_FORBIDS", "role"},
		{"grower, reader of all", mara, reader, nil, 0, "ROLE_FORBIDS", "role"},
		{"grower, a probe", mara, sensor, []string{own}, 0, "", ""},
		{"grower, a probe at two", mara, sensor, []string{own, own}, 0, "FIELD_MISSING", "site_ids"},
		{"helper, helper", hand, helper, []string{own}, 0, "ROLE_FORBIDS", "role"},
		{"helper, further device", hand, again, nil, 0, "", ""},
		{"further device with sites", mara, again, []string{own}, 0, "UNKNOWN_VALUE", "site_ids"},
		{"unknown role", s.Steward(), 9, nil, 0, "UNKNOWN_VALUE", "role"},
		{"too long", mara, again, nil, 721, "OUT_OF_RANGE", "valid_hours"},
		{"no id", mara, helper, []string{"barn"}, 0, "BAD_ID", "site_ids[0]"},
	} {
		_, err := c.by.Accounts.CreateInvitation(t.Context(), &freshetv1.CreateInvitationRequest{Role: c.role, SiteIds: c.sites, ValidHours: c.hours})
		wantReason(t, c.what, err, c.reason, c.field)
	}
}

func TestRolesChangeAtOnce(t *testing.T) {
	s := servertest.New(t)
	mara := s.Join(grower, "Mara Oduya")
	site := mara.NewSite(t, "North barn")
	setRole := func(who *servertest.Person, role freshetv1.Role, sites ...string) error {
		_, err := s.Steward().Accounts.SetRole(t.Context(), &freshetv1.SetRoleRequest{MemberId: who.MemberID, Role: role, SiteIds: sites})
		return err
	}
	wantReason(t, "the last steward", setRole(s.Steward(), grower), "LAST_STEWARD", "")
	wantReason(t, "a site that neither has", setRole(mara, helper, mara.MemberID), "SITE_NOT_YOURS", "site_ids[0]")
	wantReason(t, "nobody", setRole(&servertest.Person{MemberID: site}, grower), "UNKNOWN_RECORD", "")
	if err := setRole(mara, reader, site); err != nil {
		t.Fatal(err)
	}
	_, err := mara.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: site, Kind: "all", Sharing: freshetv1.Sharing_SHARING_OPEN})
	wantReason(t, "a reader's sharing", err, "ROLE_FORBIDS", "")
	if err := setRole(mara, steward); err != nil {
		t.Fatal(err)
	}
	if err := setRole(s.Steward(), grower); err != nil {
		t.Errorf("one of two stewards: %v", err)
	}
	wantReason(t, "who was a steward", setRole(mara, grower), "ROLE_FORBIDS", "")
}

func TestDevicesEnd(t *testing.T) {
	s := servertest.New(t)
	mara, theo := s.Join(grower, "Mara Oduya"), s.Join(grower, "Theo Lind")
	phone := s.Invited(mara, again, "Mara's second phone")
	devices, err := mara.Accounts.ListDevices(t.Context(), &freshetv1.ListDevicesRequest{})
	if err != nil || len(devices.GetDevices()) != 2 || devices.GetDevices()[0].GetLastContactMs() == 0 {
		t.Errorf("%v %v", devices, err)
	}
	_, err = mara.Accounts.ListDevices(t.Context(), &freshetv1.ListDevicesRequest{AllMembers: true})
	wantReason(t, "a grower lists all", err, "ROLE_FORBIDS", "all_members")
	all, err := s.Steward().Accounts.ListDevices(t.Context(), &freshetv1.ListDevicesRequest{AllMembers: true})
	if err != nil || len(all.GetDevices()) != 4 {
		t.Errorf("%v %v", all, err)
	}
	_, err = theo.Accounts.RevokeDevice(t.Context(), &freshetv1.RevokeDeviceRequest{DeviceId: phone.DeviceID})
	wantReason(t, "another's device", err, "SITE_NOT_YOURS", "device_id")
	if _, err := mara.Accounts.RevokeDevice(t.Context(), &freshetv1.RevokeDeviceRequest{DeviceId: phone.DeviceID}); err != nil {
		t.Fatal(err)
	}
	_, err = phone.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
	wantReason(t, "the ended device", err, "DEVICE_REVOKED", "")
	if _, err := mara.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{}); err != nil {
		t.Errorf("the other device: %v", err)
	}
	if _, err := s.Steward().Accounts.RevokeDevice(t.Context(), &freshetv1.RevokeDeviceRequest{DeviceId: theo.DeviceID}); err != nil {
		t.Errorf("a steward ends anybody's: %v", err)
	}
}

func TestSharingOpensAndCloses(t *testing.T) {
	s := servertest.New(t)
	mara, theo := s.Join(grower, "Mara Oduya"), s.Join(grower, "Theo Lind")
	site := mara.NewSite(t, "North barn")
	look := func() error {
		_, err := theo.Accounts.ListSharing(t.Context(), &freshetv1.ListSharingRequest{SiteId: site})
		return err
	}
	share := func(kind string, sharing freshetv1.Sharing) error {
		_, err := mara.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: site, Kind: kind, Sharing: sharing})
		return err
	}
	wantReason(t, "before", look(), "SITE_NOT_YOURS", "site_id")
	if err := share("all", freshetv1.Sharing_SHARING_NAMED); err != nil {
		t.Fatal(err)
	}
	wantReason(t, "named is not open", look(), "SITE_NOT_YOURS", "site_id")
	if err := share("all", freshetv1.Sharing_SHARING_OPEN); err != nil {
		t.Fatal(err)
	}
	if err := look(); err != nil {
		t.Errorf("open: %v", err)
	}
	if err := share("all", freshetv1.Sharing_SHARING_PRIVATE); err != nil {
		t.Fatal(err)
	}
	wantReason(t, "closed again", look(), "SITE_NOT_YOURS", "site_id")
	wantReason(t, "unknown kind", share("gossip", freshetv1.Sharing_SHARING_OPEN), "UNKNOWN_NAME", "kind")
	wantReason(t, "no step", share("reading", freshetv1.Sharing_SHARING_UNSPECIFIED), "UNKNOWN_VALUE", "sharing")
	if err := share("reading", freshetv1.Sharing_SHARING_FIGURES); err != nil {
		t.Fatal(err)
	}
	rules, err := mara.Accounts.ListSharing(t.Context(), &freshetv1.ListSharingRequest{SiteId: site})
	if err != nil || len(rules.GetRules()) != 2 || rules.GetRules()[1].GetKind() != "reading" || rules.GetRules()[1].GetSinceMs() == 0 {
		t.Errorf("%v %v", rules, err)
	}
}

// behind runs a statement behind the server's back.
func behind(t *testing.T, s *servertest.Server, statement string) {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = conn.Close(t.Context()) }()
	if _, err := conn.Exec(t.Context(), statement); err != nil {
		t.Fatal(err)
	}
}

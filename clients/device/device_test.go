package device_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

const site = "5b6d5f6a-90ab-8cd0-8000-000000000001"

func reading(minute, digits int) *freshetv1.Event {
	return &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.New(time.Unix(int64(1_700_000_000+60*minute), 0)),
		Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
			Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: int64(digits), Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE,
		}}}
}

// told is what a person reads: digits in the order they happened.
func told(t *testing.T, d *device.Device) string {
	t.Helper()
	entries, err := d.Entries(t.Context(), device.Want{Kinds: []string{"reading"}})
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, e := range entries {
		fmt.Fprintf(&b, "%d ", e.Event.GetReading().GetDigits())
	}
	return b.String()
}

func note(t *testing.T, d *device.Device, events ...*freshetv1.Event) []string {
	t.Helper()
	ids, err := d.Note(t.Context(), events...)
	if err != nil {
		t.Fatal(err)
	}
	return ids
}

func TestWhatWasNotedReadsTheSameBeforeAndAfterItsEcho(t *testing.T) {
	c := newCoop(t)
	d := joined(t, c)
	note(t, d, reading(0, 70), reading(1, 71))
	for i := range 20 {
		note(t, d, reading(2+i, 72+i))
	}
	before := told(t, d)
	if p := syncNow(t, d); p.Stored != 22 || p.Waiting != 0 {
		t.Fatalf("stored %d, waiting %d", p.Stored, p.Waiting)
	}
	if after := told(t, d); after != before {
		t.Fatalf("before %q, after %q", before, after)
	}
	other := joined(t, c)
	syncNow(t, other)
	if theirs := told(t, other); theirs != before {
		t.Fatalf("the other device reads %q, not %q", theirs, before)
	}
}

func TestALostAnswerStoresNothingTwice(t *testing.T) {
	c := newCoop(t)
	d := joined(t, c)
	c.loseNext = 2
	note(t, d, reading(0, 70), reading(1, 71), reading(2, 72))
	if p := syncNow(t, d); p.Waiting != 0 {
		t.Fatalf("%d wait", p.Waiting)
	}
	if c.count != 3 || told(t, d) != "70 71 72 " {
		t.Fatalf("%d stored, read %q", c.count, told(t, d))
	}
}

// A server that has too much to do is left alone as long as it asks, within reason.
func TestABusyServerIsLeftAlone(t *testing.T) {
	c := newCoop(t)
	var pauses []time.Duration
	d, err := device.Open(t.TempDir(), device.WithPause(func(_ context.Context, pause time.Duration) { pauses = append(pauses, pause) }))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = d.Close() })
	if err := d.Join(t.Context(), device.Invitation{Code: "x", Address: c.address, Device: "phone"}); err != nil {
		t.Fatal(err)
	}
	note(t, d, reading(0, 70))
	c.busy = []time.Duration{7 * time.Second, 5 * time.Hour}
	if p := syncNow(t, d); p.Stored != 1 {
		t.Fatalf("%+v", p)
	}
	if len(pauses) != 2 || pauses[0] < 7*time.Second || pauses[0] > 8*time.Second || pauses[1] < time.Minute || pauses[1] > 62*time.Second {
		t.Errorf("it waited %v", pauses)
	}
}

func TestARefusedEntryIsKeptAndBlocksNoOther(t *testing.T) {
	c := newCoop(t)
	d := joined(t, c)
	c.refuse[2] = true
	note(t, d, reading(0, 70), reading(1, 999), reading(2, 72))
	syncNow(t, d)
	if got := told(t, d); got != "70 72 " {
		t.Fatalf("read %q", got)
	}
	left, err := d.Left(t.Context())
	if err != nil || len(left) != 1 || left[0].Number != 2 || left[0].Operation.GetEvent().GetReading().GetDigits() != 999 {
		t.Fatalf("left %v, %v", left, err)
	}
}

func TestARestoredServerIsFilledAgain(t *testing.T) {
	c := newCoop(t)
	d := joined(t, c)
	note(t, d, reading(0, 70))
	syncNow(t, d)
	note(t, d, reading(1, 71))
	syncNow(t, d)
	c.mu.Lock()
	c.pages, c.count = c.pages[:1], 1
	for install := range c.through {
		c.through[install] = 1
	}
	c.mu.Unlock()
	syncNow(t, d)
	if c.count != 2 || told(t, d) != "70 71 " {
		t.Fatalf("%d stored, read %q", c.count, told(t, d))
	}
}

func TestACopyThatDiffersIsReadAnew(t *testing.T) {
	c := newCoop(t)
	d := joined(t, c)
	note(t, d, reading(0, 70), reading(1, 71))
	c.digestBy = 1
	if p := syncNow(t, d); p.Pages != 2 || told(t, d) != "70 71 " {
		t.Fatalf("%d pages, read %q", p.Pages, told(t, d))
	}
}

func TestACorrectionHoldsAndVoids(t *testing.T) {
	c := newCoop(t)
	d := joined(t, c)
	ids := note(t, d, reading(0, 70), reading(1, 71), reading(2, 72))
	correct := func(id string, replacement *freshetv1.Event) {
		note(t, d, &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.Now(),
			Kind: &freshetv1.Event_Correction{Correction: &freshetv1.Correction{EventId: id, Replacement: replacement}}})
	}
	correct(ids[0], nil)
	correct(ids[1], reading(1, 81))
	if got := told(t, d); got != "81 72 " {
		t.Fatalf("before the sync %q", got)
	}
	syncNow(t, d)
	if got := told(t, d); got != "81 72 " {
		t.Fatalf("after the sync %q", got)
	}
}

// Whatever the order in which edits are entered on three devices and synced,
// all end with the same record.
func TestRecordsMergeAlikeOnEveryDevice(t *testing.T) {
	for seed := range uint64(20) {
		random := rand.New(rand.NewPCG(seed, 1))
		c := newCoop(t)
		devices := []*device.Device{joined(t, c), joined(t, c), joined(t, c)}
		id, err := devices[0].Set(t.Context(), edit("", "name", 0))
		if err != nil {
			t.Fatal(err)
		}
		for range 30 {
			d := devices[random.IntN(3)]
			if random.IntN(3) == 0 {
				syncNow(t, d)
				continue
			}
			field := []string{"name", "volume_l", "media"}[random.IntN(3)]
			if _, err := d.Set(t.Context(), edit(id, field, random.IntN(1000))); err != nil {
				t.Fatal(err)
			}
		}
		var first string
		for range 2 { // the second round brings what the later ones sent
			for _, d := range devices {
				syncNow(t, d)
			}
		}
		for i, d := range devices {
			records, err := d.Records(t.Context())
			if err != nil || len(records) != 1 {
				t.Fatalf("seed %d: %d records, %v", seed, len(records), err)
			}
			v := records[0].Message.Interface().(*freshetv1.Vessel)
			text := fmt.Sprint(v.GetName(), v.GetVolumeL(), v.GetMedia())
			if i == 0 {
				first = text
			} else if text != first {
				t.Fatalf("seed %d: device %d has %q, the first %q", seed, i, text, first)
			}
		}
	}
}

func edit(id, field string, n int) *freshetv1.Edit {
	v := &freshetv1.Vessel{Name: fmt.Sprint("tank", n), VolumeL: float64(n), Media: fmt.Sprint("gravel", n)}
	return &freshetv1.Edit{RecordId: id, SiteId: site, Fields: &fieldmaskpb.FieldMask{Paths: []string{field}}, Record: &freshetv1.Edit_Vessel{Vessel: v}}
}

func TestStatusIsSaidInWords(t *testing.T) {
	d := open(t, t.TempDir())
	note(t, d, reading(0, 70))
	s, err := d.Status(t.Context())
	if err != nil || s.String() != "1 entry waits; this device has not joined a co-op" {
		t.Fatalf("%q, %v", s, err)
	}
	now := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	for at, want := range map[time.Time]string{
		now.Add(-time.Hour): "today 08:00", now.AddDate(0, 0, -1): "yesterday 09:00",
		now.AddDate(0, 0, -2): "Monday 09:00", now.AddDate(0, -1, 0): "25 October 09:00",
	} {
		if got := device.Moment(at, now); got != want {
			t.Errorf("%v: %q, want %q", at, got, want)
		}
	}
}

func TestTheTokenIsItsOwnersAlone(t *testing.T) {
	d := joined(t, newCoop(t))
	info, err := os.Stat(filepath.Join(d.Dir(), "token"))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("%v, %v", info, err)
	}
}

func TestPlainTextStaysOnThisMachine(t *testing.T) {
	d := open(t, t.TempDir())
	err := d.Join(t.Context(), device.Invitation{Code: "x", Address: "192.0.2.1:7420", Authority: "no certificate"})
	if err == nil || !strings.Contains(err.Error(), "no certificate in PEM") {
		t.Fatalf("a foreign address was dialled without TLS: %v", err)
	}
}

func BenchmarkNote(b *testing.B) {
	d, err := device.Open(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	defer d.Close() //nolint:errcheck // the folder goes with the benchmark
	events := make([]*freshetv1.Event, 5000)
	for i := range events {
		events[i] = reading(i, 70+i%5)
	}
	for b.Loop() {
		if _, err := d.Note(b.Context(), events...); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(events)*b.N)/b.Elapsed().Seconds(), "entries/s")
}

package device_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/clients/device"
)

// On a slow line a new device reads settings, which come first, while the rest
// is still on its way; all of it is there once it has come.
func TestSettingsAreReadWhileTheRestStillComes(t *testing.T) {
	c := newCoop(t)
	other := wire.Install{0x5b, 0x6d, 0x5f, 1, 0x90, 0xab, 0x80, 1}
	store := func(number uint64, op *freshetv1.Operation) {
		op.Number, op.Noted = number, &freshetv1.Noted{WallMs: 1_772_438_400_000}
		c.store(&freshetv1.Block{Install: other[:], MemberId: "m2", Operations: []*freshetv1.Operation{op}}, 1)
	}
	noted := func(words string) *freshetv1.Operation {
		return &freshetv1.Operation{Change: &freshetv1.Operation_Event{Event: &freshetv1.Event{SiteId: "all", OccurredAt: timestamppb.Now(),
			Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: words}}}}}
	}
	store(1, &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: &freshetv1.Edit{RecordId: wire.ID(other, 1).String(), SiteId: "all",
		Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}}, Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{Name: "Fish tank"}}}}})
	for n := range uint64(8) {
		store(2+n, noted(strings.Repeat("the pump hums ", 500)))
	}
	store(10, noted("today"))
	c.slow = make(chan struct{})
	d, synced := joined(t, c), make(chan error)
	go func() {
		_, err := d.Sync(t.Context())
		synced <- err
	}()
	bound, stop := context.WithTimeout(t.Context(), time.Minute) // it ends what hangs
	defer stop()
	for vessels := []device.Record(nil); len(vessels) == 0; time.Sleep(5 * time.Millisecond) {
		var err error
		if vessels, err = d.Records(bound, "vessel"); err != nil {
			t.Fatal(err)
		}
	}
	if entries, err := d.Entries(t.Context(), device.Want{}); err != nil || len(entries) == 9 {
		t.Errorf("%d entries while the last is still to come, %v", len(entries), err)
	}
	close(c.slow)
	if err := <-synced; err != nil {
		t.Fatal(err)
	}
	if entries, err := d.Entries(t.Context(), device.Want{}); err != nil || len(entries) != 9 {
		t.Errorf("%d entries of 9, %v", len(entries), err)
	}
}

package device_test

import (
	"context"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

func reading(site string, at time.Time, digits int64) *freshetv1.Event {
	return &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.New(at), Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: digits, Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE,
	}}}
}

func TestSmoke(t *testing.T) {
	ctx := context.Background()
	d, err := device.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	site, err := d.Set(ctx, &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn"}}})
	if err != nil {
		t.Fatal(err)
	}
	var events []*freshetv1.Event
	for i := range 50000 {
		events = append(events, reading(site, time.Unix(int64(1700000000+i), 0), int64(70+i%5)))
	}
	began := time.Now()
	if _, err := d.Note(ctx, events...); err != nil {
		t.Fatal(err)
	}
	t.Log("noted", time.Since(began))
	began = time.Now()
	entries, err := d.Entries(ctx, device.Want{})
	if err != nil || len(entries) != 50000 {
		t.Fatal(len(entries), err)
	}
	t.Log("read", time.Since(began))
	records, err := d.Records(ctx)
	t.Log(records, err)
	s, err := d.Status(ctx)
	t.Log(s, err)
}

package main

import (
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

const benchedReadings = 50_000

// BenchmarkPush notes and pushes readings of four probes from one device to a
// server on a real database that syncs each push to disk.
func BenchmarkPush(b *testing.B) {
	server := servertest.New(b)
	d, site := benchDevice(b, server)
	at := time.Now().AddDate(-2, 0, 0)
	for b.Loop() {
		noteReadings(b, d, site, at)
		if p, err := d.Sync(b.Context()); err != nil || p.Waiting != 0 {
			b.Fatalf("%+v, %v", p, err)
		}
		at = at.Add(time.Minute)
	}
	b.ReportMetric(float64(benchedReadings*b.N)/b.Elapsed().Seconds(), "readings/s")
}

func benchDevice(b *testing.B, server *servertest.Server) (*device.Device, string) {
	b.Helper()
	made, err := server.Steward().Accounts.CreateInvitation(b.Context(), &freshetv1.CreateInvitationRequest{Role: freshetv1.Role_ROLE_GROWER})
	if err != nil {
		b.Fatal(err)
	}
	d, err := device.Open(b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = d.Close() })
	if err := d.Join(b.Context(), device.Invitation{Code: made.GetCode(), Address: server.GRPCAddress().String(), Device: "probe", Person: "Ana"}); err != nil {
		b.Fatal(err)
	}
	site, err := d.Set(b.Context(), &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn"}}})
	if err != nil {
		b.Fatal(err)
	}
	if _, err := d.Sync(b.Context()); err != nil {
		b.Fatal(err)
	}
	return d, site
}

func noteReadings(b *testing.B, d *device.Device, site string, at time.Time) {
	b.Helper()
	events := make([]*freshetv1.Event, benchedReadings)
	for i := range events {
		events[i] = &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.New(at.Add(time.Duration(i/3) * time.Hour)),
			Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
				Quantity: freshetv1.Quantity(1 + i%3), Digits: int64(60 + i%20), Decimals: 1,
				Unit: []freshetv1.Unit{freshetv1.Unit_UNIT_CELSIUS, freshetv1.Unit_UNIT_CELSIUS, freshetv1.Unit_UNIT_NONE}[i%3],
			}}}
	}
	if _, err := d.Note(b.Context(), events...); err != nil {
		b.Fatal(err)
	}
}

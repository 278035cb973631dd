package main

import (
	"context"
	"flag"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
)

var herd = flag.Int("herd.devices", 50, "how many devices push at once; make bench-sync says 500")

// BenchmarkAllPushAtOnce is a co-op whose server was away: every device of it
// pushes twenty readings in the same moment and syncs until nothing waits.
func BenchmarkAllPushAtOnce(b *testing.B) {
	p := start(b, "serve", "--data", filepath.Join(b.TempDir(), "data"))
	first := herdJoin(b, p, codeShape.FindString(p.said), 0)
	site, err := first.Set(b.Context(), &freshetv1.Edit{Fields: &fieldmaskpb.FieldMask{Paths: []string{"name"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn"}}})
	if err != nil {
		b.Fatal(err)
	}
	if _, err := first.Sync(b.Context()); err != nil {
		b.Fatal(err)
	}
	devices := []*device.Device{first}
	for i := 1; i < *herd; i++ {
		made, err := device.Ask(b.Context(), first, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.CreateInvitation, &freshetv1.CreateInvitationRequest{})
		if err != nil {
			b.Fatal(err)
		}
		devices = append(devices, herdJoin(b, p, made.GetCode(), i))
	}
	const each = 20
	rounds, tries := 0, 0
	for b.Loop() {
		var together sync.WaitGroup
		var mu sync.Mutex
		for i, d := range devices {
			together.Go(func() {
				n := untilSent(b, d, site, i, rounds, each)
				mu.Lock()
				defer mu.Unlock()
				tries += n
			})
		}
		together.Wait()
		rounds++
	}
	b.StopTimer()
	if _, err := first.Sync(b.Context()); err != nil {
		b.Fatal(err)
	}
	entries, err := first.Entries(b.Context(), device.Want{Kinds: []string{"reading"}})
	if err != nil || len(entries) != rounds*each*len(devices) {
		b.Errorf("%d of %d entries are there, %v", len(entries), rounds*each*len(devices), err)
	}
	b.ReportMetric(float64(tries)/float64(rounds*len(devices)), "syncs/device")
	b.ReportMetric(float64(residentKB(b, p.command.Process.Pid))/1000, "MB-resident")
}

func herdJoin(b *testing.B, p *process, code string, i int) *device.Device {
	b.Helper()
	d, err := device.Open(filepath.Join(b.TempDir(), fmt.Sprint(i)))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = d.Close() })
	if err := d.Join(b.Context(), device.Invitation{Code: code, Address: p.grpc, Device: fmt.Sprint("phone ", i), Person: "Ines Vaart"}); err != nil {
		b.Fatal(err)
	}
	return d
}

// untilSent notes readings and syncs until none waits, and counts the syncs.
func untilSent(b *testing.B, d *device.Device, site string, i, round, each int) (tries int) {
	events := make([]*freshetv1.Event, each)
	for k := range events {
		at := time.Unix(1_700_000_000+int64(round)*10_000_000+int64(i)*1000+int64(k), 0)
		events[k] = &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.New(at), Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
			Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: int64(70 + k%9), Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE}}}
	}
	if _, err := d.Note(context.Background(), events...); err != nil {
		b.Error(err)
		return 0
	}
	for tries = 1; ; tries++ {
		p, err := d.Sync(b.Context())
		if p.Waiting == 0 || b.Context().Err() != nil {
			return tries
		}
		if p.Left > 0 {
			b.Errorf("device %d: %d left, %v", i, p.Left, err)
			return tries
		}
	}
}

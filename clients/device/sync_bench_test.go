package device_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/stats"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// What make bench-sync measures, on this machine's loopback with Postgres
// syncing each push to disk; the figures are in testdata/bench/sync.md.

// A meter counts the bytes of messages on the wire, as they go there; pushed
// are those of Push alone.
type meter struct{ out, pushed, in atomic.Int64 }

// called is a call's name, in its context.
type called struct{}

func (m *meter) HandleRPC(ctx context.Context, s stats.RPCStats) {
	switch s := s.(type) {
	case *stats.OutPayload:
		m.out.Add(int64(s.WireLength))
		if ctx.Value(called{}) == freshetv1.SyncService_Push_FullMethodName {
			m.pushed.Add(int64(s.WireLength))
		}
	case *stats.InPayload:
		m.in.Add(int64(s.WireLength))
	}
}
func (*meter) TagRPC(ctx context.Context, call *stats.RPCTagInfo) context.Context {
	return context.WithValue(ctx, called{}, call.FullMethodName)
}
func (*meter) TagConn(ctx context.Context, _ *stats.ConnTagInfo) context.Context { return ctx }
func (*meter) HandleConn(context.Context, stats.ConnStats)                       {}

// phone is one more device of the server's first steward; with a person, a new grower's.
func phone(b *testing.B, s *servertest.Server, m *meter, person string) *device.Device {
	b.Helper()
	d, err := device.Open(b.TempDir(), device.WithDialling(grpc.WithStatsHandler(m)))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = d.Close() })
	role := freshetv1.Role_ROLE_UNSPECIFIED
	if person != "" {
		role = freshetv1.Role_ROLE_GROWER
	}
	made, err := s.Steward().Accounts.CreateInvitation(b.Context(), &freshetv1.CreateInvitationRequest{Role: role})
	if err != nil {
		b.Fatal(err)
	}
	if err := d.Join(b.Context(), device.Invitation{Code: made.GetCode(), Address: s.GRPCAddress().String(), Device: "phone", Person: person}); err != nil {
		b.Fatal(err)
	}
	return d
}

func newSite(b *testing.B, d *device.Device) string {
	b.Helper()
	id, err := d.Set(b.Context(), siteEdit("Barn"))
	if err != nil {
		b.Fatal(err)
	}
	synced(b, d)
	return id
}

func synced(b *testing.B, d *device.Device) {
	b.Helper()
	if p, err := d.Sync(b.Context()); err != nil || p.Waiting > 0 || p.Left > 0 {
		b.Fatalf("%+v, %v", p, err)
	}
}

func enterAll(b *testing.B, d *device.Device, events []*freshetv1.Event) {
	b.Helper()
	if _, err := d.Note(b.Context(), events...); err != nil {
		b.Fatal(err)
	}
}

func benchReading(site string, at time.Time, q freshetv1.Quantity, u freshetv1.Unit, digits int64, m freshetv1.Method) *freshetv1.Event {
	return &freshetv1.Event{SiteId: site, OccurredAt: timestamppb.New(at), Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: q, Digits: digits, Decimals: 2, Unit: u, Method: m}}}
}

var probed = []struct {
	quantity freshetv1.Quantity
	unit     freshetv1.Unit
	around   int64
}{
	{freshetv1.Quantity_QUANTITY_WATER_TEMPERATURE, freshetv1.Unit_UNIT_CELSIUS, 2300}, {freshetv1.Quantity_QUANTITY_PH, freshetv1.Unit_UNIT_NONE, 710},
	{freshetv1.Quantity_QUANTITY_DISSOLVED_OXYGEN, freshetv1.Unit_UNIT_MG_PER_L, 650}, {freshetv1.Quantity_QUANTITY_AIR_TEMPERATURE, freshetv1.Unit_UNIT_CELSIUS, 2100},
}

// hours are what four probes say in so many hours: each walks about its mean.
func hours(r *rand.Rand, site string, from time.Time, n int) []*freshetv1.Event {
	var events []*freshetv1.Event
	walk := make([]int64, len(probed))
	for h := range n {
		for i, p := range probed {
			walk[i] += r.Int64N(41) - 20 - walk[i]/8
			events = append(events, benchReading(site, from.Add(time.Duration(h)*time.Hour), p.quantity, p.unit, p.around+walk[i], freshetv1.Method_METHOD_PROBE))
		}
	}
	return events
}

// byHand is a grower's day: 18 readings by kit and meter, at odd minutes.
func byHand(r *rand.Rand, site string, day time.Time) []*freshetv1.Event {
	var events []*freshetv1.Event
	for range 18 {
		p := probed[r.IntN(len(probed))]
		at := day.Add(time.Duration(r.IntN(14*60)) * time.Minute)
		events = append(events, benchReading(site, at, p.quantity, p.unit, p.around/10*10+10*r.Int64N(9), freshetv1.Method_METHOD_METER))
	}
	return events
}

var benchBegan = time.Date(2023, 3, 1, 6, 0, 0, 0, time.UTC)

// BenchmarkPushOfEightPhones is whole syncs: Hello, pushes, and the pull of the
// phone's own echo into its database.
func BenchmarkPushOfEightPhones(b *testing.B) {
	const phones, each = 8, 25_000
	s := servertest.New(b)
	r := rand.New(rand.NewPCG(1, 1))
	var all []*device.Device
	var sites []string
	for i := range phones {
		d := phone(b, s, &meter{}, fmt.Sprint("Grower ", i))
		all, sites = append(all, d), append(sites, newSite(b, d))
	}
	pushed := 0
	for b.Loop() {
		b.StopTimer()
		for i, d := range all {
			enterAll(b, d, hours(r, sites[i], benchBegan.Add(time.Duration(pushed)*time.Minute), each/len(probed)))
		}
		b.StartTimer()
		var group sync.WaitGroup
		for _, d := range all {
			group.Go(func() { synced(b, d) })
		}
		group.Wait()
		pushed++
	}
	b.ReportMetric(float64(pushed*phones*each)/b.Elapsed().Seconds(), "readings/s")
}

// BenchmarkBytesOfAReading is the wire both ways, a push a day.
func BenchmarkBytesOfAReading(b *testing.B) {
	for name, day := range map[string]func(*rand.Rand, string, time.Time) []*freshetv1.Event{
		"hourly": func(r *rand.Rand, site string, from time.Time) []*freshetv1.Event { return hours(r, site, from, 24) }, "by hand": byHand,
	} {
		b.Run(name, func(b *testing.B) {
			s, sending, receiving := servertest.New(b), &meter{}, &meter{}
			d, reader := phone(b, s, sending, ""), phone(b, s, receiving, "")
			site, r, n := newSite(b, d), rand.New(rand.NewPCG(2, 2)), 0
			sent, pushed := sending.out.Load(), sending.pushed.Load()
			for b.Loop() {
				events := day(r, site, benchBegan.AddDate(0, 0, n))
				enterAll(b, d, events)
				synced(b, d)
				n++
			}
			count := float64(n * len(day(r, site, benchBegan)))
			b.StopTimer()
			synced(b, reader)
			b.ReportMetric(float64(sending.pushed.Load()-pushed)/count, "B/pushed")
			b.ReportMetric(float64(sending.out.Load()-sent)/count, "B/sent") // with Hello and the question of Pull
			b.ReportMetric(float64(receiving.in.Load())/count, "B/pulled")
		})
	}
}

// filled fills a site with hours of four probes, a push a day, and notes by
// hand where it has any.
func filled(b *testing.B, s *servertest.Server, days int, notes bool) (site string, count int) {
	b.Helper()
	d, r := phone(b, s, &meter{}, ""), rand.New(rand.NewPCG(3, 3))
	site = newSite(b, d)
	for day := range days {
		at := benchBegan.AddDate(0, 0, day)
		events := hours(r, site, at, 24)
		if notes {
			events = append(events, byHand(r, site, at)...)
		}
		enterAll(b, d, events)
		count += len(events)
		if day%30 == 29 || day == days-1 {
			synced(b, d)
		}
	}
	return site, count
}

func BenchmarkPullAtTheWire(b *testing.B) {
	s := servertest.New(b)
	_, count := filled(b, s, 1000, false)
	client := s.Steward().Sync
	for b.Loop() {
		stream, err := client.Pull(b.Context(), &freshetv1.PullRequest{})
		for err == nil {
			_, err = stream.Recv()
		}
		if !errors.Is(err, io.EOF) {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N*count)/b.Elapsed().Seconds(), "readings/s")
}

// BenchmarkFirstSync is a new phone at a site of three years: 105,120 hours of
// probes and 19,710 entries by hand.
func BenchmarkFirstSync(b *testing.B) {
	s := servertest.New(b)
	_, count := filled(b, s, 3*365, true)
	var room, fetched int64
	var settings time.Duration
	for b.Loop() {
		b.StopTimer()
		m := &meter{}
		d := phone(b, s, m, "")
		b.StartTimer()
		settings += untilSettings(b, d, func() { synced(b, d) })
		b.StopTimer()
		if entries, err := d.Entries(b.Context(), device.Want{Kinds: []string{"reading"}}); err != nil || len(entries) != count {
			b.Fatalf("%d of %d readings, %v", len(entries), count, err)
		}
		if err := d.Close(); err != nil { // which writes the log into the database
			b.Fatal(err)
		}
		info, err := os.Stat(filepath.Join(d.Dir(), "device.db"))
		if err != nil {
			b.Fatal(err)
		}
		room, fetched = info.Size(), m.in.Load()
		b.StartTimer()
	}
	b.ReportMetric(float64(b.N*count)/b.Elapsed().Seconds(), "readings/s")
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/site")
	b.ReportMetric(settings.Seconds()/float64(b.N), "s/settings")
	b.ReportMetric(float64(room)/float64(count), "B-on-disk/reading")
	b.ReportMetric(float64(fetched)/1e6, "MB/fetched")
}

// untilSettings is how long it takes until the site's record is read on the
// device, while sync goes on beside.
func untilSettings(b *testing.B, d *device.Device, sync func()) (took time.Duration) {
	began, done := time.Now(), make(chan struct{})
	go func() {
		defer close(done)
		for ; took == 0; time.Sleep(time.Millisecond) {
			sites, err := d.Records(b.Context(), "site")
			switch {
			case err != nil:
				b.Error(err)
				return
			case len(sites) > 0:
				took = time.Since(began)
			}
		}
	}()
	sync()
	<-done
	return took
}

// BenchmarkEntryToSight is from noting on one phone to reading on another,
// both of which follow.
func BenchmarkEntryToSight(b *testing.B) {
	s := servertest.New(b)
	first, second := phone(b, s, &meter{}, ""), phone(b, s, &meter{}, "")
	site := newSite(b, first)
	synced(b, second)
	ctx, stop := context.WithCancel(b.Context())
	var both sync.WaitGroup
	for _, d := range []*device.Device{first, second} {
		both.Go(func() { d.Follow(ctx, func(device.Progress, error) {}) })
	}
	defer both.Wait()
	defer stop()
	var took []time.Duration
	for n := 0; b.Loop(); n++ {
		began := time.Now()
		enterAll(b, first, []*freshetv1.Event{benchReading(site, benchBegan.Add(time.Duration(n)*time.Minute), probed[0].quantity, probed[0].unit, 2300, 0)})
		for seen := -1; seen != n+1; {
			entries, err := second.Entries(b.Context(), device.Want{Kinds: []string{"reading"}})
			if err != nil {
				b.Fatal(err)
			}
			seen = len(entries)
			time.Sleep(time.Millisecond)
		}
		took = append(took, time.Since(began))
		time.Sleep(50 * time.Millisecond) // both wait for news again
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "ms-median")
	b.ReportMetric(float64(took[len(took)*9/10].Microseconds())/1000, "ms-9-of-10")
}

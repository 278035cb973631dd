package device_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/server/servertest"
)

// What make bench-peers measures: the same readings through this device and
// server, and through a replicating document store (testdata/bench/peers).
var (
	peersCount = flag.Int("peers.count", 2_000, "readings that BenchmarkPeers sends")
	peersFile  = flag.String("peers.file", "", "where BenchmarkPeers writes its readings, as documents, one a line")
)

// BenchmarkPeers is one phone that sends what it noted, and a new phone that
// fetches all of it.
func BenchmarkPeers(b *testing.B) {
	s, sending, receiving := servertest.New(b), &meter{}, &meter{}
	d := phone(b, s, sending, "")
	site := newSite(b, d)
	events := hours(rand.New(rand.NewPCG(4, 4)), site, benchBegan, *peersCount/len(probed))
	enterAll(b, d, events)
	writeDocuments(b, *peersFile, events)
	count := float64(len(events))
	took := func(way string, d *device.Device, m *meter) {
		before, began := m.out.Load()+m.in.Load(), time.Now()
		synced(b, d)
		b.ReportMetric(count/time.Since(began).Seconds(), "readings/s-"+way)
		b.ReportMetric(float64(m.out.Load()+m.in.Load()-before)/count, "B/reading-"+way)
	}
	took("push", d, sending)
	second := phone(b, s, receiving, "")
	took("pull", second, receiving)
	if err := second.Close(); err != nil { // which writes the log into the database
		b.Fatal(err)
	}
	info, err := os.Stat(filepath.Join(second.Dir(), "device.db"))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(float64(info.Size())/count, "B/reading-device")
}

// writeDocuments writes readings as a document store would be given them.
func writeDocuments(b *testing.B, name string, events []*freshetv1.Event) {
	b.Helper()
	if name == "" {
		return
	}
	f, err := os.Create(name) // #nosec G304 -- who measures names it
	if err != nil {
		b.Fatal(err)
	}
	out := bufio.NewWriter(f)
	encoder := json.NewEncoder(out)
	for i, e := range events {
		r := e.GetReading()
		err = errors.Join(err, encoder.Encode(map[string]any{
			"_id": fmt.Sprintf("%s-%08d", e.GetSiteId(), i), "kind": "reading", "at": e.GetOccurredAt().AsTime(), "quantity": r.GetQuantity().String(),
			"digits": r.GetDigits(), "decimals": r.GetDecimals(), "unit": r.GetUnit().String(), "method": r.GetMethod().String(),
		}))
	}
	if err := errors.Join(err, out.Flush(), f.Close()); err != nil {
		b.Fatal(err)
	}
}

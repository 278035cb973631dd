package server_test

import (
	"context"
	"flag"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

const (
	writers     = 8
	rowsPerPush = 500
)

// probesBegan is when the first reading was made, milliseconds since 1970 UTC: 2016-01-01.
const probesBegan = 1_451_606_400_000

var writtenInAll = flag.Int("writers.rows", 100_000, "how many rows eight writers write; make bench-sync says 1000000")

// columns is a push of pH readings, ten minutes apart, each push going on where
// the last one of the install ended, as a probe's do.
func (h *hand) columns(rows int) *freshetv1.PushRequest {
	batch := make([]wire.ReadingRow, rows)
	now := time.Now().UnixMilli()
	for i := range batch {
		at := probesBegan + int64(h.next)*600_000
		batch[i] = wire.ReadingRow{Number: h.next, Site: h.site, Place: h.tank, OccurredMs: at, EnteredMs: at,
			Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: 680 + int64(i%40), Decimals: 2, Unit: freshetv1.Unit_UNIT_NONE, Method: freshetv1.Method_METHOD_PROBE}
		h.next++
	}
	noted := &freshetv1.Noted{WallMs: now}
	return &freshetv1.PushRequest{Install: h.install[:], Readings: []*freshetv1.ReadingColumns{wire.EncodeReadings(batch, noted)}, Noted: noted}
}

func (h *hand) pushColumns(rows int) error {
	out, err := h.p.Sync.Push(context.Background(), h.columns(rows))
	if err == nil && int(out.GetStoredCount()) != rows {
		err = fmt.Errorf("stored %d of %d: %v", out.GetStoredCount(), rows, out.GetOutcomes())
	}
	return err
}

// follow reads on from cursor to cursor until all was written and read, and
// counts each row it sees.
func (h *hand) follow(t *testing.T, done *atomic.Bool) map[string]int {
	seen, scope := map[string]int{}, "site:"+h.site
	var cursors []*freshetv1.Cursor
	for last := false; ; {
		got := pull(t, h.p, &freshetv1.PullRequest{Cursors: cursors, Scopes: []string{scope}})
		if !got.ordered {
			t.Error("numbers of pages have gaps")
		}
		for _, block := range got.blocks[scope] {
			install, err := wire.ParseInstall(block.GetInstall())
			if err != nil {
				t.Error(err)
			}
			for _, c := range block.GetReadings() {
				for i := range uint64(c.GetCount()) {
					seen[wire.ID(install, c.GetFirstNumber()+i).String()]++
				}
			}
		}
		if cursors = []*freshetv1.Cursor{got.heads[scope]}; last {
			return seen
		}
		last = done.Load()
	}
}

func TestAReaderMissesNoRowOfEightWriters(t *testing.T) {
	s := servertest.Start(t, server.Options{Crowd: server.Boundless}) // the reader asks without a pause, as no device does
	h := settled(t, s)
	var done atomic.Bool
	var seen map[string]int
	var reader, group sync.WaitGroup
	reader.Go(func() { seen = h.follow(t, &done) })
	for range writers {
		w := h.another(s)
		group.Go(func() {
			for range *writtenInAll / writers / rowsPerPush {
				if err := w.pushColumns(rowsPerPush); err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	group.Wait()
	done.Store(true)
	reader.Wait()
	if stored := peek[int](t, s, "SELECT count(*) FROM readings"); stored != *writtenInAll || len(seen) != *writtenInAll {
		t.Errorf("%d rows stored and %d seen, want %d", stored, len(seen), *writtenInAll)
	}
	for id, times := range seen {
		if times != 1 {
			t.Fatalf("row %s was seen %d times", id, times)
		}
	}
	if summed := peek[int](t, s, "SELECT sum(n) FROM daily"); summed != *writtenInAll {
		t.Errorf("sums by day count %d rows, want %d", summed, *writtenInAll)
	}
}

// BenchmarkPush is readings as columns through gRPC into Postgres with fsync
// on, each writer at a site of its own.
func BenchmarkPush(b *testing.B) {
	for _, c := range []struct{ writers, rows int }{{1, 500}, {8, 500}, {1, 5000}, {8, 5000}} {
		b.Run(fmt.Sprintf("writers=%d/rows=%d", c.writers, c.rows), func(b *testing.B) {
			s := servertest.New(b)
			hands := make([]*hand, c.writers)
			for i := range hands {
				hands[i] = settled(b, s)
			}
			var left atomic.Int64
			left.Store(int64(b.N))
			var group sync.WaitGroup
			b.ResetTimer()
			for _, h := range hands {
				group.Go(func() {
					for left.Add(-1) >= 0 {
						if err := h.pushColumns(c.rows); err != nil {
							b.Error(err)
							return
						}
					}
				})
			}
			group.Wait()
			b.ReportMetric(float64(b.N*c.rows)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}

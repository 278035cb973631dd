package store_test

import (
	"context"
	"flag"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"freshet.example/store"
)

// backupReadings is how many readings the benchmark backs up; make bench-backup asks for a million.
var backupReadings = flag.Int("backup.readings", 20_000, "readings of the backup benchmark")

const readingsAPush = 5000

// hourly enters readings an hour apart, as many as one push may bring.
func (p *phone) hourly(from time.Time) {
	rows := make([]store.ReadingRow, readingsAPush)
	for i := range rows {
		at := from.Add(time.Duration(i) * time.Hour).UnixMilli()
		rows[i] = store.ReadingRow{ID: uuid.New(), SiteID: p.site, OccurredMs: at, EnteredMs: at, Quantity: 1, Digits: int64(200 + i%50), Decimals: 1, Unit: 1, ValueMicro: int64(20e6 + i%50*1e5)}
	}
	p.push(func(push *store.Push) { push.Readings = rows })
}

// BenchmarkBackup backs up while pushes go on, and then restores what it kept.
func BenchmarkBackup(b *testing.B) {
	p, url := cooperative(b)
	began := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	for n := 0; n < *backupReadings; n += readingsAPush {
		p.hourly(began)
	}
	ctx, stop := context.WithCancel(b.Context())
	var writer sync.WaitGroup
	pushes := 0
	writer.Go(func() {
		for ; ctx.Err() == nil; pushes++ {
			p.hourly(began)
		}
	})
	folders := b.TempDir()
	var taken store.Backup
	var last string
	var longest time.Duration
	for n := 0; b.Loop(); n++ {
		last = filepath.Join(folders, fmt.Sprint(n))
		var err error
		from := time.Now()
		if taken, err = store.TakeBackup(b.Context(), url, last); err != nil {
			b.Fatal(err)
		}
		longest = max(longest, time.Since(from))
	}
	b.StopTimer()
	stop()
	writer.Wait()
	began = time.Now()
	if _, _, err := store.RestoreBackup(b.Context(), last, emptied(b)); err != nil {
		b.Fatal(err)
	}
	b.ReportMetric(longest.Seconds(), "s-longest")
	b.ReportMetric(float64(taken.Tables["readings"].Rows), "readings")
	b.ReportMetric(float64(taken.DumpBytes)/1e6, "MB")
	b.ReportMetric(float64(pushes), "pushes-meanwhile")
	b.ReportMetric(time.Since(began).Seconds(), "s-to-restore-and-prove")
}

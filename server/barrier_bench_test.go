package server_test

import (
	"slices"
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// BenchmarkOneCall is what one device waits for, with fsync on: a push of 500
// readings, and a pull of one page of 500 and of 20 such pages. The median is
// told, since other work on the machine makes the mean worthless.
func BenchmarkOneCall(b *testing.B) {
	s := servertest.New(b)
	h := settled(b, s)
	b.Run("push", func(b *testing.B) {
		median(b, func() {
			if err := h.pushColumns(500); err != nil {
				b.Fatal(err)
			}
		})
	})
	scope := []string{"site:" + h.site}
	heads := pull(b, h.p, &freshetv1.PullRequest{Scopes: scope}).heads
	for range 20 {
		if err := h.pushColumns(500); err != nil {
			b.Fatal(err)
		}
	}
	b.Run("pull20", func(b *testing.B) {
		median(b, func() {
			pull(b, h.p, &freshetv1.PullRequest{Scopes: scope, Cursors: []*freshetv1.Cursor{heads[scope[0]]}})
		})
	})
	heads = pull(b, h.p, &freshetv1.PullRequest{Scopes: scope}).heads
	if err := h.pushColumns(500); err != nil {
		b.Fatal(err)
	}
	b.Run("pull1", func(b *testing.B) {
		median(b, func() {
			pull(b, h.p, &freshetv1.PullRequest{Scopes: scope, Cursors: []*freshetv1.Cursor{heads[scope[0]]}})
		})
	})
}

func median(b *testing.B, work func()) {
	b.Helper()
	var took []time.Duration
	for b.Loop() {
		began := time.Now()
		work()
		took = append(took, time.Since(began))
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "ms/median")
	b.ReportMetric(float64(took[len(took)/20].Microseconds())/1000, "ms/p5")
}

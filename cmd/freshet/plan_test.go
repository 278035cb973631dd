package main

import (
	"testing"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
)

func TestAStripShowsTheWorstOfItsWeeks(t *testing.T) {
	c := &freshetv1.PlannedCrop{BorneShares: []float64{0, 0, 0.5, 0.75, 1, 0}, Reachable: []bool{false, true, true, true, true, true}}
	for step, want := range map[int]string{1: " .-==.", 2: " -.", 3: " ."} {
		if got := strip(c, step); got != want {
			t.Errorf("%d weeks a mark: %q, not %q", step, got, want)
		}
	}
}

// A month is named where it begins, unless its name would run into the last one's.
func TestMonthsAreParted(t *testing.T) {
	start := time.Date(2026, 11, 30, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		weeks, step int
		want        string
	}{{14, 1, "Nov  Jan Feb M"}, {20, 2, "Nov  Feb A"}} {
		if got := months(start, c.weeks, c.step); got != c.want {
			t.Errorf("%d weeks by %d: %q", c.weeks, c.step, got)
		}
	}
}

package outlook

import (
	"math"
	"testing"
)

// TestRanges holds each range to what the functions' comments say of it.
func TestRanges(t *testing.T) {
	for _, c := range []struct {
		b         *bound
		low, high float64
	}{
		{&feedBound, 0, 1000},
		{&rateBound, 0, 100},
		{&poolBound, 0, 100_000},
		{&speedBound, 1e-6, 1000},
		{&halfBound, 1e-6, 10_000},
		{&hoursBound, 0, 100_000},
		{&volumeBound, 0.0001, 100_000},
		{&densityBound, 900, 1100},
		{&heatBound, 3500, 4500},
		{&lossBound, 0.001, 1e7},
		{&heaterBound, 0, 1e7},
		{&airBound, -60, 60},
		{&swingBound, 0, 40},
		{&phaseBound, 0, 24},
		{&waterBound, -60, 100},
		{&areaBound, 0.0001, 100_000},
		{&voidBound, 0, 1},
		{&levelBound, 0, 100},
		{&pumpBound, 0.0001, 10_000},
		{&dischargeBound, 0.1, 1},
		{&outletBound, 1e-6, 3},
		{&gravityBound, 9.80665, 9.80665},
		{&loopBound, 1, 1e9},
		{&mediaBound, 0, 1e9},
		{&plantedBound, 0, 1e7},
		{&airsBound, 0.5, 1.1},
		{&alkBound, 0, 2000},
		{&warmerBound, -40, 40},
		{&sunBound, 0, 1},
		{&swallowed, 0, 1e7},
		{&fishBound, 0, 1e6},
		{&baseBound, 0, 2000},
		{&changedBound, 0, 1e9},
		{&ageBound, -1e9, 1e9},
		{&sizeBound, 1e-9, 1e9},
	} {
		for _, inside := range []float64{c.low, c.high} {
			if err := c.b.check(inside); err != nil {
				t.Errorf("%g is refused: %v", inside, err)
			}
		}
		for _, outside := range []float64{math.Nextafter(c.low, math.Inf(-1)), math.Nextafter(c.high, math.Inf(1)), math.NaN()} {
			if c.b.check(outside) == nil {
				t.Errorf("%s of %g is taken", c.b.name, outside)
			}
		}
	}
}

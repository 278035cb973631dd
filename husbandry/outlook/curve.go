package outlook

import (
	"math"
	"slices"
	"strconv"

	"freshet.example/husbandry/quantity"
)

// A Curve is how one animal, tree or cohort grew: sizes above 0 at ages that
// rise. Age may be days, or heat, or anything else that growth follows.
type Curve struct {
	At   []float64
	Size []float64
}

// A CurveError says which point of a curve cannot be used.
type CurveError struct {
	Point int // counted from 0; -1 for the whole
	Why   string
}

// Error names the point and why.
func (e *CurveError) Error() string {
	if e.Point < 0 {
		return "growth curve: " + e.Why
	}
	return "growth curve, point " + strconv.Itoa(e.Point+1) + ": " + e.Why
}

var (
	ageBound  = bound{"age", -1e9, 1e9, ""}
	sizeBound = bound{"size", 1e-9, 1e9, ""}
)

// check refuses what is no growth curve.
func (c Curve) check() error {
	if len(c.At) != len(c.Size) {
		return &CurveError{-1, "as many sizes as ages are needed"}
	}
	for i, at := range c.At {
		if err := firstError(ageBound.check(at), sizeBound.check(c.Size[i])); err != nil {
			return err
		}
		if i > 0 && at <= c.At[i-1] {
			return &CurveError{i, "ages must rise"}
		}
	}
	return nil
}

// logs are the logarithms of the sizes.
func (c Curve) logs() []float64 {
	logs := make([]float64, len(c.Size))
	for i, s := range c.Size {
		logs[i] = math.Log(s)
	}
	return logs
}

// ages lists all ages of the curves and others, each once, in order.
func ages(curves []Curve, others ...float64) []float64 {
	all := slices.Clone(others)
	for _, c := range curves {
		all = append(all, c.At...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// meanGrowth gives, for each age of a grid, how much of the curves' mean growth
// in the logarithm lies before it, as a share of all: the curves' own clock.
// Where nothing grew, or nothing is known, it is the share of the time.
func meanGrowth(grid []float64, curves []Curve) []float64 {
	const least = 0.02 // of the mean speed: the clock never stands still
	speed := meanSpeed(grid, curves)
	total, known := 0.0, 0.0
	for i, s := range speed {
		if !math.IsNaN(s) {
			total, known = total+math.Max(0, s)*(grid[i+1]-grid[i]), known+grid[i+1]-grid[i]
		}
	}
	usual := total / known
	if !(usual > 0) {
		usual = 1
	}
	clock := make([]float64, len(grid))
	for i, s := range speed {
		if math.IsNaN(s) {
			s = usual
		}
		clock[i+1] = clock[i] + math.Max(s, least*usual)*(grid[i+1]-grid[i])
	}
	for i := range clock {
		clock[i] /= clock[len(clock)-1]
	}
	return clock
}

// meanSpeed is the curves' mean growth in the logarithm between neighbours of
// the grid, NaN where no curve was followed.
func meanSpeed(grid []float64, curves []Curve) []float64 {
	speed := make([]float64, len(grid)-1)
	count := make([]float64, len(grid)-1)
	for _, c := range curves {
		for j := 1; j < len(c.At); j++ {
			rate := math.Log(c.Size[j]/c.Size[j-1]) / (c.At[j] - c.At[j-1])
			from, _ := slices.BinarySearch(grid, c.At[j-1])
			for i := from; i < len(speed) && grid[i] < c.At[j]; i++ {
				speed[i], count[i] = speed[i]+rate, count[i]+1
			}
		}
	}
	for i := range speed {
		speed[i] /= count[i]
	}
	return speed
}

// checkLevel refuses shares of intervals beyond what few forecasts can show.
func checkLevel(level quantity.Fraction) error {
	return quantity.Within("share of intervals that hold", float64(level), 0.01, 0.999, "", quantity.OwnBounds)
}

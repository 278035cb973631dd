package outlook

import (
	"math"
	"slices"
)

// record is how forecasts from days of the past did.
type record struct {
	asked, held int     // readings, and those within their interval of 8 in 10
	squares     float64 // of how far readings were off, in spreads, by days forecast from
	origins     float64
}

// heldLevel is the level at which past forecasts are counted.
const heldLevel = 0.8

// stretch is by how much intervals must be widened or drawn in so that they
// would have held here; drawn towards 1 where few were tried.
func (r record) stretch() float64 {
	const (
		worth = 4.0 // days forecast from that leaving things as they are is worth: common practice, no source
		least = 0.7
		most  = 1.7
	)
	return math.Max(least, math.Min(most, math.Sqrt((r.squares+worth)/(r.origins+worth))))
}

// Held says of how many readings forecast in the past, one to seven days ahead
// at 8 in 10, how many came within their interval.
func (o *Outlook) Held(f Figure) (held, asked int) {
	if f < 0 || f >= readable {
		return 0, 0
	}
	near, far := o.held[0][f], o.held[1][f]
	return near.held + far.held, near.asked + far.asked
}

// scale is how a figure spreads: evenly, or in proportion to itself down to the
// least that a test can tell from nothing.
type scale struct {
	proportion bool
	least      float64
}

// leastTold is what tests with drops and strips tell from nothing; common
// practice, no source.
var leastTold = [Figures]float64{Ammonia: 0.05, Nitrite: 0.03, Nitrate: 1, Alkalinity: 5, Unionized: 0.001}

func scaleOf(f Figure) scale {
	least := leastTold[f]
	return scale{least > 0, least}
}

func (s scale) on(v float64) float64 {
	if s.proportion {
		return math.Log(math.Max(v, s.least))
	}
	return v
}

// shown is a value with what no test can tell from nothing given as 0.
func (s scale) shown(v float64) float64 {
	if s.proportion && v <= s.least*1.000001 {
		return 0
	}
	return v
}

func (s scale) back(v float64) float64 {
	if s.proportion {
		return math.Exp(v)
	}
	return v
}

// lookBack forecasts a week from a day of the past as it would have been then,
// and counts the readings that came, up to where a filter was cleaned or the pump
// stood: a forecast takes things to go on, and says so.
func (o *Outlook) lookBack(origin int, all []Reading) {
	const week, guesses = 7 * 24, 120
	past := o.past[:origin]
	over := lookUp(past)
	hours := min(week, len(o.past)-origin)
	if broken := slices.IndexFunc(o.past[origin:origin+hours], func(h Hour) bool { return h.Cleaned || h.Still }); broken >= 0 {
		hours = broken
	}
	due := map[int][]Reading{}
	for _, r := range thinned(all, int(noonToNoon)) {
		if r.Hour >= origin && r.Hour < origin+hours && !r.Below {
			due[r.Hour-origin] = append(due[r.Hour-origin], r)
		}
	}
	var sums [2][readable]tally
	lead(o.cloud.branch(guesses), &over, usualPlan(past, hours, keeping(past, all)), func(hour int, c *cloud) {
		for _, r := range due[hour] {
			sums[reach(hour/int(noonToNoon))][r.Figure].count(c, r)
		}
	})
	for far := range sums {
		for f, t := range sums[far] {
			o.held[far][f].add(t)
		}
	}
}

func (r *record) add(t tally) {
	if t.n > 0 {
		r.asked, r.held = r.asked+int(t.n), r.held+t.held
		r.squares += t.squares / t.n
		r.origins++
	}
}

// reach tells days that are near from those farther off: how forecasts did is
// counted apart for them.
func reach(day int) int {
	const near = 2
	if day < near {
		return 0
	}
	return 1
}

// tally is how readings came to one forecast.
type tally struct {
	n, squares float64
	held       int
}

// count sets a reading beside what the guesses say a test would have shown.
func (t *tally) count(c *cloud, r Reading) {
	values := make([]float64, len(c.members))
	for i := range c.members {
		v := c.members[i].of(r.Figure, c.simulated)
		values[i] = math.Max(0, v+errorOf(r.Figure, v)*c.r.NormFloat64())
	}
	const out = (1 - heldLevel) / 2
	low, middle, high := quantile(values, out), quantile(values, 0.5), quantile(values, 1-out)
	if low <= r.Value && r.Value <= high {
		t.held++
	}
	const reach = 1.2816 // 8 in 10 of a normal spread
	s := scaleOf(r.Figure)
	arm := s.on(high) - s.on(middle)
	if r.Value < middle {
		arm = s.on(middle) - s.on(low)
	}
	off := math.Min(6, math.Abs(s.on(r.Value)-s.on(middle))/math.Max(arm/reach, 1e-9))
	t.n, t.squares = t.n+1, t.squares+off*off
}

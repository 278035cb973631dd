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

// worth is how many days forecast from leaving things as they are is worth;
// common practice, no source.
const worth = 4.0

// stretch is by how much intervals must be widened or drawn in so that they
// would have held here; drawn towards 1 where few were tried.
func (r record) stretch() float64 {
	const least, most = 0.4, 1.7
	return math.Max(least, math.Min(most, math.Sqrt((r.squares+worth)/(r.origins+worth))))
}

// drawn is the stretch here and in loops at large. Where nothing was tried, and
// so nothing read, the guesses stand as they are.
func (r record) drawn(far int, f Figure) float64 {
	return math.Pow(strays[far][f], r.origins/(r.origins+worth)) * r.stretch()
}

// strays is how far the water of a loop that is often read strays from its
// forecast, for how far the guesses do: they are made wide, since loops differ
// more than one loop does. Found on 300 of the demo's site-seasons that the
// table of coverage does not use.
var strays = [reaches][Figures]float64{
	{Warmth: 0.61, Ammonia: 0.79, Nitrite: 0.89, Nitrate: 0.79, Alkalinity: 0.81, Acidity: 0.57, Oxygen: 0.81, Unionized: 1.05},
	{Warmth: 0.63, Ammonia: 0.61, Nitrite: 0.69, Nitrate: 0.73, Alkalinity: 0.97, Acidity: 0.67, Oxygen: 0.67, Unionized: 0.87},
	{Warmth: 0.71, Ammonia: 0.41, Nitrite: 0.59, Nitrate: 0.55, Alkalinity: 0.49, Acidity: 0.31, Oxygen: 0.81, Unionized: 0.77},
}

// peaked is how much further than that an end lies which is so many spreads of a
// normal distribution from the middle: quiet weeks keep close to what was
// forecast, and what went otherwise goes far. The power was found with strays.
func peaked(spreads float64) float64 { return math.Pow(spreads, 0.4) }

// Held says of how many readings forecast in the past, one to fourteen days ahead
// at 8 in 10, how many came within their interval.
func (o *Outlook) Held(f Figure) (held, asked int) {
	if f < 0 || f >= readable {
		return 0, 0
	}
	for _, r := range o.held {
		held, asked = held+r[f].held, asked+r[f].asked
	}
	return held, asked
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

// shown is a value with what no test can tell from nothing given as 0; no figure lies below.
func (s scale) shown(v float64) float64 {
	if s.proportion && v <= s.least*1.000001 {
		return 0
	}
	return math.Max(0, v)
}

func (s scale) back(v float64) float64 {
	if s.proportion {
		return math.Exp(v)
	}
	return v
}

// lookBack forecasts a fortnight from a day of the past as it would have been then,
// and counts the readings that came, up to where a filter was cleaned or the pump
// stood: a forecast takes things to go on, and says so.
func (o *Outlook) lookBack(origin int, all []Reading) {
	const fortnight, guesses = 14 * 24, 100
	past := o.past[:origin]
	over := lookUp(past)
	hours := min(fortnight, len(o.past)-origin)
	if broken := slices.IndexFunc(o.past[origin:origin+hours], func(h Hour) bool { return h.Cleaned || h.Still }); broken >= 0 {
		hours = broken
	}
	due := map[int][]Reading{}
	for _, r := range thinned(all, int(noonToNoon)) {
		if r.Hour >= origin && r.Hour < origin+hours && !r.Below {
			due[r.Hour-origin] = append(due[r.Hour-origin], r)
		}
	}
	var sums [reaches][readable]tally
	lead(o.cloud.branch(guesses), &over, usualPlan(past, hours, keeping(past, all)), func(hour int, c *cloud) {
		for _, r := range due[hour] {
			far := reach(hour / int(noonToNoon))
			sums[far][r.Figure].count(c, r, o.held[far][r.Figure].drawn(far, r.Figure))
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

// reaches is how many kinds of days ahead there are: those that are near, those
// of the week, and all beyond. How forecasts did is counted apart for them.
const reaches = 3

func reach(day int) int {
	const near, week = 2, 7
	switch {
	case day < near:
		return 0
	case day < week:
		return 1
	}
	return 2
}

// tally is how readings came to one forecast.
type tally struct {
	n, squares float64
	held       int
}

// count sets a reading beside what the guesses say a test would have shown: it is
// held when it strays no further than the interval that was drawn.
func (t *tally) count(c *cloud, r Reading, drawn float64) {
	values := make([]float64, len(c.members))
	for i := range c.members {
		v := c.members[i].of(r.Figure, c.simulated)
		values[i] = math.Max(0, v+errorOf(r.Figure, v)*c.r.NormFloat64())
	}
	const out = (1 - heldLevel) / 2
	low, middle, high := ends(values, out)
	const reach = 1.2816 // 8 in 10 of a normal spread
	s := scaleOf(r.Figure)
	arm := s.on(high) - s.on(middle)
	if r.Value < middle {
		arm = s.on(middle) - s.on(low)
	}
	off := math.Min(6, math.Abs(s.on(r.Value)-s.on(middle))/math.Max(arm/reach, 1e-9))
	if off <= reach*drawn*peaked(reach) {
		t.held++
	}
	t.n, t.squares = t.n+1, t.squares+off*off
}

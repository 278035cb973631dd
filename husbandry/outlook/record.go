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

// heldLevel is the level at which past forecasts are counted, and where it stands
// among the levels of strays.
const (
	heldLevel  = 0.8
	eightInTen = 2
)

// worth is how many days forecast from leaving things as they are is worth;
// common practice, no source.
const worth = 4.0

// stretch is by how much intervals must be widened or drawn in so that they
// would have held here; drawn towards 1 where few were tried.
func (r record) stretch() float64 {
	const least, most = 0.4, 1.7
	return math.Max(least, math.Min(most, math.Sqrt((r.squares+worth)/(r.origins+worth))))
}

// heed is how far loops at large are heeded, 0 to 1: where nothing was tried, and so
// nothing read, the guesses stand as they are.
func (r record) heed() float64 { return r.origins / (r.origins + worth) }

// knownNow are the records of what was read of late. How forecasts from readings did
// says nothing of those without.
func (r records) knownNow(h history) records {
	for far := range r {
		for f := range r[far] {
			if !h.knows(Figure(f)) {
				r[far][f] = record{}
			}
		}
	}
	return r
}

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
	lived := o.lived.upTo(origin, o.past)
	var sums [reaches][readable]tally
	lead(o.cloud.branch(guesses), &over, usualPlan(past, hours, customOf(past, all, o.doses)), func(hour int, c *cloud) {
		for _, r := range due[hour] {
			day := hour / int(noonToNoon)
			sums[reach(day)][r.Figure].count(c, r, &o.word, day, lived.hour(r.Figure, hour))
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

// Kinds of days ahead: those that are near, those of the week, and all beyond.
// How forecasts did is counted apart for them.
const (
	soon = iota
	thisWeek
	later
	reaches // how many there are
)

func reach(day int) int {
	const near, week = 2, 7
	switch {
	case day < near:
		return soon
	case day < week:
		return thisWeek
	}
	return later
}

// tally is how readings came to one forecast.
type tally struct {
	n, squares float64
	held       int
}

// count sets a reading beside what the guesses say a test would have shown: it is
// held when it lies within the fan that is drawn of them.
func (t *tally) count(c *cloud, r Reading, w *word, day int, late lately) {
	values := make([]float64, len(c.members))
	for i := range c.members {
		v := c.members[i].of(r.Figure, c.simulated)
		values[i] = math.Max(0, v+errorOf(r.Figure, v)*c.r.NormFloat64())
	}
	d := w.draw(r.Figure, day, values, late)
	off, arm := d.on(r.Value)-d.middle, d.above[eightInTen]
	if off < 0 {
		off, arm = -off, d.below[eightInTen]
	}
	const spreads = 1.2816 // 8 in 10 of a normal spread
	off = math.Min(6, off/arm*spreads)
	if fan := d.fan((1 - heldLevel) / 2); fan.Low <= r.Value && r.Value <= fan.High {
		t.held++
	}
	t.n, t.squares = t.n+1, t.squares+off*off
}

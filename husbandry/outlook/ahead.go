package outlook

import (
	"math"
	"slices"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Fan is where a figure will lie: the middle, and an interval about it.
type Fan struct{ Low, Middle, High float64 }

// Ahead is a loop's days to come under a plan.
type Ahead struct {
	days [][Figures]course
	now  [Figures][]float64 // by each guess, before the plan begins
	late [Figures][Highest + 1]lately
	asIs [][Figures]course // the days if all went on as it does; nil where that is the plan
	word
}

// course is a figure over one day by each guess: its mean, lowest and highest.
type course struct{ mean, low, high []float64 }

// Ahead forecasts whole days under a plan, from 1 to 60, after the rest of the
// day that has begun, 0 to 23 hours, which is planned first. Hours whose Air is
// NaN take the air as it was of late, with its weather.
func (o *Outlook) Ahead(plan []Hour, rest int) (*Ahead, error) {
	err := firstError(quantity.Within("rest of the day", float64(rest), 0, noonToNoon-1, "h", quantity.OwnBounds),
		quantity.Within("days ahead", float64(len(plan)-rest)/noonToNoon, 1, 60, "d", quantity.OwnBounds))
	if err != nil {
		return nil, err
	}
	for _, h := range plan {
		if err := h.check(); err != nil {
			return nil, err
		}
	}
	a := &Ahead{word: word{o.held.knownNow(o.lived), o.loops}, days: o.under(plan, rest)}
	for f := range Figures {
		for i := range followed {
			a.now[f] = append(a.now[f], o.cloud.members[i].of(f, o.cloud.simulated))
		}
		for s := range a.late[f] {
			a.late[f][s] = o.lived.side(f, Side(s))
		}
	}
	if usual := o.Usual(len(plan)); !slices.EqualFunc(plan, usual, Hour.same) {
		a.asIs = o.under(usual, rest)
	}
	return a, nil
}

// under are the whole days of a plan.
func (o *Outlook) under(plan []Hour, rest int) (days [][Figures]course) {
	lead(o.cloud.branch(followed), &o.sky, plan, func(hour int, c *cloud) {
		if hour < rest {
			return
		}
		if hourOf(hour-rest) == 0 {
			days = append(days, newDay(len(c.members)))
		}
		c.count(&days[len(days)-1])
	})
	return days[:(len(plan)-rest)/int(noonToNoon)]
}

// same says whether two hours bring the same.
func (h Hour) same(other Hour) bool {
	if math.IsNaN(h.Air) && math.IsNaN(other.Air) {
		h.Air, other.Air = 0, 0
	}
	return h == other
}

// draw draws the guesses of a day. Under a plan they lean as far as they would if all
// went on as it does, so that what the plan does is told in full.
func (a *Ahead) draw(f Figure, s Side, day int) *drawing {
	late := a.late[f][s]
	if a.asIs != nil {
		scale := scaleOf(f)
		late.middle += scale.on(quantile(a.days[day][f].side(s), 0.5)) - scale.on(quantile(a.asIs[day][f].side(s), 0.5))
	}
	return a.word.draw(f, day, a.days[day][f].side(s), late)
}

// lead moves a cloud through a plan, each member under its own weather.
func lead(c *cloud, s *sky, plan []Hour, look func(hour int, c *cloud)) {
	const appetite = 0.05 // of the logarithm a day, spread of how feeding moves on; common practice, no source
	skies, hungry := make([]weather, len(c.members)), make([]float64, len(c.members))
	for i := range skies {
		skies[i], hungry[i] = s.ahead(c.r), appetite*c.r.NormFloat64()/noonToNoon
	}
	for hour, h := range plan {
		for i := range c.members {
			here := h
			if math.IsNaN(h.Air) {
				here.Air = skies[i].next(c.r, hour)
			}
			here.Feed *= math.Exp(hungry[i] * float64(hour))
			c.members[i].wander(c.r, here)
			c.hour(&c.members[i], here)
		}
		look(hour, c)
	}
}

func newDay(n int) (day [Figures]course) {
	for f := range day {
		day[f] = course{make([]float64, n), slices.Repeat([]float64{math.Inf(1)}, n), slices.Repeat([]float64{math.Inf(-1)}, n)}
	}
	return day
}

func (c *cloud) count(day *[Figures]course) {
	for i := range c.members {
		for f := range Figures {
			v := c.members[i].of(f, c.simulated)
			day[f].mean[i] += v / noonToNoon
			day[f].low[i], day[f].high[i] = min(day[f].low[i], v), max(day[f].high[i], v)
		}
	}
}

// A Side is which value of a day is asked for.
type Side int

// The mean of a day, its lowest and its highest hour.
const (
	Mean Side = iota
	Lowest
	Highest
)

func (c course) side(s Side) []float64 {
	return [...][]float64{c.mean, c.low, c.high}[s]
}

// Days is how many days were forecast.
func (a *Ahead) Days() int { return len(a.days) }

// Fan gives a figure on a day, counted from 0, with an interval of a level of
// 0.01 to 0.99, widened or drawn in by how such forecasts did here.
func (a *Ahead) Fan(f Figure, s Side, day int, level quantity.Fraction) (Fan, error) {
	if err := firstError(checkLevel(level), a.checkDay(f, day)); err != nil {
		return Fan{}, err
	}
	return a.draw(f, s, day).fan((1 - float64(level)) / 2), nil
}

func (a *Ahead) checkDay(f Figure, day int) error {
	return firstError(quantity.Within("day ahead", float64(day), 0, float64(len(a.days)-1), "", quantity.ByDefinition), quantity.Within("figure", float64(f), 0, float64(Figures-1), "", quantity.OwnBounds))
}

// leftOpen is the spread, in proportion where the figure spreads so, of what an
// hour's mean over a whole loop leaves open; common practice, no source.
var leftOpen = [Figures]float64{Warmth: 0.1, Ammonia: 0.05, Nitrite: 0.05, Nitrate: 0.02, Alkalinity: 0.02, Acidity: 0.02, Oxygen: 0.05, Unionized: 0.05}

// Past is the chance that a figure passes a limit within a day, above or below.
func (a *Ahead) Past(f Figure, day int, limit float64, above bool) (quantity.Fraction, error) {
	if err := firstError(a.checkDay(f, day), quantity.Within("limit", limit, 0, 1e6, "", quantity.OwnBounds)); err != nil {
		return 0, err
	}
	side := Lowest
	if above {
		side = Highest
	}
	d, n := a.draw(f, side, day), 0.0
	for i, v := range d.values {
		v = d.end(v, chance.NormalQuantile((float64(i)+0.5)/float64(len(d.values))))
		if v > limit == above && v != limit {
			n++
		}
	}
	return quantity.Fraction(n / float64(len(d.values))), nil
}

// quantile is by straight lines between the ordered values.
func quantile(values []float64, p float64) float64 { return between(sorted(values), p) }

func between(s []float64, p float64) float64 {
	x := p * float64(len(s)-1)
	i := min(int(x), len(s)-2)
	return s[i] + (x-float64(i))*(s[i+1]-s[i])
}

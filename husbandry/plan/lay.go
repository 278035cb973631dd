package plan

import (
	"cmp"
	"slices"
)

// A Plan is what to sow, with how good it is.
type Plan struct {
	Sowings []Chosen
	Served  float64     // weeks of bearing: each week of each crop counts as far as its use is borne
	Bound   float64     // no plan within the room and the feed can serve more
	Shares  [][]float64 // by want and week: part of the use that this plan bears
}

// Chosen is one sowing of a plan.
type Chosen struct {
	Want, Option int     // of the task
	Part         float64 // of the option's area, above 0
}

// toil is what one more sowing must serve to be worth its trouble, in weeks of
// bearing.
const toil = 0.05

// rounds is how often at most crops are asked for a better season; gatherings
// how often small sowings are charged for being small.
const (
	rounds     = 400
	gatherings = 4
)

// Lay plans the season: a plan and a bound on how good any plan could be. The
// best mixture of seasons gives the bound; gathered into fewer and larger
// sowings, and without what is still too small to sow, it gives the plan. The
// same task gives the same plan.
func Lay(t Task) (Plan, error) {
	if err := t.check(); err != nil {
		return Plan{}, err
	}
	m := mixed(t)
	m.gather()
	l := m.whole()
	p := Plan{Served: l.served(), Bound: max(m.bound, l.served()), Shares: l.share}
	for _, x := range l.sown {
		p.Sowings = append(p.Sowings, Chosen{x.want, x.option, x.part})
	}
	return p, nil
}

// whole sows the mixture, the largest sowings first, as far as they fit and are
// not too small, and fills what is left.
func (m *mixture) whole() *ledger {
	parts, l := m.parts(), newLedger(m.t)
	slices.SortStableFunc(parts, func(a, b sown) int { return cmp.Compare(m.size(b), m.size(a)) })
	for _, x := range parts {
		if x.part = min(x.part, l.fits(m.option(x))); x.part > 0 && m.size(x) >= m.t.Least {
			l.sow(x)
		}
	}
	m.fill(l)
	return l
}

func (m *mixture) option(x sown) Option { return m.t.Wants[x.want].Options[x.option] }

func (m *mixture) size(x sown) float64 { return x.part * m.option(x).Area }

// fill lays crops out where they still lack: what bears the whole use where that
// fits, then halves and quarters of it, then whatever else still fits.
func (m *mixture) fill(l *ledger) {
	for _, part := range []float64{1, 0.5, 0.25} {
		for want := range m.t.Wants {
			m.lay(l, want, part)
		}
	}
	for want := range m.t.Wants {
		for m.patch(l, want) {
		}
	}
}

// lay covers the weeks in which a want lacks so large a part of its use, as
// well as the room left allows.
func (m *mixture) lay(l *ledger, want int, part float64) {
	w := m.t.Wants[want]
	lacking := make([]bool, m.t.Weeks)
	for week, needed := range w.Needed {
		lacking[week] = needed && l.share[want][week] <= 1-part+dust
	}
	if !slices.Contains(lacking, true) {
		return
	}
	w.Needed = lacking
	c := newCover(m.t, w)
	for i, o := range w.Options {
		c.price[i] = m.price(o)
	}
	c.solve(m.t, w, m.bearing[want], func(i int) bool { return l.fits(w.Options[i]) >= part-dust })
	for _, i := range c.picked(m.t, w) {
		if fits := min(part, l.fits(w.Options[i])); fits > 0 {
			l.sow(sown{want, i, fits})
		}
	}
}

// price is what an option takes up: of two ways that serve alike the smaller
// and shorter one is taken, even where nobody else asks for the room.
func (m *mixture) price(o Option) float64 {
	const place = 1e-4 // of a square metre for a week
	return m.prices.of(m.t, o) + place*o.Area*float64(o.gone(m.t.Weeks)-o.Sow)
}

// patch adds the one sowing that serves most for its price; false where none
// serves anything worth it.
func (m *mixture) patch(l *ledger, want int) bool {
	best := -1
	var most, bestPart float64
	for i, o := range m.t.Wants[want].Options {
		if l.gain(want, o, 1) < toil { // soonest told
			continue
		}
		part := l.fits(o)
		gain := l.gain(want, o, part)
		if gain < toil {
			continue
		}
		if rate := gain / (part * m.price(o)); rate > most {
			best, most, bestPart = i, rate, part
		}
	}
	if best < 0 {
		return false
	}
	l.sow(sown{want, best, bestPart})
	return true
}

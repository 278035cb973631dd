package plan

import (
	"cmp"
	"slices"
)

// mixture is the best mixture of seasons. A season is one crop's whole time
// laid out in one way; it takes room and feed and serves weeks. Which season
// would better the mixture is asked crop by crop at the prices of the mixture
// so far, until none does (column generation: Dantzig & Wolfe 1960, Oper. Res.
// 8:101). What the mixture serves then is the most that any plan can serve,
// for a plan is a mixture of one season of each crop, and its prices say what
// each room and week is worth.
type mixture struct {
	t       Task
	covers  []*cover
	bearing [][][]int
	prices  prices
	lp      *simplex
	seasons []season
	toil    [][]float64 // by want and option: what a whole one costs in weeks of bearing
	bound   float64
}

type season struct {
	want    int
	options []int
}

// mixed brings in seasons until none betters the mixture.
func mixed(t Task) *mixture {
	m := &mixture{t: t, prices: newPrices(t), lp: newSimplex(t.limits())}
	for _, w := range t.Wants {
		m.covers, m.bearing = append(m.covers, newCover(t, w)), append(m.bearing, byWeek(t, w))
		m.bound += float64(newCover(t, w).needed[t.Weeks])
		m.toil = append(m.toil, make([]float64, len(w.Options)))
	}
	for range rounds {
		asked, bettered := m.round()
		m.bound = min(m.bound, asked)
		if !bettered {
			break
		}
	}
	return m
}

// gather makes the mixture one of fewer and larger sowings: each is charged by
// the part as if it cost its toil at the size that it has now, so small ones are
// given up for others (dynamic slope scaling: Kim & Pardalos 1999, Oper. Res.
// Lett. 24:195). The bound stays.
func (m *mixture) gather() {
	for i := range m.toil {
		for j := range m.toil[i] {
			m.toil[i][j] = toil
		}
	}
	for range gatherings {
		for _, x := range m.parts() {
			m.toil[x.want][x.option] = toil / x.part
		}
		m.lp.revalue(func(number int) float64 { return m.column(m.seasons[number]).value })
		for range rounds {
			if _, bettered := m.round(); !bettered {
				break
			}
		}
	}
}

// limits are the rows: each room in each week, the feed of each week, and one
// season a crop. A little is added to each, unlike for each, so that no two are
// used up at once and the search does not turn in a circle; the bound counts it.
func (t Task) limits() []float64 {
	var limits []float64
	for _, r := range t.Rooms {
		limits = append(limits, r.Free...)
	}
	limits = append(limits, t.Feed...)
	for range t.Wants {
		limits = append(limits, 1)
	}
	lots := noise(0)
	const little = 1e-10
	for i := range limits {
		limits[i] += little * float64(1+lots.below(1000))
	}
	return limits
}

// round asks each crop for a better season. Asked is what all crops together
// would take at the round's first prices, on top of what room and feed are
// worth: no plan serves more (Lagrangian relaxation; Geoffrion 1974, Math.
// Programming Study 2:82).
func (m *mixture) round() (asked float64, bettered bool) {
	asked = m.settle()
	for i := range m.t.Wants {
		asked += m.best(i)
	}
	for i := range m.t.Wants {
		m.settle()
		m.best(i)
		s := season{i, m.covers[i].picked(m.t, m.t.Wants[i])}
		if c := m.column(s); m.lp.worthOf(c) > nothing && m.lp.enter(c, len(m.seasons)) {
			m.seasons, bettered = append(m.seasons, s), true
		}
	}
	for row, gain := m.lp.slackWorth(); gain > nothing; row, gain = m.lp.slackWorth() {
		m.lp.enter(column{row: []int{row}, take: []float64{1}}, slack)
		bettered = true
	}
	return asked, bettered
}

// nothing is what a season must better the mixture by, in weeks of bearing.
const nothing = 1e-6

// settle takes over the mixture's prices of room and feed, and gives the worth
// of both.
func (m *mixture) settle() float64 {
	worth, row := 0.0, 0
	each := func(price []float64, free []float64) {
		for week := range free {
			price[week] = max(0, m.lp.price[row])
			worth += price[week] * free[week]
			row++
		}
	}
	for r, room := range m.t.Rooms {
		each(m.prices.room[r], room.Free)
	}
	each(m.prices.feed, m.t.Feed)
	m.prices.add()
	return worth
}

// best finds a crop's best season at the prices, and its gain.
func (m *mixture) best(want int) float64 {
	c, w := m.covers[want], m.t.Wants[want]
	for j, o := range w.Options {
		c.price[j] = m.prices.of(m.t, o) + m.toil[want][j]
	}
	c.solve(m.t, w, m.bearing[want], func(int) bool { return true })
	return c.best[0]
}

// column says what a season serves and takes.
func (m *mixture) column(s season) column {
	l := newLedger(m.t)
	for _, option := range s.options {
		l.put(sown{s.want, option, 1})
	}
	c := column{value: l.served()}
	for _, option := range s.options {
		c.value -= m.toil[s.want][option]
	}
	row := 0
	each := func(free, left []float64) {
		for week := range free {
			if taken := free[week] - left[week]; taken > 0 {
				c.row, c.take = append(c.row, row), append(c.take, taken)
			}
			row++
		}
	}
	for r, room := range m.t.Rooms {
		each(room.Free, l.room[r])
	}
	each(m.t.Feed, l.feed)
	c.row, c.take = append(c.row, row+s.want), append(c.take, 1)
	return c
}

// parts are the options in the mixture with how much of each, in order.
func (m *mixture) parts() []sown {
	l := newLedger(m.t)
	for i, number := range m.lp.basis {
		if number < 0 || m.lp.amount[i] < dust {
			continue
		}
		for _, option := range m.seasons[number].options {
			l.sow(sown{m.seasons[number].want, option, m.lp.amount[i]})
		}
	}
	slices.SortFunc(l.sown, func(a, b sown) int {
		return cmp.Or(cmp.Compare(a.want, b.want), cmp.Compare(a.option, b.option))
	})
	return l.sown
}

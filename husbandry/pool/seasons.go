package pool

import (
	"errors"
	"math"

	"freshet.example/husbandry/quantity"
)

// A Year is what sites would come to over one and the same year, worked out
// from the seasons each noted.
type Year struct {
	Effect []float64 // of each season: its share of the mean season; 0 where no site that enters noted it
	Noted  []bool    // seasons that some site that enters noted: the year is made of these
	Sites  []Yearly  // in the order given
}

// Yearly is one site's figure for the year.
type Yearly struct {
	Rate   float64 // amount for each unit of exposure, every season counted alike
	SE     float64 // heteroskedasticity-consistent, what is unsure of the seasons included
	Joined bool    // it bore in a season that ties it to the others; else it cannot be set beside them
}

// ErrUnsettled is the answer where levels and effects still move against each
// other after all turns: the sites hardly share what would tell the two apart.
var ErrUnsettled = errors.New("the sites share too little of a season to tell its effect from their levels")

// Standardise sets sites that noted different seasons on one year. Amounts are
// what site i came to in season j, exposures what it came from (time, or area
// and time; 0 where the season is not on record). Each amount is taken as its
// exposure times a level of the site times an effect of the season, fitted so
// that the sums of every site and of every season come out as noted: the method
// of marginal totals, which is the multiplicative Poisson model (Andersen 1977,
// Scand. J. Stat. 4:153). That asks of an amount only that its mean be right. A
// site that noted all seasons alike keeps the plain ratio of its sums.
//
// Two sites or more and two seasons or more, amounts and exposures from 0 to
// 1e100, no amount without exposure. Only the largest set of sites that share
// seasons in which they bore can be compared; more months must be on record
// than there are levels and effects. ErrUnsettled where they do not come to rest.
func Standardise(amounts, exposures [][]float64) (Year, error) {
	t, err := tabled(amounts, exposures)
	if err != nil {
		return Year{}, err
	}
	if err := t.join(); err != nil {
		return Year{}, err
	}
	if err := t.fit(); err != nil {
		return Year{}, err
	}
	if err := t.spare(); err != nil {
		return Year{}, err
	}
	return t.year(), nil
}

// table is a layout of sites by seasons while it is being fitted.
type table struct {
	y, e   [][]float64
	joined []bool    // sites that enter
	level  []float64 // of sites
	effect []float64 // of seasons
}

func tabled(y, e [][]float64) (*table, error) {
	if err := quantity.Within("number of sites", float64(len(y)), 2, 1e5, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	if err := quantity.Within("number of sites with exposures", float64(len(e)), float64(len(y)), float64(len(y)), "", "by definition: as with amounts"); err != nil {
		return nil, err
	}
	seasons := len(y[0])
	if err := quantity.Within("number of seasons", float64(seasons), 2, 1000, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	for i := range y {
		for _, row := range [][]float64{y[i], e[i]} {
			if err := quantity.Within("seasons of a site", float64(len(row)), float64(seasons), float64(seasons), "", "by definition: as of the first"); err != nil {
				return nil, err
			}
		}
		for j := range y[i] {
			if err := cell(y[i][j], e[i][j]); err != nil {
				return nil, err
			}
		}
	}
	return &table{y: y, e: e, joined: make([]bool, len(y)), level: make([]float64, len(y)), effect: make([]float64, seasons)}, nil
}

func cell(amount, exposure float64) error {
	if err := quantity.Within("exposure", exposure, 0, 1e100, "", quantity.OwnBounds); err != nil {
		return err
	}
	most := 1e100
	if exposure == 0 {
		most = 0
	}
	return quantity.Within("amount", amount, 0, most, "", "bounds of this program; none without exposure")
}

// join finds the largest set of sites tied to each other by seasons in which
// they bore: within it levels and effects are finite (Haberman 1974, The
// Analysis of Frequency Data). Seasons are sorted into sets, each known by one
// of them; a site brings all seasons in which it bore into one set.
func (t *table) join() error {
	set := make([]int, len(t.effect))
	for j := range set {
		set[j] = j
	}
	first := make([]int, len(t.y)) // a season in which the site bore
	for i, amounts := range t.y {
		first[i] = -1
		for j, amount := range amounts {
			if amount == 0 {
				continue
			}
			if first[i] < 0 {
				first[i] = j
			}
			merge(set, set[first[i]], set[j])
		}
	}
	var best int
	count := make([]int, len(set))
	for _, j := range first {
		if j < 0 {
			continue
		}
		if count[set[j]]++; count[set[j]] > count[best] {
			best = set[j]
		}
	}
	for i, j := range first {
		t.joined[i] = j >= 0 && set[j] == best
	}
	return quantity.Within("sites tied by a season in which they bore", float64(count[best]), 2, float64(len(t.y)), "", "by definition: else there is nothing to compare")
}

func merge(set []int, a, b int) {
	for j := range set {
		if set[j] == b {
			set[j] = a
		}
	}
}

// fit turns by turn sets the levels so that the sums of sites come out, and the
// effects so that the sums of seasons do, until nothing moves.
func (t *table) fit() error {
	for j := range t.effect {
		t.effect[j] = 1
	}
	for range mostTurns {
		t.levels()
		var moved float64
		for j := range t.effect {
			amount, base := 0.0, 0.0
			for i := range t.y {
				if t.joined[i] {
					amount += t.y[i][j]
					base += t.e[i][j] * t.level[i]
				}
			}
			if now := share(amount, base); now != t.effect[j] {
				moved = max(moved, math.Abs(now-t.effect[j])/max(now, t.effect[j]))
				t.effect[j] = now
			}
		}
		if moved < 1e-13 {
			t.levels()
			return nil
		}
	}
	return ErrUnsettled
}

// mostTurns bounds the fit of sites that hardly share a season.
const mostTurns = 20000

func (t *table) levels() {
	for i := range t.y {
		if !t.joined[i] {
			continue
		}
		base := 0.0
		for j, e := range t.e[i] {
			base += e * t.effect[j]
		}
		t.level[i] = share(total(t.y[i]), base)
	}
}

func share(part, whole float64) float64 {
	if whole == 0 {
		return 0
	}
	return part / whole
}

func total(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum
}

// year counts every noted season alike.
func (t *table) year() Year {
	y := Year{Effect: t.effect, Noted: t.noted(), Sites: make([]Yearly, len(t.y))}
	n := 0.0
	for _, noted := range y.Noted {
		if noted {
			n++
		}
	}
	mean := total(t.effect) / n
	errs := t.errors()
	for i := range y.Sites {
		if t.joined[i] {
			y.Sites[i] = Yearly{t.level[i] * mean, t.level[i] * mean * errs[i], true}
		}
	}
	for j := range y.Effect {
		y.Effect[j] /= mean
	}
	return y
}

func (t *table) noted() []bool {
	noted := make([]bool, len(t.effect))
	for i := range t.e {
		for j, e := range t.e[i] {
			noted[j] = noted[j] || t.joined[i] && e > 0
		}
	}
	return noted
}

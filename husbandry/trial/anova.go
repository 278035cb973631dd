package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// An Anova splits the spread of values into that between groups and that within.
type Anova struct {
	DFBetween, DFWithin float64
	SSBetween, SSWithin float64
	F, P                float64
	ResidualSD          float64
}

// RSquared is the share of the squares that lies between groups.
func (a Anova) RSquared() float64 { return a.SSBetween / (a.SSBetween + a.SSWithin) }

// OneWay compares the means of two groups or more that spread alike (Fisher
// 1925). Each group holds one value or more, one at least two; ErrNoSpread when
// no group varies.
func OneWay(groups [][]float64) (Anova, error) {
	all, err := joined(groups, 1)
	if err != nil {
		return Anova{}, err
	}
	a := Anova{DFBetween: float64(len(groups) - 1), DFWithin: float64(len(all) - len(groups))}
	grand := mean(all)
	for _, g := range groups {
		m := mean(g)
		a.SSBetween += float64(len(g)) * (m - grand) * (m - grand)
		a.SSWithin += squaresAbout(m, g)
	}
	if !(a.SSWithin > 0) {
		return Anova{}, ErrNoSpread
	}
	a.ResidualSD = math.Sqrt(a.SSWithin / a.DFWithin)
	a.F = a.SSBetween / a.DFBetween / (a.SSWithin / a.DFWithin)
	a.P = chance.FSurvival(a.F, a.DFBetween, a.DFWithin)
	return a, nil
}

// A FTest is a ratio of mean squares with its degrees of freedom and chance.
type FTest struct{ F, DF1, DF2, P float64 }

// WelchOneWay compares the means of two groups or more without assuming that
// they spread alike (Welch 1951, Biometrika 38:330). Two values or more in each
// group, which must differ.
func WelchOneWay(groups [][]float64) (FTest, error) {
	if _, err := joined(groups, 2); err != nil {
		return FTest{}, err
	}
	k := float64(len(groups))
	weights, centre := 0.0, 0.0
	for _, g := range groups {
		s, _ := Summary(g)
		if s.Variance == 0 {
			return FTest{}, ErrNoSpread
		}
		weights += 1 / s.square()
		centre += s.Mean / s.square()
	}
	centre /= weights
	between, leftover := 0.0, 0.0
	for _, g := range groups {
		s, _ := Summary(g)
		w := 1 / s.square()
		between += w * (s.Mean - centre) * (s.Mean - centre) / (k - 1)
		leftover += (1 - w/weights) * (1 - w/weights) / float64(s.N-1)
	}
	t := FTest{DF1: k - 1, DF2: (k*k - 1) / (3 * leftover)}
	t.F = between / (1 + 2*(k-2)/(k*k-1)*leftover)
	t.P = chance.FSurvival(t.F, t.DF1, t.DF2)
	return t, nil
}

// An HTest is a comparison of several groups by ranks.
type HTest struct{ H, P float64 }

// KruskalWallis compares two groups or more by ranks, corrected for ties, with
// the chance by the chi-squared curve (Kruskal & Wallis 1952, J. Am. Stat.
// Assoc. 47:583). Each group holds one value or more; not all may tie.
func KruskalWallis(groups [][]float64) (HTest, error) {
	all, err := joined(groups, 1)
	if err != nil {
		return HTest{}, err
	}
	ranks, n := midranks(all), float64(len(all))
	correction := 1 - tieSum(ranks)/(n*n*n-n)
	if !(correction > 0) {
		return HTest{}, ErrNoSpread
	}
	h := 0.0
	for _, g := range groups {
		sum := total(ranks[:len(g)])
		ranks = ranks[len(g):]
		h += sum * sum / float64(len(g))
	}
	h = (12/(n*(n+1))*h - 3*(n+1)) / correction
	return HTest{h, chance.ChiSquaredSurvival(h, float64(len(groups)-1))}, nil
}

// joined checks groups of at least the given size and strings them together.
func joined(groups [][]float64, least int) ([]float64, error) {
	if err := quantity.Within("number of groups", float64(len(groups)), 2, 200, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	var all []float64
	for _, g := range groups {
		if err := enough("values in a group", g, least); err != nil {
			return nil, err
		}
		all = append(all, g...)
	}
	return all, quantity.Within("number of values", float64(len(all)), float64(len(groups)+1), math.MaxInt32, "", "by definition: more than groups")
}

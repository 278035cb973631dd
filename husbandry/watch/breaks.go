package watch

import (
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// A Break is one change of level.
type Break struct {
	Last          int     // how many readings come before the change
	Before, After float64 // mean levels
	RSS           float64 // squares about the two levels
	SupF          float64 // how much better two levels fit than one, as an F
}

// OneBreak finds the change of level that leaves the fewest squares, with at
// least shortest readings on each side. Readings that follow one another
// closely look broken when they are not. Shortest from 1; twice as many
// readings, and three at least, that do not all equal their levels.
func OneBreak(values []float64, shortest int) (Break, error) {
	if err := enough(values, 3); err != nil {
		return Break{}, err
	}
	n := len(values)
	if err := quantity.Within("shortest stretch", float64(shortest), 1, float64(n)/2, "readings", quantity.OwnBounds); err != nil {
		return Break{}, err
	}
	cost := costs(values)
	b := Break{RSS: math.Inf(1)}
	for last := shortest; last <= n-shortest; last++ {
		if rss := cost(0, last) + cost(last, n); rss < b.RSS {
			b.RSS, b.Last = rss, last
		}
	}
	if err := spread(b.RSS); err != nil {
		return Break{}, err
	}
	b.Before, b.After = mean(values[:b.Last]), mean(values[b.Last:])
	b.SupF = (cost(0, n) - b.RSS) / (b.RSS / float64(n-2))
	return b, nil
}

// costs gives the squares of readings from..to about their mean, from sums
// about the mean of all so that no digits are lost.
func costs(values []float64) func(from, to int) float64 {
	centre := mean(values)
	sum, square := make([]float64, 1), make([]float64, 1)
	for i, v := range values {
		sum = append(sum, sum[i]+v-centre)
		square = append(square, square[i]+(v-centre)*(v-centre))
	}
	return func(from, to int) float64 {
		s := sum[to] - sum[from]
		return max(0, square[to]-square[from]-s*s/float64(to-from))
	}
}

// A Partition cuts a series into stretches of one level each.
type Partition struct {
	Breaks []int   // how many readings lie before each change
	Cost   float64 // squares about the levels, and the penalties
}

// Segments cuts a series so that the squares about the levels plus a penalty
// for each change are fewest: the exact optimum (Jackson et al. 2005, IEEE
// Signal Proc. Lett. 12:105). The usual penalty is SegmentPenalty; raise it, or
// take out the season first, where readings follow one another closely.
// Shortest is the fewest readings in a stretch. Up to 5,000 readings.
func Segments(values []float64, penalty float64, shortest int) (Partition, error) {
	if err := finite(values); err != nil {
		return Partition{}, err
	}
	n := len(values)
	if err := quantity.Within("number of readings", float64(n), 2, 5000, "", "bounds of this program: they are cut exactly"); err != nil {
		return Partition{}, err
	}
	if err := quantity.Within("penalty", penalty, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
		return Partition{}, err
	}
	if err := quantity.Within("shortest stretch", float64(shortest), 1, float64(n), "readings", quantity.OwnBounds); err != nil {
		return Partition{}, err
	}
	cost := costs(values)
	best, from := []float64{-penalty}, make([]int, 1) // the first stretch is no change
	for len(best) <= n {
		to, least, after := len(best), math.Inf(1), n
		for start := range to - shortest + 1 {
			if c := best[start] + cost(start, to) + penalty; c < least {
				least, after = c, start
			}
		}
		best, from = append(best, least), append(from, after)
	}
	p := Partition{Cost: best[n]}
	for at := from[n]; at > 0; at = from[at] {
		p.Breaks = append(p.Breaks, at)
	}
	slices.Reverse(p.Breaks)
	return p, nil
}

// SegmentPenalty is 2 ln(n) times the variance from the mean moving range: the
// Bayesian price of one change (Schwarz 1978; a level and its place). Two
// readings or more that differ.
func SegmentPenalty(values []float64) (float64, error) {
	if err := enough(values, 2); err != nil {
		return 0, err
	}
	sigma := movingSigma(values)
	return 2 * math.Log(float64(len(values))) * sigma * sigma, spread(sigma)
}

// A PettittTest is a test for one change of level that assumes no shape.
type PettittTest struct {
	K    float64
	Last int     // how many readings come before the change
	P    float64 // approximate, two-sided
}

// Pettitt looks for one change of level by ranks (Pettitt 1979, Appl. Stat.
// 28:126), ties sharing their mean rank. Three readings or more.
func Pettitt(values []float64) (PettittTest, error) {
	if err := enough(values, 3); err != nil {
		return PettittTest{}, err
	}
	n := float64(len(values))
	var t PettittTest
	u := 0.0
	for i, r := range midranks(values) {
		u += 2*r - (n + 1)
		if math.Abs(u) > t.K {
			t.K, t.Last = math.Abs(u), i+1
		}
	}
	t.P = min(1, 2*math.Exp(-6*t.K*t.K/(n*n*n+n*n)))
	return t, nil
}

// midranks numbers values from 1 in rising order; equal ones share their mean.
func midranks(values []float64) []float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	ranks := make([]float64, len(values))
	for i, v := range values {
		low, _ := slices.BinarySearch(s, v)
		high := low
		for high < len(s) && s[high] == v {
			high++
		}
		ranks[i] = float64(low+high+1) / 2
	}
	return ranks
}

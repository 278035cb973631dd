package trial

import (
	"cmp"
	"math"
	"slices"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// Tails are the chances of a result as far out as the one observed.
type Tails struct {
	TwoSided float64 // as far out on either side
	Upper    float64 // as high or higher
	Lower    float64 // as low or lower
}

// MannWhitneyU counts the pairs in which a value of x exceeds one of y, ties
// as a half: the rank sum of x less n(n+1)/2. Some texts print the smaller of
// this and its mirror instead. One value or more in each group.
// (Mann & Whitney 1947, Ann. Math. Stat. 18:50)
func MannWhitneyU(x, y []float64) (float64, error) {
	ranks, err := jointRanks(x, y)
	if err != nil {
		return 0, err
	}
	n := float64(len(x))
	return total(ranks[:len(x)]) - n*(n+1)/2, nil
}

// MannWhitneyExact is the exact chance of U given which values tie: every way
// to share out the midranks counts the same. It holds for ties, where tables
// and many programs silently turn to the normal curve. Up to 100 values in all;
// more is ErrTooMany.
func MannWhitneyExact(x, y []float64) (Tails, error) {
	ranks, err := jointRanks(x, y)
	if err != nil {
		return Tails{}, err
	}
	if len(ranks) > 100 {
		return Tails{}, ErrTooMany
	}
	ways := subsetSums(doubled(ranks), len(x))
	middle := len(x) * (len(ranks) + 1) // of twice the rank sum
	return tailsOf(ways, int(math.Round(2*total(ranks[:len(x)]))), middle), nil
}

// MannWhitneyNormal is the chance of U by the normal curve with the variance
// corrected for ties, with or without the correction of a half for continuity.
// ErrNoSpread when all values tie. (Lehmann 1975, Nonparametrics, 1.4)
func MannWhitneyNormal(x, y []float64, continuity bool) (Tails, error) {
	ranks, err := jointRanks(x, y)
	if err != nil {
		return Tails{}, err
	}
	n, m := float64(len(x)), float64(len(y))
	all := n + m
	sd := math.Sqrt(n * m / 12 * (all + 1 - tieSum(ranks)/(all*(all-1))))
	if !(sd > 0) {
		return Tails{}, ErrNoSpread
	}
	above := total(ranks[:len(x)]) - n*(all+1)/2
	half := 0.0
	if continuity {
		half = 0.5
	}
	return Tails{
		TwoSided: min(1, 2*chance.NormalSurvival((math.Abs(above)-half)/sd)),
		Upper:    chance.NormalSurvival((above - half) / sd),
		Lower:    chance.NormalCDF((above + half) / sd),
	}, nil
}

func jointRanks(x, y []float64) ([]float64, error) {
	if err := enough("values of x", x, 1); err != nil {
		return nil, err
	}
	if err := enough("values of y", y, 1); err != nil {
		return nil, err
	}
	return midranks(slices.Concat(x, y)), nil
}

// midranks numbers values from 1 in rising order; equal ones share their mean.
func midranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(values[i], values[j]) })
	ranks := make([]float64, len(values))
	for low := 0; low < len(order); {
		high := low
		for high < len(order) && values[order[high]] == values[order[low]] {
			high++
		}
		for _, i := range order[low:high] {
			ranks[i] = float64(low+high+1) / 2
		}
		low = high
	}
	return ranks
}

// tieSum is the sum of t^3-t over each set of t equal ranks.
func tieSum(ranks []float64) float64 {
	times := map[float64]float64{}
	for _, r := range ranks {
		times[r]++
	}
	sum := 0.0
	for _, t := range times {
		sum += t*t*t - t
	}
	return sum
}

func doubled(ranks []float64) []int {
	d := make([]int, len(ranks))
	for i, r := range ranks {
		d[i] = int(math.Round(2 * r))
	}
	return d
}

// subsetSums counts, for each sum, the ways to choose n of the numbers.
func subsetSums(numbers []int, n int) []float64 {
	most := 0
	for _, k := range numbers {
		most += k
	}
	sums := func() []float64 { return make([]float64, most+1) }
	ways := [][]float64{sums()}
	ways[0][0] = 1 // to choose none
	for range n {
		ways = append(ways, sums())
	}
	for _, k := range numbers {
		for j := n; j > 0; j-- {
			for sum := most; sum >= k; sum-- {
				ways[j][sum] += ways[j-1][sum-k]
			}
		}
	}
	return ways[n]
}

// tailsOf adds up the ways at least as far out as observed; middle is the
// expectation, about which "as far out" is counted.
func tailsOf(ways []float64, observed, middle int) Tails {
	var t Tails
	all := total(ways)
	for sum, w := range ways {
		if sum >= observed {
			t.Upper += w / all
		}
		if sum <= observed {
			t.Lower += w / all
		}
		if distance(sum, middle) >= distance(observed, middle) {
			t.TwoSided += w / all
		}
	}
	return t
}

func distance(a, b int) int { return max(a-b, b-a) }

func total(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum
}

// SignedRank is the rank sum V of the rises among differences, with its exact
// chances: differences of nothing are dropped and equal sizes share their mean
// rank. Up to 300 differences that are not nothing; at least one. (Wilcoxon
// 1945, Biometrics Bull. 1:80; conditional on ties)
func SignedRank(d []float64) (v float64, exact Tails, err error) {
	if err := enough("differences", d, 1); err != nil {
		return 0, Tails{}, err
	}
	var sizes []float64
	var up []bool
	for _, one := range d {
		if one != 0 {
			sizes, up = append(sizes, math.Abs(one)), append(up, one > 0)
		}
	}
	if err := quantity.Within("number of pairs that differ", float64(len(sizes)), 1, 300, "", quantity.OwnBounds); err != nil {
		return 0, Tails{}, err
	}
	ranks := midranks(sizes)
	for i, r := range ranks {
		if up[i] {
			v += r
		}
	}
	ways := anySums(doubled(ranks))
	return v, tailsOf(ways, int(math.Round(2*v)), len(sizes)*(len(sizes)+1)/2), nil
}

// anySums gives, for each sum, the share of all subsets that have it.
func anySums(numbers []int) []float64 {
	most := 0
	for _, k := range numbers {
		most += k
	}
	share := make([]float64, most+1)
	share[0] = 1
	for _, k := range numbers {
		for sum := most; sum >= 0; sum-- {
			with := 0.0
			if sum >= k {
				with = share[sum-k]
			}
			share[sum] = (share[sum] + with) / 2
		}
	}
	return share
}

package trial

import (
	"slices"

	"freshet.example/husbandry/quantity"
)

// A Shift is how far one group lies above another, without a shape assumed.
// Its interval ends at observed differences, so the confidence comes in steps:
// Achieved is what the interval really has when values do not tie. Where that
// is below what was asked for (Short), no interval of that confidence exists
// for so few values: say so, and show Achieved.
type Shift struct {
	Estimate  float64
	Low, High float64
	Achieved  quantity.Fraction
	Short     bool
}

// HodgesLehmann is the median of all differences of a value of x and one of y,
// with the interval that the Mann-Whitney count leaves. Up to 100 values in
// all; confidence 0.5 to 0.9999. (Hodges & Lehmann 1963, Ann. Math. Stat. 34:598;
// Bauer 1972, J. Am. Stat. Assoc. 67:687)
func HodgesLehmann(x, y []float64, confidence quantity.Fraction) (Shift, error) {
	if _, err := jointRanks(x, y); err != nil {
		return Shift{}, err
	}
	if len(x)+len(y) > 100 {
		return Shift{}, ErrTooMany
	}
	var all []float64
	for _, a := range x {
		for _, b := range y {
			all = append(all, a-b)
		}
	}
	ways := subsetSums(upTo(len(x)+len(y)), len(x))
	return shift(all, ways[len(x)*(len(x)+1)/2:], confidence)
}

// HodgesLehmannPaired is the median of the Walsh averages, the means of each
// two differences (or of one with itself), with the interval that the
// signed-rank sum leaves. Up to 300 differences; confidence 0.5 to 0.9999.
func HodgesLehmannPaired(d []float64, confidence quantity.Fraction) (Shift, error) {
	if err := enough("differences", d, 1); err != nil {
		return Shift{}, err
	}
	if len(d) > 300 {
		return Shift{}, ErrTooMany
	}
	var all []float64
	for i := range d {
		for _, other := range d[i:] {
			all = append(all, (d[i]+other)/2) //nolint:gosec // i is an index of d
		}
	}
	return shift(all, anySums(upTo(len(d))), confidence)
}

// shift reads the interval off ordered differences: as many are left out at
// each end as the null distribution of the count allows.
func shift(all, ways []float64, confidence quantity.Fraction) (Shift, error) {
	if err := sensible(confidence); err != nil {
		return Shift{}, err
	}
	slices.Sort(all)
	tail := (1 - float64(confidence)) / 2
	k, below, every := 1, total(ways[:2]), total(ways)
	for below < tail*(1-1e-12)*every {
		k++
		below += ways[k]
	}
	outside := total(ways[:k]) / every
	s := Shift{Low: all[k-1], High: all[len(all)-k], Achieved: quantity.Fraction(1 - 2*outside)}
	s.Estimate = between(all, float64(len(all)+1)/2)
	s.Short = s.Achieved < confidence*(1-1e-12)
	return s, nil
}

func upTo(n int) []int {
	numbers := make([]int, n)
	for i := range numbers {
		numbers[i] = i + 1
	}
	return numbers
}

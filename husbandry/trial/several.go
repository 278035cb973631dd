package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Pair is the difference of two among several groups, its interval and
// chance widened for there being several.
type Pair struct {
	I, J       int     // the groups, by their place from 0
	Difference float64 // mean of J less mean of I
	Low, High  float64
	T          float64 // Difference over its standard error
	P          float64
}

// Tukey compares every two of several groups so that the whole set of intervals
// holds with the confidence asked for; for groups of unequal size it is
// Tukey-Kramer (Kramer 1956, Biometrics 12:307). Groups as for OneWay;
// confidence 0.5 to 0.9999.
func Tukey(groups [][]float64, confidence quantity.Fraction) ([]Pair, error) {
	a, err := several(groups, confidence)
	if err != nil {
		return nil, err
	}
	k := float64(len(groups))
	reach := chance.StudentizedRangeQuantile(float64(confidence), k, a.DFWithin) / math.Sqrt2
	var pairs []Pair
	for i := range groups {
		for j := i + 1; j < len(groups); j++ {
			p := pair(groups, i, j, a.ResidualSD, reach)
			p.P = 1 - chance.StudentizedRangeCDF(math.Abs(p.T)*math.Sqrt2, k, a.DFWithin)
			pairs = append(pairs, p)
		}
	}
	return pairs, nil
}

// Dunnett compares every group with one control, given by its place from 0, so
// that the whole set of intervals holds with the confidence asked for (Dunnett
// 1955). The pairs come in the order of the groups; Critical is the number of
// standard errors that the intervals reach. Groups as for OneWay.
func Dunnett(groups [][]float64, control int, confidence quantity.Fraction) (pairs []Pair, critical float64, err error) {
	a, err := several(groups, confidence)
	if err != nil {
		return nil, 0, err
	}
	if err := quantity.Within("control group", float64(control), 0, float64(len(groups)-1), "", "by definition: places are counted from 0"); err != nil {
		return nil, 0, err
	}
	lambda := lambdas(groups, control)
	critical = chance.DunnettQuantile(float64(confidence), lambda, a.DFWithin)
	for j := range groups {
		if j == control {
			continue
		}
		p := pair(groups, control, j, a.ResidualSD, critical)
		p.P = 1 - chance.DunnettCDF(math.Abs(p.T), lambda, a.DFWithin)
		pairs = append(pairs, p)
	}
	return pairs, critical, nil
}

// several checks what comparisons among several groups need.
func several(groups [][]float64, confidence quantity.Fraction) (Anova, error) {
	if err := sensible(confidence); err != nil {
		return Anova{}, err
	}
	return OneWay(groups)
}

func lambdas(groups [][]float64, control int) []float64 {
	var l []float64
	for j, g := range groups {
		if j != control {
			n := float64(len(g))
			l = append(l, math.Sqrt(n/(n+float64(len(groups[control])))))
		}
	}
	return l
}

func pair(groups [][]float64, i, j int, sd, reach float64) Pair {
	se := sd * math.Sqrt(1/float64(len(groups[i]))+1/float64(len(groups[j])))
	d := mean(groups[j]) - mean(groups[i])
	return Pair{I: i, J: j, Difference: d, Low: d - reach*se, High: d + reach*se, T: d / se}
}

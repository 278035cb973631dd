package pool

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Shrunken is a set of means drawn towards their common mean, all by one
// factor, for their errors are alike.
type Shrunken struct {
	Mean      float64 // the common mean
	Factor    float64 // the share of its distance from Mean that each keeps
	Estimates []float64
}

// JamesStein draws means with one known error variance towards their mean by
// 1-(k-3)*variance/(sum of squares about it), never below 0 (James & Stein 1961;
// Efron & Morris 1975, J. Am. Stat. Assoc. 70:311; positive part). Four means
// or more; variance above 0.
func JamesStein(means []float64, variance float64) (Shrunken, error) {
	k := float64(len(means))
	if err := quantity.Within("number of means", k, 4, 1e6, "", "James & Stein 1961"); err != nil {
		return Shrunken{}, err
	}
	if err := quantity.Within("error variance", variance, 1e-300, 1e300, "", "by definition: above 0"); err != nil {
		return Shrunken{}, err
	}
	var s Shrunken
	for _, m := range means {
		if err := quantity.Within("mean", m, -1e150, 1e150, "", quantity.OwnBounds); err != nil {
			return Shrunken{}, err
		}
		s.Mean += m / k
	}
	spread := 0.0
	for _, m := range means {
		spread += (m - s.Mean) * (m - s.Mean)
	}
	if spread > 0 {
		s.Factor = max(0, 1-(k-3)*variance/spread)
	}
	for _, m := range means {
		s.Estimates = append(s.Estimates, s.Estimate(m))
	}
	return s, nil
}

// Estimate is where a mean of m is drawn to.
func (s Shrunken) Estimate(m float64) float64 { return s.Mean + s.Factor*(m-s.Mean) }

// A Gain tells what drawing means together has brought, once better figures are
// in.
type Gain struct {
	Nearer int     // how many came nearer to what was found later
	Before float64 // squared distance of the means themselves, summed
	After  float64 // of what they were drawn to
}

// Against holds means, and what they were drawn to, against figures found
// later, one for each.
func (s Shrunken) Against(means, later []float64) (Gain, error) {
	n := float64(len(means))
	if err := quantity.Within("later figures", float64(len(later)), n, n, "", "by definition: one for each mean"); err != nil {
		return Gain{}, err
	}
	var g Gain
	for i, m := range means {
		if err := quantity.Within("later figure", later[i], -1e150, 1e150, "", quantity.OwnBounds); err != nil {
			return Gain{}, err
		}
		own, drawn := m-later[i], s.Estimate(m)-later[i]
		if math.Abs(drawn) < math.Abs(own) {
			g.Nearer++
		}
		g.Before += own * own
		g.After += drawn * drawn
	}
	return g, nil
}

// JamesSteinShares is JamesStein for shares out of n tries each, with the error
// variance taken at the common share (Efron & Morris 1977, Sci. Am. 236:119).
// Hits of 0 to n, four or more, not all none or all; n from 1.
func JamesSteinShares(hits []float64, n float64) (Shrunken, error) {
	if err := quantity.Within("tries", n, 1, 1e9, "", quantity.OwnBounds); err != nil {
		return Shrunken{}, err
	}
	shares := make([]float64, len(hits))
	common := 0.0
	for i, h := range hits {
		if err := quantity.Within("hits", h, 0, n, "", "by definition: no more than tries"); err != nil {
			return Shrunken{}, err
		}
		shares[i] = h / n
		common += shares[i] / float64(len(hits))
	}
	return JamesStein(shares, common*(1-common)/n)
}

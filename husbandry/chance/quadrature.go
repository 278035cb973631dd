package chance

import "math"

// A rule is a set of points and weights on [-1, 1] for Gauss-Legendre
// integration, exact for polynomials of degree below twice its length.
type rule struct{ at, weight []float64 }

var gauss = legendre(16)

// legendre finds the rule of n points: the zeros of the Legendre polynomial by
// Newton's method from Tricomi's starting values, weights by Abramowitz &
// Stegun 1964, 25.4.29.
func legendre(n int) rule {
	r := rule{make([]float64, n), make([]float64, n)}
	for i := range n {
		x := math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5))
		var slope float64
		for range 20 { // quadratic from a good start: five would do
			var value float64
			value, slope = legendreAt(x, n)
			x -= value / slope
		}
		r.at[i] = x
		r.weight[i] = 2 / ((1 - x*x) * slope * slope)
	}
	return r
}

// legendreAt gives the Legendre polynomial of degree n at x, and its slope, by
// the three-term recurrence. (Abramowitz & Stegun 1964, 22.7.10 and 22.8.5)
func legendreAt(x float64, n int) (value, slope float64) {
	before, value := 1.0, x
	for k := 2.0; k <= float64(n); k++ {
		before, value = value, ((2*k-1)*x*value-(k-1)*before)/k
	}
	return value, float64(n) * (x*value - before) / (x*x - 1)
}

// nodes hands out the points of [low, high] cut into equal panels, each with
// its weight.
func nodes(low, high float64, panels int, each func(x, weight float64)) {
	half := (high - low) / float64(2*panels)
	for p := range panels {
		centre := low + half*float64(2*p+1)
		for i, x := range gauss.at {
			each(centre+half*x, half*gauss.weight[i])
		}
	}
}

// overSpread averages f over the ratio s of an estimated to a true standard
// deviation with df degrees of freedom: df*s*s is chi-squared. Even steps of
// the logarithm of s lie closer near 0, where small df put much of what
// matters. Steep is how quickly f may change, in changes of its own size for
// each e-fold of s.
func overSpread(df, steep float64, f func(s float64) float64) float64 {
	const beyond = 28 // e^-28 is less than 1e-12
	// The density at log s is exp(df (log s - (s^2 - 1)/2)) of its height at
	// s = 1. It is below e^-28 of that outside low to high.
	reach := math.Sqrt(beyond / df)
	low, high := -reach-reach*reach, math.Log1p(math.Sqrt2*reach)
	panels := 4 + int(steep*(high-low)/2)
	var sum, whole float64
	nodes(low, high, panels, func(log, weight float64) {
		weight *= math.Exp(df * (log - math.Expm1(2*log)/2))
		whole += weight
		sum += weight * f(math.Exp(log))
	})
	return sum / whole
}

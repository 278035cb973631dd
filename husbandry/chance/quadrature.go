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
		slope := 0.0
		for range 20 { // quadratic from a good start: five would do
			value := 0.0
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

// integrate sums f over [low, high] cut into equal panels.
func integrate(low, high float64, panels int, f func(float64) float64) float64 {
	sum := 0.0
	nodes(low, high, panels, func(x, weight float64) { sum += weight * f(x) })
	return sum
}

// overSpread averages f over the ratio s of an estimated to a true standard
// deviation with df degrees of freedom: df*s*s is chi-squared.
func overSpread(df float64, f func(s float64) float64) float64 {
	const reach = 10 // standard deviations of s; beyond lies less than 1e-14
	sd := 1 / math.Sqrt(2*df)
	g, _ := math.Lgamma(df / 2)
	log := math.Ln2 + df/2*math.Log(df/2) - g
	density := func(s float64) float64 {
		return math.Exp(log + (df-1)*math.Log(s) - df*s*s/2)
	}
	// Small df put much of what matters near 0: even steps of the root of s
	// lie closer there.
	low, high := math.Sqrt(math.Max(0, 1-reach*sd)), math.Sqrt(1+reach*sd)
	return integrate(low, high, 4, func(root float64) float64 {
		s := root * root
		return 2 * root * density(s) * f(s)
	})
}

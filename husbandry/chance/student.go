package chance

import "math"

// TCDF is the chance that a Student t value with df degrees of freedom (above
// 0, fractions allowed) is at most t.
func TCDF(t, df float64) float64 { return TSurvival(-t, df) }

// TSurvival is the chance that a Student t value with df degrees of freedom
// exceeds t. (Abramowitz & Stegun 1964, 26.7.1 with 26.5.27)
func TSurvival(t, df float64) float64 {
	switch {
	case math.IsNaN(t) || !(df > 0):
		return math.NaN()
	case math.IsInf(df, 1):
		return NormalSurvival(t)
	}
	tail := tTail(math.Abs(t), df)
	if t < 0 {
		return 1 - tail
	}
	return tail
}

// tTail is the chance beyond t, for t of 0 or more.
func tTail(t, df float64) float64 {
	square := t * t
	return betaBelow(df/(df+square), square/(df+square), df/2, 0.5) / 2
}

// TTwoSided is the chance that a Student t value is at least as far from 0, on
// either side, as t: the two-sided p of a t test.
func TTwoSided(t, df float64) float64 {
	if math.IsNaN(t) || !(df > 0) {
		return math.NaN()
	}
	return 2 * TSurvival(math.Abs(t), df)
}

// TQuantile is the value that a Student t value with df degrees of freedom
// stays below with chance p.
func TQuantile(p, df float64) float64 {
	switch {
	case !isChance(p) || !(df > 0):
		return math.NaN()
	case p < 0.5:
		return -TQuantile(1-p, df)
	}
	cdf := func(t float64) float64 { return TCDF(t, df) }
	survival := func(t float64) float64 { return TSurvival(t, df) }
	return positiveQuantile(p, cdf, survival)
}

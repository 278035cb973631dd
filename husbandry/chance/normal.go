package chance

import "math"

// NormalDensity is the height of the standard normal curve at x.
func NormalDensity(x float64) float64 {
	return math.Exp(-x*x/2) / math.Sqrt(2*math.Pi)
}

// NormalCDF is the chance that a standard normal value is at most x.
func NormalCDF(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }

// NormalSurvival is the chance that a standard normal value exceeds x; it
// keeps its digits far out, where 1-NormalCDF has none.
func NormalSurvival(x float64) float64 { return math.Erfc(x/math.Sqrt2) / 2 }

// NormalQuantile is the value that a standard normal value stays below with
// chance p. It is -Inf at 0, +Inf at 1, and NaN outside.
func NormalQuantile(p float64) float64 {
	switch {
	case !isChance(p):
		return math.NaN()
	case p == 0:
		return math.Inf(-1)
	case p > 0.5:
		return -NormalQuantile(1 - p)
	}
	// ln CDF is concave: Newton's first step from anywhere ends left of the root
	// or on it, and the later ones climb without passing it.
	x := startOfNormal(p)
	for {
		cdf := NormalCDF(x)
		step := (math.Log(p) - math.Log(cdf)) * cdf / NormalDensity(x)
		x += step
		if !(math.Abs(step) > 1e-9*math.Abs(x)) { // the next would be its square
			return x
		}
	}
}

// startOfNormal is near the quantile for a chance above 0 and up to a half:
// Wichura's fractions, or, where Erfcinv has no digits left, Chernoff's bound.
func startOfNormal(p float64) float64 {
	if x := -math.Sqrt2 * math.Erfcinv(2*p); !math.IsInf(x, -1) {
		return x
	}
	return -math.Sqrt(-2 * math.Log(p))
}

// isChance reports a number from 0 to 1.
func isChance(p float64) bool { return p >= 0 && p <= 1 }

// LogNormalQuantile is what a value stays below with chance p when its
// logarithm is normal with mean and sd (0 or more).
func LogNormalQuantile(p, mean, sd float64) float64 {
	if !(sd >= 0) {
		return math.NaN()
	}
	return math.Exp(mean + sd*NormalQuantile(p))
}

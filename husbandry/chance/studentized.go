package chance

import "math"

// StudentizedRangeCDF is the chance that the range of k normal means (2 to
// 200), over an estimate of their standard deviation with df degrees of freedom
// (1 or more, +Inf allowed), is at most q: what Tukey's comparison of all pairs
// rests on. The definition by quadrature; within 1e-9 of 27 values computed to
// many digits.
func StudentizedRangeCDF(q, k, df float64) float64 {
	switch {
	case math.IsNaN(q) || !(k >= 2 && k <= 200) || !(df >= 1):
		return math.NaN()
	case q <= 0:
		return 0
	case math.IsInf(q, 1):
		return 1
	case math.IsInf(df, 1):
		return rangeCDF(q, k)
	}
	return min(1, overSpread(df, func(s float64) float64 { return rangeCDF(q*s, k) }))
}

// rangeCDF is the chance that k standard normal values span at most w: one of
// them, at z, is the largest, and the others lie within w below it.
func rangeCDF(w, k float64) float64 {
	const far = 8.5 // beyond lies less than 1e-16
	return integrate(-far, far, 6, func(z float64) float64 {
		return k * NormalDensity(z) * math.Pow(NormalCDF(z)-NormalCDF(z-w), k-1)
	})
}

// StudentizedRangeQuantile is the range that is not exceeded with chance p
// (0 to below 1).
func StudentizedRangeQuantile(p, k, df float64) float64 {
	if !(k >= 2 && k <= 200) || !(df >= 1) || !(p >= 0 && p < 1) {
		return math.NaN()
	}
	return soonRoot(func(q float64) float64 { return StudentizedRangeCDF(q, k, df) - p })
}

// soonRoot is where a rising distribution function, costly to ask, passes zero
// above 0: halving, to ten digits.
func soonRoot(f func(float64) float64) float64 {
	low, high := 0.0, 1.0
	for f(high) < 0 && high < 1e9 {
		low, high = high, 2*high
	}
	for high-low > 1e-10*high {
		if mid := (low + high) / 2; f(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

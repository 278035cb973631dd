package chance

import "math"

// StudentizedRangeCDF is the chance that the range of k normal means (2 to
// 200), over an estimate of their standard deviation with df degrees of freedom
// (1 or more, +Inf allowed), is at most q: what Tukey's comparison of all pairs
// rests on. The definition by quadrature; within 1e-9.
func StudentizedRangeCDF(q, k, df float64) float64 {
	switch {
	case math.IsNaN(q) || !ranging(k, df):
		return math.NaN()
	case q <= 0:
		return 0
	case math.IsInf(df, 1):
		return rangeCDF(q, k)
	}
	return min(1, overSpread(df, steepness(k), func(s float64) float64 { return rangeCDF(q*s, k) }))
}

// ranging reports numbers of means and degrees of freedom that make sense.
func ranging(k, df float64) bool { return k >= 2 && k <= 200 && df >= 1 }

// steepness of a chance that k values have something in common: within 4e-10
// up to 200 of them.
func steepness(k float64) float64 { return max(1, math.Log10(k)) }

// A slice of the normal curve: a place, its share of the chance, and the
// chance below it.
type sliver struct{ at, share, below float64 }

// slivers cut the normal curve for integration over its whole width.
var slivers = func() []sliver {
	const far = 8.5 // beyond lies less than 1e-16
	var all []sliver
	nodes(-far, far, 8, func(z, weight float64) {
		all = append(all, sliver{z, weight * NormalDensity(z), NormalCDF(z)})
	})
	return all
}()

// rangeCDF is the chance that k standard normal values span at most w: one of
// them, at z, is the largest, and the others lie within w below it.
func rangeCDF(w, k float64) float64 {
	sum := 0.0
	for _, z := range slivers {
		sum += z.share * math.Pow(z.below-NormalCDF(z.at-w), k-1)
	}
	return k * sum
}

// surest is the highest chance whose quantile the quadratures can tell.
const surest = 0.999999

// StudentizedRangeQuantile is the range that is not exceeded with chance p, 0
// to 0.999999.
func StudentizedRangeQuantile(p, k, df float64) float64 {
	if !ranging(k, df) || !(p >= 0 && p <= surest) {
		return math.NaN()
	}
	return soonRoot(func(q float64) float64 { return StudentizedRangeCDF(q, k, df) - p })
}

// soonRoot is where a rising distribution function, costly to ask, passes zero
// above 0, where it is within 1e-11: the false position, with the end that stays put
// counted half (Dowell & Jarratt 1971, BIT 11:168).
func soonRoot(f func(float64) float64) float64 {
	low, high := 0.0, 1.0
	below, above := f(low), f(high)
	for above < 0 {
		low, below = high, above
		high *= 2
		above = f(high)
	}
	for range 200 {
		mid := (low*above - high*below) / (above - below)
		value := f(mid)
		if math.Abs(value) < 1e-11 {
			return mid
		}
		if value < 0 {
			low, below, above = mid, value, above/2
		} else {
			high, above, below = mid, value, below/2
		}
	}
	return (low + high) / 2
}

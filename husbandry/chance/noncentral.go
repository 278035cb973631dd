package chance

import "math"

// NoncentralTCDF is the chance that a t value with df degrees of freedom is at
// most t when the true difference is shift standard errors from zero: what the
// power of a t test is made of. It averages the normal distribution over the
// estimated standard deviation (the definition, by quadrature; within 1e-9).
// Degrees of freedom from 1; shift within 37 either way.
func NoncentralTCDF(t, df, shift float64) float64 {
	if math.IsNaN(t) || !(df >= 1) || !(math.Abs(shift) <= 37) {
		return math.NaN()
	}
	if math.IsInf(df, 1) {
		return NormalCDF(t - shift)
	}
	return overSpread(df, 1+math.Abs(shift), func(s float64) float64 { return NormalCDF(t*s - shift) })
}

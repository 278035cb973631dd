package chance

import "math"

// FCDF is the chance that a ratio of two mean squares with df1 and df2 degrees
// of freedom is at most f (0 or more). (Abramowitz & Stegun 1964, 26.6.2)
func FCDF(f, df1, df2 float64) float64 {
	if !(f >= 0) || !(df1 > 0) || !(df2 > 0) {
		return math.NaN()
	}
	whole := df1*f + df2
	return betaBelow(df1*f/whole, df2/whole, df1/2, df2/2)
}

// FSurvival is the chance that a ratio of two mean squares exceeds f: the p of
// an analysis of variance.
func FSurvival(f, df1, df2 float64) float64 {
	if !(f >= 0) || !(df1 > 0) || !(df2 > 0) {
		return math.NaN()
	}
	whole := df1*f + df2
	return betaBelow(df2/whole, df1*f/whole, df2/2, df1/2)
}

// FQuantile is the value that a ratio of two mean squares stays below with
// chance p.
func FQuantile(p, df1, df2 float64) float64 {
	if !(df1 > 0) || !(df2 > 0) {
		return math.NaN()
	}
	cdf := func(f float64) float64 { return FCDF(f, df1, df2) }
	survival := func(f float64) float64 { return FSurvival(f, df1, df2) }
	return positiveQuantile(p, cdf, survival)
}

// ChiSquaredCDF is the chance that a sum of df squared standard normal values
// is at most x (0 or more). (Abramowitz & Stegun 1964, 26.4.19)
func ChiSquaredCDF(x, df float64) float64 { return GammaCDF(x/2, df/2) }

// ChiSquaredSurvival is the chance that a sum of df squared standard normal
// values exceeds x.
func ChiSquaredSurvival(x, df float64) float64 { return GammaSurvival(x/2, df/2) }

// ChiSquaredQuantile is the value that a sum of df squared standard normal
// values stays below with chance p.
func ChiSquaredQuantile(p, df float64) float64 { return 2 * GammaQuantile(p, df/2) }

package chance

import (
	"math"
	"slices"
)

// DunnettCDF is the chance that none of several t values, each a treatment
// against one shared control, is farther from 0 than t. Lambda holds one number
// a treatment, sqrt(n/(n+n0)) for n beds under it and n0 under the control; the
// correlation of two t values is the product of theirs (Dunnett 1955, J. Am.
// Stat. Assoc. 50:1096). Lambda above 0 and below 1; df 1 or more. By nested
// quadrature, within 1e-8; other programs draw at random and err by 1e-3.
func DunnettCDF(t float64, lambda []float64, df float64) float64 {
	if math.IsNaN(t) || !comparable(lambda, df) {
		return math.NaN()
	}
	if t <= 0 {
		return 0
	}
	if math.IsInf(df, 1) {
		return dunnettNormal(t, lambda)
	}
	return min(1, overSpread(df, steepness(float64(len(lambda))), func(s float64) float64 { return dunnettNormal(t*s, lambda) }))
}

// comparable reports numbers of treatments and degrees of freedom that make sense.
func comparable(lambda []float64, df float64) bool {
	return df >= 1 && len(lambda) > 0 && !slices.ContainsFunc(lambda, func(l float64) bool { return !(l > 0 && l < 1) })
}

// dunnettNormal: given the control's error z the treatments are independent,
// and -z does the same as z.
func dunnettNormal(t float64, lambda []float64) float64 {
	sum := 0.0
	for _, z := range slivers[:len(slivers)/2] {
		var inside float64
		product := 2 * z.share
		for i, l := range lambda {
			if i == 0 || l != lambda[i-1] { // groups of one size are often next to each other
				own := math.Sqrt(1 - l*l)
				inside = NormalCDF((l*z.at+t)/own) - NormalCDF((l*z.at-t)/own)
			}
			product *= inside
		}
		sum += product
	}
	return sum
}

// DunnettQuantile is the t that none of the comparisons passes with chance p, 0
// to 0.999999.
func DunnettQuantile(p float64, lambda []float64, df float64) float64 {
	if !(p >= 0 && p <= surest) || !comparable(lambda, df) {
		return math.NaN()
	}
	return soonRoot(func(t float64) float64 { return DunnettCDF(t, lambda, df) - p })
}

// EqualLambda is the Lambda of k treatments with as many beds each as the control.
func EqualLambda(k int) []float64 {
	lambda := make([]float64, k)
	for i := range lambda {
		lambda[i] = math.Sqrt(0.5)
	}
	return lambda
}

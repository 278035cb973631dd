package fish

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// Sizes within a cohort are taken as lognormal: no fish weighs less than
// nothing, and the largest stand out more than the smallest. The coefficient
// of variation is 0.001 to 2; 0.15 to 0.40 is usual (common practice, no
// source) and grows until the fish are graded.

// ShareAbove returns the share of a cohort above the target, given its mean
// weight and coefficient of variation. Weights are 0.001 to 100,000 g.
func ShareAbove(mean quantity.Grams, cv quantity.Fraction, target quantity.Grams) (quantity.Fraction, error) {
	if err := firstError(weightBound.check(float64(mean)), cvBound.check(float64(cv)), weightBound.check(float64(target))); err != nil {
		return 0, err
	}
	middle, spread := logShape(float64(mean), float64(cv))
	return quantity.Fraction(chance.NormalSurvival((math.Log(float64(target)) - middle) / spread)), nil
}

// WeightAtShare returns the weight that the given share of a cohort, 0.0001 to
// 0.9999, stays below.
func WeightAtShare(mean quantity.Grams, cv, below quantity.Fraction) (quantity.Grams, error) {
	if err := firstError(weightBound.check(float64(mean)), cvBound.check(float64(cv)), innerShareBound.check(float64(below))); err != nil {
		return 0, err
	}
	middle, spread := logShape(float64(mean), float64(cv))
	return quantity.Grams(math.Exp(middle + spread*chance.NormalQuantile(float64(below)))), nil
}

// logShape returns mean and standard deviation of the logarithm of a lognormal
// value from its own mean and coefficient of variation.
func logShape(mean, cv float64) (middle, spread float64) {
	variance := math.Log1p(cv * cv)
	return math.Log(mean) - variance/2, math.Sqrt(variance)
}

package fish

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// NumberToWeigh returns how many fish of a cohort of 1 to 1e7 to net at random
// and weigh, so that their mean lies within the precision (0.005 to 1, as a
// share of the mean) of the cohort's with a chance of 0.5 to 0.999. Sizes vary
// by the coefficient of variation. Normal approximation with the correction
// for a finite cohort (Cochran 1977, from memory); never fewer than two.
func NumberToWeigh(cv, precision, level quantity.Fraction, fish float64) (float64, error) {
	if err := firstError(cvBound.check(float64(cv)), precisionBound.check(float64(precision)), levelBound.check(float64(level)), someFishBound.check(fish)); err != nil {
		return 0, err
	}
	reach := chance.NormalQuantile((1+float64(level))/2) * float64(cv) / float64(precision)
	endless := reach * reach
	return min(fish, max(2, math.Ceil(endless/(1+(endless-1)/fish)))), nil
}

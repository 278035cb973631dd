package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const (
	fultonScale  = 100   // Fulton 1904
	englishScale = 36.13 // Piper et al. 1982, Fish Hatchery Management, p. 61: C = 36.13 K
)

// FultonCondition returns 100 W/L^3 of a fish of 0.001 to 100,000 g and 0.1 to
// 300 cm: about 1 for a trout, 1.5 to 2 for a deep-bodied tilapia.
func FultonCondition(weight quantity.Grams, length Centimetres) (float64, error) {
	if err := firstError(weightBound.check(float64(weight)), lengthBound.check(float64(length))); err != nil {
		return 0, err
	}
	return fultonScale * float64(weight) / math.Pow(float64(length), 3), nil
}

// EnglishCondition turns a metric condition factor K (g/mm3), 1e-6 to 1e-4,
// into pounds for each cubic inch of length.
func EnglishCondition(k float64) (PoundsPerCubicInch, error) {
	if err := conditionBound.check(k); err != nil {
		return 0, err
	}
	return PoundsPerCubicInch(englishScale * k), nil
}

// WeightByCondition returns C L^3 for a condition factor of 1e-5 to 1e-2
// lb/in3 and a length of 0.1 to 100 in.
func WeightByCondition(c PoundsPerCubicInch, length quantity.Inches) (quantity.Pounds, error) {
	if err := firstError(englishBound.check(float64(c)), inchesBound.check(float64(length))); err != nil {
		return 0, err
	}
	return quantity.Pounds(float64(c) * math.Pow(float64(length), 3)), nil // Piper et al. 1982: W = C L^3
}

// WeightByLength returns a L^b, the length-weight relation of a stock, with a
// from 1e-7 to 10 and b from 2 to 4, for a length of 0.1 to 300 cm.
func WeightByLength(a, b float64, length Centimetres) (quantity.Grams, error) {
	if err := firstError(scaleBound.check(a), exponentBound.check(b), lengthBound.check(float64(length))); err != nil {
		return 0, err
	}
	return quantity.Grams(a * math.Pow(float64(length), b)), nil
}

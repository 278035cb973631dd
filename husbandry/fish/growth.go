package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// The thermal-unit growth coefficient is printed in two forms that differ by
// ten. They are two types; mixing them is the commonest slip in this field.
type (
	// TGC100 is the coefficient times 100: about 0.13 to 0.20 for trout.
	TGC100 float64
	// TGC1000 is the coefficient times 1000: about 1.3 to 2.0 for trout.
	TGC1000 float64
)

const formsApart = 10 // x1000 over x100

// Per1000 changes the form.
func (c TGC100) Per1000() TGC1000 { return TGC1000(c * formsApart) }

// Per100 changes the form.
func (c TGC1000) Per100() TGC100 { return TGC100(c / formsApart) }

const perThousand = 1000

// GrowthCoefficient returns the coefficient of fish that grew from w0 to w1,
// each 0.001 to 100,000 g, over 0.1 to 200,000 degree days. It must not be
// used above the optimum temperature, where growth falls (Jobling 2003).
func GrowthCoefficient(w0, w1 quantity.Grams, heat DegreeDays) (TGC1000, error) {
	if err := firstError(weightBound.check(float64(w0)), weightBound.check(float64(w1)), heatBound.check(float64(heat))); err != nil {
		return 0, err
	}
	return TGC1000(perThousand * (math.Cbrt(float64(w1)) - math.Cbrt(float64(w0))) / float64(heat)), nil // TGC = 1000 (W1^(1/3) - W0^(1/3)) / sum T
}

// WeightByHeat returns the weight of a fish of w0, 0.001 to 100,000 g, after
// 0.1 to 200,000 degree days at a coefficient of 0.01 to 20.
func WeightByHeat(w0 quantity.Grams, c TGC1000, heat DegreeDays) (quantity.Grams, error) {
	if err := firstError(weightBound.check(float64(w0)), coefficientBound.check(float64(c)), heatBound.check(float64(heat))); err != nil {
		return 0, err
	}
	root := math.Cbrt(float64(w0)) + float64(c)/perThousand*float64(heat)
	return quantity.Grams(root * root * root), nil // W = (W0^(1/3) + TGC/1000 sum T)^3
}

// HeatToWeight returns the degree days a fish of w0 needs to reach the target;
// 0 when it is there already. Ranges are those of WeightByHeat.
func HeatToWeight(w0, target quantity.Grams, c TGC1000) (DegreeDays, error) {
	if err := firstError(weightBound.check(float64(w0)), weightBound.check(float64(target)), coefficientBound.check(float64(c))); err != nil {
		return 0, err
	}
	return DegreeDays(max(0, perThousand*(math.Cbrt(float64(target))-math.Cbrt(float64(w0)))/float64(c))), nil
}

// Heat returns the degree days of a steady temperature of 0 to 45 degC over
// 0.01 to 3650 days.
func Heat(t quantity.Celsius, days quantity.Days) (DegreeDays, error) {
	if err := firstError(waterBound.check(float64(t)), daysBound.check(float64(days))); err != nil {
		return 0, err
	}
	return DegreeDays(float64(t) * float64(days)), nil
}

// An IwamaExponent is the power of weight in the hatchery model.
type IwamaExponent float64

// The exponents in print.
const (
	ExponentAsPrinted IwamaExponent = 0.33      // Iwama & Tautz 1981, abstract
	ExponentCubeRoot  IwamaExponent = 1.0 / 3.0 // as later authors take it
)

// IwamaTautz returns the weight of a salmonid of w0, 0.001 to 100,000 g, after
// 0.01 to 3650 days at 0 to 45 degC and normal feeding. Valid in hatchery
// temperatures only, where growth rises in a straight line with warmth.
func IwamaTautz(w0 quantity.Grams, t quantity.Celsius, days quantity.Days, exponent IwamaExponent) (quantity.Grams, error) {
	if err := firstError(weightBound.check(float64(w0)), waterBound.check(float64(t)), daysBound.check(float64(days)),
		quantity.Within("exponent", float64(exponent), float64(ExponentAsPrinted), float64(ExponentCubeRoot), "", "Iwama & Tautz 1981")); err != nil {
		return 0, err
	}
	root := math.Pow(float64(w0), float64(exponent)) + float64(t)/perThousand*float64(days)
	return quantity.Grams(math.Pow(root, 1/float64(exponent))), nil // W^0.33 = W0^0.33 + (T/1000) t
}

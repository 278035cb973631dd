package fish

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Fan is an estimate with the ends of its interval.
type Fan[T ~float64] struct {
	Low, Middle, High T
}

// HeatFan returns the degree days to the target weight when the growth
// coefficient is known only to within a coefficient of variation of 0.001 to 2,
// taken as lognormal with c as its median: the middle, and the ends of an
// interval that holds with the given level, 0.5 to 0.999.
func HeatFan(w0, target quantity.Grams, c TGC1000, cv, level quantity.Fraction) (Fan[DegreeDays], error) {
	if err := firstError(cvBound.check(float64(cv)), levelBound.check(float64(level))); err != nil {
		return Fan[DegreeDays]{}, err
	}
	middle, err := HeatToWeight(w0, target, c)
	if err != nil {
		return Fan[DegreeDays]{}, err
	}
	reach := math.Exp(chance.NormalQuantile((1+float64(level))/2) * math.Sqrt(math.Log1p(float64(cv)*float64(cv))))
	return Fan[DegreeDays]{middle / DegreeDays(reach), middle, middle * DegreeDays(reach)}, nil
}

// DaysToWeight returns the days a fish of w0 needs to the target at a steady
// temperature above 0, up to 45 degC. Above the species' optimum use
// GrowthUnits and DayOfHeat.
func DaysToWeight(w0, target quantity.Grams, c TGC1000, t quantity.Celsius) (quantity.Days, error) {
	if err := growingBound.check(float64(t)); err != nil {
		return 0, err
	}
	heat, err := HeatToWeight(w0, target, c)
	return quantity.Days(float64(heat) / float64(t)), err
}

// ReadyFan returns the days to the target at a steady temperature, with the
// interval of HeatFan.
func ReadyFan(w0, target quantity.Grams, c TGC1000, cv quantity.Fraction, t quantity.Celsius, level quantity.Fraction) (Fan[quantity.Days], error) {
	if err := growingBound.check(float64(t)); err != nil {
		return Fan[quantity.Days]{}, err
	}
	heat, err := HeatFan(w0, target, c, cv, level)
	days := func(d DegreeDays) quantity.Days { return quantity.Days(float64(d) / float64(t)) }
	return Fan[quantity.Days]{days(heat.Low), days(heat.Middle), days(heat.High)}, err
}

// DayOfHeat returns the day, counted from the start of the series and told in
// parts, on which daily degree days of 0 to 45 add up to heat, 0 to 200,000;
// not reached when the series ends before.
func DayOfHeat(daily []DegreeDays, heat DegreeDays) (day quantity.Days, reached bool, err error) {
	if err := heatToComeBound.check(float64(heat)); err != nil {
		return 0, false, err
	}
	if heat == 0 {
		return 0, true, nil
	}
	for i, d := range daily {
		if err := dailyHeatBound.check(float64(d)); err != nil {
			return 0, false, err
		}
		if d >= heat {
			return quantity.Days(float64(i) + float64(heat/d)), true, nil
		}
		heat -= d
	}
	return 0, false, nil
}

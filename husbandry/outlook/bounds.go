package outlook

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// A bound is the range in which an input makes sense. It stands once and serves
// both the functions and what Formulas say of themselves. The ranges
// are our own, those of loops people build, wide on purpose.
type bound struct {
	name      string
	low, high float64
	unit      string
}

var (
	feedBound    = bound{"ammonia set free", 0, 1000, "mg/L/h"}
	rateBound    = bound{"rate of a step", 0, 100, "1/h"}
	poolBound    = bound{"nitrogen in the water", 0, 100_000, "mg/L"}
	speedBound   = bound{"greatest speed of a step", 1e-6, 1000, "mg/L/h"}
	halfBound    = bound{"concentration at half speed", 1e-6, 10_000, "mg/L"}
	hoursBound   = bound{"time", 0, 100_000, "h"}
	volumeBound  = bound{"volume of water", 0.0001, 100_000, "m3"}
	densityBound = bound{"density of water", 900, 1100, "kg/m3"}
	heatBound    = bound{"specific heat of water", 3500, 4500, "J/kg/K"}
	lossBound    = bound{"heat lost for each kelvin", 0.001, 1e7, "W/K"}
	heaterBound  = bound{"power of the heater", 0, 1e7, "W"}
	airBound     = bound{"air temperature", -60, 60, "degC"}
	swingBound   = bound{"daily swing of the air", 0, 40, "K"}
	phaseBound   = bound{"hour at which the air passes its mean, rising", 0, 24, "h"}
	waterBound   = bound{"water temperature", -60, 100, "degC"}

	areaBound      = bound{"area", 0.0001, 100_000, "m2"}
	voidBound      = bound{"void fraction", 0, 1, ""}
	levelBound     = bound{"level", 0, 100, "m"}
	pumpBound      = bound{"flow of the pump", 0.0001, 10_000, "L/s"}
	dischargeBound = bound{"discharge coefficient", 0.1, 1, ""}
	outletBound    = bound{"area of the outlet", 1e-6, 3, "m2"}
	gravityBound   = bound{"gravity", 9.80665, 9.80665, "m/s2"}
)

// check reports a RangeError when v lies outside the bound.
func (b *bound) check(v float64) error {
	return quantity.Within(b.name, v, b.low, b.high, b.unit, quantity.OwnBounds)
}

// input describes an input of a Formula that has this bound.
func (b *bound) input(name, meaning string, also ...string) formula.Input {
	in := formula.Input{Name: name, Meaning: meaning, Unit: b.unit, Low: b.low, High: b.high}
	for _, a := range also {
		in.Also = append(in.Also, formula.Alias{Name: a})
	}
	return in
}

// usual describes an input with a default.
func (b *bound) usual(name, meaning, value string, also ...string) formula.Input {
	in := b.input(name, meaning, also...)
	in.Default = value
	return in
}

// firstError returns the first failure of several checks, or nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

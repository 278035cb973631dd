package loop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// A bound is the range in which an input makes sense. It stands once and serves
// both the functions and what Formulas say of themselves. Ranges of our own are
// those of loops people build, wide on purpose.
type bound struct {
	name      string
	low, high float64
	unit      string
	source    string
}

var (
	lengthBound     = bound{"length", 0.001, 10_000, "m", quantity.OwnBounds}
	depthBound      = bound{"depth", 0.001, 20, "m", quantity.OwnBounds}
	diameterBound   = bound{"inside diameter", 0.001, 2, "m", quantity.OwnBounds}
	tankBound       = bound{"tank diameter", 0.01, 100, "m", quantity.OwnBounds}
	areaBound       = bound{"area", 0.0001, 100_000, "m2", quantity.OwnBounds}
	volumeBound     = bound{"volume", 0.0001, 100_000, "m3", quantity.OwnBounds}
	flowBound       = bound{"flow", 0.001, 1_000_000, "L/min", quantity.OwnBounds}
	timeBound       = bound{"retention time", 0.0001, 8_760, "h", quantity.OwnBounds}
	loadingBound    = bound{"surface loading", 0.00001, 0.1, "m/s", quantity.OwnBounds}
	headBound       = bound{"head", 0, 100, "m", quantity.OwnBounds}
	dischargeBound  = bound{"discharge coefficient", 0.1, 1, "", quantity.OwnBounds}
	voidBound       = bound{"void fraction", 0, 1, "", quantity.ByDefinition}
	litresBound     = bound{"volume", 0, 10_000_000, "L", quantity.OwnBounds}
	minutesBound    = bound{"time", 0, 1_440, "min", quantity.OwnBounds}
	roughnessBound  = bound{"Hazen-Williams C", 60, 160, "", "plastic 140 to 150, old iron 60"}
	speedBound      = bound{"speed of water", 0.0001, 20, "m/s", quantity.OwnBounds}
	factorBound     = bound{"friction factor", 0.001, 64, "", quantity.OwnBounds}
	laminarBound    = bound{"Reynolds number", 1, 2_000, "", "laminar flow, 64/Re"}
	turbulentBound  = bound{"Reynolds number", 5_000, 1e8, "", "Swamee & Jain 1976"}
	relativeBound   = bound{"relative roughness", 1e-6, 0.01, "", "Swamee & Jain 1976"}
	viscosityBound  = bound{"kinematic viscosity", 5e-7, 2e-6, "m2/s", "liquid fresh water"}
	lossBound       = bound{"sum of fittings K", 0, 1_000, "", quantity.OwnBounds}
	uBound          = bound{"U-value", 0.01, 20, "W/m2 K", quantity.OwnBounds}
	airBound        = bound{"air temperature", -60, 60, "degC", quantity.OwnBounds}
	waterBound      = bound{"water temperature", 0, 45, "degC", quantity.OwnBounds}
	changesBound    = bound{"air changes", 0, 60, "1/h", quantity.OwnBounds}
	riseBound       = bound{"temperature rise", 0, 100, "K", quantity.OwnBounds}
	humidityBound   = bound{"relative humidity", 0, 100, "%", quantity.ByDefinition}
	windBound       = bound{"air speed", 0, 10, "m/s", quantity.OwnBounds}
	percentBound    = bound{"share of volume", 0, 100, "%/d", quantity.OwnBounds}
	balanceBound    = bound{"water in or out", 0, 1_000_000, "L/d", quantity.OwnBounds}
	powerBound      = bound{"power", 0, 1_000_000, "W", quantity.OwnBounds}
	loadBound       = bound{"load", 0.1, 1_000_000, "W", quantity.OwnBounds}
	dayBound        = bound{"hours a day", 0, 24, "h", quantity.ByDefinition}
	batteryBound    = bound{"battery", 0, 10_000_000, "Wh", quantity.OwnBounds}
	usableBound     = bound{"usable share", 0.01, 1, "", quantity.OwnBounds}
	efficiencyBound = bound{"efficiency", 0.01, 1, "", quantity.OwnBounds}
	backupBound     = bound{"hours of backup", 0, 8_760, "h", quantity.OwnBounds}
	energyBound     = bound{"energy a day", 0, 1_000_000, "kWh", quantity.OwnBounds}
	priceBound      = bound{"price", 0, 1_000_000, "per kWh", quantity.OwnBounds}
	daysBound       = bound{"days", 0, 366, "d", quantity.OwnBounds}
)

// check reports a RangeError when v lies outside the bound.
func (b *bound) check(v float64) error {
	return quantity.Within(b.name, v, b.low, b.high, b.unit, b.source)
}

// input describes an input of a Formula that has this bound.
func (b *bound) input(name, meaning string, also ...formula.Alias) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Unit: b.unit, Low: b.low, High: b.high, Also: also}
}

// converted returns the bound in another unit.
func (b *bound) converted(change func(float64) float64, unit string) *bound {
	return &bound{b.name, change(b.low), change(b.high), unit, b.source}
}

// instead describes an input that may stand in the place of another.
func (b *bound) instead(name, meaning string, also ...formula.Alias) formula.Input {
	in := b.input(name, meaning, also...)
	in.Default = notGiven
	return in
}

// given describes an input with a default.
func (b *bound) given(name, meaning, value string, also ...formula.Alias) formula.Input {
	in := b.input(name, meaning, also...)
	in.Default = value
	return in
}

// notGiven is the default of an input that may be left out.
const notGiven = "-"

// firstError returns the first failure of several checks, or nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

package crop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const (
	fao56 = "FAO-56 (Allen and others 1998)"
	fao61 = "FAO-61 annex 1"
)

// A bound is the range in which an input makes sense. It stands once and serves
// both the functions and what Formulas say of themselves. The ranges are those
// of places where people grow food, wide on purpose: the source named is that of
// the formula, else they are bounds of our own.
type bound struct {
	name      string
	low, high float64
	unit      string
	source    string
}

var (
	airBound          = bound{"air temperature", -60, 60, "degC", fao56}
	vapourBound       = bound{"vapour pressure", 0, 20, "kPa", fao56}
	humidityBound     = bound{"humidity", 0, 100, "%", fao56}
	elevationBound    = bound{"elevation", -430, 9_000, "m", fao56}
	pressureBound     = bound{"air pressure", 30, 110, "kPa", fao56}
	psychrometerBound = bound{"psychrometer constant", 0.0005, 0.0015, "1/degC", fao56}
	yearDayBound      = bound{"day of the year", 1, 366, "", fao56}
	latitudeBound     = bound{"latitude", -90, 90, "deg", fao56}
	declinationBound  = bound{"solar declination", -0.41, 0.41, "rad", fao56}
	clockBound        = bound{"middle of the hour", 0, 24, "h", fao56}
	meridianBound     = bound{"longitude, west", 0, 360, "deg", fao56}
	hourAngleBound    = bound{"hour angle", -7, 7, "rad", fao56}
	radiationBound    = bound{"radiation", 0, 50, "MJ/m2", fao56}
	islandBound       = bound{"extraterrestrial radiation", 10, 50, "MJ/m2", fao56}
	clearSkyBound     = bound{"clear-sky radiation", 0.1, 50, "MJ/m2", fao56}
	energyBound       = bound{"net radiation", -20, 50, "MJ/m2", fao56}
	dayLengthBound    = bound{"day length", 0, 24, "h", quantity.ByDefinition}
	daylightBound     = bound{"daylight hours", 0.1, 24, "h", fao56}
	sunFactorBound    = bound{"radiation factor", 0.1, 0.25, "", fao56}
	shareBound        = bound{"share", 0, 1, "", quantity.ByDefinition}
	gaugeWindBound    = bound{"wind speed", 0, 60, "m/s", fao56}
	gaugeBound        = bound{"height of the wind gauge", 0.5, 200, "m", fao56}
	windBound         = bound{"wind speed at 2 m", 0, 20, "m/s", fao56}
	slopeBound        = bound{"slope of the vapour pressure curve", 0, 1, "kPa/degC", fao56}
	gammaBound        = bound{"psychrometric constant", 0.01, 0.1, "kPa/degC", fao56}
	coefficientBound  = bound{"crop coefficient", 0, 1.5, "", fao56}
	usualWindBound    = bound{"wind speed at 2 m", 1, 6, "m/s", fao56}
	dryHourBound      = bound{"lowest humidity", 20, 80, "%", fao56}
	cropHeightBound   = bound{"crop height", 0.1, 10, "m", fao56}
	referenceBound    = bound{"reference evapotranspiration", 0, 20, "mm", fao56}
	cropWaterBound    = bound{"crop evapotranspiration", 0, 30, "mm", fao56}
	areaBound         = bound{"area", 0.01, 100_000, "m2", quantity.OwnBounds}
	freeBound         = bound{"free area of a bed", 0, 1_000_000, "m2", quantity.OwnBounds}
	extractBound      = bound{"conductivity of the saturated extract", 0, 50, "dS/m", fao61}
	thresholdBound    = bound{"salinity threshold", 0, 20, "dS/m", fao61}
	saltSlopeBound    = bound{"salinity slope", 0, 100, "% for each dS/m", fao61}
	fieldYieldBound   = bound{"yield", 0, 500, "short ton/acre", quantity.OwnBounds}
	yieldBound        = bound{"yield", 0, 112, "kg/m2", quantity.OwnBounds}
	fluxBound         = bound{"photon flux", 0, 3_000, "umol/m2/s", quantity.OwnBounds}
	lampBound         = bound{"hours of lamp light", 0, 24, "h", quantity.ByDefinition}
	plantsBound       = bound{"plants", 1, 1_000_000, "", quantity.OwnBounds}
	fewPlantsBound    = bound{"plants", 1, 10_000, "", quantity.OwnBounds}
	germinationBound  = bound{"germination", 0.01, 1, "", quantity.OwnBounds}
	spareBound        = bound{"spare plants", 0, 2, "", quantity.OwnBounds}
	chanceBound       = bound{"chance", 0.5, 0.999, "", quantity.OwnBounds}
	seedsBound        = bound{"seeds", 1, 10_000_000, "", quantity.OwnBounds}
	spacingBound      = bound{"spacing", 1, 1_000, "cm", quantity.OwnBounds}
	feedBound         = bound{"feed a day", 0, 1_000_000, "g", quantity.OwnBounds}
	yearsBound        = bound{"years on record", 3, 1_000, "", quantity.OwnBounds}
	seasonDayBound    = bound{"day of the season", 1, 366, "", quantity.OwnBounds}
	seasonBound       = bound{"days of the season", 7, 3_640, "", quantity.OwnBounds}
	useBound          = bound{"use in a week", 0.001, 100_000, "kg", quantity.OwnBounds}
	ageBound          = bound{"age", 0, 100, "years", quantity.OwnBounds}
	heatBound         = bound{"degree days needed", 0, 20_000, "degree day", quantity.OwnBounds}
	valueBound        = bound{"value", 0, 5_000, "", quantity.OwnBounds}
)

// check reports a RangeError when v lies outside the bound.
func (b *bound) check(v float64) error { return b.checkAs(b.name, v) }

// checkAs does the same and calls the value by another name.
func (b *bound) checkAs(name string, v float64) error {
	return quantity.Within(name, v, b.low, b.high, b.unit, b.source)
}

// input describes an input of a Formula that has this bound.
func (b *bound) input(name, meaning string, also ...formula.Alias) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Unit: b.unit, Low: b.low, High: b.high, Also: also}
}

// given describes an input with a default.
func (b *bound) given(name, meaning, value string, also ...formula.Alias) formula.Input {
	in := b.input(name, meaning, also...)
	in.Default = value
	return in
}

// maybe describes an input that need not be given.
func (b *bound) maybe(name, meaning string, also ...formula.Alias) formula.Input {
	return b.given(name, meaning, notGiven, also...)
}

// firstError returns the first error that is one.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// orNothing gives the zero value in the place of a result that came with an
// error, so that nobody takes half an answer for one.
func orNothing[T any](result T, err error) (T, error) {
	if err != nil {
		var nothing T
		return nothing, err
	}
	return result, nil
}

package fish

import "freshet.example/husbandry/quantity"

// A bound is the range in which a value is valid. Formulas declare it and
// functions check it, so that the two cannot part.
type bound struct {
	name      string
	low, high float64
	unit      string
}

const boundSource = quantity.OwnBounds

func (b bound) check(v float64) error {
	return quantity.Within(b.name, v, b.low, b.high, b.unit, boundSource)
}

// Bounds wide enough for any fish in a small grower's tank; what lies outside
// is a slip of the pen.
var (
	weightBound      = bound{"weight of a fish", 0.001, 100000, "g"}
	gainBound        = bound{"gain in weight", -100000, 100000, "g"}
	daysBound        = bound{"time", 0.01, 3650, "d"}
	waterBound       = bound{"water temperature", 0, 45, "degC"}
	fahrenheitBound  = bound{"water temperature", 32, 113, "degF"}
	growingBound     = bound{"water temperature", 0.1, 45, "degC"} // at 0 degC no number of days brings growth
	heatToComeBound  = bound{"degree days", 0, 200000, "degC d"}
	dailyHeatBound   = bound{"degree days of a day", 0, 45, "degC d"}
	airBound         = bound{"air temperature", -60, 60, "degC"}
	heatBound        = bound{"degree days", 0.1, 200000, "degC d"}
	coefficientBound = bound{"growth coefficient x1000", 0.01, 20, ""}
	rateBound        = bound{"specific growth rate", -50, 50, "%/d"}
	gainShareBound   = bound{"gain as share of start", -0.999, 1000, ""}
	feedBound        = bound{"feed", 0, 1e9, "g"}
	growthBound      = bound{"gain of all fish", -1e6, 1e6, "kg"}
	massBound        = bound{"fish", 0, 1e6, "kg"}
	someMassBound    = bound{"fish", 0.001, 1e6, "kg"}
	proteinFedBound  = bound{"protein fed", 1e-6, 1e9, "g"}
	netGainBound     = bound{"gain in weight", 1e-6, 1e9, "g"}
	fishBound        = bound{"number of fish", 0, 1e7, ""}
	someFishBound    = bound{"number of fish", 1, 1e7, ""}
	shareBound       = bound{"share", 0, 1, ""}
	innerShareBound  = bound{"share", 0.0001, 0.9999, ""}
	cvBound          = bound{"coefficient of variation", 0.001, 2, ""}
	levelBound       = bound{"level of the interval", 0.5, 0.999, ""}
	percentBound     = bound{"feed as share of body weight", 0, 30, "%/d"}
	rationBound      = bound{"feed as share of body weight", 0.05, 30, "%/d"}
	appetiteBound    = bound{"appetite", 0, 1, ""}
	volumeBound      = bound{"volume of water", 1, 1e8, "L"}
	tankBound        = bound{"tank", 0.001, 1e5, "m3"}
	densityBound     = bound{"stocking density", 0.1, 300, "kg/m3"}
	numberBound      = bound{"fish to a cubic metre", 0.1, 100000, "1/m3"}
	oxygenBound      = bound{"dissolved oxygen", 0, 40, "mg/L"}
	supplyBound      = bound{"oxygen supply", 0, 1e6, "g/h"}
	airPowerBound    = bound{"power of air pumps", 0, 1e6, "W"}
	efficiencyBound  = bound{"standard aeration efficiency", 0.05, 10, "kg/kWh"}
	flowBound        = bound{"flow through the fish tank", 0, 1e6, "L/min"}
	perFeedBound     = bound{"oxygen for each kilogram of feed", 50, 2000, "g/kg"}
	useBound         = bound{"oxygen use", 10, 3000, "mg/kg/h"}
	lossBound        = bound{"heat loss", 0.01, 1e6, "W/K"}
	constantBound    = bound{"time constant", 0.1, 1e5, "h"}
	leftBound        = bound{"share of the difference left", 0.001, 0.999, ""}
	hoursBound       = bound{"time", 0.01, 10000, "h"}
	lengthBound      = bound{"length of a fish", 0.1, 300, "cm"}
	inchesBound      = bound{"length of a fish", 0.1, 100, "in"}
	conditionBound   = bound{"condition factor", 1e-6, 1e-4, ""}
	englishBound     = bound{"condition factor", 1e-5, 1e-2, "lb/in3"}
	exponentBound    = bound{"exponent of length", 2, 4, ""}
	scaleBound       = bound{"factor of length", 1e-7, 10, ""}
	precisionBound   = bound{"precision", 0.005, 1, ""}
	indexBound       = bound{"flow index", 0.01, 10, ""}
	gallonsBound     = bound{"flow", 0.01, 1e6, "gal/min"}
	poundsBound      = bound{"load of fish", 0, 1e6, "lb"}
	warmerBound      = bound{"rise in temperature", -15, 15, "degF"}
	weeksBound       = bound{"weeks between harvests", 0.1, 520, "wk"}
	yieldBound       = bound{"yield", 0, 100, "%"}
	proteinBound     = bound{"protein of the fish", 0, 100, "%"}
	factorBound      = bound{"protein for each weight of nitrogen", 4, 8, ""}
	curveBound       = bound{"value of the curve", 1e-6, 1e7, ""}
	curveRateBound   = bound{"rate of the curve", 1e-6, 100, ""}
	timeBound        = bound{"time", -1e5, 1e5, ""}
	poundsPerGallon  = bound{"fish to a gallon", 0, 2, "lb/gal"}
	conversionBound  = bound{"feed conversion ratio", 0.1, 20, ""}
	dailyLengthBound = bound{"daily gain in length", 0, 1, "in/d"}

	// The next are checked by package nitrogen, and declared here.
	loopTankBound   = bound{"tank", 0, 1e8, "L"}
	surfaceBound    = bound{"filter surface", 0, 1e6, "m2"}
	arealBound      = bound{"areal rate", 0.01, 5, "g N/m2/d"}
	filterAgeBound  = bound{"age of the filter", 0, 36500, "d"}
	filterWarmBound = bound{"water temperature", 7, 35, "degC"}
	plantAreaBound  = bound{"area of plants", 0, 1e6, "m2"}
	plantRatioBound = bound{"feed ratio", 5, 300, "g/m2/d"}
	feedProtein     = bound{"protein of the feed", 0.1, 0.7, ""}
)

// firstError returns the first that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

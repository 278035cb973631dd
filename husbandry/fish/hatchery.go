package fish

import "freshet.example/husbandry/quantity"

// FlowIndexOf returns pounds of fish for each inch of their length and gallon
// a minute: load 0 to 1e6 lb, length 0.1 to 100 in, flow 0.01 to 1e6 gal/min.
func FlowIndexOf(load quantity.Pounds, length quantity.Inches, flow quantity.USGallonsPerMinute) (FlowIndex, error) {
	if err := firstError(poundsBound.check(float64(load)), inchesBound.check(float64(length)), gallonsBound.check(float64(flow))); err != nil {
		return 0, err
	}
	return FlowIndex(float64(load) / (float64(length) * float64(flow))), nil // Piper et al. 1982: F = W / (L I)
}

// LoadByFlowIndex returns the pounds of fish that a flow carries at a flow
// index of 0.01 to 10. Ranges are those of FlowIndexOf.
func LoadByFlowIndex(index FlowIndex, length quantity.Inches, flow quantity.USGallonsPerMinute) (quantity.Pounds, error) {
	if err := firstError(indexBound.check(float64(index)), inchesBound.check(float64(length)), gallonsBound.check(float64(flow))); err != nil {
		return 0, err
	}
	return quantity.Pounds(float64(index) * float64(length) * float64(flow)), nil
}

// FlowIndexAt carries a flow index from one oxygen of the inflow to another, in
// proportion to what lies above the least allowed (0 to 40 mg/L each). Inflow
// at or below the least carries no fish.
func FlowIndexAt(index FlowIndex, inflow, newInflow, least quantity.MgPerL) (FlowIndex, error) {
	if err := firstError(indexBound.check(float64(index)), oxygenBound.check(float64(inflow)), oxygenBound.check(float64(newInflow)), oxygenBound.check(float64(least)),
		quantity.Within("oxygen above the least allowed", float64(inflow-least), leastOxygen, oxygenBound.high, "mg/L", boundSource)); err != nil {
		return 0, err
	}
	return index * FlowIndex(max(0, newInflow-least)/(inflow-least)), nil // Piper et al. 1982, p. 70
}

// Below this difference of oxygen, mg/L, a quotient tells nothing.
const leastOxygen = 0.1

const perFahrenheit = 0.0556 // Piper et al. 1982, p. 356: 5.56 % for each degF

// LoadAt carries a load of 0 to 1e6 lb to water warmer by -15 to 15 degF: 5.56
// % less for each degree, in a straight line.
func LoadAt(load quantity.Pounds, warmer float64) (quantity.Pounds, error) {
	if err := firstError(poundsBound.check(float64(load)), warmerBound.check(warmer)); err != nil {
		return 0, err
	}
	return load * quantity.Pounds(1-perFahrenheit*warmer), nil
}

const willoughby = 0.0545 // Willoughby 1968, from memory: pounds of feed a day for each gal/min and mg/L

// TroutFeedByFlow returns the day's feed of trout that a flow of 0.01 to 1e6
// gal/min supports, giving up oxygen from inflow to outflow, 0 to 40 mg/L.
func TroutFeedByFlow(flow quantity.USGallonsPerMinute, inflow, outflow quantity.MgPerL) (quantity.Pounds, error) {
	if err := firstError(gallonsBound.check(float64(flow)), oxygenBound.check(float64(inflow)), oxygenBound.check(float64(outflow))); err != nil {
		return 0, err
	}
	return quantity.Pounds(willoughby * float64(flow) * max(0, float64(inflow-outflow))), nil
}

package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// WindAtTwoMetres turns a wind speed measured higher up into that at 2 m over
// short grass. 0 to 60 m/s; 0.5 to 200 m high.
func WindAtTwoMetres(u MetresPerSecond, at quantity.Metres) (MetresPerSecond, error) {
	err := firstError(
		gaugeWindBound.check(float64(u)),
		gaugeBound.check(float64(at)))
	if err != nil {
		return 0, err
	}
	return u * MetresPerSecond(4.87/math.Log(67.8*float64(at)-5.42)), nil // FAO-56 eq. 47
}

// Air is what the Penman-Monteith equation needs to know of the air.
type Air struct {
	Temperature quantity.Celsius     // mean of the period, -60 to 60
	Wind        MetresPerSecond      // at 2 m, 0 to 20
	Saturation  quantity.Kilopascals // saturation vapour pressure of the period, 0 to 20
	Actual      quantity.Kilopascals // actual vapour pressure, 0 to 20
	Slope       KPaPerC              // of the vapour pressure curve, 0 to 1
	Gamma       KPaPerC              // psychrometric constant, 0.01 to 0.1
}

func (a Air) check() error {
	return firstError(airTemperature(a.Temperature),
		windBound.check(float64(a.Wind)),
		vapourPressure("saturation vapour pressure", a.Saturation),
		vapourPressure("actual vapour pressure", a.Actual),
		slopeBound.check(float64(a.Slope)),
		gammaBound.check(float64(a.Gamma)))
}

func energy(rn, g MJPerM2) error {
	return firstError(energyBound.check(float64(rn)), energyBound.checkAs("soil heat flux", float64(g)))
}

// Evapotranspiration returns the water that well-watered short grass gives off
// in a day, mm, from net radiation and soil heat flux in MJ/m2 a day (FAO-56
// eq. 6). For a month use daily means and multiply by its days. Outdoors only:
// see GreenhouseCaveat.
func Evapotranspiration(rn, g MJPerM2, air Air) (Millimetres, error) {
	if err := firstError(air.check(), energy(rn, g)); err != nil {
		return 0, err
	}
	return penmanMonteith(rn-g, air, 900), nil
}

// HourlyEvapotranspiration returns the same for an hour, from MJ/m2 an hour
// (FAO-56 eq. 53).
func HourlyEvapotranspiration(rn, g MJPerM2, air Air) (Millimetres, error) {
	if err := firstError(air.check(), energy(rn, g)); err != nil {
		return 0, err
	}
	return penmanMonteith(rn-g, air, 37), nil
}

func penmanMonteith(available MJPerM2, a Air, aerodynamic float64) Millimetres {
	slope, gamma, wind := float64(a.Slope), float64(a.Gamma), float64(a.Wind)
	deficit := float64(a.Saturation - a.Actual)
	radiant := 0.408 * slope * float64(available)
	drying := gamma * aerodynamic / (float64(a.Temperature) + 273) * wind * deficit
	return Millimetres((radiant + drying) / (slope + gamma*(1+0.34*wind)))
}

// Hargreaves returns reference evapotranspiration, mm a day, from temperatures
// alone (FAO-56 eq. 52). The mean temperature is that of the extremes. It
// overestimates in damp places; adjust against a full station where one is near.
func Hargreaves(max, min quantity.Celsius, ra MJPerM2) (Millimetres, error) {
	if err := firstError(extremes(max, min), radiation("extraterrestrial radiation", ra)); err != nil {
		return 0, err
	}
	mean := float64(max+min) / 2
	et := 0.0023 * (mean + 17.8) * math.Sqrt(float64(max-min)) * 0.408 * float64(ra)
	return Millimetres(math.Max(0, et)), nil
}

// HargreavesSum adds up Hargreaves over days that follow one another from that
// day of the year on; a day after the 365th is the first again.
func HargreavesSum(lat Degrees, from int, days []Temperatures[quantity.Celsius]) (Millimetres, error) {
	if err := yearDay(from); err != nil {
		return 0, err
	}
	sum := Millimetres(0)
	for i, t := range days {
		above, err := ExtraterrestrialRadiation(lat, (from+i-1)%365+1)
		if err != nil {
			return 0, err
		}
		et, err := Hargreaves(t.Max, t.Min, above)
		if err != nil {
			return 0, err
		}
		sum += et
	}
	return sum, nil
}

// GreenhouseCaveat is the warning to give with any water use computed from
// outdoor weather for plants under cover.
const GreenhouseCaveat = "This is for open ground. Under cover there is less sun and hardly any wind, so plants use less; " +
	"no published rule turns outdoor figures into indoor ones, and setting the wind to nought drops the drying term altogether. " +
	"Measure the top-up water instead."

package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

func airTemperature(t quantity.Celsius) error { return airBound.check(float64(t)) }

func vapourPressure(name string, e quantity.Kilopascals) error {
	return vapourBound.checkAs(name, float64(e))
}

func humidity(name string, rh quantity.Percent) error {
	return humidityBound.checkAs(name, float64(rh))
}

func height(elevation quantity.Metres) error { return elevationBound.check(float64(elevation)) }

// SaturationVapourPressure returns the pressure of water vapour over water at
// that air temperature, kPa. -60 to 60 degC. The same formula gives the actual
// vapour pressure from the dew point.
func SaturationVapourPressure(t quantity.Celsius) (quantity.Kilopascals, error) {
	if err := airTemperature(t); err != nil {
		return 0, err
	}
	return saturation(t), nil
}

func saturation(t quantity.Celsius) quantity.Kilopascals {
	c := float64(t)
	return quantity.Kilopascals(0.6108 * math.Exp(17.27*c/(c+237.3))) // FAO-56 eq. 11
}

// MeanSaturationVapourPressure returns the mean of the pressures at the day's
// highest and lowest temperature (FAO-56 eq. 12), which is more than the
// pressure at the mean temperature.
func MeanSaturationVapourPressure(max, min quantity.Celsius) (quantity.Kilopascals, error) {
	if err := extremes(max, min); err != nil {
		return 0, err
	}
	return (saturation(max) + saturation(min)) / 2, nil
}

func extremes(max, min quantity.Celsius) error {
	if err := airBound.checkAs("highest air temperature", float64(max)); err != nil {
		return err
	}
	return quantity.Within("lowest air temperature", float64(min), airBound.low, float64(max), "degC", fao56)
}

// VapourPressureSlope returns how fast saturation vapour pressure rises with
// temperature, kPa for a degree. -60 to 60 degC.
func VapourPressureSlope(t quantity.Celsius) (KPaPerC, error) {
	if err := airTemperature(t); err != nil {
		return 0, err
	}
	d := float64(t) + 237.3
	return KPaPerC(4098 * float64(saturation(t)) / (d * d)), nil // FAO-56 eq. 13
}

// AtmosphericPressure returns the usual air pressure at a height above the sea,
// kPa. -430 to 9000 m.
func AtmosphericPressure(elevation quantity.Metres) (quantity.Kilopascals, error) {
	if err := height(elevation); err != nil {
		return 0, err
	}
	return quantity.Kilopascals(101.3 * math.Pow((293-0.0065*float64(elevation))/293, 5.26)), nil // FAO-56 eq. 7
}

// PsychrometricConstant returns the constant of the wet and dry bulb at that
// air pressure, kPa for a degree. 30 to 110 kPa.
func PsychrometricConstant(pressure quantity.Kilopascals) (KPaPerC, error) {
	if err := pressureBound.check(float64(pressure)); err != nil {
		return 0, err
	}
	return KPaPerC(0.000665 * float64(pressure)), nil // FAO-56 eq. 8
}

// VapourPressureFromExtremes returns the actual vapour pressure from the day's
// highest and lowest humidity; the highest falls at the lowest temperature.
func VapourPressureFromExtremes(max, min quantity.Celsius, rhMax, rhMin quantity.Percent) (quantity.Kilopascals, error) {
	if err := firstError(extremes(max, min), humidity("highest humidity", rhMax), humidity("lowest humidity", rhMin)); err != nil {
		return 0, err
	}
	atNight := float64(saturation(min)) * float64(rhMax) / 100
	byDay := float64(saturation(max)) * float64(rhMin) / 100
	return quantity.Kilopascals((atNight + byDay) / 2), nil // FAO-56 eq. 17
}

// VapourPressureFromMaximum returns the actual vapour pressure from the highest
// humidity alone, for when the lowest is in doubt (FAO-56 eq. 18).
func VapourPressureFromMaximum(min quantity.Celsius, rhMax quantity.Percent) (quantity.Kilopascals, error) {
	if err := firstError(airTemperature(min), humidity("highest humidity", rhMax)); err != nil {
		return 0, err
	}
	return saturation(min) * quantity.Kilopascals(rhMax) / 100, nil
}

// VapourPressureFromMean returns the actual vapour pressure from the day's mean
// humidity: the least sure of the three ways (FAO-56 eq. 19).
func VapourPressureFromMean(max, min quantity.Celsius, rhMean quantity.Percent) (quantity.Kilopascals, error) {
	if err := firstError(extremes(max, min), humidity("mean humidity", rhMean)); err != nil {
		return 0, err
	}
	return (saturation(max) + saturation(min)) / 2 * quantity.Kilopascals(rhMean) / 100, nil
}

// A Psychrometer is how air passes the wet bulb: its constant, for a degree.
type Psychrometer float64

// The psychrometers of FAO-56.
const (
	Ventilated          Psychrometer = 0.000662 // air drawn past at about 5 m/s
	NaturallyVentilated Psychrometer = 0.000800 // about 1 m/s
	Unventilated        Psychrometer = 0.001200 // indoors
)

// VapourPressureFromWetBulb returns the actual vapour pressure from a wet and a
// dry bulb thermometer at that air pressure (FAO-56 eq. 15 and 16).
func VapourPressureFromWetBulb(dry, wet quantity.Celsius, pressure quantity.Kilopascals, p Psychrometer) (quantity.Kilopascals, error) {
	err := firstError(
		airTemperature(dry),
		quantity.Within("wet bulb temperature", float64(wet), -10, float64(dry), "degC", fao56),
		pressureBound.check(float64(pressure)),
		psychrometerBound.check(float64(p)))
	if err != nil {
		return 0, err
	}
	e := saturation(wet) - quantity.Kilopascals(float64(p)*float64(pressure)*float64(dry-wet))
	return orNothing(e, vapourPressure("vapour pressure of these bulbs", e))
}

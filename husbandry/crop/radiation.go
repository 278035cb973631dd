package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// stefanBoltzmann is the heat that a square metre gives off in a day, MJ for
// the fourth power of a kelvin (FAO-56 eq. 39); an hour has a 24th of it.
const stefanBoltzmann = 4.903e-9

// zeroCelsius is 0 degC in kelvin as FAO-56 rounds it.
const zeroCelsius = 273.16

func radiation(name string, r MJPerM2) error {
	return radiationBound.checkAs(name, float64(r))
}

// SolarRadiation returns the sun's energy at the ground from the hours of
// bright sunshine out of the daylight hours, with the usual Angstrom values
// 0.25 and 0.50 (FAO-56 eq. 35).
func SolarRadiation(sunshine, daylight quantity.Hours, ra MJPerM2) (MJPerM2, error) {
	err := firstError(
		daylightBound.check(float64(daylight)),
		quantity.Within("sunshine hours", float64(sunshine), 0, float64(daylight), "h", fao56),
		radiation("extraterrestrial radiation", ra))
	if err != nil {
		return 0, err
	}
	return MJPerM2((0.25 + 0.50*float64(sunshine/daylight)) * float64(ra)), nil
}

// SolarRadiationFromTemperature returns the sun's energy at the ground from the
// difference of the day's extremes (Hargreaves; FAO-56 eq. 50). The factor is
// about 0.16 inland and 0.19 at the coast; 0.1 to 0.25.
func SolarRadiationFromTemperature(max, min quantity.Celsius, ra MJPerM2, factor float64) (MJPerM2, error) {
	err := firstError(extremes(max, min), radiation("extraterrestrial radiation", ra),
		sunFactorBound.check(factor))
	if err != nil {
		return 0, err
	}
	return MJPerM2(factor * math.Sqrt(float64(max-min)) * float64(ra)), nil
}

// IslandSolarRadiation returns the sun's energy at the ground on an island up
// to 20 km wide and under 100 m high, by month (FAO-56 eq. 51, from memory).
func IslandSolarRadiation(ra MJPerM2) (MJPerM2, error) {
	if err := islandBound.check(float64(ra)); err != nil {
		return 0, err
	}
	return 0.7*ra - 4, nil
}

// ClearSkyRadiation returns the sun's energy at the ground under a clear sky.
func ClearSkyRadiation(elevation quantity.Metres, ra MJPerM2) (MJPerM2, error) {
	if err := firstError(height(elevation), radiation("extraterrestrial radiation", ra)); err != nil {
		return 0, err
	}
	return MJPerM2((0.75 + 2e-5*float64(elevation)) * float64(ra)), nil // FAO-56 eq. 37
}

// GrassAlbedo is the share of sunlight that the grass reference throws back
// (FAO-56 eq. 38).
const GrassAlbedo quantity.Fraction = 0.23

// NetShortwave returns the sunlight that is kept (FAO-56 eq. 38).
func NetShortwave(rs MJPerM2, albedo quantity.Fraction) (MJPerM2, error) {
	err := firstError(radiation("solar radiation", rs), shareBound.checkAs("albedo", float64(albedo)))
	if err != nil {
		return 0, err
	}
	return MJPerM2(1-albedo) * rs, nil
}

// NetLongwave returns the heat given off to the sky in a day. Solar radiation
// over clear-sky radiation is taken as 1 where it is more.
func NetLongwave(max, min quantity.Celsius, ea quantity.Kilopascals, rs, rso MJPerM2) (MJPerM2, error) {
	err := firstError(extremes(max, min), vapourPressure("actual vapour pressure", ea), radiation("solar radiation", rs),
		clearSkyBound.check(float64(rso)))
	if err != nil {
		return 0, err
	}
	warmth := (fourth(max) + fourth(min)) / 2
	return MJPerM2(stefanBoltzmann * warmth * skyFactor(ea, float64(rs/rso))), nil // FAO-56 eq. 39
}

// HourlyNetLongwave returns the heat given off to the sky in an hour. The
// clearness is solar over clear-sky radiation, 0 to 1; by night that of two to
// three hours before sunset.
func HourlyNetLongwave(t quantity.Celsius, ea quantity.Kilopascals, clearness quantity.Fraction) (MJPerM2, error) {
	err := firstError(airTemperature(t), vapourPressure("actual vapour pressure", ea),
		shareBound.checkAs("clearness", float64(clearness)))
	if err != nil {
		return 0, err
	}
	const hourly = 2.043e-10 // FAO-56 eq. 39 for hourly periods
	return MJPerM2(hourly * fourth(t) * skyFactor(ea, float64(clearness))), nil
}

// skyFactor is how much of the heat passes the air's vapour and the clouds.
func skyFactor(ea quantity.Kilopascals, clearness float64) float64 {
	vapour := 0.34 - 0.14*math.Sqrt(float64(ea))
	return vapour * (1.35*math.Min(clearness, 1) - 0.35)
}

func fourth(t quantity.Celsius) float64 {
	k := float64(t) + zeroCelsius
	return k * k * k * k
}

// NetRadiation returns what a day's sunlight leaves at the ground: the kept
// shortwave less the lost longwave (FAO-56 eq. 40).
func NetRadiation(kept, lost MJPerM2) (MJPerM2, error) {
	err := firstError(radiation("net shortwave radiation", kept), energyBound.checkAs("net longwave radiation", float64(lost)))
	if err != nil {
		return 0, err
	}
	return kept - lost, nil
}

// MonthlySoilHeat returns the heat that soil takes up in a month, MJ/m2 in a
// day, from the mean temperatures of the months before and after (FAO-56 eq. 43).
func MonthlySoilHeat(before, after quantity.Celsius) (MJPerM2, error) {
	if err := firstError(airTemperature(before), airTemperature(after)); err != nil {
		return 0, err
	}
	return MJPerM2(0.07 * float64(after-before)), nil
}

// MonthlySoilHeatSoFar returns the same while the next month is not yet known,
// from the month before and this month (FAO-56 eq. 44).
func MonthlySoilHeatSoFar(before, this quantity.Celsius) (MJPerM2, error) {
	if err := firstError(airTemperature(before), airTemperature(this)); err != nil {
		return 0, err
	}
	return MJPerM2(0.14 * float64(this-before)), nil
}

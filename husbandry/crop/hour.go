package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// HourWeather is one hour's weather.
type HourWeather struct {
	Latitude    Degrees
	Elevation   quantity.Metres
	YearDay     int            // 1 to 366
	Middle      quantity.Hours // middle of the hour, standard clock time
	Meridian    Meridian
	Temperature quantity.Celsius // mean of the hour
	Humidity    quantity.Percent // mean of the hour
	Wind        MetresPerSecond  // at 2 m
	Solar       MJPerM2          // solar radiation in the hour
	// Clearness is solar over clear-sky radiation two to three hours before
	// sunset, used by night.
	Clearness quantity.Fraction
}

// A WaterHour is the evapotranspiration of an hour with the steps that led to
// it, MJ/m2 in the hour.
type WaterHour struct {
	Reference Millimetres // in the hour
	Above     MJPerM2     // extraterrestrial radiation
	Net       MJPerM2     // net radiation
	SoilHeat  MJPerM2
}

// UsualClearness is the clearness to take by night when none was measured: that
// of FAO-56 example 19, fit for dry and half-dry places.
const UsualClearness quantity.Fraction = 0.8

// ReferenceEvapotranspirationOfHour follows the hourly chain of FAO-56 chapter
// 4. Soil takes up a tenth of net radiation by day and gives half of it by
// night (FAO-56 eq. 45 and 46). Outdoors only: see GreenhouseCaveat.
func ReferenceEvapotranspirationOfHour(w HourWeather) (WaterHour, error) {
	hour := WaterHour{}
	angle, err := HourAngle(w.YearDay, w.Middle, w.Meridian)
	if err != nil {
		return WaterHour{}, err
	}
	if hour.Above, err = HourlyExtraterrestrialRadiation(w.Latitude, w.YearDay, angle); err != nil {
		return WaterHour{}, err
	}
	air, err := hourlyAir(w)
	if err != nil {
		return WaterHour{}, err
	}
	if err := hour.setNet(w, air); err != nil {
		return WaterHour{}, err
	}
	hour.SoilHeat = 0.5 * hour.Net
	if hour.Above > 0 {
		hour.SoilHeat = 0.1 * hour.Net
	}
	hour.Reference, err = HourlyEvapotranspiration(hour.Net, hour.SoilHeat, air)
	return orNothing(hour, err)
}

func hourlyAir(w HourWeather) (Air, error) {
	pressure, err := AtmosphericPressure(w.Elevation)
	if err != nil {
		return Air{}, err
	}
	air := Air{Temperature: w.Temperature, Wind: w.Wind}
	if air.Saturation, err = SaturationVapourPressure(w.Temperature); err != nil {
		return Air{}, err
	}
	if air.Actual, err = VapourPressureFromMaximum(w.Temperature, w.Humidity); err != nil { // FAO-56 eq. 54
		return Air{}, err
	}
	if air.Slope, err = VapourPressureSlope(w.Temperature); err != nil {
		return Air{}, err
	}
	air.Gamma, err = PsychrometricConstant(pressure)
	return air, err
}

func (h *WaterHour) setNet(w HourWeather, air Air) error {
	clearSky, err := ClearSkyRadiation(w.Elevation, h.Above)
	if err != nil {
		return err
	}
	clearness := w.Clearness
	if h.Above > 0 {
		clearness = quantity.Fraction(math.Min(1, float64(w.Solar/clearSky)))
	}
	kept, err := NetShortwave(w.Solar, GrassAlbedo)
	if err != nil {
		return err
	}
	lost, err := HourlyNetLongwave(w.Temperature, air.Actual, clearness)
	h.Net = kept - lost
	return err
}

package crop

import "freshet.example/husbandry/quantity"

// A Measured is a value that a station may or may not have. The zero Measured
// was not measured.
type Measured struct {
	Value float64
	Known bool
}

// Measure returns a value that was measured.
func Measure(v float64) Measured { return Measured{v, true} }

// Weather is one day's weather, or the mean day of a month. Place, day and
// temperatures must be known; what else is known makes the answer surer.
type Weather struct {
	Latitude  Degrees
	Elevation quantity.Metres
	YearDay   int // 1 to 366; for a month its 15th
	Max, Min  quantity.Celsius

	Vapour     Measured // actual vapour pressure, kPa
	DewPoint   Measured // degC
	HumidMax   Measured // highest humidity, %
	HumidMin   Measured // lowest humidity, %
	HumidMean  Measured // mean humidity, %
	Wind       Measured // at 2 m, m/s
	Solar      Measured // solar radiation, MJ/m2 a day
	Sunshine   Measured // hours of bright sunshine
	SunFactor  Measured // factor of SolarRadiationFromTemperature where neither is known
	LastMonth  Measured // mean temperature of the month before, for a month's soil heat
	NextMonth  Measured // mean temperature of the month after
	MeanOfDays Measured // mean temperature, where it is not that of the extremes
}

// A WaterDay is the evapotranspiration of a day with the steps that led to it.
type WaterDay struct {
	Reference Millimetres // of the grass reference, in a day
	Above     MJPerM2     // extraterrestrial radiation
	Solar     MJPerM2     // solar radiation at the ground
	ClearSky  MJPerM2
	Net       MJPerM2 // net radiation
	SoilHeat  MJPerM2
	Air       Air
	Assumed   []string // what was not measured and was estimated
}

// UsualWind is the wind taken when none was measured (FAO-56 chapter 3).
const UsualWind MetresPerSecond = 2

// InlandSunFactor is the usual factor of SolarRadiationFromTemperature away
// from the coast (FAO-56 eq. 50).
const InlandSunFactor = 0.16

// ReferenceEvapotranspiration follows the whole chain of FAO-56 chapter 4 for
// one day, filling in what was not measured by the rules of its chapter 3 and
// naming each. Outdoors only: see GreenhouseCaveat.
func ReferenceEvapotranspiration(w Weather) (WaterDay, error) {
	day := WaterDay{}
	if err := firstError(latitude(w.Latitude), height(w.Elevation), yearDay(w.YearDay), extremes(w.Max, w.Min)); err != nil {
		return WaterDay{}, err
	}
	if err := firstError(day.setAir(w), day.setRadiation(w), day.setSoilHeat(w)); err != nil {
		return WaterDay{}, err
	}
	var err error
	day.Reference, err = Evapotranspiration(day.Net, day.SoilHeat, day.Air)
	return orNothing(day, err)
}

func (d *WaterDay) assume(what string) { d.Assumed = append(d.Assumed, what) }

func (d *WaterDay) setAir(w Weather) error {
	mean := (w.Max + w.Min) / 2
	if w.MeanOfDays.Known {
		mean = quantity.Celsius(w.MeanOfDays.Value)
	}
	pressure, err := AtmosphericPressure(w.Elevation)
	if err != nil {
		return err
	}
	d.Air.Temperature, d.Air.Saturation = mean, (saturation(w.Max)+saturation(w.Min))/2
	if d.Air.Slope, err = VapourPressureSlope(mean); err != nil {
		return err
	}
	if d.Air.Gamma, err = PsychrometricConstant(pressure); err != nil {
		return err
	}
	d.Air.Wind = UsualWind
	if w.Wind.Known {
		d.Air.Wind = MetresPerSecond(w.Wind.Value)
	} else {
		d.assume("wind 2 m/s")
	}
	d.Air.Actual, err = d.vapour(w)
	return err
}

// vapour takes the surest measure of humidity that there is, in the order of
// FAO-56 chapter 3.
func (d *WaterDay) vapour(w Weather) (quantity.Kilopascals, error) {
	switch {
	case w.Vapour.Known:
		return quantity.Kilopascals(w.Vapour.Value), nil
	case w.DewPoint.Known:
		return SaturationVapourPressure(quantity.Celsius(w.DewPoint.Value))
	case w.HumidMax.Known && w.HumidMin.Known:
		return VapourPressureFromExtremes(w.Max, w.Min, quantity.Percent(w.HumidMax.Value), quantity.Percent(w.HumidMin.Value))
	case w.HumidMax.Known:
		return VapourPressureFromMaximum(w.Min, quantity.Percent(w.HumidMax.Value))
	case w.HumidMean.Known:
		return VapourPressureFromMean(w.Max, w.Min, quantity.Percent(w.HumidMean.Value))
	}
	d.assume("dew point at the lowest temperature") // FAO-56 eq. 48
	return SaturationVapourPressure(w.Min)
}

func (d *WaterDay) setRadiation(w Weather) error {
	var err error
	if d.Above, err = ExtraterrestrialRadiation(w.Latitude, w.YearDay); err != nil {
		return err
	}
	if d.ClearSky, err = ClearSkyRadiation(w.Elevation, d.Above); err != nil {
		return err
	}
	if d.Solar, err = d.solar(w); err != nil {
		return err
	}
	kept, err := NetShortwave(d.Solar, GrassAlbedo)
	if err != nil {
		return err
	}
	lost, err := NetLongwave(w.Max, w.Min, d.Air.Actual, d.Solar, d.ClearSky)
	d.Net = kept - lost // FAO-56 eq. 40
	return err
}

func (d *WaterDay) solar(w Weather) (MJPerM2, error) {
	if w.Solar.Known {
		return MJPerM2(w.Solar.Value), nil
	}
	if w.Sunshine.Known {
		return SolarRadiation(quantity.Hours(w.Sunshine.Value), daylight(w.Latitude, w.YearDay), d.Above)
	}
	factor := InlandSunFactor
	if w.SunFactor.Known {
		factor = w.SunFactor.Value
	}
	d.assume("solar radiation from the day's extremes")
	return SolarRadiationFromTemperature(w.Max, w.Min, d.Above, factor)
}

func (d *WaterDay) setSoilHeat(w Weather) error {
	var err error
	switch {
	case w.LastMonth.Known && w.NextMonth.Known:
		d.SoilHeat, err = MonthlySoilHeat(quantity.Celsius(w.LastMonth.Value), quantity.Celsius(w.NextMonth.Value))
	case w.LastMonth.Known:
		d.SoilHeat, err = MonthlySoilHeatSoFar(quantity.Celsius(w.LastMonth.Value), d.Air.Temperature)
	}
	// Over single days soil heat is small and taken as nothing (FAO-56 eq. 42).
	return err
}

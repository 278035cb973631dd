package crop

import (
	"math"
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// tenMetreWind turns a wind in km/h at 10 m into one in m/s at 2 m.
func tenMetreWind(kmPerHour float64) float64 {
	u, err := WindAtTwoMetres(MetresPerSecond(perSecond(kmPerHour)), standardGauge)
	if err != nil {
		return math.NaN() // outside of every bound, so that the formula refuses it
	}
	return float64(u)
}

// standardGauge is the height of the wind gauge of weather stations (WMO).
const standardGauge quantity.Metres = 10

var windAliases = append(also("u2", "u2_m_s"), formula.Alias{Name: "u10_km_h", Change: tenMetreWind})

// weatherInputs are those of a day's weather; only place, day and temperatures
// must be given.
var weatherInputs = []formula.Input{latitudeInput, heightInput, yearDayInput, maxInput, minInput,
	vapourBound.maybe("actual_vapour_kpa", "actual vapour pressure", also("ea", "ea_kPa")...),
	{Name: "dew_point_celsius", Meaning: "dew point, or the word Tmin", Unit: airBound.unit, Low: airBound.low, High: airBound.high, Default: notGiven, Also: also("Tdew", "Tdew_C")},
	humidityBound.maybe("humidity_max_percent", "highest humidity", also("RHmax")...),
	humidityBound.maybe("humidity_min_percent", "lowest humidity", also("RHmin")...),
	humidityBound.maybe("humidity_mean_percent", "mean humidity", also("RHmean")...),
	windBound.maybe("wind_m_s", "wind at 2 m", windAliases...),
	radiationBound.maybe("solar_mj", "solar radiation, MJ/m2 a day", also("Rs")...),
	{Name: "sunshine_h", Meaning: "hours of bright sunshine, like 7.1 or 220/31", Unit: "h", Default: notGiven, Also: also("n", "n_h")},
	sunFactorBound.maybe("sun_factor", "radiation factor of the day's extremes", also("kRs")...),
	airBound.maybe("previous_celsius", "mean of the month before, for a month", also("Tprev", "Tprev_C")...),
	airBound.maybe("next_celsius", "mean of the month after, for a month", also("Tnext", "Tnext_C")...),
}

// weatherOf reads a day's weather from the inputs that the formula declares.
func weatherOf(in *formula.Given) (Weather, error) {
	lat, err := latitudeOf(in)
	w := Weather{Latitude: lat, Elevation: metres(in, "elevation_m"), YearDay: in.Whole("year_day"),
		Max: celsius(in, "tmax_celsius"), Min: celsius(in, "tmin_celsius")}
	if err != nil || !in.Has("sunshine_h") {
		return w, err
	}
	n, err := ratioOf(in, "sunshine_h")
	w.Sunshine = Measure(n)
	return w, err
}

// fullWeatherOf reads what else a day's weather may hold.
func fullWeatherOf(in *formula.Given) (Weather, error) {
	w, err := weatherOf(in)
	w.Vapour, w.Wind, w.Solar = measured(in, "actual_vapour_kpa"), measured(in, "wind_m_s"), measured(in, "solar_mj")
	w.HumidMax, w.HumidMin, w.HumidMean = measured(in, "humidity_max_percent"), measured(in, "humidity_min_percent"), measured(in, "humidity_mean_percent")
	w.SunFactor, w.LastMonth, w.NextMonth = measured(in, "sun_factor"), measured(in, "previous_celsius"), measured(in, "next_celsius")
	if in.Has("dew_point_celsius") && in.Word("dew_point_celsius") != "Tmin" {
		w.DewPoint = measured(in, "dew_point_celsius")
	}
	return w, err
}

var airInputs = []formula.Input{
	energyBound.input("net_radiation_mj", "net radiation, MJ/m2", also("Rn")...),
	energyBound.given("soil_heat_mj", "soil heat flux, MJ/m2", "0", also("G")...),
	meanInput, windBound.input("wind_m_s", "wind at 2 m", windAliases...),
	vapourBound.input("saturation_kpa", "saturation vapour pressure", also("es")...), actualInput,
	slopeBound.input("slope", "slope of the vapour pressure curve", also("delta")...),
	gammaBound.input("gamma", "psychrometric constant"),
}

func airOf(in *formula.Given) Air {
	return Air{celsius(in, "temperature_celsius"), MetresPerSecond(in.Float("wind_m_s")), kilopascals(in, "saturation_kpa"),
		kilopascals(in, "actual_vapour_kpa"), KPaPerC(in.Float("slope")), KPaPerC(in.Float("gamma"))}
}

var waterFormulas = []formula.Formula{
	{
		Name: "evapotranspiration", Title: "How much water does short grass give off in a day, from the air and the sun?", Unit: "mm/d",
		Also: slices.Concat(inExamples("ETo monthly Bangkok April", "17"), inExamples("ETo daily Uccle 6 July", "18"),
			inExamples("ETo Lyon July", "20"), []string{"ETo"}),
		Source: "FAO-56 eq. 6", Range: "outdoors", Cautions: []string{GreenhouseCaveat},
		Inputs: airInputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(Evapotranspiration(energyOf(in, "net_radiation_mj"), energyOf(in, "soil_heat_mj"), airOf(in)))
		},
	},
	{
		Name: "evapotranspiration_hour", Title: "How much water does short grass give off in an hour, from the air and the sun?", Unit: "mm/h",
		Source: "FAO-56 eq. 53", Range: "outdoors", Cautions: []string{GreenhouseCaveat},
		Inputs: airInputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(HourlyEvapotranspiration(energyOf(in, "net_radiation_mj"), energyOf(in, "soil_heat_mj"), airOf(in)))
		},
	},
	{
		Name: "reference_evapotranspiration", Title: "How much water does short grass give off in a day of this weather?", Unit: "mm/d",
		Also: append(inExamples("ETo Lyon July missing data", "20"), "ETo Bangkok, full chain unrounded", "ETo Uccle, full chain unrounded",
			"ETo Lyon, full chain unrounded", "ETo full chain"),
		Source: "FAO-56 chapters 3 and 4", Range: "outdoors; what is not given is estimated, and said", Cautions: []string{GreenhouseCaveat},
		Inputs: weatherInputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, err := fullWeatherOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			day, err := ReferenceEvapotranspiration(w)
			answer := formula.Number(float64(day.Reference))
			for _, what := range day.Assumed {
				answer.Cautions = append(answer.Cautions, "estimated: "+what)
			}
			return answer, err
		},
	},
	hourFormula("reference_evapotranspiration_hour", "14.5", "", slices.Concat(inExamples("hourly ETo N'Diaye 14-15h", "19"), []string{"hourly ETo"})...),
	hourFormula("reference_evapotranspiration_night_hour", "2.5", "0", slices.Concat(inExamples("hourly ETo N'Diaye 02-03h", "19"),
		inExamples("hourly ETo N'Diaye 2-3h", "19"))...),
	{
		Name: "hargreaves", Title: "How much water does short grass give off in a day, from temperatures alone?", Unit: "mm/d",
		Also:   append(inExamples("Hargreaves ETo Lyon July", "20"), "Hargreaves ETo", "weather.hargreaves_et0 day {year_day}"),
		Source: "FAO-56 eq. 52", Range: "outdoors; too high in damp places", Cautions: []string{GreenhouseCaveat},
		Inputs: []formula.Input{maxInput, minInput, radiationBound.maybe("above_mj", "extraterrestrial radiation, MJ/m2 a day", also("Ra")...),
			{Name: "latitude_degrees", Meaning: "latitude, instead of the radiation", Default: notGiven, Also: also("lat", "lat_deg")},
			yearDayBound.maybe("year_day", "day of the year, with the latitude", also("J", "day")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			above, err := aboveOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(Hargreaves(celsius(in, "tmax_celsius"), celsius(in, "tmin_celsius"), above))
		},
	},
	{
		Name: "hargreaves_sum", Title: "How much water does short grass give off in a season, from temperatures alone?", Unit: "mm",
		Also:   []string{"weather.hargreaves_et0 year sum"},
		Source: "FAO-56 eq. 52", Range: "one highest and one lowest temperature for each day", Cautions: []string{GreenhouseCaveat},
		Inputs: []formula.Input{latitudeInput,
			{Name: "tmax_celsius", Meaning: "highest temperature of each day", Unit: airBound.unit, Low: airBound.low, High: airBound.high, Also: also("tmax", "tmax_C")},
			{Name: "tmin_celsius", Meaning: "lowest temperature of each day", Unit: airBound.unit, Low: airBound.low, High: airBound.high, Also: also("tmin", "tmin_C")},
			yearDayBound.given("year_day", "day of the year of the first", "1", also("J")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			lat, err := latitudeOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			days, err := daysOf(in, "tmax_celsius", "tmin_celsius")
			if err != nil {
				return formula.Answer{}, err
			}
			return number(HargreavesSum(lat, in.Whole("year_day"), days))
		},
	},
}

// aboveOf reads the extraterrestrial radiation, or place and day that it
// follows from.
func aboveOf(in *formula.Given) (MJPerM2, error) {
	if in.Has("above_mj") || !in.Has("latitude_degrees") {
		return energyOf(in, "above_mj"), nil
	}
	lat, err := latitudeOf(in)
	above, none := ExtraterrestrialRadiation(lat, in.Whole("year_day"))
	return orNothing(above, firstError(err, none))
}

// hourFormula describes the hourly chain with its usual middle of the hour and,
// by night when the sun's place does not matter, any meridian.
func hourFormula(name, middle, meridian string, names ...string) formula.Formula {
	return formula.Formula{
		Name: name, Title: "How much water does short grass give off in the hour around " + middle + "?", Unit: "mm/h", Also: names,
		Source: "FAO-56 eq. 28 to 33 and 53", Range: "outdoors; standard time, longitudes west", Cautions: []string{GreenhouseCaveat},
		Inputs: []formula.Input{latitudeInput, heightInput, yearDayInput, meanInput,
			humidityBound.input("humidity_percent", "humidity", also("RH")...), windBound.input("wind_m_s", "wind at 2 m", windAliases...),
			radiationBound.input("solar_mj", "solar radiation, MJ/m2 in the hour", also("Rs")...),
			meridianBound.given("zone_west", "longitude of the middle of the time zone, degrees west", meridian, also("Lz")...),
			meridianBound.given("here_west", "longitude of the place, degrees west", meridian, also("Lm")...),
			clockBound.given("middle_h", "middle of the hour, standard time", middle, also("t", "hour")...),
			shareBound.given("clearness", "solar over clear-sky radiation before sunset, for the night", "0.8", also("Rs_Rso")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			lat, err := latitudeOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			hour, err := ReferenceEvapotranspirationOfHour(HourWeather{
				Latitude: lat, Elevation: metres(in, "elevation_m"), YearDay: in.Whole("year_day"),
				Middle:      quantity.Hours(in.Float("middle_h")),
				Meridian:    Meridian{Zone: Degrees(in.Float("zone_west")), Here: Degrees(in.Float("here_west"))},
				Temperature: celsius(in, "temperature_celsius"), Humidity: percent(in, "humidity_percent"),
				Wind: MetresPerSecond(in.Float("wind_m_s")), Solar: energyOf(in, "solar_mj"),
				Clearness: quantity.Fraction(in.Float("clearness")),
			})
			return number(hour.Reference, err)
		},
	}
}

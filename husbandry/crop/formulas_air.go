package crop

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Inputs that several formulas of evapotranspiration share.
var (
	meanInput   = airBound.input("temperature_celsius", "mean air temperature", also("T_C", "T")...)
	maxInput    = airBound.input("tmax_celsius", "the day's highest air temperature", also("Tmax_C", "Tmax")...)
	minInput    = airBound.input("tmin_celsius", "the day's lowest air temperature", also("Tmin_C", "Tmin")...)
	actualInput = vapourBound.input("actual_vapour_kpa", "actual vapour pressure", also("ea", "ea_kPa")...)
	heightInput = elevationBound.input("elevation_m", "height above the sea", also("z", "z_m")...)
)

// airFormulas holds the vapour and pressure steps of FAO-56 chapter 3.
var airFormulas = []formula.Formula{
	{
		Name: "saturation_vapour_pressure", Title: "How much vapour can air of this temperature hold?", Unit: "kPa",
		Also: slices.Concat(inExamples("saturation vapour pressure", "3 4 5 17 18 19 20"), []string{
			"saturation vapour pressure Annex Table 2.3", "actual vapour pressure from Tdew=Tmin (Ex.20)"}),
		Source: "FAO-56 eq. 11 and 14", Range: "-60 to 60 degC; from the dew point it gives the actual vapour pressure",
		Inputs: []formula.Input{meanInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SaturationVapourPressure(celsius(in, "temperature_celsius")))
		},
	},
	{
		Name: "mean_saturation_vapour_pressure", Title: "How much vapour can the day's air hold, on the mean?", Unit: "kPa",
		Also:   inExamples("mean saturation vapour pressure", "3 5 17 18 20"),
		Source: "FAO-56 eq. 12", Range: "-60 to 60 degC",
		Inputs: []formula.Input{maxInput, minInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(MeanSaturationVapourPressure(celsius(in, "tmax_celsius"), celsius(in, "tmin_celsius")))
		},
	},
	{
		Name: "vapour_pressure_slope", Title: "How fast does saturation vapour pressure rise with warmth?", Unit: "kPa/degC",
		Also:   append(inExamples("slope of svp curve", "17 18 19 20"), "slope of svp curve Annex Table 2.4"),
		Source: "FAO-56 eq. 13", Range: "-60 to 60 degC",
		Inputs: []formula.Input{meanInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(VapourPressureSlope(celsius(in, "temperature_celsius")))
		},
	},
	{
		Name: "atmospheric_pressure", Title: "What is the usual air pressure at this height?", Unit: "kPa",
		Also:   append(inExamples("atmospheric pressure", "2 4 17 18 20"), "atmospheric pressure Annex Table 2.1"),
		Source: "FAO-56 eq. 7", Range: "-430 to 9000 m",
		Inputs: []formula.Input{heightInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(AtmosphericPressure(metres(in, "elevation_m")))
		},
	},
	{
		Name: "psychrometric_constant", Title: "What is the psychrometric constant at this air pressure?", Unit: "kPa/degC",
		Also:   append(inExamples("psychrometric constant", "2 17 18 19 20"), "psychrometric constant Annex Table 2.2"),
		Source: "FAO-56 eq. 8", Range: "30 to 110 kPa; from the height above the sea where no pressure is given",
		Inputs: []formula.Input{pressureBound.maybe("pressure_kpa", "air pressure", also("P_kPa", "P")...),
			elevationBound.maybe("elevation_m", "height above the sea, instead of the pressure", also("z", "z_m")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			pressure, err := pressureOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(PsychrometricConstant(pressure))
		},
	},
	{
		Name: "vapour_pressure_from_extremes", Title: "How much vapour is in the air, from highest and lowest humidity?", Unit: "kPa",
		Also:   inExamples("actual vapour pressure RHmax RHmin", "5 18"),
		Source: "FAO-56 eq. 17", Range: "0 to 100 %",
		Inputs: []formula.Input{maxInput, minInput, humidityBound.input("humidity_max_percent", "highest humidity", also("RHmax")...),
			humidityBound.input("humidity_min_percent", "lowest humidity", also("RHmin")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(VapourPressureFromExtremes(celsius(in, "tmax_celsius"), celsius(in, "tmin_celsius"),
				percent(in, "humidity_max_percent"), percent(in, "humidity_min_percent")))
		},
	},
	{
		Name: "vapour_pressure_from_maximum", Title: "How much vapour is in the air, from the highest humidity alone?", Unit: "kPa",
		Also:   inExamples("actual vapour pressure RHmax", "5"),
		Source: "FAO-56 eq. 18", Range: "0 to 100 %",
		Inputs: []formula.Input{minInput, humidityBound.input("humidity_max_percent", "highest humidity", also("RHmax")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(VapourPressureFromMaximum(celsius(in, "tmin_celsius"), percent(in, "humidity_max_percent")))
		},
	},
	{
		Name: "vapour_pressure_from_mean", Title: "How much vapour is in the air, from the mean humidity?", Unit: "kPa",
		Also:   inExamples("actual vapour pressure RHmean", "5"),
		Source: "FAO-56 eq. 19", Range: "0 to 100 %; the least sure of the ways",
		Inputs: []formula.Input{maxInput, minInput, humidityBound.input("humidity_mean_percent", "mean humidity", also("RHmean")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(VapourPressureFromMean(celsius(in, "tmax_celsius"), celsius(in, "tmin_celsius"), percent(in, "humidity_mean_percent")))
		},
	},
	{
		Name: "vapour_pressure_from_wet_bulb", Title: "How much vapour is in the air, from wet and dry bulb?", Unit: "kPa",
		Also: slices.Concat(inExamples("actual vapour pressure psychrometer", "4"), inExamples("actual vapour pressure psychrometric", "4"),
			inExamples("actual vapour pressure wet bulb", "4"), inExamples("actual vapour pressure", "4")),
		Source: "FAO-56 eq. 15 and 16", Range: "wet bulb above -10 degC",
		Inputs: []formula.Input{airBound.input("dry_celsius", "dry bulb", also("Tdry_C", "Tdry")...), airBound.input("wet_celsius", "wet bulb", also("Twet_C", "Twet")...),
			pressureBound.maybe("pressure_kpa", "air pressure", also("P_kPa", "P")...),
			elevationBound.maybe("elevation_m", "height above the sea, instead of the pressure", also("z", "z_m")...),
			word("psychrometer", "how air passes the wet bulb", "ventilated", "ventilated", "natural", "indoors"),
			psychrometerBound.maybe("psychrometer_constant", "its constant, instead of the word", also("apsy", "a_psy")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			pressure, err := pressureOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(VapourPressureFromWetBulb(celsius(in, "dry_celsius"), celsius(in, "wet_celsius"), pressure, psychrometerOf(in)))
		},
	},
	{
		Name: "wind_at_two_metres", Title: "What is the wind at 2 m, from a gauge higher up?", Unit: "m/s",
		Also:   slices.Concat(inExamples("wind speed at 2 m", "14 18"), inExamples("wind speed at 2m", "14 18"), inExamples("wind at 2 m", "14 18")),
		Source: "FAO-56 eq. 47", Range: "over short grass; gauge 0.5 to 200 m up",
		Inputs: []formula.Input{gaugeWindBound.input("wind_m_s", "wind at the gauge", append(also("uz", "u_z", "uz_m_s", "u_m_s"),
			formula.Alias{Name: "uz_km_h", Change: perSecond}, formula.Alias{Name: "u10_km_h", Change: perSecond})...),
			gaugeBound.given("gauge_m", "height of the gauge", "10", also("z", "z_m", "height_m")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(WindAtTwoMetres(MetresPerSecond(in.Float("wind_m_s")), metres(in, "gauge_m")))
		},
	},
}

// pressureOf reads the air pressure, or the height that it follows from.
func pressureOf(in *formula.Given) (quantity.Kilopascals, error) {
	if in.Has("pressure_kpa") || !in.Has("elevation_m") {
		return kilopascals(in, "pressure_kpa"), nil
	}
	return AtmosphericPressure(metres(in, "elevation_m"))
}

// psychrometerOf reads the kind of psychrometer or its constant.
func psychrometerOf(in *formula.Given) Psychrometer {
	if in.Has("psychrometer_constant") {
		return Psychrometer(in.Float("psychrometer_constant"))
	}
	switch in.Word("psychrometer") {
	case "natural":
		return NaturallyVentilated
	case "indoors":
		return Unventilated
	}
	return Ventilated
}

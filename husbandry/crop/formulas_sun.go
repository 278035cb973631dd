package crop

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Inputs that several formulas of the sun share. A latitude is read as words,
// so that it may be written like 45deg43N.
var (
	latitudeInput = formula.Input{Name: "latitude_degrees", Meaning: "latitude, like 45.72 or 45deg43N; south is negative or S", Unit: latitudeBound.unit,
		Low: latitudeBound.low, High: latitudeBound.high, Also: also("lat_deg", "lat")}
	yearDayInput  = yearDayBound.input("year_day", "day of the year", also("J", "day")...)
	aboveInput    = radiationBound.input("above_mj", "extraterrestrial radiation, MJ/m2 a day", also("Ra", "Ra_MJ")...)
	sunshineInput = formula.Input{Name: "sunshine_h", Meaning: "hours of bright sunshine, like 7.1 or 220/31", Also: also("n_h", "n")}
	solarInput    = radiationBound.input("solar_mj", "solar radiation at the ground, MJ/m2 a day", also("Rs", "Rs_MJ")...)
)

// lampCaution goes with lamps over water.
const lampCaution = "Electricity beside water kills: hang lamps where they cannot fall in, behind a residual-current device (RCD, GFCI), with drip loops, by a licensed electrician."

// sunFormulas holds the radiation steps of FAO-56 chapter 3.
var sunFormulas = []formula.Formula{
	{
		Name: "inverse_relative_distance", Title: "How near is the sun on this day?",
		Also:   inExamples("inverse relative distance", "8 9 18 20"),
		Source: "FAO-56 eq. 23", Range: "days 1 to 366", Inputs: []formula.Input{yearDayInput},
		Work: func(in *formula.Given) (formula.Answer, error) { return number(InverseDistance(in.Whole("year_day"))) },
	},
	{
		Name: "solar_declination", Title: "How far over the equator does the sun stand?", Unit: "rad",
		Also:   inExamples("solar declination", "8 9 18 20"),
		Source: "FAO-56 eq. 24", Range: "days 1 to 366", Inputs: []formula.Input{yearDayInput},
		Work: func(in *formula.Given) (formula.Answer, error) { return number(SolarDeclination(in.Whole("year_day"))) },
	},
	{
		Name: "sunset_hour_angle", Title: "How far does the sun go from noon to sunset?", Unit: "rad",
		Also:   inExamples("sunset hour angle", "8 9 18 20"),
		Source: "FAO-56 eq. 25", Range: "half a turn in polar day, 0 in polar night",
		Inputs: []formula.Input{latitudeInput, declinationBound.input("declination_rad", "solar declination", also("decl", "delta")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			lat, err := latitudeOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(SunsetHourAngle(lat, Radians(in.Float("declination_rad"))))
		},
	},
	{
		Name: "daylight_hours", Title: "How long is the day?", Unit: "h",
		Also:   append(inExamples("daylight hours", "9 10 18 20"), "daylight hours Annex Table 2.7"),
		Source: "FAO-56 eq. 34", Range: "sunrise to sunset, without twilight",
		Inputs: []formula.Input{latitudeInput, yearDayInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			lat, err := latitudeOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(DaylightHours(lat, in.Whole("year_day")))
		},
	},
	{
		Name: "extraterrestrial_radiation", Title: "How much sun reaches the top of the air in a day?", Unit: "MJ/m2/d",
		Also: slices.Concat(inExamples("extraterrestrial radiation", "8 10 15 17 18 20"), inExamples("Ra", "8 10 15 17 18 20"), []string{"Ra Rio 15 May", "Ra Rio", "Ra Lyon 15 July", "Ra Lyon July", "Ra Lyon", "Ra Bangkok", "Ra Uccle",
			"extraterrestrial radiation Annex Table 2.6", "weather.Ra day {year_day}"}),
		Source: "FAO-56 eq. 21", Range: "all latitudes",
		Inputs: []formula.Input{latitudeInput, yearDayInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			lat, err := latitudeOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(ExtraterrestrialRadiation(lat, in.Whole("year_day")))
		},
	},
	{
		Name: "solar_radiation", Title: "How much sun reaches the ground, from hours of sunshine?", Unit: "MJ/m2/d",
		Also:   inExamples("solar radiation Angstrom", "10 18"),
		Source: "FAO-56 eq. 35", Range: "usual Angstrom values 0.25 and 0.50",
		Inputs: []formula.Input{sunshineInput, daylightBound.input("daylight_h", "daylight hours", also("N_h", "N")...), aboveInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			n, err := ratioOf(in, "sunshine_h")
			if err != nil {
				return formula.Answer{}, err
			}
			return number(SolarRadiation(quantity.Hours(n), quantity.Hours(in.Float("daylight_h")), energyOf(in, "above_mj")))
		},
	},
	{
		Name: "solar_radiation_from_temperature", Title: "How much sun reaches the ground, from the day's extremes?", Unit: "MJ/m2/d",
		Also:   inExamples("solar radiation from temperature", "15 20"),
		Source: "FAO-56 eq. 50", Range: "factor 0.16 inland, 0.19 at the coast",
		Inputs: []formula.Input{maxInput, minInput, aboveInput, sunFactorBound.given("sun_factor", "radiation factor", "0.16", also("kRs")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SolarRadiationFromTemperature(celsius(in, "tmax_celsius"), celsius(in, "tmin_celsius"), energyOf(in, "above_mj"), in.Float("sun_factor")))
		},
	},
	{
		Name: "solar_radiation_island", Title: "How much sun reaches the ground of a small island?", Unit: "MJ/m2/d",
		Source: "FAO-56 eq. 51, from memory", Range: "monthly, islands up to 20 km wide", Inputs: []formula.Input{islandBound.input("above_mj", "extraterrestrial radiation, MJ/m2 a day", also("Ra")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(IslandSolarRadiation(energyOf(in, "above_mj")))
		},
	},
	{
		Name: "clear_sky_radiation", Title: "How much sun would reach the ground under a clear sky?", Unit: "MJ/m2/d",
		Also:   inExamples("clear-sky radiation", "11 12 18 20"),
		Source: "FAO-56 eq. 37", Range: "-430 to 9000 m", Inputs: []formula.Input{heightInput, aboveInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(ClearSkyRadiation(metres(in, "elevation_m"), energyOf(in, "above_mj")))
		},
	},
	{
		Name: "net_shortwave", Title: "How much sunlight does the ground keep?", Unit: "MJ/m2/d",
		Also:   inExamples("net shortwave", "12 18 20"),
		Source: "FAO-56 eq. 38", Range: "grass throws back 0.23", Inputs: []formula.Input{solarInput, shareBound.given("albedo", "share thrown back", "0.23")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(NetShortwave(energyOf(in, "solar_mj"), quantity.Fraction(in.Float("albedo"))))
		},
	},
	{
		Name: "net_longwave", Title: "How much heat does the ground lose to the sky?", Unit: "MJ/m2/d",
		Also:   inExamples("net longwave", "11 12 18 20"),
		Source: "FAO-56 eq. 39", Range: "by day means",
		Inputs: []formula.Input{maxInput, minInput, actualInput, solarInput, clearSkyBound.input("clear_sky_mj", "clear-sky radiation, MJ/m2 a day", also("Rso")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(NetLongwave(celsius(in, "tmax_celsius"), celsius(in, "tmin_celsius"), kilopascals(in, "actual_vapour_kpa"), energyOf(in, "solar_mj"), energyOf(in, "clear_sky_mj")))
		},
	},
	{
		Name: "net_radiation", Title: "How much radiation is left at the ground?", Unit: "MJ/m2/d",
		Also:   inExamples("net radiation", "12 17 18 20"),
		Source: "FAO-56 eq. 40", Range: "by day means",
		Inputs: []formula.Input{radiationBound.input("net_shortwave_mj", "sunlight kept", also("Rns")...), energyBound.input("net_longwave_mj", "heat lost to the sky", also("Rnl")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(NetRadiation(energyOf(in, "net_shortwave_mj"), energyOf(in, "net_longwave_mj")))
		},
	},
	{
		Name: "net_radiation_rio", Title: "What is the net radiation of FAO-56 examples 10 to 12, Rio de Janeiro in May?", Unit: "MJ/m2/d",
		Also:   []string{"Rn Rio"},
		Source: "FAO-56 examples 10 to 12", Range: "a worked example: latitude and day are its own unless given",
		Inputs: []formula.Input{maxInput, minInput, actualInput, sunshineInput,
			elevationBound.given("elevation_m", "height above the sea", "0", also("z", "z_m")...),
			{Name: "latitude_degrees", Meaning: "latitude", Default: "-22.9", Also: also("lat")}, yearDayBound.given("year_day", "day of the year", "135", also("J")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, err := weatherOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			w.Vapour = measured(in, "actual_vapour_kpa")
			day, err := ReferenceEvapotranspiration(w)
			return number(day.Net, err)
		},
	},
	{
		Name: "monthly_soil_heat", Title: "How much heat does the soil take up in this month?", Unit: "MJ/m2/d",
		Also:   append(append(inExamples("monthly soil heat flux", "13 17"), inExamples("soil heat flux", "13 17")...), "monthly soil heat flux, next month unknown (Ex.17)"),
		Source: "FAO-56 eq. 43; eq. 44 where the next month is not given", Range: "mean temperatures of months",
		Inputs: []formula.Input{airBound.input("previous_celsius", "mean of the month before", also("Tprev_C", "Tprev")...),
			airBound.maybe("next_celsius", "mean of the month after", also("Tnext_C", "Tnext")...),
			airBound.maybe("temperature_celsius", "mean of this month, where the next is not known", also("T_C", "Ti_C", "T")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if in.Has("next_celsius") {
				return number(MonthlySoilHeat(celsius(in, "previous_celsius"), celsius(in, "next_celsius")))
			}
			return number(MonthlySoilHeatSoFar(celsius(in, "previous_celsius"), celsius(in, "temperature_celsius")))
		},
	},
	{
		Name: "daily_light", Figures: formula.Rough, Title: "How much light can plants use in a day, under this cover?", Unit: "mol/m2/d",
		Source: "McCree 1972, from memory (0.45 of the energy, 4.57 umol/J)", Range: "sunlight",
		Inputs: []formula.Input{solarInput, shareBound.given("through", "share that the cover lets through", "1")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(DailyLight(energyOf(in, "solar_mj"), quantity.Fraction(in.Float("through"))))
		},
	},
	{
		Name: "lamp_light", Figures: formula.Rough, Title: "How much light do lamps give in a day?", Unit: "mol/m2/d",
		Source: "units", Range: "steady lamps",
		Inputs:   []formula.Input{fluxBound.input("flux", "photon flux at the leaves"), lampBound.input("lit_h", "hours lit")},
		Cautions: []string{lampCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(LampLight(quantity.PhotonFlux(in.Float("flux")), quantity.Hours(in.Float("lit_h"))))
		},
	},
	{
		Name: "light_need", Title: "How much daily light does the crop want?", Unit: "mol/m2/d", Source: "common practice, no source", Range: "crops of the crop table",
		Inputs: []formula.Input{cropInput()},
		Work:   func(in *formula.Given) (formula.Answer, error) { return figure(LightNeed(in.Word("crop"))) },
	},
}

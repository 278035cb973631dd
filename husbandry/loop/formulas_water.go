package loop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var waterFormulas = []formula.Formula{
	{
		Name: "tank_volume_rectangular", Title: "What does a tank with straight walls hold?", Unit: "m3",
		Also: []string{"tank_volume_rect", "tank_volume_box"}, Source: "geometry", Range: "water depth, not wall height",
		Inputs: []formula.Input{
			lengthBound.input("length_m", "inside length", also("l_m", "L_m")...),
			lengthBound.input("width_m", "inside width", also("w_m", "W_m")...),
			depthBound.input("depth_m", "water depth", also("d_m", "D_m")...),
			feetOf.instead("length_ft", "inside length, instead of metres; the answer comes in cubic feet", also("l_ft", "L_ft")...),
			feetOf.instead("width_ft", "inside width, instead of metres", also("w_ft", "W_ft")...),
			feetOf.instead("depth_ft", "water depth, instead of metres", also("d_ft", "D_ft", "h_ft")...),
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := RectangularTank(metresOrFeet(in, "length_m", "length_ft"), metresOrFeet(in, "width_m", "width_ft"), metresOrFeet(in, "depth_m", "depth_ft"))
			return volumeAnswer(in, "length_ft", v, err)
		},
	},
	{
		Name: "tank_volume_round", Title: "What does an upright round tank hold?", Unit: "m3",
		Also: []string{"tank_volume_cylinder"}, Source: "geometry", Range: "water depth, not wall height",
		Inputs: []formula.Input{
			tankBound.input("diameter_m", "inside diameter", also("dia_m")...),
			depthBound.input("depth_m", "water depth", also("d_m")...),
			feetOf.instead("diameter_ft", "inside diameter, instead of metres; the answer comes in cubic feet", also("dia_ft")...),
			feetOf.instead("depth_ft", "water depth, instead of metres", also("d_ft", "h_ft")...),
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := RoundTank(metresOrFeet(in, "diameter_m", "diameter_ft"), metresOrFeet(in, "depth_m", "depth_ft"))
			return volumeAnswer(in, "diameter_ft", v, err)
		},
	},
	{
		Name: "pipe_volume", Title: "How much water stands in a pipe?", Unit: "L", Source: "geometry", Range: "full pipe",
		Inputs: []formula.Input{diameterInput, lengthInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PipeVolume(quantity.Metres(in.Float("diameter_m")), quantity.Metres(in.Float("length_m"))))
		},
	},
	{
		Name: "retention_time", Title: "How long does water stay in this vessel?", Unit: "h",
		Source: "volume over flow", Range: "steady flow, well mixed",
		Inputs: []formula.Input{volumeInput, flowInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(RetentionTime(cubicMetres(in), litresAMinute(in)))
		},
	},
	{
		Name: "clarifier_flow", Title: "What flow keeps water in this vessel for a given time?", Unit: "L/min",
		Also: []string{"flow_for_retention"}, Source: "volume over time", Range: "steady flow", Cautions: []string{SludgePitCaution},
		Inputs: []formula.Input{volumeInput, timeBound.input("retention_h", "time the water should stay", from("retention_min", minutesToHours))},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(FlowForRetention(cubicMetres(in), quantity.Hours(in.Float("retention_h"))))
		},
	},
	{
		Name: "turnovers_per_hour", Title: "How often an hour does the pump move the whole volume?", Also: []string{"turnover_rate"}, Unit: "1/h",
		Source: "flow over volume; FAO 589 (second hand) asks for 1 at low and 2 at high stocking", Range: "steady flow",
		Inputs: []formula.Input{volumeInput, flowInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(Turnovers(cubicMetres(in), litresAMinute(in)))
		},
	},
	{
		Name: "makeup_water", Figures: formula.Rough, Title: "How much water must I add a day?", Unit: "m3/d",
		Source: "UVI system, 1.5 % of 110 m3 a day; FAO 589 p. 29, 1 to 3 % (second hand)", Range: "0 to 100 % a day",
		Inputs: []formula.Input{
			volumeBound.input("total_volume_m3", "water in the whole loop", from("total_volume_l", litresToCubicM)),
			percentBound.input("percent_per_day", "share of the volume lost a day", also("pct")...),
			{Name: "system", Meaning: "FAO or UVI: what that source prints, in percent a day, instead of an amount", Default: notGiven, Choices: []string{"FAO", "UVI"}},
		},
		Cautions: []string{TopUpCaution},
		Work:     makeUpAnswer,
	},
	{
		Name: "makeup_balance", Title: "How much water must I add so that the day balances?", Unit: "L/d", Source: "water balance",
		Range: "below zero the loop gains water and needs an overflow",
		Inputs: []formula.Input{
			balanceBound.given("evaporation_l", "evaporated", "0"), balanceBound.given("plants_l", "transpired by the crop", "0"),
			balanceBound.given("solids_l", "gone with sludge", "0"), balanceBound.given("exchange_l", "changed or spilled", "0"),
			balanceBound.given("rain_l", "rain into the loop", "0"),
		},
		Cautions: []string{TopUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(MakeUpBalance(Balance{
				Evaporation: litres(in, "evaporation_l"), Plants: litres(in, "plants_l"), Solids: litres(in, "solids_l"),
				Exchange: litres(in, "exchange_l"), Rain: litres(in, "rain_l"),
			}))
		},
	},
	{
		Name: "evaporation", Figures: formula.Rough, Title: "How much water evaporates from an open surface?", Unit: "L/d",
		Source: "ASHRAE Applications handbook, pools (from memory); vapour pressure FAO-56 eq. 11", Range: "open water at 0 to 45 degC",
		Inputs: []formula.Input{surfaceInput,
			waterBound.input("water_celsius", "water temperature"), airBound.input("air_celsius", "air temperature"),
			humidityBound.input("humidity_percent", "relative humidity of the air"), windBound.given("air_speed_m_s", "air speed over the water", "0.1")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(Evaporation(quantity.SquareMetres(in.Float("area_m2")), celsius(in, "water_celsius"), celsius(in, "air_celsius"),
				quantity.Percent(in.Float("humidity_percent")), MetresPerSecond(in.Float("air_speed_m_s"))))
		},
	},
}

func litres(in *formula.Given, name string) quantity.Litres { return quantity.Litres(in.Float(name)) }

// volumeAnswer answers in the unit of the question.
func volumeAnswer(in *formula.Given, feet string, v quantity.CubicMetres, err error) (formula.Answer, error) {
	if in.Has(feet) {
		return withUnit(cubicMToCubicFeet(float64(v)), "ft3", err)
	}
	return number(v, err)
}

const makeUpShare = "% of total volume per day"

func makeUpAnswer(in *formula.Given) (formula.Answer, error) {
	if !in.Has("system") {
		return number(MakeUp(quantity.CubicMetres(in.Float("total_volume_m3")), quantity.Percent(in.Float("percent_per_day"))))
	}
	if in.Word("system") == "UVI" {
		return formula.Answer{Value: float64(UVIMakeUp), Unit: makeUpShare, Source: "UVI system, as its publications print it"}, nil
	}
	low, high := MakeUpRange()
	answer := formula.Span(float64(low), float64(high))
	answer.Unit, answer.Source = makeUpShare, "FAO 589 p. 29 (second hand)"
	return answer, nil
}

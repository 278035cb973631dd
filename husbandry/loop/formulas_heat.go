package loop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var (
	insideInput  = airBound.input("inside_celsius", "air inside", from("inside_f", fahrenheitToCelsius))
	outsideInput = airBound.input("outside_celsius", "air outside", from("outside_f", fahrenheitToCelsius))
	uInput       = uBound.input("u_w_m2_k", "U-value", from("u_btu_h_ft2_f", uFromUS), from("U", uFromUS))
	massInput    = litresBound.input("water_kg", "water, a kilogram to the litre",
		append(also("kg", "water_l"), from("gal", gallonsToKilograms), from("water_gal", gallonsToKilograms))...)
	riseInput = riseBound.input("rise_k", "temperature rise", append(also("dT", "dT_C", "dT_K"), from("dT_F", fahrenheitRiseToKelvin))...)
	cpInput   = formula.Input{Name: "cp", Meaning: "specific heat of water, kJ/kg K: always 4.186 here", Unit: "kJ/kg K", Low: waterHeat / 1000.0, High: waterHeat / 1000.0, Default: "4.186"}
)

var heatFormulas = []formula.Formula{
	{
		Name: "cover_u_value", Title: "What U-value has this greenhouse cover?", Also: []string{"greenhouse U value", "U value", "U {cover}", "U-value {cover}", "U value {cover}"}, Unit: "W/m2 K", Source: "see the answer; sources disagree", Range: "covers of our table; the largest is given",
		Cautions: []string{HeatCaution}, Inputs: []formula.Input{{Name: "cover", Meaning: "the cover", Also: also("material", "glazing")}},
		Work: coverAnswer,
	},
	{
		Name: "cover_heat_loss", Figures: formula.Rough, Title: "What heat leaves through the cover?", Unit: "W", Also: []string{"greenhouse heat loss"}, Source: "U A dT", Range: "still film or glass, without the ground",
		Cautions: []string{HeatCaution, ElectricityCaution}, Inputs: []formula.Input{uInput, surfaceInput, insideInput, outsideInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return heatAnswer(CoverLoss(WattsPerSquareMetreKelvin(in.Float("u_w_m2_k")), quantity.SquareMetres(in.Float("area_m2")), celsius(in, "inside_celsius"), celsius(in, "outside_celsius")))
		},
	},
	{
		Name: "cover_heat_loss_us", Figures: formula.Rough, Title: "What heat leaves through the cover, in US units?", Unit: "BTU/h", Source: "U A dT", Range: "still film or glass, without the ground",
		Also:     []string{"greenhouse heat loss", "greenhouse heat loss with infiltration", "greenhouse heat loss plus infiltration", "greenhouse conduction heat loss", "heat loss U A dT"},
		Cautions: []string{HeatCaution, ElectricityCaution},
		Inputs: []formula.Input{{Name: "u_btu", Meaning: "U-value", Unit: "BTU/h ft2 degF", Low: uBound.low / uFromUS(1), High: uBound.high / uFromUS(1), Also: also("U", "u_btu_h_ft2_f", "U_BTU_h_ft2_F")},
			{Name: "area_ft2", Meaning: "surface of the cover", Unit: "ft2", Low: areaBound.low / squareFeetToSquareM(1), High: areaBound.high / squareFeetToSquareM(1), Also: also("A_ft2", "A")},
			{Name: "rise_f", Meaning: "inside warmer than outside by", Unit: "degF", Low: 0, High: airBound.high / fahrenheitRiseToKelvin(1), Also: also("dT_F", "dT", "delta_F")},
			{Name: "infiltration_percent", Meaning: "what leaks with the air, as share of that", Unit: "%", Low: 0, High: 100, Default: "0", Also: also("infiltration_pct")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			leak := in.Float("infiltration_percent")
			rise := quantity.Celsius(fahrenheitRiseToKelvin(in.Float("rise_f")))
			w, err := CoverLoss(WattsPerSquareMetreKelvin(uFromUS(in.Float("u_btu"))), quantity.SquareMetres(squareFeetToSquareM(in.Float("area_ft2"))), rise, 0)
			if err == nil {
				err = quantity.Within("rise", float64(rise), 0, airBound.high, "K", quantity.OwnBounds)
			}
			return number(btuPerHour(float64(w))*(1+leak/100), err)
		},
	},
	{
		Name: "air_change_heat_loss", Figures: formula.Rough, Title: "What heat leaves with the air?", Unit: "W", Source: "0.33 n V dT", Range: "0 to 60 changes an hour", Cautions: []string{HeatCaution},
		Inputs: []formula.Input{changesBound.input("air_changes_per_hour", "air changes", also("ACH")...), volumeBound.input("volume_m3", "volume of air"), insideInput, outsideInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return heatAnswer(AirChangeLoss(in.Float("air_changes_per_hour"), cubicMetres(in), celsius(in, "inside_celsius"), celsius(in, "outside_celsius")))
		},
	},
	{
		Name: "water_warming_energy", Title: "What energy warms this water?", Unit: "kWh", Also: []string{"water_heating_energy", "heat 1 m3 water by 10 K", "heat water"}, Source: "mass times 4.186 kJ/kg K times rise", Range: "0 to 100 K",
		Cautions: []string{ElectricityCaution}, Inputs: []formula.Input{massInput, riseInput, cpInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(WarmingEnergy(quantity.Kilograms(in.Float("water_kg")), in.Float("rise_k")))
		},
	},
	{
		Name: "water_warming_btu", Title: "What energy warms these gallons, in BTU?", Unit: "BTU", Source: "mass times 4.186 kJ/kg K times rise; international table BTU", Range: "0 to 180 degF",
		Also:     []string{"heat 300 gal by 80 F", "heat 300 gal water by 80 F", "heat 300 gal by 80 degF", "heat 300 gal water by 80 degF", "water heating BTU"},
		Cautions: []string{ElectricityCaution},
		Inputs: []formula.Input{{Name: "gallons", Meaning: "water", Unit: "gal", Low: 0, High: litresBound.high / gallonsToKilograms(1), Also: also("gal", "volume_gal")},
			{Name: "rise_f", Meaning: "temperature rise", Unit: "degF", Low: 0, High: riseBound.high / fahrenheitRiseToKelvin(1), Also: also("dT_F")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			kwh, err := WarmingEnergy(quantity.Kilograms(gallonsToKilograms(in.Float("gallons"))), fahrenheitRiseToKelvin(in.Float("rise_f")))
			return number(btuPerHour(float64(kwh)*1000), err) // a kilowatt hour is a kilowatt for an hour
		},
	},
	{
		Name: "water_warming_time", Figures: formula.Rough, Title: "How long does this heater take?", Unit: "h", Source: "energy over power, without losses", Range: "longer with losses, or never",
		Cautions: []string{ElectricityCaution}, Inputs: []formula.Input{massInput, riseInput, loadBound.input("heater_w", "power of the heater")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(WarmingTime(quantity.Kilograms(in.Float("water_kg")), in.Float("rise_k"), quantity.Watts(in.Float("heater_w"))))
		},
	},
	{
		Name: "tank_heat_loss", Figures: formula.Rough, Title: "What heat leaves the tank?", Unit: "W", Source: "U A dT", Range: "without evaporation, which may be the larger part", Cautions: []string{HeatCaution, ElectricityCaution},
		Inputs: []formula.Input{uInput, surfaceInput, waterBound.input("water_celsius", "water"), airBound.input("air_celsius", "air")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return heatAnswer(TankLoss(WattsPerSquareMetreKelvin(in.Float("u_w_m2_k")), quantity.SquareMetres(in.Float("area_m2")), celsius(in, "water_celsius"), celsius(in, "air_celsius")))
		},
	},
	{
		Name: "cooling_time", Figures: formula.Rough, Title: "The heater fails: how long until the water reaches a limit?", Unit: "h", Source: "Newton's cooling", Range: "the limit lies between water and air; evaporation makes it shorter",
		Cautions: []string{HeatCaution},
		Inputs: []formula.Input{massInput, uInput, surfaceInput, waterBound.input("start_celsius", "water now"),
			waterBound.input("limit_celsius", "water temperature not to pass"), airBound.input("air_celsius", "air")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CoolingTime(quantity.Kilograms(in.Float("water_kg")), WattsPerSquareMetreKelvin(in.Float("u_w_m2_k")), quantity.SquareMetres(in.Float("area_m2")),
				celsius(in, "start_celsius"), celsius(in, "limit_celsius"), celsius(in, "air_celsius")))
		},
	},
}

// heatAnswer gives watts, and the same in BTU an hour beside it.
func heatAnswer(w quantity.Watts, err error) (formula.Answer, error) {
	answer := formula.Number(float64(w))
	answer.Others = []formula.Other{{Basis: "the same in US units", Value: btuPerHour(float64(w)), Unit: "BTU/h", Source: "international table BTU"}}
	return answer, err
}

// coverAnswer gives the largest published value, with the others beside it.
func coverAnswer(in *formula.Given) (formula.Answer, error) {
	name := in.Word("cover")
	u, err := CoverU(name)
	answer := formula.Number(float64(u))
	if err != nil {
		return answer, err
	}
	found, err := Covers(name)
	for _, c := range found {
		answer.Others = append(answer.Others, formula.Other{Basis: "as printed", Value: c.UUS, Unit: "BTU/h ft2 F", Source: c.Source})
	}
	return answer, err
}

package fish

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func useInput() formula.Input {
	return useBound.input("use_mg_kg_h", "oxygen use of the fish, which oxygen_cautious_rate reckons", named("rate_mg_kg_h")...)
}

func biomassInput() formula.Input { return someMassBound.input("biomass_kg", "fish in the tank") }

func airInput() formula.Input { return airBound.input("air_celsius", "temperature of the air") }

func constantInput() formula.Input {
	return constantBound.input("time_constant_hours", "hours to come 63 % of the way to the air's temperature")
}

func fedInput() formula.Input {
	return rationBound.inputOr("1.5", "feed_percent", "feed as share of body weight a day", named("feed_pct_bw")...)
}

var oxygenFormulas = []formula.Formula{
	{
		Name: "oxygen_rate", Figures: formula.Rough, Title: "How much oxygen do my fish use?", Unit: "mg/kg fish/h",
		Inputs: []formula.Input{rationBound.input("feed_percent", "feed as share of body weight a day", named("feed_pct_bw")...),
			perFeedBound.inputOr("274", "oxygen_g_per_kg_feed", "oxygen for each kilogram of feed", named("g_o2_per_kg_feed")...)},
		Source: "Snake River cutthroat density study (journal abstract)", Range: "mean of the day; a tenth more in the hours of feeding",
		Cautions: []string{oxygenCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(OxygenUse(quantity.Percent(in.Float("feed_percent")), GramsPerKgFeed(in.Float("oxygen_g_per_kg_feed"))))
		},
	},
	{
		Name: "oxygen_rate_at_temperature", Figures: formula.Rough, Title: "How much oxygen do my fish use when the water is warmer?", Unit: "mg/kg fish/h",
		Inputs: []formula.Input{useInput(), waterBound.input("from_celsius", "temperature of that use"), temperatureInput()},
		Source: "doubles for each 10 degC, Boyd", Range: "temperatures the fish are used to",
		Cautions: []string{oxygenCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(OxygenUseAt(MgPerKgHour(in.Float("use_mg_kg_h")), quantity.Celsius(in.Float("from_celsius")), waterTemperature(in)))
		},
	},
	{
		Name: "oxygen_depletion_minutes", Figures: formula.Rough, Title: "How long does the oxygen in my tank last?", Unit: "min",
		Inputs: []formula.Input{volumeInput(), biomassInput(), oxygenBound.input("do_start", "dissolved oxygen now"), oxygenBound.input("do_crit", "least the fish should have"), useInput()},
		Source: "mass balance t = (DO0 - DOc) V / (B r)", Range: "no air from the surface counted", Cautions: []string{oxygenCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(OxygenMinutes(quantity.Litres(in.Float("volume_litres")), quantity.Kilograms(in.Float("biomass_kg")),
				quantity.MgPerL(in.Float("do_start")), quantity.MgPerL(in.Float("do_crit")), MgPerKgHour(in.Float("use_mg_kg_h"))))
		},
	},
	{
		Name: "aeration_supply", Figures: formula.Rough, Title: "How much oxygen do my air pumps put in?", Unit: "g/h",
		Inputs: []formula.Input{
			airPowerBound.input("power_watts", "power of the air pumps, at the wall"), efficiencyBound.inputOr("0.9", "efficiency_kg_kwh", "standard aeration efficiency; air stones 0.6 to 1.2"),
			temperatureInput(), oxygenBound.input("do_full", "oxygen the water would hold"), oxygenBound.input("do_held", "oxygen it is kept at"),
		},
		Source: "SAE (full - held)/9.09 x 1.024^(T-20), ASCE 2 (from memory); air stones 0.9 kg/kWh, Timmons & Ebeling (from memory)", Range: "clean water; stones that are not clogged", Cautions: []string{oxygenCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Aeration(quantity.Watts(in.Float("power_watts")), KilogramsPerKWh(in.Float("efficiency_kg_kwh")), waterTemperature(in), quantity.MgPerL(in.Float("do_full")), quantity.MgPerL(in.Float("do_held"))))
		},
	},
	{
		Name: "oxygen_cautious_rate", Figures: formula.Rough, Title: "With how much oxygen use do I reckon when something fails?", Unit: "mg/kg fish/h",
		Inputs: []formula.Input{fedInput()},
		Source: "hours of feeding, cutthroat abstract; tank bacteria 130 to the fish's 250, Timmons & Ebeling (from memory)", Range: "never below 254 mg/kg/h",
		Cautions: []string{oxygenCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(CautiousUse(quantity.Percent(in.Float("feed_percent"))))
		},
	},
	{
		Name: "pump_stop_minutes", Figures: formula.Rough, Title: "How long do my fish have when the pump stops?", Unit: "min",
		Inputs: []formula.Input{speciesInput(), volumeInput(), biomassInput(), oxygenBound.input("do_start", "dissolved oxygen now"), fedInput(),
			useBound.inputOr("150", "use_mg_kg_h", "oxygen use expected", named("rate_mg_kg_h")...)},
		Source: "mass balance; the larger of expected and cautious use", Range: "no air from the surface counted; the shorter of two times", Cautions: []string{oxygenCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SpeciesByName(in.Word("species"))
			if err != nil {
				return formula.Answer{}, err
			}
			return one(PumpStopMinutes(s, quantity.Litres(in.Float("volume_litres")), quantity.Kilograms(in.Float("biomass_kg")),
				quantity.MgPerL(in.Float("do_start")), quantity.Percent(in.Float("feed_percent")), MgPerKgHour(in.Float("use_mg_kg_h"))))
		},
	},
	{
		Name: "carbon_dioxide_from_oxygen", Figures: formula.Rough, Title: "How much carbon dioxide comes with this use of oxygen?", Unit: "g", Also: []string{"co2_per_oxygen", "co2_from_oxygen", "co2_from_o2"},
		Inputs: []formula.Input{feedBound.input("oxygen_g", "oxygen used", named("o2_g")...)},
		Source: "molar masses at a respiratory quotient of 1", Range: "any",
		Cautions: []string{gasCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(CarbonDioxideFromOxygen(grams(in, "oxygen_g")))
		},
	},
}

// hoursOr answers in hours, or in words when the temperature is never reached.
func hoursOr(hours quantity.Hours, reached bool, err error) (formula.Answer, error) {
	if err == nil && !reached {
		return formula.Words("not reached at this air temperature"), nil
	}
	return one(hours, err)
}

var coolingFormulas = []formula.Formula{
	{
		Name: "tank_time_constant", Figures: formula.Rough, Title: "How fast does my tank follow the air?", Unit: "h",
		Inputs: []formula.Input{volumeInput(), lossBound.input("loss_w_per_k", "heat lost for each degree of difference")},
		Source: "Newton's law of cooling", Range: "stirred water",
		Cautions: []string{coolingCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TimeConstant(quantity.Litres(in.Float("volume_litres")), WattsPerKelvin(in.Float("loss_w_per_k"))))
		},
	},
	{
		Name: "tank_time_constant_from_readings", Title: "How fast does my tank follow the air, by two readings?", Unit: "h",
		Inputs: []formula.Input{waterBound.input("first_celsius", "first water temperature"), waterBound.input("second_celsius", "second water temperature"), airInput(),
			hoursBound.input("elapsed_hours", "time between")},
		Source: "Newton's law of cooling", Range: "heater off, steady air, second reading between the first and the air",
		Cautions: []string{coolingCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TimeConstantFromReadings(quantity.Celsius(in.Float("first_celsius")), quantity.Celsius(in.Float("second_celsius")),
				quantity.Celsius(in.Float("air_celsius")), quantity.Hours(in.Float("elapsed_hours"))))
		},
	},
	{
		Name: "hours_to_temperature", Figures: formula.Rough, Title: "When does my tank come to this temperature?", Unit: "h",
		Inputs: []formula.Input{temperatureInput(), airInput(), waterBound.input("limit_celsius", "temperature asked about"), constantInput()},
		Source: "Newton's law of cooling", Range: "steady air",
		Cautions: []string{coldCaution, coolingCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return hoursOr(HoursToTemperature(waterTemperature(in), quantity.Celsius(in.Float("air_celsius")),
				quantity.Celsius(in.Float("limit_celsius")), quantity.Hours(in.Float("time_constant_hours"))))
		},
	},
	{
		Name: "hours_to_lethal", Figures: formula.Rough, Title: "When does my tank come to a temperature that kills the fish?", Unit: "h",
		Inputs: []formula.Input{speciesInput(), temperatureInput(), airInput(), constantInput()},
		Source: "Newton's law of cooling; species table", Range: "steady air, no heater or chiller", Cautions: []string{coldCaution, coolingCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SpeciesByName(in.Word("species"))
			if err != nil {
				return formula.Answer{}, err
			}
			hours, reached, _, err := HoursToLethal(s, waterTemperature(in), quantity.Celsius(in.Float("air_celsius")), quantity.Hours(in.Float("time_constant_hours")))
			return hoursOr(hours, reached, err)
		},
	},
}

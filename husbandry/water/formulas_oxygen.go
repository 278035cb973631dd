package water

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// airInputs are what oxygen saturation depends on. The pressure or the
// elevation must be given.
var airInputs = []formula.Input{
	celsiusInput(40),
	{Name: "salinity_g_per_kg", Meaning: "salinity", Unit: "g/kg", Low: 0, High: 40, Default: "0", Also: also("salinity", "salinity_g_kg")},
	{
		Name: "pressure_atm", Meaning: "air pressure at the site", Unit: "atm", Low: 0.5, High: 1.1,
		Also: []formula.Alias{
			from("pressure_mmHg", func(v float64) float64 { return float64(quantity.MillimetresOfMercury(v).Atmospheres()) }),
			from("pressure_hpa", func(v float64) float64 { return float64(quantity.Hectopascals(v).Atmospheres()) }),
			from("pressure_kPa", func(v float64) float64 { return float64(quantity.Kilopascals(v).Atmospheres()) }),
		},
	},
	{Name: "elevation_m", Meaning: "height above the sea, when the pressure is not known", Unit: "m", Low: -430, High: 5400, Default: notGiven,
		Also: []formula.Alias{from("elevation_ft", func(v float64) float64 { return float64(quantity.Feet(v).Metres()) })}},
}

// air reads what the airInputs hold.
func air(in *formula.Given) (quantity.Celsius, quantity.Salinity, quantity.Atmospheres, error) {
	t, s := celsius(in), quantity.Salinity(in.Float("salinity_g_per_kg"))
	if in.Has("elevation_m") && !in.Has("pressure_atm") {
		p, err := PressureAtElevation(quantity.Metres(in.Float("elevation_m")))
		return t, s, p, err
	}
	return t, s, quantity.Atmospheres(in.Float("pressure_atm")), nil
}

func saturation(in *formula.Given) (formula.Answer, error) {
	t, s, p, err := air(in)
	if err != nil {
		return formula.Answer{}, err
	}
	return number(OxygenSaturation(t, s, p))
}

var oxygenFormulas = []formula.Formula{
	{
		Name: "do_saturation", Title: "How much oxygen does this water hold when it is in balance with the air?",
		Unit: "mg/L", Source: benson, Range: benson, Cautions: []string{cautionStation, cautionOxygen},
		Inputs: airInputs, Work: saturation,
	},
	{
		Name: "do_salinity_correction", Title: "How much oxygen does salt water hold at one atmosphere?",
		Unit: "mg/L", Source: benson, Range: benson, Cautions: []string{"Salinity, not chloride: a common table mistakes the one for the other.", cautionOxygen},
		Inputs: []formula.Input{airInputs[0], airInputs[1], optional(airInputs[2], "1"), airInputs[3]}, Work: saturation,
	},
	{
		Name: "do_percent", Title: "What percent of saturation is this oxygen?", Also: []string{"do_saturation_percent", "oxygen_saturation_percent"},
		Unit: "%", Source: benson, Range: benson, Cautions: []string{cautionStation, cautionOxygen},
		Inputs: append([]formula.Input{within(load("do_mg_per_l", "dissolved oxygen", "do_mg_L", "DO_mg_L"), 0, 100)}, airInputs...),
		Work: func(in *formula.Given) (formula.Answer, error) {
			t, s, p, err := air(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(OxygenPercent(mgPerL(in, "do_mg_per_l"), t, s, p))
		},
	},
	{
		Name: "do_from_percent", Title: "How many mg/L is this percentage of oxygen saturation?",
		Unit: "mg/L", Source: benson, Range: benson, Cautions: []string{cautionStation, cautionOxygen},
		Inputs: append([]formula.Input{{Name: "percent", Meaning: "percent of saturation", Unit: "%", Low: 0, High: 1000}}, airInputs...),
		Work: func(in *formula.Given) (formula.Answer, error) {
			t, s, p, err := air(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(OxygenOfPercent(quantity.Percent(in.Float("percent")), t, s, p))
		},
	},
	{
		Name: "pressure_from_elevation", Title: "What is the usual air pressure at this height?",
		Unit: "mmHg", Source: "standard atmosphere (ISO 2533), from memory", Range: "-430 to 5400 m",
		Cautions: []string{"The day's weather moves it by up to 4 %."},
		Inputs:   []formula.Input{optional(airInputs[3], "")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			p, err := PressureAtElevation(quantity.Metres(in.Float("elevation_m")))
			return number(p.MillimetresOfMercury(), err)
		},
	},
}

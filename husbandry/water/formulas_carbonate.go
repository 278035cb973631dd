package water

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// carbonPH is the pH in the range of the carbonate formulas.
var carbonPH = formula.Input{Name: "ph", Meaning: "pH of the water", Low: 4.5, High: 10, Also: also("pH")}

func constant(name, other, title string, work func(quantity.Celsius) (float64, error), more ...string) formula.Formula {
	return formula.Formula{
		Name: name, Also: append(more, other), Title: title, Source: "Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040",
		Range: "0 to 50 degC, pure water", Inputs: []formula.Input{celsiusInput(50)},
		Work: func(in *formula.Given) (formula.Answer, error) { return number(work(celsius(in))) },
	}
}

// aboveSimple adds the caution that belongs to high pH.
func aboveSimple(at quantity.PH, a formula.Answer, err error) (formula.Answer, error) {
	if at > simpleToPH {
		a.Cautions = append(a.Cautions, cautionHighPH)
	}
	return a, err
}

var carbonateFormulas = []formula.Formula{
	constant("pk1_carbonic", "pK1_carbonic", "What is the first acidity constant of carbonic acid?", PK1),
	constant("pk2_carbonic", "pK2_carbonic", "What is the second acidity constant of carbonic acid?", PK2),
	constant("pkh_carbonic", "pKH_carbonic", "What is Henry's constant of carbon dioxide?", PKH, "pKH"),
	constant("pkw", "pKw", "What is the ion product of water?", PKw),
	{
		Name: "co2_concentration", Figures: formula.Rough, Title: "How much carbon dioxide is dissolved, going by pH and alkalinity?",
		Unit: "mg/L", Source: plummer, Range: "pH 4.5 to 10, trustworthy to 8.4; 0 to 50 degC; fresh water",
		Cautions: []string{"Keep carbon dioxide below about 20 mg/L; measure where it matters."},
		Inputs:   []formula.Input{carbonPH, celsiusInput(50), alkalinityInput, optional(ionicInput, notGiven)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if in.Has("ionic_strength") {
				return ionicCarbonDioxide(in)
			}
			a, err := number(CarbonDioxide(ph(in), celsius(in), alkalinity(in)))
			a.Cautions = []string{cautionSimple}
			a, err = inLoopWater(a, err, func(i IonicStrength) (float64, error) {
				c, err := CarbonDioxideIonic(ph(in), celsius(in), alkalinity(in), i)
				return float64(c), err
			})
			return aboveSimple(ph(in), a, err)
		},
	},
	{
		Name: "co2_with_activity", Figures: formula.Rough, Title: "How much carbon dioxide is dissolved, counting the shielding by other ions?",
		Unit: "mg/L", Source: "Plummer & Busenberg 1982; extended Debye-Hueckel law, Kielland 1937", Range: extended,
		Cautions: []string{"In hard water above pH 8 calcium binds carbonate, and this still reads up to 9 % high."},
		Inputs:   []formula.Input{carbonPH, celsiusInput(50), alkalinityInput, ionicInput},
		Work:     ionicCarbonDioxide,
	},
	{
		Name: "co2_factor", Title: "By what is alkalinity multiplied to give carbon dioxide?",
		Unit: "mg CO2 per mg CaCO3", Source: plummer, Range: "pH 4.5 to 10, trustworthy to 8.4; 0 to 50 degC; fresh water",
		Cautions: []string{cautionSimple},
		Inputs:   []formula.Input{carbonPH, celsiusInput(50)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			a, err := number(CarbonDioxideFactor(ph(in), celsius(in)))
			return aboveSimple(ph(in), a, err)
		},
	},
	{
		Name: "ph_from_co2", Title: "What pH does this alkalinity have once carbon dioxide stands so?",
		Source: plummer, Range: "0 to 50 degC, fresh water",
		Inputs:   []formula.Input{within(load("co2_mg_per_l", "dissolved carbon dioxide", "co2_mg_L"), 1e-4, mostLoad), celsiusInput(50), within(alkalinityInput, 0.1, mostLoad)},
		Cautions: []string{cautionHighPH},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PHOfCarbonDioxide(mgPerL(in, "co2_mg_per_l"), celsius(in), alkalinity(in)))
		},
	},
	{
		Name: "co2_in_balance_with_air", Figures: formula.Rough, Title: "How much carbon dioxide does water keep that has aired out?",
		Unit: "mg/L", Source: plummer, Range: "0 to 50 degC, fresh water",
		Inputs: []formula.Input{
			{Name: "co2_in_air_ppm", Meaning: "carbon dioxide in the air; a closed greenhouse holds more than the open", Unit: "ppm", Low: 200, High: 10000, Default: "425"},
			celsiusInput(50), optional(airInputs[2], "1"),
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CarbonDioxideInAir(in.Float("co2_in_air_ppm"), celsius(in), quantity.Atmospheres(in.Float("pressure_atm"))))
		},
	},
	{
		Name: "inorganic_carbon", Title: "How much inorganic carbon does the water hold in all?",
		Unit: "mmol/L", Source: plummer, Range: "pH 4.5 to 10, 0 to 50 degC, fresh water",
		Inputs: []formula.Input{carbonPH, celsiusInput(50), alkalinityInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(InorganicCarbon(ph(in), celsius(in), alkalinity(in)))
		},
	},
	{
		Name: "ph_from_inorganic_carbon", Title: "What pH does closed water have with this carbon and alkalinity?",
		Source: plummer, Range: "0 to 50 degC, fresh water",
		Inputs: []formula.Input{{Name: "carbon_mmol_per_l", Meaning: "inorganic carbon in all", Unit: "mmol/L", Low: 0, High: 10000}, celsiusInput(50), within(alkalinityInput, 0, mostClosed)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PHOfInorganicCarbon(Millimolar(in.Float("carbon_mmol_per_l")), celsius(in), alkalinity(in)))
		},
	},
}

func ionicCarbonDioxide(in *formula.Given) (formula.Answer, error) {
	a, err := number(CarbonDioxideIonic(ph(in), celsius(in), alkalinity(in), IonicStrength(in.Float("ionic_strength"))))
	return aboveSimple(ph(in), a, err)
}

package water

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var ammoniaFormulas = []formula.Formula{
	{
		Name: "uia_fraction", Figures: formula.Rough, Title: "What share of the ammonia is the poisonous kind, NH3?",
		Unit: "fraction", Source: emerson, Range: "0 to 50 degC in fresh water; 5 to 40 degC and to 45 g/kg in salt water",
		Cautions: []string{cautionPeak, cautionBias},
		Inputs: []formula.Input{phInput, celsiusInput(50),
			{Name: "salinity_g_per_kg", Meaning: "salinity", Unit: "g/kg", Low: 0, High: 45, Default: "0", Also: also("salinity", "salinity_g_kg")},
			optional(ionicInput, notGiven)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if in.Has("ionic_strength") && !in.Has("salinity_g_per_kg") {
				return ionicFraction(in)
			}
			salinity := quantity.Salinity(in.Float("salinity_g_per_kg"))
			if salinity == 0 {
				a, err := number(UnionizedFraction(ph(in), celsius(in)))
				return inLoopWater(a, err, func(i IonicStrength) (float64, error) {
					f, err := UnionizedFractionIonic(ph(in), celsius(in), i)
					return float64(f), err
				})
			}
			a, err := number(UnionizedFractionSaline(ph(in), celsius(in), salinity))
			a.Source = khoo
			return a, err
		},
	},
	{
		Name: "uia_concentration", Figures: formula.Rough, Title: "How much poisonous ammonia, NH3, is in the water?",
		Unit: "mg/L as N", Source: emerson, Range: "0 to 50 degC, fresh water",
		Cautions: []string{cautionPeak, cautionBias, cautionAct},
		Inputs: []formula.Input{phInput, celsiusInput(50), optional(ammoniaInput, ""),
			{Name: "tan_mmol_per_l", Meaning: "total ammonia, instead of mg/L", Unit: "mmol/L", Low: 0, High: mostLoad, Default: notGiven, Also: also("total_ammonia_mM")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if !in.Has("tan_mmol_per_l") {
				return number(UnionizedAmmonia(total(in), ph(in), celsius(in)))
			}
			a, err := number(UnionizedMillimolar(Millimolar(in.Float("tan_mmol_per_l")), ph(in), celsius(in)))
			a.Unit = "mmol/L"
			return a, err
		},
	},
	{
		Name: "uia_pka", Title: "At what pH is half of the ammonia NH3?", Also: []string{"uia_pKa"},
		Source: emerson, Range: "0 to 50 degC, fresh water",
		Inputs: []formula.Input{celsiusInput(50)},
		Work:   func(in *formula.Given) (formula.Answer, error) { return number(PKa(celsius(in))) },
	},
	{
		Name: "nh3_from_nh4_units", Figures: formula.Rough, Title: "How much NH3, counted as NH3, is in water whose kit reads ammonium as NH4?",
		Unit: "mg/L as NH3", Source: emerson, Range: "0 to 50 degC, fresh water",
		Cautions: []string{cautionPeak, cautionBias},
		Inputs:   []formula.Input{ammoniaInput, phInput, celsiusInput(50)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			u, err := UnionizedAmmonia(total(in), ph(in), celsius(in))
			return number(u.NH3(), err)
		},
	},
	{
		Name: "uia_fraction_with_activity", Title: "What share of the ammonia is NH3, counting how dissolved salts shield it?",
		Unit: "fraction", Source: "Emerson et al. 1975; extended Debye-Hueckel law, Kielland 1937", Range: extended,
		Cautions: []string{cautionPeak},
		Inputs:   []formula.Input{phInput, celsiusInput(50), ionicInput},
		Work:     ionicFraction,
	},
	{
		Name: "ionic_strength_from_conductivity", Title: "How much salt of all kinds does this conductivity stand for?",
		Unit: "mol/kg", Source: "linear rule for mixed salts, as printed by the aqion handbook", Range: "0 to 6250 uS/cm, to about a fifth",
		Inputs: []formula.Input{{Name: "conductivity_us_per_cm", Meaning: "conductivity at 25 degC", Unit: "uS/cm", Low: 0, High: 6250, Also: also("ec_us_cm")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(IonicStrengthOfConductivity(Microsiemens(in.Float("conductivity_us_per_cm"))))
		},
	},
	{
		Name: "ionic_strength_from_salinity", Title: "What is the ionic strength of sea water thinned to this salinity?",
		Unit: "mol/kg", Source: "Millero 1982, from memory", Range: "0 to 45 g/kg",
		Inputs: []formula.Input{{Name: "salinity_g_per_kg", Meaning: "salinity", Unit: "g/kg", Low: 0, High: 45, Also: also("salinity")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(IonicStrengthOfSalinity(quantity.Salinity(in.Float("salinity_g_per_kg"))))
		},
	},
}

// inLoopWater adds what the answer would be in the water of a fed loop.
func inLoopWater(a formula.Answer, err error, there func(IonicStrength) (float64, error)) (formula.Answer, error) {
	if err != nil {
		return a, err
	}
	i, err := IonicStrengthOfConductivity(LoopConductivity)
	if err != nil {
		return a, err
	}
	v, err := there(i)
	a.Others = []formula.Other{{Basis: "in loop water of about 1 mS/cm", Value: v, Source: extended}}
	return a, err
}

func ionicFraction(in *formula.Given) (formula.Answer, error) {
	return number(UnionizedFractionIonic(ph(in), celsius(in), IonicStrength(in.Float("ionic_strength"))))
}

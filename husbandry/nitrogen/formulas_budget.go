package nitrogen

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var waterFormulas = []formula.Formula{
	{
		Name: "dissolved_nitrogen", Title: "How much nitrogen is dissolved in my water?", Unit: "g N",
		Inputs: []formula.Input{
			number("volume_litres", "volume of water", "L", 0, maxGrams, named("volume_L")),
			number("ammonia_mg_l", "ammonia as N", "mg/L as N", 0, maxReading),
			number("nitrite_mg_l", "nitrite as N", "mg/L as N", 0, maxReading),
			number("nitrate_mg_l", "nitrate as N", "mg/L as N", 0, maxReading),
		},
		Source: "definition", Range: "inorganic nitrogen only",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(DissolvedN(quantity.Litres(in.Float("volume_litres")), quantity.AmmoniaN(in.Float("ammonia_mg_l")),
				quantity.NitriteN(in.Float("nitrite_mg_l")), quantity.NitrateN(in.Float("nitrate_mg_l"))))
		},
	},
}

// The entries of a budget, each with its standard error.
var entries = [...]struct{ name, meaning string }{
	{"feed", "nitrogen in feed"},
	{"water_in", "nitrogen in make-up water and rain"},
	{"fish_gain", "nitrogen in the growth of fish"},
	{"plants", "nitrogen in harvest and growth of plants"},
	{"stored_change", "nitrogen dissolved in the water at the end less at the start"},
	{"water_out", "nitrogen in water let go"},
	{"solids", "nitrogen in solids taken out"},
}

func budgetInputs() []formula.Input {
	var inputs []formula.Input
	for _, e := range entries {
		inputs = append(inputs,
			formula.Input{Name: e.name + "_g", Meaning: e.meaning, Unit: "g N", Low: -maxGrams, High: maxGrams, Default: "0"},
			formula.Input{Name: e.name + "_error_g", Meaning: "standard error of " + e.meaning, Unit: "g N", High: maxGrams, Default: "0"})
	}
	return append(inputs, formula.Input{Name: "level", Meaning: "chance that the interval covers the truth", Low: minLevel, High: maxLevel, Default: "0.9"})
}

var budgetFormulas = []formula.Formula{
	{
		Name: "nitrogen_budget", Title: "Where did my nitrogen go, and how much is unaccounted for?", Unit: "g N",
		Inputs: budgetInputs(),
		Source: "conservation of mass; independent normal errors", Range: "one span of time, all entries in g N",
		Work: func(in *formula.Given) (formula.Answer, error) {
			var b Budget
			for i, a := range b.amounts() {
				*a = Amount{GramsN(in.Float(entries[i].name + "_g")), GramsN(in.Float(entries[i].name + "_error_g"))}
			}
			c, err := b.Close(quantity.Fraction(in.Float("level")))
			return formula.Answer{Value: float64(c.Unaccounted.Value), Low: float64(c.Low), High: float64(c.High), Text: c.Words()}, err
		},
	},
	{
		Name: "nitrogen_amount", Title: "How sure am I of the nitrogen in this mass?", Unit: "g N",
		Inputs: []formula.Input{
			number("mass_g", "mass", "g", -maxGrams, maxGrams),
			{Name: "mass_error_g", Meaning: "standard error of the mass", Unit: "g", High: maxGrams, Default: "0"},
			number("nitrogen_fraction", "share of nitrogen", "", 0, 1),
			{Name: "nitrogen_fraction_error", Meaning: "standard error of the share", High: 1, Default: "0"},
		},
		Source: "first-order propagation of error; the range given is one standard error each way", Range: "independent errors",
		Work: func(in *formula.Given) (formula.Answer, error) {
			a, err := AmountOf(quantity.Grams(in.Float("mass_g")), quantity.Grams(in.Float("mass_error_g")),
				quantity.Fraction(in.Float("nitrogen_fraction")), quantity.Fraction(in.Float("nitrogen_fraction_error")))
			return formula.Answer{Value: float64(a.Value), Low: float64(a.Value - a.Error), High: float64(a.Value + a.Error)}, err
		},
	},
	{
		Name: "denitrification_left", Figures: formula.Rough, Title: "How much ammonia nitrogen is left for gas when plants and water took theirs?", Unit: "g N/d",
		Inputs: []formula.Input{
			number("tan_g", "ammonia from feed in a day, as N", "g N/d", -maxGrams, maxGrams),
			number("plants_g", "taken up by plants", "g N/d", -maxGrams, maxGrams),
			number("water_out_g", "carried out by water", "g N/d", -maxGrams, maxGrams),
			number("stored_change_g", "rise of what is dissolved", "g N/d", -maxGrams, maxGrams),
		},
		Source: "conservation of mass", Range: "an upper bound: errors of all other terms end here",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Left(GramsN(in.Float("tan_g")), GramsN(in.Float("plants_g")), GramsN(in.Float("water_out_g")), GramsN(in.Float("stored_change_g"))))
		},
	},
}

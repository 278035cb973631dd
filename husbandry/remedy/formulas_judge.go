package remedy

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var substanceInput = formula.Input{Name: "substance", Meaning: "what is put on the plants or into the water"}

var (
	doseInput     = formula.Input{Name: "dose_g", Meaning: "product used", Unit: "g", High: mostGrams}
	doseMlInput   = formula.Input{Name: "dose_ml", Meaning: "product used, in millilitres, where the tests count a liquid", Unit: "mL", High: mostGrams, Default: notGiven}
	reachingInput = formula.Input{Name: "reaching_fraction", Meaning: "share that drips or washes into the water; all of it unless you know better", High: 1, Default: "1"}
)

var judgeFormulas = []formula.Formula{
	{
		Name: "remedy_judgement", Figures: formula.Rough, Title: "May I put this on my plants?", Unit: "times", Source: "published tests of our table; US EPA levels of concern (from memory)",
		Range: "a margin to the lowest published LC50, never more than that", Cautions: chemical,
		Inputs: []formula.Input{substanceInput, doseInput, doseMlInput, activeInput, reachingInput, loopInput,
			{Name: "alkalinity", Meaning: "of the loop, where it is known", Unit: "mg/L as CaCO3", High: hardestWater, Default: notGiven}},
		Work: judgement,
	},
	{
		Name: "remedy_dilution", Figures: formula.Rough, Title: "What does this dose become in my loop?", Unit: "mg/L", Source: "arithmetic", Range: "all mixed at once", Cautions: chemical,
		Inputs: []formula.Input{doseInput, doseMlInput, activeInput, reachingInput, loopInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := dilutionGiven(in)
			answer := formula.Number(c.Amount)
			if c.Volume {
				answer.Unit = string(MicrolitrePerL)
			}
			return answer, err
		},
	},
	{
		Name: "remedy_register", Title: "What is known of this substance?", Source: "our register, in our words", Range: "not known where nothing was found", Cautions: chemical,
		Inputs: []formula.Input{substanceInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := Find(in.Word("substance"))
			if err != nil {
				return formula.Answer{}, err
			}
			return formula.Words("Fish: " + s.Fish + ". Filter: " + s.Filter + ". Plants: " + s.Plants + ". Waiting: " + s.Waiting + "."), nil
		},
	},
	{
		Name: "dose_mass", Title: "How much product gives this concentration?", Unit: "g", Source: "concentration times volume over active share", Range: "1 L to 1e10 L",
		Cautions: append([]string{HandlingCaution}, chemical...),
		Inputs:   []formula.Input{{Name: "dose_mg_l", Meaning: "concentration wanted", Unit: "mg/L", High: mostPerLitre, Also: also("dose_mg_L")}, loopInput, activeInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			m, err := Mass(quantity.MgPerL(in.Float("dose_mg_l")), quantity.Litres(in.Float("volume_l")), quantity.Fraction(in.Float("active_fraction")))
			answer := formula.Number(float64(m))
			answer.Others = []formula.Other{
				{Basis: "the same in pounds", Value: float64(m.Pounds()), Unit: "lb", Source: "NIST SP 811"},
				{Basis: "the same in ounces", Value: float64(m.Ounces()), Unit: "oz", Source: "NIST SP 811"},
			}
			return answer, err
		},
	},
}

func dilutionGiven(in *formula.Given) (PerLitre, error) {
	dose, volume := "dose_g", in.Has("dose_ml")
	if volume {
		dose = "dose_ml"
	}
	return Dilution(in.Float(dose), volume, quantity.Fraction(in.Float("active_fraction")),
		quantity.Fraction(in.Float("reaching_fraction")), quantity.Litres(in.Float("volume_l")))
}

func judgement(in *formula.Given) (formula.Answer, error) {
	name := in.Word("substance")
	c, err := dilutionGiven(in)
	if err != nil {
		return formula.Answer{}, err
	}
	j, err := Judge(name, c, Water{Alkalinity: quantity.AlkalinityCaCO3(optional(in, "alkalinity"))})
	answer := formula.Number(j.Margin)
	answer.Text = j.Words
	return answer, err
}

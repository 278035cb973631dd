package remedy

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var bathCautions = []string{LabelCaution, TrialCaution, HandlingCaution, MedicineCaution}

// bathFormula asks one source for a group of fish, or for the group given when
// none is named here. Of several limits the strictest is the answer, and all
// stand beside it.
func bathFormula(name, title, substance, group, source, temperature string, also ...string) formula.Formula {
	inputs := []formula.Input{celsiusInput(temperature), remark("minutes")}
	if group == "" {
		inputs = append(inputs, formula.Input{Name: "group", Meaning: "fish, as the source names them", Default: notGiven, Also: []formula.Alias{{Name: "species"}}})
	}
	return formula.Formula{
		Name: name, Title: title, Source: source, Range: "a tank apart from the loop, with air", Cautions: bathCautions, Also: also, Inputs: inputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			asked := group
			if group == "" {
				asked = wordOr(in, "group")
			}
			found, err := Baths(substance, asked, celsiusGiven(in))
			return strictest(found, source, err)
		},
	}
}

// strictest takes the lowest limit of a source.
func strictest(found []Bath, source string, err error) (formula.Answer, error) {
	if err != nil {
		return formula.Answer{}, err
	}
	var best *Bath
	var list []formula.Other
	for i := range found {
		b := &found[i]
		list = append(list, formula.Other{Basis: b.Group, Value: b.High, Unit: string(b.Unit), Source: b.Source})
		if b.Source == source && (best == nil || b.High < best.High) {
			best = b
		}
	}
	if best == nil {
		return formula.Answer{}, &NotKnownError{"a limit by " + source}
	}
	answer := formula.Span(best.Low, best.High)
	if best.Low == best.High {
		answer = formula.Number(best.High)
	}
	answer.Unit, answer.Source, answer.Text, answer.Others = string(best.Unit), best.Source, best.Group+", "+best.time(), list
	return answer, nil
}

func (b *Bath) time() string {
	if b.Minutes == 0 {
		return "no end printed"
	}
	return "up to " + short(b.Minutes) + " min"
}

var bathFormulas = []formula.Formula{
	bathFormula("formalin_short_bath", "How strong may an hour's formalin bath be, by UF/IFAS?", "formalin", "all fish", ufas, "", "formalin short bath"),
	bathFormula("formalin_short_bath_warm", "How strong may an hour's formalin bath be in warm water, by UF/IFAS?", "formalin", "all fish", ufas, ">21", "formalin short bath warm"),
	bathFormula("formalin_bath_trout_salmon", "How strong may a formalin bath of trout or salmon be, by the FDA table?", "formalin", "trout and salmon", fdaTable, ">10", "formalin trout/salmon bath max"),
	bathFormula("formalin_bath_other_finfish", "How strong may a formalin bath of other fish be, by the FDA table?", "formalin", "other finfish", fdaTable, ">10", "formalin other finfish bath max"),
	bathFormula("formalin_bath_salmonids_hatchery", "How strong may a formalin bath of salmonids be, by Fish Hatchery Management?", "formalin", "salmonids", hatchery, ">10", "formalin salmonid bath max"),
	bathFormula("formalin_bath_catfish_hatchery", "How strong may a formalin bath of catfish be, by Fish Hatchery Management?", "formalin", "channel catfish", hatchery, ">22", "formalin catfish bath max"),
	bathFormula("formalin_indefinite_bath", "How strong may formalin be that stays in the water?", "formalin", "indefinite", ufas, "20", "formalin indefinite bath"),
	bathFormula("hydrogen_peroxide_bath", "How strong may an hour's bath of hydrogen peroxide be?", "hydrogen peroxide", "", gaikowski, "20", "hydrogen peroxide safe 60-min bath max"),
	bathFormula("permanganate_bath", "How strong is the usual permanganate treatment?", "potassium permanganate", "", usual, "20", "potassium permanganate treatment"),
	bathFormula("salt_bath", "How strong is a salt bath?", "salt", "", saltTexts, "20", "salt bath"),
	{
		Name: "formalin_oxygen", Figures: formula.Rough, Title: "How much oxygen does formalin take from the water?", Unit: "mg/L", Source: "extension texts: 1 mg/L for each 5", Range: "0 to 1000 mg/L", Cautions: bathCautions,
		Inputs: []formula.Input{{Name: "formalin_mg_l", Meaning: "formalin", Unit: "mg/L", High: mostFormalin}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(OxygenTaken(quantity.MgPerL(in.Float("formalin_mg_l"))))
		},
	},
}

func withdrawalFormula(name, title, drug string, also ...string) formula.Formula {
	inputs := []formula.Input{{Name: "species", Meaning: "fish", Default: notGiven}}
	if drug == "" {
		inputs = append(inputs, formula.Input{Name: "drug", Meaning: "medicine"})
	}
	return formula.Formula{
		Name: name, Title: title, Unit: "days", Source: cvm, Range: "United States; the longest where several fit", Cautions: []string{MedicineCaution}, Also: also, Inputs: inputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			asked := drug
			if drug == "" {
				asked = in.Word("drug")
			}
			days, err := WithdrawalDays(asked, wordOr(in, "species"))
			if err != nil {
				return formula.Answer{}, err
			}
			answer := formula.Number(float64(days))
			found, err := Withdrawals(asked, wordOr(in, "species"))
			answer.Source = found[0].Source
			return answer, err
		},
	}
}

var waitingFormulas = []formula.Formula{
	withdrawalFormula("withdrawal_days", "How long before treated fish may be eaten?", "", "US withdrawal period"),
	withdrawalFormula("formalin_withdrawal", "How long before fish from a formalin bath may be eaten?", "formalin", "formalin withdrawal"),
	withdrawalFormula("salt_withdrawal", "How long before fish from a salt bath may be eaten?", "salt", "salt withdrawal"),
	{
		Name: "florfenicol_depletion", Title: "How long did florfenicol take to fall to 1 ug/g in tilapia?", Unit: "days", Source: "J Aquat Anim Health 2009 21:8-13 (abstract)", Range: "Nile tilapia at 25 and 30 degC; no withdrawal period",
		Cautions: []string{MedicineCaution}, Also: []string{"florfenicol time to 1 ug/g muscle-skin"},
		Inputs: []formula.Input{{Name: "species", Meaning: "Nile tilapia only", Default: "Nile tilapia", Choices: []string{"Nile tilapia"}},
			{Name: "water_celsius", Meaning: "25 or 30", Unit: "degC", Low: float64(florfenicol[0].Celsius), High: float64(florfenicol[1].Celsius), Also: also("T_C")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			in.Word("species")
			return number(FlorfenicolDepletion(quantity.Celsius(in.Float("water_celsius"))))
		},
	},
}

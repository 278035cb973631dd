package remedy

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const pondRule = "common pond rule; the channel catfish trial casts doubt on it"

var copperCautions = []string{LabelCaution, TrialCaution, HandlingCaution}

var copperFormulas = []formula.Formula{
	{
		Name: "copper_sulfate_rule", Title: "What does the pond rule give for copper sulfate?", Unit: "mg/L CuSO4.5H2O", Source: pondRule,
		Range: "alkalinity 50 to 250 mg/L as CaCO3; ponds without crops", Cautions: copperCautions, Also: []string{"copper sulfate rate = alkalinity/100"},
		Inputs: []formula.Input{{Name: "alkalinity", Meaning: "total alkalinity", Unit: "mg/L as CaCO3", Low: softestForCopper, High: hardestForCopper}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CopperSulfateRule(quantity.AlkalinityCaCO3(in.Float("alkalinity"))))
		},
	},
	{
		Name: "copper_in_sulfate", Title: "How much copper is in this copper sulfate?", Unit: "mg/L Cu", Source: "molar masses", Range: "0.2545 of the crystals", Cautions: copperCautions,
		Also: []string{"copper in that dose"},
		Inputs: []formula.Input{{Name: "sulfate_mg_l", Meaning: "copper sulfate crystals", Unit: "mg/L", High: mostPerLitre, Also: also("CuSO4.5H2O_mg_L")},
			{Name: "copper_fraction", Meaning: "share of copper", Low: leastActive, High: 1, Default: "0.2545", Also: also("Cu_fraction")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CopperIn(quantity.MgPerL(in.Float("sulfate_mg_l")), quantity.Fraction(in.Float("copper_fraction"))))
		},
	},
	{
		Name: "copper_rule_margin", Title: "How far is the pond rule from what killed half the fish?", Unit: "times", Source: catfishCopper, Range: "near 1 it kills", Cautions: copperCautions,
		Also: []string{"safety ratio LC50/dose catfish"},
		Inputs: []formula.Input{{Name: "alkalinity", Meaning: "total alkalinity", Unit: "mg/L as CaCO3", Low: 1, High: hardestWater},
			{Name: "lc50_mg_l", Meaning: "LC50 of copper in that water", Unit: "mg/L Cu", Low: leastLC50, High: mostLC50, Also: also("LC50")}, remark("dose")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(CopperRuleMargin(quantity.AlkalinityCaCO3(in.Float("alkalinity")), quantity.MgPerL(in.Float("lc50_mg_l"))))
		},
	},
	{
		Name: "copper_minimum_alkalinity", Title: "Below which alkalinity is copper sulfate not used at all?", Unit: "mg/L CaCO3", Source: "tilapia copper treatment text", Range: "ponds", Cautions: copperCautions,
		Also: []string{"minimum alkalinity for copper sulfate"},
		Work: func(*formula.Given) (formula.Answer, error) { return number(MinimumAlkalinity(), nil) },
	},
	{
		Name: "copper_sulfate_mass", Title: "How many pounds of copper sulfate is that?", Unit: "lb", Source: "concentration times volume over the share of copper", Range: "1 L to 1e10 L", Cautions: copperCautions,
		Also: []string{"copper sulfate mass"},
		Inputs: []formula.Input{
			{Name: "dose_mg_l", Meaning: "copper wanted", Unit: "mg/L Cu", High: mostPerLitre, Also: also("dose_mg_L_Cu")},
			{Name: "volume_l", Meaning: "water", Unit: "L", Low: leastLitres, High: mostLitres, Also: []formula.Alias{{Name: "volume_MG", Change: litresFromMillionGallons}}},
			{Name: "copper_fraction", Meaning: "share of copper", Low: leastActive, High: 1, Default: "0.2545", Also: also("Cu_fraction")},
			{Name: "acre_feet", Meaning: "water in acre-feet, instead of a volume", Unit: "acre-ft", Low: leastAcreFeet, High: mostAcreFeet, Default: notGiven, Also: also("acft")},
			{Name: "lb_per_acre_foot", Meaning: "rate, instead of a concentration", Unit: "lb/acre-ft", High: mostRate, Default: notGiven, Also: also("lb_per_acft")},
		},
		Work: copperMass,
	},
}

func copperMass(in *formula.Given) (formula.Answer, error) {
	if in.Has("acre_feet") {
		return number(MassByArea(quantity.AcreFeet(in.Float("acre_feet")), in.Float("lb_per_acre_foot")))
	}
	m, err := Mass(quantity.MgPerL(in.Float("dose_mg_l")), quantity.Litres(in.Float("volume_l")), quantity.Fraction(in.Float("copper_fraction")))
	return number(m.Pounds(), err)
}

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
		Name: "formalin_oxygen", Title: "How much oxygen does formalin take from the water?", Unit: "mg/L", Source: "extension texts: 1 mg/L for each 5", Range: "0 to 1000 mg/L", Cautions: bathCautions,
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

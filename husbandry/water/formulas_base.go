package water

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var baseInput = formula.Input{Name: "base", Meaning: "the base, by name or formula", Choices: baseNames(), Also: also("chemical")}

func baseNames() []string {
	var names []string
	for _, b := range Bases {
		names = append(names, b.Formula, b.Name)
	}
	for _, called := range kitchenNames {
		names = append(names, called.name)
	}
	return names
}

// withBase looks the base up, works, and adds what is to be said of it.
func withBase(in *formula.Given, work func(Base) (formula.Answer, error)) (formula.Answer, error) {
	b, err := BaseNamed(in.Word("base"))
	if err != nil {
		return formula.Answer{}, err
	}
	a, err := work(b)
	a.Cautions = append(a.Cautions, b.Name+": "+b.Caution)
	return a, err
}

var riseInput = formula.Input{
	Name: "rise_mg_per_l", Meaning: "rise of alkalinity", Unit: "mg/L as CaCO3", Low: 0, High: mostLoad,
	Also: []formula.Alias{from("rise_dkh", func(v float64) float64 { return float64(quantity.DegreesKH(v).CaCO3()) })},
}

// Water to which base may be added.
var (
	dosedPH         = within(carbonPH, lowestDosedPH, highestDosedPH)
	dosedAlkalinity = within(alkalinityInput, leastDosed, mostDosed)
)

const stoichiometry = "stoichiometry; IUPAC atomic weights 2021"

var baseFormulas = append([]formula.Formula{
	{
		Name: "base_per_tan", Title: "How much base makes up for nitrifying this much ammonia?",
		Unit: "g", Source: stoichiometry + ": two moles of acid for one of nitrogen", Range: "the most that is needed: plants give some back",
		Cautions: []string{cautionBase, cautionRise},
		Inputs:   []formula.Input{baseInput, {Name: "tan_g", Meaning: "ammonia nitrified, as nitrogen", Unit: "g", Low: 0, High: mostMass}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				return number(BaseForNitrification(b, quantity.Grams(in.Float("tan_g"))))
			})
		},
	},
	{
		Name: "base_equivalent", Title: "How many grams of this base bind one mole of acid?", Also: []string{"equivalent_weight"},
		Unit: "g/eq", Source: stoichiometry, Range: "pure and dry", Cautions: []string{cautionBase},
		Inputs: []formula.Input{baseInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) { return number(b.Equivalent, nil) })
		},
	},
	{
		Name: "base_for_alkalinity", Title: "How much base raises the alkalinity so far?", Also: []string{"alkalinity_dose"},
		Unit: "g", Source: stoichiometry, Range: "0 to 1e9 L", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, volumeInput, named(riseInput, "alkalinity_mg_L", "alkalinity_mg_CaCO3_L")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				return number(BaseForAlkalinity(b, litres(in), quantity.AlkalinityCaCO3(in.Float("rise_mg_per_l"))))
			})
		},
	},
	{
		Name: "alkalinity_from_base", Title: "How far does this much base raise the alkalinity?",
		Unit: "mg/L as CaCO3", Source: stoichiometry, Range: "once dissolved", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, within(volumeInput, 0.001, mostVolume), {Name: "dose_g", Meaning: "base added", Unit: "g", Low: 0, High: mostMass, Also: also("mass_g")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				return number(AlkalinityOfBase(b, litres(in), quantity.Grams(in.Float("dose_g"))))
			})
		},
	},
	{
		Name: "ph_after_base_closed", Title: "What is the pH straight after the base, before any gas escapes?",
		Source: plummer, Range: "pH 4.5 to 9, alkalinity 1 to 1000 mg/L, 0 to 50 degC", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, dosedPH, celsiusInput(50), dosedAlkalinity, within(riseInput, 0, mostDosed)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				closed, _, err := PHAfterBase(loopWater(in), b, quantity.AlkalinityCaCO3(in.Float("rise_mg_per_l")))
				return number(closed, err)
			})
		},
	},
	{
		Name: "ph_after_base_open", Title: "What is the pH once carbon dioxide is back to what it was before the base?",
		Source: plummer, Range: "pH 4.5 to 9, alkalinity 1 to 1000 mg/L, 0 to 50 degC", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, dosedPH, celsiusInput(50), dosedAlkalinity, within(riseInput, 0, mostDosed)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				_, open, err := PHAfterBase(loopWater(in), b, quantity.AlkalinityCaCO3(in.Float("rise_mg_per_l")))
				return number(open, err)
			})
		},
	},
}, basePlanFormulas...)

// loopWater reads what the pH after a dose depends on.
func loopWater(in *formula.Given) Water {
	return Water{PH: ph(in), Temperature: celsius(in), Alkalinity: alkalinity(in)}
}

var basePlanFormulas = formula.Outputs(
	formula.Formula{
		Source: plummer + "; " + faoRise, Range: "to 500 mg/L and 365 days", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, volumeInput, dosedPH, celsiusInput(50), dosedAlkalinity, ammoniaInput,
			{Name: "wanted_mg_per_l", Meaning: "alkalinity wanted", Unit: "mg/L as CaCO3", Low: 0, High: 500},
			{Name: "most_ph_a_day", Meaning: "most that pH may rise in a day", Low: leastRise, High: mostRise, Default: "0.2"},
		},
	},
	func(in *formula.Given) ([]BaseStep, error) {
		b, err := BaseNamed(in.Word("base"))
		if err != nil {
			return nil, err
		}
		w := loopWater(in)
		w.Volume, w.Ammonia = litres(in), total(in)
		return PlanBase(w, b, quantity.AlkalinityCaCO3(in.Float("wanted_mg_per_l")), in.Float("most_ph_a_day"))
	},
	formula.Output[[]BaseStep]{Name: "base_plan_days", Title: "Over how many days is the base best split?", Unit: "d",
		Value: func(steps []BaseStep) float64 { return float64(len(steps)) }},
	formula.Output[[]BaseStep]{Name: "base_plan_first_dose", Title: "How much base is safe today?", Unit: "g",
		Value: firstStep(func(s BaseStep) float64 { return float64(s.Dose) })},
	formula.Output[[]BaseStep]{Name: "base_plan_first_ph", Title: "What pH follows today's base, straight after it?",
		Value: firstStep(func(s BaseStep) float64 { return float64(s.PHClosed) })},
	formula.Output[[]BaseStep]{Name: "base_plan_highest_nh3", Title: "How much NH3 does the plan lead to at its worst?", Unit: "mg/L as N",
		Value: highestUnionized},
)

// firstStep reads a figure of the first day; there is none when nothing is to be
// done.
func firstStep(read func(BaseStep) float64) func([]BaseStep) float64 {
	return func(steps []BaseStep) float64 {
		if len(steps) == 0 {
			return nan
		}
		return read(steps[0])
	}
}

func highestUnionized(steps []BaseStep) float64 {
	highest := nan
	for _, s := range steps {
		if !(float64(s.Unionized) <= highest) {
			highest = float64(s.Unionized)
		}
	}
	return highest
}

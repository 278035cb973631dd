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
		Name: "base_for_alkalinity", Title: "How much base raises the alkalinity so far?",
		Unit: "g", Source: stoichiometry, Range: "0 to 1e9 L", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, volumeInput, riseInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				return number(BaseForAlkalinity(b, litres(in), quantity.AlkalinityCaCO3(in.Float("rise_mg_per_l"))))
			})
		},
	},
	{
		Name: "alkalinity_from_base", Title: "How far does this much base raise the alkalinity?",
		Unit: "mg/L as CaCO3", Source: stoichiometry, Range: "once dissolved", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, within(volumeInput, 0.001, mostVolume), {Name: "dose_g", Meaning: "base added", Unit: "g", Low: 0, High: mostMass}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return withBase(in, func(b Base) (formula.Answer, error) {
				return number(AlkalinityOfBase(b, litres(in), quantity.Grams(in.Float("dose_g"))))
			})
		},
	},
	{
		Name: "ph_after_base_closed", Title: "What is the pH straight after the base, before any gas escapes?",
		Source: plummer, Range: "pH 4.5 to 9, alkalinity 1 to 1000 mg/L, 0 to 50 degC", Cautions: []string{cautionBase, cautionRise},
		Inputs: []formula.Input{baseInput, dosedPH, celsiusInput(0, 50), dosedAlkalinity, within(riseInput, 0, mostDosed)},
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
		Inputs: []formula.Input{baseInput, dosedPH, celsiusInput(0, 50), dosedAlkalinity, within(riseInput, 0, mostDosed)},
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
		Inputs: []formula.Input{baseInput, volumeInput, dosedPH, celsiusInput(0, 50), dosedAlkalinity, ammoniaInput,
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

// A measure of water for which doses are printed, and the mass they are
// printed in.
type printedDose struct {
	per    string
	volume quantity.Litres
	unit   string
	mass   func(quantity.Grams) float64
}

func inGrams(g quantity.Grams) float64  { return float64(g) }
func inPounds(g quantity.Grams) float64 { return float64(g.Pounds()) }

var printedDoses = []printedDose{
	{"US gallon", quantity.USGallons(1).Litres(), "g", inGrams},
	{"cubic foot", quantity.CubicFeet(1).Litres(), "g", inGrams},
	{"litre", 1, "g", inGrams},
	{"cubic metre", quantity.CubicMetres(1).Litres(), "g", inGrams},
	{"acre-foot", quantity.AcreFeet(1).Litres(), "lb", inPounds},
	{"million gallons", quantity.USGallons(1e6).Litres(), "lb", inPounds},
}

func printedNames() []string {
	var names []string
	for _, p := range printedDoses {
		names = append(names, p.per)
	}
	return names
}

func shareOfPercent(v float64) float64 { return v / 100 }

var doseFormulas = []formula.Formula{
	{
		Name: "dose_conversion", Title: "How much of a substance gives 1 mg/L in one measure of water?",
		Source: stoichiometry + "; units exact by definition", Range: "the measures named",
		Inputs: []formula.Input{{Name: "per", Meaning: "measure of water", Choices: printedNames()}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			per := in.Word("per")
			for _, p := range printedDoses {
				if p.per == per {
					g, err := Dose(1, p.volume)
					a := formula.Number(p.mass(g))
					a.Unit = p.unit
					return a, err
				}
			}
			return formula.Answer{}, &NameError{Name: per, Of: "measure of water", Known: printedNames()}
		},
	},
	{
		Name: "dose_for_concentration", Title: "How much gives this concentration in this much water?",
		Unit: "g", Source: "mass = concentration x volume", Range: "0 to 1e9 L", Cautions: []string{cautionGuide},
		Inputs: []formula.Input{load("rise_mg_per_l", "rise wanted", "mg_L"), volumeInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(Dose(mgPerL(in, "rise_mg_per_l"), litres(in)))
		},
	},
	{
		Name: "dose_days", Title: "Over how many days is this dose best split?",
		Unit: "d", Source: "dose / most a day", Range: "to 365 days", Cautions: []string{cautionGuide},
		Inputs: []formula.Input{{Name: "dose_g", Meaning: "whole dose", Unit: "g", Low: 0, High: mostMass}, within(volumeInput, 0.001, mostVolume),
			within(load("most_mg_per_l_a_day", "most that a day may bring"), 0.001, mostLoad)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			doses, err := DailyDoses(quantity.Grams(in.Float("dose_g")), litres(in), mgPerL(in, "most_mg_per_l_a_day"))
			return number(float64(len(doses)), err)
		},
	},
	{
		Name: "iron_dose", Title: "How much iron chelate does the loop get, or to what iron is it dosed?",
		Unit: "g", Source: "University of the Virgin Islands; FAO TP 589", Range: "0 to 5 mg/L of iron", Cautions: []string{cautionIron},
		Inputs: []formula.Input{
			{Name: "interval_weeks", Meaning: "weeks between doses, to ask for the target alone", Unit: "weeks", Low: 2, High: 3, Default: notGiven},
			optional(volumeInput, ""),
			optional(within(load("iron_mg_per_l", "rise of iron wanted", "fe_mg_L", "mg_L", "target_mg_L"), 0, 5), "2"),
			{Name: "iron_fraction", Meaning: "share of the product that is iron", Low: 0.005, High: 1, Default: "0.07",
				Also: append(also("fe_fraction"), from("iron_percent", shareOfPercent), from("fe_pct", shareOfPercent))},
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if in.Has("interval_weeks") && !in.Has("volume_litres") {
				a, err := number(IronTarget(in.Float("interval_weeks")))
				a.Unit = "mg/L"
				return a, err
			}
			return number(IronDose(litres(in), mgPerL(in, "iron_mg_per_l"), quantity.Fraction(in.Float("iron_fraction"))))
		},
	},
}

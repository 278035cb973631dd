package water

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// A measure of water for which doses are printed, by the names it goes by, and
// the mass they are printed in.
type printedDose struct {
	per    []string
	volume quantity.Litres
	unit   string
	mass   func(quantity.Grams) float64
}

func inGrams(g quantity.Grams) float64  { return float64(g) }
func inPounds(g quantity.Grams) float64 { return float64(g.Pounds()) }

var printedDoses = []printedDose{
	{[]string{"US gallon", "gal"}, quantity.USGallons(1).Litres(), "g", inGrams},
	{[]string{"cubic foot", "ft3"}, quantity.CubicFeet(1).Litres(), "g", inGrams},
	{[]string{"litre", "L"}, 1, "g", inGrams},
	{[]string{"cubic metre", "m3"}, quantity.CubicMetres(1).Litres(), "g", inGrams},
	{[]string{"acre-foot", "acre-ft"}, quantity.AcreFeet(1).Litres(), "lb", inPounds},
	{[]string{"million gallons"}, quantity.USGallons(1e6).Litres(), "lb", inPounds},
}

func printedNames() []string {
	var names []string
	for _, p := range printedDoses {
		names = append(names, p.per...)
	}
	return names
}

func shareOfPercent(v float64) float64 { return v / 100 }

var doseFormulas = []formula.Formula{
	{
		Name: "dose_conversion", Title: "How much of a substance gives 1 mg/L in one measure of water?",
		Source: stoichiometry + "; units exact by definition", Range: "the measures named",
		Inputs:   []formula.Input{{Name: "per", Meaning: "measure of water", Choices: printedNames()}},
		Cautions: []string{cautionGuide},
		Work: func(in *formula.Given) (formula.Answer, error) {
			per := in.Word("per")
			for _, p := range printedDoses {
				if slices.Contains(p.per, per) {
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
		Name: "iron_dose", Title: "How much iron chelate does the loop get, or to what iron is it dosed?", Also: []string{"iron_chelate_dose"},
		Unit: "g", Source: "University of the Virgin Islands; FAO TP 589", Range: "0 to 5 mg/L of iron", Cautions: []string{cautionIron},
		Inputs: []formula.Input{
			{Name: "interval_weeks", Meaning: "weeks between doses, to ask for the target alone", Unit: "weeks", Low: 2, High: 3, Default: notGiven},
			optional(volumeInput, ""),
			optional(within(load("iron_mg_per_l", "rise of iron wanted", "fe_mg_L", "mg_L", "dose_mg_L", "target_mg_L"), 0, 5), "2"),
			{Name: "iron_fraction", Meaning: "share of the product that is iron", Low: 0.005, High: 1, Default: "0.07",
				Also: append(also("fe_fraction", "fraction"), from("iron_percent", shareOfPercent), from("fe_pct", shareOfPercent))},
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

package trial

import (
	"slices"

	"freshet.example/husbandry/formula"
)

var designs = []string{"two.sample", "paired"}

func designOf(in *formula.Given) Design { return Design(slices.Index(designs, in.Word("design"))) }

func powerInputs(names ...string) []formula.Input {
	all := map[string]formula.Input{
		"n":      {Name: "n", Meaning: "beds in each group (pairs, when paired)", Unit: "beds", Low: 2, High: 1e6},
		"n1":     {Name: "n1", Meaning: "beds in the first group", Unit: "beds", Low: 2, High: 1e6},
		"n2":     {Name: "n2", Meaning: "beds in the second group", Unit: "beds", Low: 2, High: 1e6},
		"delta":  {Name: "delta", Meaning: "the difference worth noticing", Low: 1e-150, High: 1e150, Also: aliases("d")},
		"sd":     {Name: "sd", Meaning: "how much beds treated alike spread (of differences, when paired)", Low: 1e-150, High: 1e150, Default: "1"},
		"power":  {Name: "power", Meaning: "how often it is to be noticed", Low: 0.5, High: 0.999, Default: "0.8"},
		"alpha":  {Name: "alpha", Meaning: "how often chance alone may pass for a difference", Low: 0.0001, High: 0.5, Default: "0.05"},
		"design": {Name: "design", Meaning: "two groups, or beds in pairs", Choices: designs, Default: "two.sample"},
	}
	var inputs []formula.Input
	for _, n := range names {
		inputs = append(inputs, all[n])
	}
	return inputs
}

const powerSource = "noncentral t distribution, two-sided t test"

var powerFormulas = append(formula.Outputs(formula.Formula{
	Inputs: powerInputs("delta", "sd", "power", "alpha", "design"), Source: powerSource,
	Range:    "difference 0.02 to 30 standard deviations; power 0.5 to 0.999; alpha 0.0001 to 0.5",
	Cautions: []string{aside, "A spread guessed too small gives too few beds."},
}, func(in *formula.Given) (Beds, error) {
	return BedsNeeded(in.Float("delta"), in.Float("sd"), quantityFraction(in, "power"), quantityFraction(in, "alpha"), designOf(in))
},
	formula.Output[Beds]{Name: "beds_needed", Title: "How many beds does each treatment need?", Unit: "beds", Also: []string{"trial.power {design} n_beds_each"}, Value: func(b Beds) float64 { return float64(b.Each) }},
	formula.Output[Beds]{Name: "beds_needed_exact", Title: "How many beds does each treatment need, before rounding up?", Unit: "beds", Also: []string{"trial.power {design} n_exact"}, Value: func(b Beds) float64 { return b.Exact }},
	formula.Output[Beds]{Name: "power_at_beds_needed", Title: "How often will that many beds notice the difference?", Also: []string{"trial.power {design} power_at_n_beds_both_tails"}, Value: func(b Beds) float64 { return b.Power }},
	formula.Output[Beds]{Name: "power_at_beds_needed_upper", Title: "How often, without the tail in the wrong direction?", Also: []string{"trial.power {design} power_at_n_beds_upper_tail_only"}, Value: func(b Beds) float64 { return b.PowerUpper }},
), formula.Formula{
	Name: "power", Title: "How often will so many beds notice a difference?", Inputs: powerInputs("n", "delta", "sd", "alpha", "design"),
	Source: powerSource + ", both tails", Range: "2 beds or more; difference 0.02 to 30 standard deviations", Cautions: []string{aside},
	Work: func(in *formula.Given) (formula.Answer, error) {
		p, err := Power(in.Float("n"), in.Float("delta"), in.Float("sd"), quantityFraction(in, "alpha"), designOf(in))
		return formula.Number(p), err
	},
}, formula.Formula{
	Name: "power_unequal", Title: "How often will two groups of unlike size notice a difference?", Inputs: powerInputs("n1", "n2", "delta", "sd", "alpha"),
	Also: []string{"trial.power unequal n both tails"}, Source: powerSource + ", both tails",
	Range: "2 beds or more each; difference 0.02 to 30 standard deviations", Cautions: []string{aside},
	Work: func(in *formula.Given) (formula.Answer, error) {
		p, err := PowerUnequal(in.Whole("n1"), in.Whole("n2"), in.Float("delta"), in.Float("sd"), quantityFraction(in, "alpha"))
		return formula.Number(p), err
	},
}, formula.Formula{
	Name: "detectable_difference", Title: "What is the smallest difference that so many beds will notice?", Inputs: powerInputs("n", "sd", "power", "alpha", "design"),
	Also: []string{"trial.power smallest detectable difference"}, Source: powerSource,
	Range: "2 beds or more; power 0.5 to 0.999", Cautions: []string{aside},
	Work: func(in *formula.Given) (formula.Answer, error) {
		d, err := Detectable(in.Float("n"), in.Float("sd"), quantityFraction(in, "power"), quantityFraction(in, "alpha"), designOf(in))
		return formula.Number(d), err
	},
})

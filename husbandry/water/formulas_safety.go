package water

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var limitInput = formula.Input{
	Name: "limit_mg_n_per_l", Meaning: "NH3 that must not be passed", Unit: "mg/L as N", Low: leastLimit, High: mostLoad,
	Default: "0.05", // HarmfulUnionized
}

// someAmmonia is ammonia that is there.
var someAmmonia = within(ammoniaInput, leastLimit, mostLoad)

func limit(in *formula.Given) UnionizedN { return UnionizedN(in.Float("limit_mg_n_per_l")) }

var safetyFormulas = []formula.Formula{
	{
		Name: "ammonia_safety", Title: "Is the ammonia safe today, and what alone would change that?",
		Source: "Emerson et al. 1975; limit of IFAS FA-16", Range: "0 to 50 degC, fresh water",
		Cautions: []string{cautionPeak, cautionAct, cautionGuide},
		Inputs:   []formula.Input{ammoniaInput, phInput, celsiusInput(50), limitInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			j, err := JudgeAmmonia(total(in), ph(in), celsius(in), limit(in))
			if err != nil {
				return formula.Answer{}, err
			}
			return formula.Words(j.Text()), nil
		},
	},
	{
		Name: "ph_at_ammonia_limit", Title: "Above which pH does this ammonia become unsafe?",
		Source: emerson, Range: "pH 2 to 13; no answer where no pH is unsafe",
		Cautions: []string{cautionPeak, cautionBias},
		Inputs:   []formula.Input{someAmmonia, celsiusInput(50), limitInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return orNever(number(PHAtLimit(total(in), celsius(in), limit(in))))
		},
	},
	{
		Name: "temperature_at_ammonia_limit", Title: "Above which temperature does this ammonia become unsafe?",
		Unit: "degC", Source: emerson, Range: "0 to 50 degC; no answer where no temperature is unsafe",
		Cautions: []string{cautionPeak, cautionBias},
		Inputs:   []formula.Input{someAmmonia, phInput, limitInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return orNever(number(TemperatureAtLimit(total(in), ph(in), limit(in))))
		},
	},
	{
		Name: "ammonia_at_limit", Title: "Above how much total ammonia does this water become unsafe?",
		Unit: "mg/L as N", Source: emerson, Range: "0 to 50 degC, fresh water",
		Cautions: []string{cautionPeak, cautionBias},
		Inputs:   []formula.Input{phInput, celsiusInput(50), limitInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(AmmoniaAtLimit(ph(in), celsius(in), limit(in)))
		},
	},
}

// orNever says in words that no value within range passes the limit.
func orNever(a formula.Answer, err error) (formula.Answer, error) {
	if a.Value != a.Value {
		a.Text = "none within range"
	}
	return a, err
}

// changeFormulas share a change of NH3 among ammonia, pH and temperature.
var changeFormulas = formula.Outputs(
	formula.Formula{
		Source: "Emerson et al. 1975; Shapley 1953", Range: "0 to 50 degC, fresh water",
		Inputs: []formula.Input{
			before(ammoniaInput), before(phInput), before(celsiusInput(50)),
			after(ammoniaInput), after(phInput), after(celsiusInput(50)),
		},
		Cautions: []string{cautionPeak, cautionBias},
	},
	func(in *formula.Given) ([]float64, error) {
		return Split(unionized, side(in, "before_"), side(in, "after_"))
	},
	share3("nh3_change_by_ammonia", "How much of the change of NH3 did total ammonia bring?", 0),
	share3("nh3_change_by_ph", "How much of the change of NH3 did pH bring?", 1),
	share3("nh3_change_by_temperature", "How much of the change of NH3 did temperature bring?", 2),
)

func unionized(x []float64) (float64, error) {
	u, err := UnionizedAmmonia(quantity.AmmoniaN(x[0]), quantity.PH(x[1]), quantity.Celsius(x[2]))
	return float64(u), err
}

func side(in *formula.Given, prefix string) []float64 {
	return []float64{in.Float(prefix + "tan_mg_n_per_l"), in.Float(prefix + "ph"), in.Float(prefix + "temperature_celsius")}
}

func before(input formula.Input) formula.Input { return prefixed(input, "before_", "earlier ") }
func after(input formula.Input) formula.Input  { return prefixed(input, "after_", "later ") }

func prefixed(input formula.Input, prefix, word string) formula.Input {
	input.Name, input.Meaning = prefix+input.Name, word+input.Meaning
	input.Also = nil
	return input
}

func share3(name, title string, place int) formula.Output[[]float64] {
	return formula.Output[[]float64]{Name: name, Title: title, Unit: "mg/L as N", Value: func(shares []float64) float64 { return shares[place] }}
}

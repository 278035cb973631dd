package fish

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func targetInput() formula.Input { return weightBound.input("target_g", "weight wanted") }

func cvInput(preset string) formula.Input {
	return cvBound.inputOr(preset, "variation", "coefficient of variation")
}

func timeInput() formula.Input { return timeBound.input("t", "time, in the curve's unit") }

var readyFormulas = []formula.Formula{
	{
		Name: "growth_response", Figures: formula.Rough, Title: "How well do fish grow at this temperature, against their best?",
		Inputs: []formula.Input{speciesInput(), temperatureInput()},
		Source: "bell of Yan & Hunt 1999 (from memory) between the species' limits", Range: "temperatures in which the species lives",
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SpeciesByName(in.Word("species"))
			if err != nil {
				return formula.Answer{}, err
			}
			return one(GrowthResponse(s, waterTemperature(in)))
		},
	},
	{
		Name: "growth_units", Figures: formula.Rough, Title: "How many degree days of growth is a day at this temperature worth?", Unit: "degC d",
		Inputs: []formula.Input{speciesInput(), temperatureInput()},
		Source: "optimum x growth response", Range: "temperatures in which the species lives; coefficient found near the optimum",
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SpeciesByName(in.Word("species"))
			if err != nil {
				return formula.Answer{}, err
			}
			return one(GrowthUnits(s, waterTemperature(in)))
		},
	},
	{
		Name: "fish_above_weight", Figures: formula.Rough, Title: "What share of my fish is above a weight?",
		Inputs: []formula.Input{weightBound.input("mean_g", "mean weight of the cohort"), cvInput("0.25"), targetInput()},
		Source: "lognormal sizes; variation common practice, no source", Range: "cohorts not graded since they were weighed",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(ShareAbove(grams(in, "mean_g"), quantity.Fraction(in.Float("variation")), grams(in, "target_g")))
		},
	},
	{
		Name: "fish_weight_at_share", Title: "Below which weight is this share of my fish?", Unit: "g",
		Inputs: []formula.Input{weightBound.input("mean_g", "mean weight of the cohort"), cvInput("0.25"), innerShareBound.input("below_fraction", "share of fish below")},
		Source: "lognormal sizes; variation common practice, no source", Range: "cohorts not graded since they were weighed",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(WeightAtShare(grams(in, "mean_g"), quantity.Fraction(in.Float("variation")), quantity.Fraction(in.Float("below_fraction"))))
		},
	},
	{
		Name: "heat_to_weight", Figures: formula.Rough, Title: "How many degree days until my fish weigh this?", Unit: "degC d",
		Inputs: []formula.Input{startInput(), targetInput(), coefficientInput()},
		Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(HeatToWeight(grams(in, "start_g"), grams(in, "target_g"), TGC1000(in.Float("coefficient_x1000"))))
		},
	},
	{
		Name: "days_to_weight", Figures: formula.Rough, Title: "In how many days do my fish weigh this?", Unit: "d",
		Inputs: []formula.Input{startInput(), targetInput(), coefficientInput(),
			growingBound.input("temperature_celsius", "mean water temperature", named("T_C")...),
			cvBound.inputOr("0.15", "coefficient_variation", "how unsure the growth coefficient is"), levelInput()},
		Source: tgcSource + "; lognormal uncertainty of the coefficient", Range: "steady temperature below the optimum", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			fan, err := ReadyFan(grams(in, "start_g"), grams(in, "target_g"), TGC1000(in.Float("coefficient_x1000")),
				quantity.Fraction(in.Float("coefficient_variation")), waterTemperature(in), quantity.Fraction(in.Float("level")))
			return formula.Answer{Value: float64(fan.Middle), Low: float64(fan.Low), High: float64(fan.High)}, err
		},
	},
	{
		Name: "von_bertalanffy_length", Title: "How long is a fish at this age, by von Bertalanffy?", Also: []string{"von Bertalanffy length"},
		Inputs: []formula.Input{curveBound.input("longest", "length it never passes", named("Linf")...), curveRateBound.input("k", "rate", named("K")...),
			timeBound.input("t0", "time of length zero"), timeInput()},
		Source: "von Bertalanffy 1938", Range: "units of the caller",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Bertalanffy(in.Float("longest"), in.Float("k"), in.Float("t0"), in.Float("t")))
		},
	},
	{
		Name: "gompertz_weight", Title: "How heavy is a fish at this age, by Gompertz?",
		Inputs: []formula.Input{curveBound.input("a", "weight it never passes", named("A")...), curveBound.input("b", "what sets the start", named("B")...),
			curveRateBound.input("k", "rate", named("K")...), timeInput()},
		Source: "Santos et al. 2013, Acta Scientiarum 35(3), form", Range: "units of the caller",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Gompertz(in.Float("a"), in.Float("b"), in.Float("k"), in.Float("t")))
		},
	},
	{
		Name: "logistic_weight", Title: "How heavy is a fish at this age, by the logistic curve?",
		Inputs: []formula.Input{curveBound.input("asymptote", "weight it never passes", named("Asym")...), timeBound.input("middle", "time of half that weight", named("xmid")...),
			curveBound.input("scale", "time scale", named("scal")...), timeInput()},
		Source: "logistic growth", Range: "units of the caller",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Logistic(in.Float("asymptote"), in.Float("middle"), in.Float("scale"), in.Float("t")))
		},
	},
}

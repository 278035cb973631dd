package fish

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// seasonInputs are temperatures, each of which lasts as long.
func seasonInputs(more ...formula.Input) []formula.Input {
	return append(more,
		formula.Input{Name: "temperatures", Meaning: "water temperatures one after another, a list", Unit: waterBound.unit, Low: waterBound.low, High: waterBound.high},
		daysBound.input("days_each", "how long each lasts"))
}

// season returns degree days and length of temperatures one after another.
func season(in *formula.Given) (heat DegreeDays, length quantity.Days, err error) {
	each := quantity.Days(in.Float("days_each"))
	for _, t := range in.Numbers("temperatures") {
		h, err := Heat(quantity.Celsius(t), each)
		if err != nil {
			return 0, 0, err
		}
		heat, length = heat+h, length+each
	}
	return heat, length, nil
}

// afterSeason returns the weight at the end of a season, and its length.
func afterSeason(in *formula.Given) (quantity.Grams, quantity.Days, error) {
	heat, length, err := season(in)
	if err != nil {
		return 0, 0, err
	}
	w, err := WeightByHeat(grams(in, "start_g"), TGC1000(in.Float("coefficient_x1000")), heat)
	return w, length, err
}

var heatFormulas = []formula.Formula{
	{
		Name: "degree_days_of_water", Title: "How many degree days do these water temperatures bring?", Unit: "degC d", Also: []string{"growth.tgc degree days"},
		Inputs: seasonInputs(), Source: "definition: sum of temperature and days", Range: "0 to 45 degC",
		Work: func(in *formula.Given) (formula.Answer, error) {
			heat, _, err := season(in)
			return one(heat, err)
		},
	},
	{
		Name: "weight_after_season", Figures: formula.Rough, Title: "How heavy will my fish be after a season of these temperatures?", Unit: "g", Also: []string{"growth.tgc final weight"},
		Inputs: seasonInputs(startInput(), coefficientInput()), Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, _, err := afterSeason(in)
			return one(w, err)
		},
	},
	{
		Name: "growth_rate_of_season", Title: "How many percent a day is growth over a season of these temperatures?", Unit: "%/day", Also: []string{"growth.sgr same interval"},
		Inputs: seasonInputs(startInput(), coefficientInput()), Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, length, err := afterSeason(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return one(SpecificGrowthRate(grams(in, "start_g"), w, length))
		},
	},
	{
		Name: "growth_coefficient_of_heat", Title: "What growth coefficient, times 1000, did these degree days show?", Also: []string{"growth.tgc inverted"},
		Inputs: []formula.Input{startInput(), weightBound.input("end_g", "weight at the end", named("W1_g", "W2_g", "Wt_g")...), heatInput()},
		Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(GrowthCoefficient(grams(in, "start_g"), grams(in, "end_g"), DegreeDays(in.Float("degree_days"))))
		},
	},
}

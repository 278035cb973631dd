package fish

import (
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// gained returns weight at start and end, the end given itself or as a gain.
func gained(in *formula.Given) (w0, w1 quantity.Grams, err error) {
	w0 = grams(in, "start_g")
	if in.Has("gain_g") {
		w1, err = EndWeight(w0, grams(in, "gain_g"))
		return w0, w1, err
	}
	return w0, grams(in, "end_g"), nil
}

func gainedInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		startInput(),
		weightBound.input("end_g", "weight at the end", named("W1_g", "W2_g", "Wt_g")...),
		gainBound.input("gain_g", "gain in weight, in place of the weight at the end"),
	}, more...)
}

func densityRemark() formula.Input {
	return remark("density_per_m3", "fish to a cubic metre, a remark")
}

func heatInput() formula.Input {
	return heatBound.input("degree_days", "sum of daily mean temperatures above 0 degC")
}

func coefficientInput() formula.Input {
	return coefficientBound.input("coefficient_x1000", "growth coefficient in the form times 1000", formula.Alias{
		Name: "coefficient_x100", Change: func(c float64) float64 { return float64(TGC100(c).Per1000()) },
	})
}

const tgcSource = "thermal-unit growth coefficient, published calculation page; cautions of Jobling 2003, Aquaculture Research 34:581-584"

// coefficient is the growth coefficient from temperature and days.
func coefficient(in *formula.Given) (TGC1000, error) {
	w0, w1, err := gained(in)
	if err != nil {
		return 0, err
	}
	heat, err := Heat(waterTemperature(in), quantity.Days(in.Float("days")))
	if err != nil {
		return 0, err
	}
	return GrowthCoefficient(w0, w1, heat)
}

var growthFormulas = []formula.Formula{
	{
		Name: "thermal_growth_coefficient_x1000", Title: "How fast do my fish grow for the warmth they have, in the form times 1000?",
		Also:   []string{"TGC x1000", "TGC (x1000)", "TGC x1000 form", "TGC, x1000 form", "TGC, x1000", "TGC (x1000 form)", "thermal-unit growth coefficient x1000", "thermal-unit growth coefficient, x1000 form", "thermal growth coefficient x1000", "thermal growth coefficient (x1000)"},
		Inputs: gainedInputs(temperatureInput(), daysInput()), Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) { return one(coefficient(in)) },
	},
	{
		Name: "thermal_growth_coefficient_x100", Title: "How fast do my fish grow for the warmth they have, in the form times 100?",
		Also:   []string{"TGC x100", "TGC (x100)", "TGC x100 form", "TGC, x100 form", "TGC, x100", "TGC (x100 form)", "thermal-unit growth coefficient x100", "thermal-unit growth coefficient, x100 form", "thermal growth coefficient x100", "thermal growth coefficient (x100)", "thermal-unit growth coefficient"},
		Inputs: gainedInputs(temperatureInput(), daysInput()), Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := coefficient(in)
			return one(c.Per100(), err)
		},
	},
	{
		Name: "weight_by_heat", Figures: formula.Rough, Title: "How heavy will my fish be after so many degree days?", Unit: "g", Also: []string{"TGC predicted weight"},
		Inputs: []formula.Input{startInput(), coefficientInput(), heatInput()}, Source: tgcSource, Range: "below the optimum temperature", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(WeightByHeat(grams(in, "start_g"), TGC1000(in.Float("coefficient_x1000")), DegreeDays(in.Float("degree_days"))))
		},
	},
	{
		Name: "iwama_tautz_weight", Figures: formula.Rough, Title: "How heavy will salmonids be, by the hatchery model?", Unit: "g",
		Also: []string{"Iwama-Tautz final weight, exponent {exponent}", "Iwama-Tautz final weight"},
		Inputs: []formula.Input{startInput(), temperatureInput(), daysInput(),
			{Name: "exponent", Meaning: "0.33 as printed, or 1/3", Default: "0.33"}},
		Source: "Iwama & Tautz 1981, CJFAS 38 (abstract)", Range: "salmonids in hatchery temperatures, normal feeding", Cautions: []string{tgcCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			exponent := ExponentCubeRoot
			if in.Word("exponent") == "0.33" {
				exponent = ExponentAsPrinted
			} else if e := in.Word("exponent"); e != "1/3" && !strings.HasPrefix(e, "0.333") {
				return formula.Answer{}, &UnknownError{"exponent of the hatchery model", e}
			}
			return one(IwamaTautz(grams(in, "start_g"), waterTemperature(in), quantity.Days(in.Float("days")), exponent))
		},
	},
	{
		Name: "specific_growth_rate", Title: "How many percent do my fish grow in a day?", Unit: "%/day", Also: []string{"specific growth rate", "SGR"},
		Inputs: gainedInputs(daysInput(), densityRemark()), Source: "definition: 100 (ln W1 - ln W0) / t", Range: "falls with size; not to be carried on to larger fish",
		Work: func(in *formula.Given) (formula.Answer, error) {
			w0, w1, err := gained(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return one(SpecificGrowthRate(w0, w1, quantity.Days(in.Float("days"))))
		},
	},
	{
		Name: "growth_rate_of_gain", Title: "What growth rate is a gain by such a share?", Unit: "%/day", Also: []string{"fry gain 50% every 3 days as SGR"},
		Inputs: []formula.Input{gainShareBound.input("gain_fraction", "gain as share of the weight at the start"), daysInput()},
		Source: "definition: 100 ln(1 + gain) / t", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(GrowthRateOfGain(quantity.Fraction(in.Float("gain_fraction")), quantity.Days(in.Float("days"))))
		},
	},
	{
		Name: "average_daily_gain", Title: "How many grams do my fish gain in a day?", Unit: "g/day",
		Also:   []string{"average daily gain", "ADG", "growth rate Nile tilapia UVI", "growth rate red tilapia UVI"},
		Inputs: gainedInputs(daysInput(), densityRemark()), Source: "definition", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			w0, w1, err := gained(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return one(DailyGain(w0, w1, quantity.Days(in.Float("days"))))
		},
	},
	{
		Name: "daily_gain_of_rate", Title: "How many grams a day is a steady growth rate?", Unit: "g/day", Also: []string{"ADG implied by SGR over 70 days", "ADG implied by SGR"},
		Inputs: []formula.Input{startInput(), rateBound.input("rate_percent_per_day", "specific growth rate", named("SGR_pct")...), daysInput(), densityRemark()},
		Source: "definition", Range: "while the rate holds",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(DailyGainOfRate(grams(in, "start_g"), PercentPerDay(in.Float("rate_percent_per_day")), quantity.Days(in.Float("days"))))
		},
	},
	{
		Name: "weight_by_rate", Figures: formula.Rough, Title: "How heavy will my fish be at a steady growth rate?", Unit: "g",
		Inputs: []formula.Input{startInput(), rateBound.input("rate_percent_per_day", "specific growth rate", named("SGR_pct")...), daysInput()},
		Source: "definition", Range: "while the rate holds; it falls as fish grow",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(WeightByRate(grams(in, "start_g"), PercentPerDay(in.Float("rate_percent_per_day")), quantity.Days(in.Float("days"))))
		},
	},
	{
		Name: "percent_weight_gain", Title: "By how many percent did my fish grow?", Unit: "%", Also: []string{"percent weight gain"},
		Inputs: gainedInputs(), Source: "definition", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			w0, w1, err := gained(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return one(PercentGain(w0, w1))
		},
	},
	{
		Name: "feed_conversion_ratio", Title: "How much feed did a kilogram of growth take?", Unit: "kg/kg", Also: []string{"FCR", "feed conversion ratio"},
		Inputs: []formula.Input{feedBound.input("feed_g", "feed given", inKilograms("feed_kg")), netGainBound.input("gain_g", "gain of all fish, net", inKilograms("gain_kg"))},
		Source: "definition; FAO TP 589 7.2", Range: "feed as fed, fish wet; say how dead fish are counted",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FeedConversion(grams(in, "feed_g"), grams(in, "gain_g")))
		},
	},
	{
		Name: "protein_efficiency_ratio", Title: "How much growth did a gram of protein bring?", Also: []string{"PER", "protein efficiency ratio"},
		Inputs: []formula.Input{gainBound.input("gain_g", "gain of all fish"), proteinFedBound.input("protein_g", "protein fed")},
		Source: "definition", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(ProteinEfficiency(grams(in, "gain_g"), grams(in, "protein_g")))
		},
	},
	{
		Name: "fish_survival", Title: "How many percent of the fish are alive?", Unit: "%", Also: []string{"survival stocking to day 84", "survival"},
		Inputs: []formula.Input{someFishBound.input("stocked", "fish stocked"), fishBound.input("counted", "fish counted later")},
		Source: "definition", Range: "above 100 the counts disagree",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Survival(in.Float("stocked"), in.Float("counted")))
		},
	},
}

package crop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const yardstick = "A yardstick of fields and of one tropical research loop, not a promise for your beds."

var yieldFormulas = []formula.Formula{
	{
		Name: "field_yield", Title: "What do fields give of this crop: on the average, good, excellent?", Unit: "short ton/acre",
		Also:   []string{"field yield average/good/excellent"},
		Source: Midwest.String(), Range: "fields in the American Midwest", Cautions: []string{yardstick},
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			f, err := FieldYieldOf(in.Word("crop"))
			return formula.Answer{Value: float64(f.Good), Low: float64(f.Average), High: float64(f.Excellent),
				Text: plain(float64(f.Average), 0) + "/" + plain(float64(f.Good), 0) + "/" + plain(float64(f.Excellent), 0)}, err
		},
	},
	{
		Name: "yield_metric", Title: "How many kilograms from a square metre are so many short tons from an acre?", Unit: "kg/m2",
		Also:   []string{"unit: short ton per acre to kg/m2"},
		Source: "NIST SP 811", Range: "0 to 500 short ton/acre",
		Inputs: []formula.Input{fieldYieldBound.input("short_tons_per_acre", "US field yield", also("ton_per_acre")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(FromShortTonsPerAcre(quantity.ShortTonsPerAcre(in.Float("short_tons_per_acre"))))
		},
	},
	{
		Name: "yield_us", Title: "How many short tons from an acre are so many kilograms from a square metre?", Unit: "short ton/acre",
		Also:   []string{"unit: kg/m2 to short ton per acre"},
		Source: "NIST SP 811", Range: "0 to 112 kg/m2",
		Inputs: []formula.Input{yieldBound.input("kg_per_m2", "yield")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(ToShortTonsPerAcre(KgPerM2(in.Float("kg_per_m2"))))
		},
	},
	loopFormula("loop_yield_year", "What did raft beds of a research loop give in a projected year?", "kg/m2/yr", "basil", "batch", true,
		"basil annual projected yield"),
	loopFormula("loop_yield", "What did raft beds of a research loop give in one crop?", "kg/m2", "basil", "batch", false,
		"basil yield per crop", "basil mean yield"),
	loopFormula("loop_yield_okra_year", "What did okra on rafts give in a projected year?", "kg/m2/yr", "okra", "raft", true,
		"okra annual projected yield", "okra projected annual production"),
	loopFormula("loop_yield_okra", "What did okra on rafts give in one crop?", "kg/m2", "okra", "raft", false,
		"okra yield", "okra yield per crop", "okra highest production", "okra production"),
	{
		Name: "expected_yield", Figures: formula.Rough, Title: "What may a planting of the crop give in its life?", Unit: "kg/m2",
		Source: "see the answer", Range: "crops of the crop table; a perennial in a year", Cautions: []string{yardstick},
		Inputs: []formula.Input{cropInput()},
		Work:   func(in *formula.Given) (formula.Answer, error) { return figure(ExpectedYield(in.Word("crop"))) },
	},
}

// loopFormula describes the raft trials, with the crop and mode that its names
// speak of.
func loopFormula(name, title, unit, crop, mode string, yearly bool, names ...string) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: unit, Also: names,
		Source: "Rakocy and others 2004 (abstracts); basil printed as kg/m3, meaning kg/m2", Range: "basil batch, staggered, field; okra raft, field",
		Cautions: []string{yardstick, "Batch basil was not sustainable: nutrients ran short."},
		Inputs: []formula.Input{word("crop", "basil or okra", crop), word("mode", "how it was grown", mode),
			word("variety", "variety, as a remark", notGiven), {Name: "density_per_m2", Meaning: "plants in a square metre, as a remark", Default: notGiven}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			y, err := LoopYieldOf(in.Word("crop"), in.Word("mode"), yearly)
			return number(y.Harvest, err)
		},
	}
}

var saltFormulas = []formula.Formula{
	{
		Name: "salinity_threshold", Title: "How salty may it be before the crop gives less?", Unit: "dS/m",
		Also:   []string{"salinity threshold ECe"},
		Source: "Maas 1990, US Salinity Laboratory", Range: "saturated soil extract", Cautions: []string{SalinityCaveat},
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return saltAnswer(in, func(s SalinityTolerance) float64 { return float64(s.Threshold) })
		},
	},
	{
		Name: "salinity_slope", Title: "How much of its yield does the crop lose for each dS/m more?", Unit: "% per dS/m",
		Also:   []string{"salinity slope"},
		Source: "Maas 1990, US Salinity Laboratory", Range: "above the threshold", Cautions: []string{SalinityCaveat},
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return saltAnswer(in, func(s SalinityTolerance) float64 { return s.Slope })
		},
	},
	{
		Name: "relative_yield", Figures: formula.Rough, Title: "How much of its yield does salt leave?", Unit: "%",
		Also:   []string{"relative yield Yr=100-b(ECe-a)"},
		Source: "FAO-61 annex 1 eq. 1; Maas 1990", Range: "saturated soil extract; threshold and slope of the crop unless given", Cautions: []string{SalinityCaveat},
		Inputs: []formula.Input{extractBound.input("extract_ds_m", "conductivity of the saturated extract", also("ECe")...),
			{Name: "crop", Meaning: "name of the crop", Default: notGiven}, thresholdBound.maybe("threshold_ds_m", "threshold, instead of the crop's", also("a")...),
			saltSlopeBound.maybe("slope_percent", "slope, instead of the crop's", also("b")...)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if in.Has("threshold_ds_m") && in.Has("slope_percent") || !in.Has("crop") {
				return number(RelativeYield(ECe(in.Float("extract_ds_m")), ECe(in.Float("threshold_ds_m")), in.Float("slope_percent")))
			}
			s, err := knownTolerance(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(RelativeYield(ECe(in.Float("extract_ds_m")), s.Threshold, s.Slope))
		},
	},
}

// knownTolerance prefers Maas (1990) and falls back to the later table.
func knownTolerance(crop string) (SalinityTolerance, error) {
	s, err := SalinityToleranceOf(crop)
	if err == nil {
		return s, nil
	}
	if later, notLater := LaterSalinityToleranceOf(crop); notLater == nil {
		return later, nil
	}
	return SalinityTolerance{}, err
}

func saltAnswer(in *formula.Given, column func(SalinityTolerance) float64) (formula.Answer, error) {
	crop := in.Word("crop")
	s, err := knownTolerance(crop)
	answer := formula.Number(column(s))
	later, notLater := LaterSalinityToleranceOf(crop)
	if notLater != nil {
		return answer, err
	}
	const laterSource = "Maas and Grattan 1999 and later lists, from memory"
	answer.Others = []formula.Other{{Basis: "later table", Value: column(later), Source: laterSource}}
	if s == later {
		answer.Source = laterSource
	}
	return answer, err
}

package water

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var (
	fishInput = formula.Input{Name: "fish", Meaning: "the fish: catfish, warm-water fish, ornamental fish, salmon or trout", Also: also("species")}

	chlorideInput = load("chloride_mg_per_l", "chloride in the water", "chloride_mg_L", "cl_mg_L")

	nitriteInput = formula.Input{
		Name: "nitrite_mg_n_per_l", Meaning: "nitrite", Unit: "mg/L as N", Low: 0, High: mostLoad,
		Also: append(also("nitrite_mg_N_L"), from("nitrite_mg_no2_per_l", func(v float64) float64 { return float64(quantity.NitriteIon(v).N()) })),
	}
)

func chloride(in *formula.Given) ChlorideCl { return ChlorideCl(in.Float("chloride_mg_per_l")) }

func nitrite(in *formula.Given) quantity.NitriteN {
	return quantity.NitriteN(in.Float("nitrite_mg_n_per_l"))
}

// otherRatios lists what is published for the other fish.
func otherRatios(asked Ratio) []formula.Other {
	var others []formula.Other
	for _, r := range Ratios {
		if r.Fish != asked.Fish {
			others = append(others, formula.Other{Basis: r.Fish, Value: r.Chloride, Unit: r.Unit(), Source: r.Source})
		}
	}
	return others
}

var nitriteFormulas = []formula.Formula{
	{
		Name: "chloride_ratio", Title: "How much chloride for each part of nitrite keeps this fish safe?",
		Source: "SRAC; Purdue; Gutierrez et al. 2019", Range: "the fish listed: there is no default", Cautions: []string{cautionBasis, cautionSalt},
		Inputs: []formula.Input{fishInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			r, err := ChlorideRatioFor(in.Word("fish"))
			a := formula.Number(r.Chloride)
			a.Unit, a.Source, a.Others = r.Unit(), r.Source, otherRatios(r)
			return a, err
		},
	},
	{
		Name: "chloride_ratio_computed", Title: "How much chloride does this water hold for each part of nitrite?",
		Unit: "mg Cl per mg NO2-N", Source: "chloride / nitrite as N", Range: "where there is nitrite",
		Inputs:   []formula.Input{chlorideInput, within(nitriteInput, 0.001, mostLoad)},
		Cautions: []string{cautionBasis},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(ChlorideToNitrite(chloride(in), nitrite(in)))
		},
	},
	{
		Name: "chloride_for_fish", Title: "How much chloride is to be added for this fish?",
		Unit: "mg/L", Source: "SRAC; Purdue; Gutierrez et al. 2019", Range: "the fish listed", Cautions: []string{cautionBasis, cautionSalt},
		Inputs: []formula.Input{fishInput, nitriteInput, optional(chlorideInput, "0")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			r, err := ChlorideRatioFor(in.Word("fish"))
			if err != nil {
				return formula.Answer{}, err
			}
			a, err := number(ChlorideNeeded(r, nitrite(in), chloride(in)))
			a.Source = r.Source
			a.Others = []formula.Other{{
				Basis: "to hold 100 mg/L at all times, as catfish growers do", Value: max(0, float64(InsuranceChloride-chloride(in))), Unit: "mg/L", Source: "SRAC catfish text",
			}}
			return a, err
		},
	},
	{
		Name: "chloride_needed", Title: "How much chloride is to be added for a chosen ratio?", Also: []string{"chloride_dose"},
		Unit: "mg/L", Source: "ratio x nitrite - chloride present", Range: "ratio to 1000", Cautions: []string{cautionBasis, cautionSalt},
		Inputs: []formula.Input{
			{Name: "ratio", Meaning: "chloride for each part of nitrite, as the ratio counts it", Low: 0, High: 1000},
			load("nitrite_mg_per_l", "nitrite, counted as the ratio counts it", "nitrite_mg_L", "nitrite_mg_N_L"),
			optional(chlorideInput, "0"),
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(ChlorideAtRatio(in.Float("ratio"), mgPerL(in, "nitrite_mg_per_l"), chloride(in)))
		},
	},
	{
		Name: "salt_from_chloride", Title: "How much salt holds this chloride?", Also: []string{"salt_dose", "chloride_to_salt", "chloride_to_nacl", "salt_for_chloride"},
		Unit: "mg/L", Source: stoichiometry, Range: "sodium chloride", Cautions: []string{cautionSalt},
		Inputs: []formula.Input{chlorideInput, optional(volumeInput, notGiven)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			salt, err := SaltForChloride(chloride(in))
			if err != nil || !in.Has("volume_litres") {
				return number(salt, err)
			}
			answer, err := number(Dose(salt, litres(in)))
			answer.Unit = "g"
			return answer, err
		},
	},
	{
		Name: "chloride_from_salt", Title: "How much chloride does this salt hold?",
		Unit: "mg/L", Source: stoichiometry, Range: "sodium chloride",
		Inputs:   []formula.Input{load("salt_mg_per_l", "salt", "salt_mg_L", "nacl_mg_L")},
		Cautions: []string{cautionSalt},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(ChlorideOfSalt(mgPerL(in, "salt_mg_per_l")))
		},
	},
}

var tapInput = formula.Input{Name: "tap_mg_per_l", Meaning: "chlorine in the tap water", Unit: "mg/L as Cl2", Low: 0, High: 20, Also: also("tap_mg_L", "chlorine_mg_L", "chlorine_ppm", "tap_ppm")}

var replacedInput = formula.Input{Name: "replaced_fraction", Meaning: "share of the loop that was replaced", Low: 0, High: 1, Also: also("exchange_fraction", "fraction", "exchange")}

var chlorineFormulas = []formula.Formula{
	{
		Name: "chlorine_after_top_up", Figures: formula.Rough, Title: "How much chlorine does a top-up leave in the loop?", Also: []string{"chlorine_after_exchange", "chlorine_dilution"},
		Unit: "mg/L as Cl2", Source: "dilution", Range: "before any is lost", Cautions: []string{cautionChlorine},
		Inputs: []formula.Input{tapInput, replacedInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			a, err := number(ChlorineAfterTopUp(mgPerL(in, "tap_mg_per_l"), quantity.Fraction(in.Float("replaced_fraction"))))
			a.Others = []formula.Other{{Basis: "called toxic", Value: float64(HarmfulChlorine), Unit: "mg/L as Cl2", Source: "extension text on top-up water"}}
			return a, err
		},
	},
	{
		Name: "thiosulfate_dose", Title: "How much sodium thiosulfate binds the chlorine?",
		Unit: "g", Source: "pond keepers' text: 2 to 7 parts for each part of chlorine", Range: "0 to 20 mg/L",
		Cautions: []string{cautionChlorine, cautionChloramin, "Follow the label of the product."},
		Inputs:   []formula.Input{volumeInput, tapInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			least, most, err := Thiosulfate(litres(in), mgPerL(in, "tap_mg_per_l"))
			return formula.Span(float64(least), float64(most)), err
		},
	},
	{
		Name: "ammonia_from_chloramine", Title: "How much ammonia does broken chloramine leave?", Also: []string{"chloramine_ammonia"},
		Unit: "mg/L as N", Source: stoichiometry, Range: "0 to 20 mg/L as NH2Cl", Cautions: []string{cautionChloramin},
		Inputs: []formula.Input{{Name: "chloramine_mg_per_l", Meaning: "chloramine, counted as NH2Cl", Unit: "mg/L", Low: 0, High: 20, Also: also("chloramine_mg_L")}, optional(replacedInput, "1")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			left, err := ChlorineAfterTopUp(mgPerL(in, "chloramine_mg_per_l"), quantity.Fraction(in.Float("replaced_fraction")))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(AmmoniaOfChloramine(left))
		},
	},
	{
		Name: "ammonia_from_total_chlorine", Title: "How much ammonia is bound when all of the total chlorine is chloramine?",
		Unit: "mg/L as N", Source: stoichiometry, Range: "0 to 20 mg/L as Cl2", Cautions: []string{cautionChloramin},
		Inputs: []formula.Input{tapInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(AmmoniaOfTotalChlorine(mgPerL(in, "tap_mg_per_l")))
		},
	},
}

var rangeFormulas = append([]formula.Formula{
	{
		Name: "hardness_from_calcium_magnesium", Title: "How hard is water with this calcium and magnesium?",
		Unit: "mg/L as CaCO3", Source: stoichiometry, Range: "0 to 1e5 mg/L",
		Inputs: []formula.Input{load("calcium_mg_per_l", "calcium, as Ca", "ca_mg_L"), load("magnesium_mg_per_l", "magnesium, as Mg", "mg_mg_L")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(Hardness(quantity.CalciumCa(in.Float("calcium_mg_per_l")), quantity.MagnesiumMg(in.Float("magnesium_mg_per_l"))))
		},
	},
	{
		Name: "tolerance_range", Title: "In what range does this organism do well?",
		Source: "FAO TP 589 tables 3.1 and 3.2, as seen in a copy", Range: "the organisms and parameters named", Cautions: []string{cautionGuide},
		Inputs: []formula.Input{
			{Name: "organism", Meaning: "fish, plants, bacteria or the compromise", Choices: append(names(Organisms), "bacteria")},
			{Name: "parameter", Meaning: "what is measured", Choices: names(Parameters)},
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			parameter := Parameter(in.Word("parameter"))
			s, err := Tolerance(organism(in), parameter)
			a := formula.Span(s.Low, s.High)
			a.Text, a.Unit = s.Text(), parameter.Unit()
			return a, err
		},
	},
}, changeFormulas...)

// organism of the question; people say bacteria for those of the filter.
func organism(in *formula.Given) Organism {
	if word := in.Word("organism"); word != "bacteria" {
		return Organism(word)
	}
	return NitrifyingBacteria
}

func names[T ~string](list []T) []string {
	words := make([]string, len(list))
	for i, item := range list {
		words[i] = string(item)
	}
	return words
}

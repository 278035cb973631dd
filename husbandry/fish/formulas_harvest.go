package fish

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var harvestFormulas = []formula.Formula{
	{
		Name: "harvest_density", Figures: formula.Rough, Title: "How dense will the tank be at harvest?", Unit: "kg/m3", Also: []string{"harvest biomass density"},
		Inputs: []formula.Input{numberBound.input("stock_per_m3", "fish stocked in a cubic metre"), shareBound.input("survival", "share that lives"), weightBound.input("weight_g", "weight at harvest", named("W_g")...)},
		Source: "definition; UVI trials", Range: "any", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(HarvestDensity(in.Float("stock_per_m3"), quantity.Fraction(in.Float("survival")), grams(in, "weight_g")))
		},
	},
	{
		Name: "annual_production", Figures: formula.Rough, Title: "How much fish does a tank bring in a year?", Unit: "t/yr", Also: []string{"annual production, harvest every {interval_weeks} weeks"},
		Inputs: []formula.Input{densityBound.input("kg_per_m3", "fish at harvest"), tankBound.input("tank_m3", "water in the tank"), weeksBound.input("interval_weeks", "weeks from harvest to harvest")},
		Source: "definition; UVI trials", Range: "years without loss",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(AnnualProduction(KilogramsPerM3(in.Float("kg_per_m3")), quantity.CubicMetres(in.Float("tank_m3")), in.Float("interval_weeks")))
		},
	},
	{
		Name: "density_from_gallons", Title: "How many kilograms in a cubic metre are pounds in a gallon?", Unit: "kg/m3", Also: []string{"novice carrying capacity tanks"},
		Inputs: []formula.Input{poundsPerGallon.inputOr("0.25", "lb_per_gal", "pounds of fish in a US gallon")},
		Source: "Mississippi State Extension, Tilapia in Mississippi: novices 1/4 lb/gal, with oxygen 1/2 to 1", Range: "0 to 2 lb/gal", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(DensityFromGallons(in.Float("lb_per_gal")))
		},
	},
	{
		Name: "fish_yield", Title: "What share of a fish is this cut?", Unit: "% live wt",
		Inputs: []formula.Input{word("species", "kind of fish", "Nile tilapia", "rainbow trout"), word("cut", "name of the cut", "fillet", "dress-out by strain", "headless carcass", "eviscerated")},
		Source: "trials named with the answer", Range: "trim differs between sources",
		Work: func(in *formula.Given) (formula.Answer, error) {
			y, err := YieldOf(in.Word("species"), in.Word("cut"))
			a := formula.Span(float64(y.Low), float64(y.High))
			a.Source = y.Source
			return a, err
		},
	},
	{
		Name: "dressed_weight", Title: "How much is left of my fish after cutting?", Unit: "kg",
		Inputs: []formula.Input{massBound.input("live_kg", "live fish"), yieldBound.input("yield_percent", "yield of the cut")},
		Source: "definition", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Dressed(quantity.Kilograms(in.Float("live_kg")), quantity.Percent(in.Float("yield_percent"))))
		},
	},
	{
		Name: "fish_nitrogen_percent", Title: "How much nitrogen is in fish of this protein?", Unit: "% N wet wt",
		Also:   []string{"nitrogen of eviscerated trout", "nitrogen of trout fillet"},
		Inputs: []formula.Input{proteinBound.input("crude_protein_pct", "crude protein, wet weight"), factorBound.inputOr("6.25", "factor", "protein for each weight of nitrogen")},
		Source: "N = CP / 6.25; Souza et al. 2015 for trout", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(NitrogenPercent(quantity.Percent(in.Float("crude_protein_pct")), in.Float("factor")))
		},
	},
	{
		Name: "fish_gain_nitrogen", Title: "How much nitrogen did my fish put on?", Unit: "g N",
		Inputs: []formula.Input{growthBound.input("gain_kg", "gain in weight, wet")},
		Source: "2.85 % N of wet weight, eviscerated trout, Souza et al. 2015; spread from memory", Range: "all species; the range given is one standard error each way",
		Work: func(in *formula.Given) (formula.Answer, error) {
			n, err := GrowthN(quantity.Kilograms(in.Float("gain_kg")))
			return formula.Answer{Value: float64(n.Value), Low: float64(n.Value - n.Error), High: float64(n.Value + n.Error)}, err
		},
	},
}

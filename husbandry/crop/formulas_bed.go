package crop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var (
	areaInput        = areaBound.input("area_m2", "area")
	plantsInput      = plantsBound.input("plants", "plants wanted")
	germinationInput = germinationBound.input("germination", "share of seeds that come up, 0 to 1")
)

func area(in *formula.Given) quantity.SquareMetres { return quantity.SquareMetres(in.Float("area_m2")) }

func fraction(in *formula.Given, name string) quantity.Fraction {
	return quantity.Fraction(in.Float(name))
}

// span makes an answer of a range of two computed ends.
func span[T ~float64 | ~int](low, high T, err error) (formula.Answer, error) {
	return formula.Span(float64(low), float64(high)), err
}

// bedFormulas holds what a bed holds, needs and carries.
var bedFormulas = []formula.Formula{
	{
		Name: "plants_in_rows", Title: "How many plants does this area hold in rows?", Unit: "plants", Source: "geometry", Range: "1 to 1000 cm",
		Inputs: []formula.Input{areaInput, spacingBound.input("between_rows_cm", "between rows"), spacingBound.input("in_row_cm", "in the row")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PlantsInRows(area(in), in.Float("between_rows_cm"), in.Float("in_row_cm")))
		},
	},
	{
		Name: "plants_staggered", Title: "How many plants does this area hold when staggered?", Unit: "plants", Source: "geometry", Range: "1 to 1000 cm",
		Inputs: []formula.Input{areaInput, spacingBound.input("apart_cm", "between plants")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PlantsStaggered(area(in), in.Float("apart_cm")))
		},
	},
	{
		Name: "plants_for_area", Figures: formula.Rough, Title: "How many plants of the crop does this area hold?", Unit: "plants", Source: "the crop table", Range: "thinnest to densest usual stand",
		Inputs: []formula.Input{cropInput(), areaInput},
		Work:   func(in *formula.Given) (formula.Answer, error) { return span(PlantsFor(in.Word("crop"), area(in))) },
	},
	{
		Name: "area_for_plants", Figures: formula.Rough, Title: "How much area do so many plants of the crop want?", Unit: "m2", Source: "the crop table", Range: "at the middle of the usual stands",
		Inputs: []formula.Input{cropInput(), plantsInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(AreaFor(in.Word("crop"), in.Whole("plants")))
		},
	},
	{
		Name: "seeds_needed", Figures: formula.Rough, Title: "How many seeds do I sow for so many plants?", Unit: "seeds", Source: "plants over the share that comes up", Range: "germination 0.01 to 1",
		Inputs: []formula.Input{plantsInput, germinationInput, spareBound.given("spare", "spare plants, as a share", "0.1")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SeedsNeeded(in.Whole("plants"), fraction(in, "germination"), fraction(in, "spare")))
		},
	},
	{
		Name: "seeds_for_chance", Figures: formula.Rough, Title: "How many seeds do I sow to be this sure of so many plants?", Unit: "seeds", Source: "binomial", Range: "each seed by itself",
		Inputs: []formula.Input{fewPlantsBound.input("plants", "plants wanted"), germinationInput, chanceBound.given("chance", "how sure", "0.9")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SeedsForChance(in.Whole("plants"), fraction(in, "germination"), fraction(in, "chance")))
		},
	},
	{
		Name: "seed_mass", Figures: formula.Rough, Title: "How many grams of seed is that?", Unit: "g", Source: "growers' handbooks, from memory", Range: "crops grown from seed",
		Inputs: []formula.Input{cropInput(), seedsBound.input("seeds", "seeds")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SeedMass(in.Word("crop"), in.Whole("seeds")))
		},
	},
	{
		Name: "feed_ratio", Title: "How much fish feed a day does a square metre of the crop live on?", Unit: "g/m2/d", Source: "see the answer", Range: "feed of about a third protein",
		Inputs: []formula.Input{cropInput()},
		Work:   func(in *formula.Given) (formula.Answer, error) { return figure(FeedRatio(in.Word("crop"))) },
	},
	{
		Name: "feed_for_area", Figures: formula.Rough, Title: "How much fish feed a day does this area of the crop live on?", Unit: "g/d", Source: "FAO 589, from memory; UVI for basil", Range: "feed of about a third protein",
		Inputs: []formula.Input{cropInput(), areaInput},
		Work:   func(in *formula.Given) (formula.Answer, error) { return span(FeedForArea(in.Word("crop"), area(in))) },
	},
	{
		Name: "area_for_feed", Figures: formula.Rough, Title: "How much area of the crop does this feed carry?", Unit: "m2", Source: "FAO 589, from memory; UVI for basil", Range: "feed of about a third protein",
		Inputs: []formula.Input{cropInput(), feedBound.input("feed_g", "fish feed a day")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return span(AreaForFeed(in.Word("crop"), quantity.Grams(in.Float("feed_g"))))
		},
	},
}

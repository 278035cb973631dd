package nitrogen

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const ratioCaution = "The ratio is for a square metre of plants, not for a cubic metre of tank. Virgin Islands ratios assume that solids are taken out, FAO's that beds mineralize them."

func ratioInput() formula.Input {
	return number("ratio_g_m2_d", "feed for a square metre of plants", "g/m2/d", minRatio, maxRatio)
}

func systemInput() formula.Input {
	return word("system", "how plants are grown", "any", "raft", "NFT", "any")
}

func cropInput() formula.Input {
	return word("crop", "kind of crop", "any", "any", "leafy", "fruiting", "lettuce")
}

var plantFormulas = []formula.Formula{
	{
		Name: "plant_area_from_feed", Figures: formula.Rough, Title: "How many square metres of plants does my feed support?", Unit: "m2",
		Inputs: []formula.Input{number("feed_g_d", "feed in a day", "g/d", 0, maxGrams, named("feed_g")), ratioInput()},
		Source: rakocySource, Range: "ratios of 5 to 300 g/m2/d", Cautions: []string{ratioCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(PlantArea(quantity.Grams(in.Float("feed_g_d")), FeedRatio(in.Float("ratio_g_m2_d"))))
		},
	},
	{
		Name: "feed_from_plant_area", Figures: formula.Rough, Title: "How much feed do my plants call for?", Unit: "g/d",
		Inputs: []formula.Input{areaInput("area of plants"), ratioInput()},
		Source: rakocySource, Range: "ratios of 5 to 300 g/m2/d", Cautions: []string{ratioCaution, "Never feed more than the fish eat."},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FeedForArea(quantity.SquareMetres(in.Float("area_m2")), FeedRatio(in.Float("ratio_g_m2_d"))))
		},
	},
	{
		Name: "feeding_rate_ratio_range", Title: "What feed for a square metre of plants is recommended?", Unit: "g feed/m2/d",
		Inputs: []formula.Input{systemInput(), cropInput()},
		Source: rakocySource + "; " + faoSource, Range: "systems and crops of the table", Cautions: []string{ratioCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			r, err := RatioFor(in.Word("system"), in.Word("crop"))
			a := formula.Span(float64(r.Low), float64(r.High))
			a.Source = r.Source
			return a, err
		},
	},
	{
		Name: "plants_per_square_metre", Title: "How many leafy or fruiting plants to a square metre?", Unit: "plants/m2", Also: []string{"plant_density"},
		Inputs: []formula.Input{word("crop", "kind of crop", "", "leafy", "fruiting")},
		Source: faoSource, Range: "leafy and fruiting crops",
		Work: func(in *formula.Given) (formula.Answer, error) {
			class, err := CropClassByName(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			s, err := SpacingFor(class)
			a := formula.Span(s.Low, s.High)
			a.Source = s.Source
			return a, err
		},
	},
	{
		Name: "plant_nitrogen_uptake", Figures: formula.Rough, Title: "How much nitrogen can my plants take up in a day?", Unit: "g N/d",
		Inputs: []formula.Input{areaInput("area of plants"), word("crop", "kind of crop", "", "leafy", "herb", "fruiting")},
		Source: "derived from yields, dry matter and nitrogen contents; partly from memory", Range: "closed stands in season; a ceiling",
		Work: func(in *formula.Given) (formula.Answer, error) {
			class, err := CropClassByName(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			a, err := span(PlantUptake(quantity.SquareMetres(in.Float("area_m2")), class))
			a.Source = uptakes[class].source
			return a, err
		},
	},
	{
		Name: "harvest_nitrogen", Figures: formula.Rough, Title: "How much nitrogen does this harvest carry away?", Unit: "g N",
		Inputs: []formula.Input{
			number("fresh_g", "fresh weight", "g", 0, maxGrams, inGrams("fresh_kg")),
			number("dry_fraction", "dry matter in fresh weight", "", 0, 1),
			number("nitrogen_fraction", "nitrogen in dry matter", "", 0, 1),
		},
		Source: "definition", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(HarvestN(quantity.Grams(in.Float("fresh_g")), quantity.Fraction(in.Float("dry_fraction")), quantity.Fraction(in.Float("nitrogen_fraction"))))
		},
	},
	{
		Name: "raft_tan_removal", Figures: formula.Rough, Title: "How much ammonia does a planted raft take out of the water in a day?", Unit: "g NH3-N/d",
		Inputs: []formula.Input{
			{Name: "area_m2", Meaning: "area of raft", Unit: "m2", High: maxArea, Default: "1"},
			word("crop", "crop on the raft", "romaine", "romaine"),
		},
		Source: raftSource, Range: "one trial",
		Work: func(in *formula.Given) (formula.Answer, error) {
			in.Word("crop")
			return one(RaftRemoval(quantity.SquareMetres(in.Float("area_m2")), "NH3-N"))
		},
	},
	{
		Name: "raft_removal", Figures: formula.Rough, Title: "What does a planted raft take out of the water in a day?", Unit: "g/d", Also: []string{"raft_{substance}_removal"},
		Inputs: []formula.Input{
			{Name: "area_m2", Meaning: "area of raft", Unit: "m2", High: maxArea, Default: "1"},
			word("substance", "what is removed", "", "NH3-N", "NO2-N", "COD", "total N", "total P"),
			word("crop", "crop on the raft", "romaine", "romaine"),
		},
		Source: raftSource, Range: "one trial",
		Work: func(in *formula.Given) (formula.Answer, error) {
			in.Word("crop")
			return one(RaftRemoval(quantity.SquareMetres(in.Float("area_m2")), in.Word("substance")))
		},
	},
}

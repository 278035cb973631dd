package nitrogen

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var ammoniaFormulas = []formula.Formula{
	{
		Name: "tan_from_feed", Figures: formula.Rough, Title: "How much ammonia does my feed become?", Unit: "kg TAN/d",
		Inputs: []formula.Input{
			number("feed_kg", "feed given in a day", "kg", 0, maxKilograms, inKilograms("feed_g")),
			proteinInput(),
		},
		Source: "Timmons & Ebeling, PTAN = F x PC x 0.092 (from memory)", Range: "dry feed in recirculating systems, mean of the day",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			feed, protein := quantity.Kilograms(in.Float("feed_kg")), quantity.Fraction(in.Float("protein_fraction"))
			a, err := one(TANFromProtein(feed, protein))
			a.Others = otherAmmonia(feed, protein)
			return a, err
		},
	},
	{
		Name: "tan_from_feed_ruleofthumb", Figures: formula.Rough, Title: "How much ammonia does my feed become, by the rule of 3 %?", Unit: "kg TAN",
		Inputs: []formula.Input{number("feed_kg", "feed given", "kg", 0, maxKilograms, inKilograms("feed_g"))},
		Source: "Ebeling, Biofiltration-Nitrification Design Overview (slides)", Range: "feed of about 33 % protein",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TANRuleOfThumb(quantity.Kilograms(in.Float("feed_kg"))))
		},
	},
	{
		Name: "fao_ammonia_from_feed", Figures: formula.Rough, Title: "How much ammonia, counted as NH3, does my feed become by FAO's calculation?", Unit: "g NH3",
		Inputs: []formula.Input{
			number("feed_g", "feed given in a day", "g", 0, maxGrams, inGrams("feed_kg")),
			proteinInput(),
		},
		Source: "FAO TP 589 Appendix 4: feed x protein x 0.16 x 0.61 x 1.2 (from memory)", Range: "dry feed",
		Cautions: []string{"Counted as NH3: do not compare with test readings as N."},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(AmmoniaFAO(quantity.Grams(in.Float("feed_g")), quantity.Fraction(in.Float("protein_fraction"))))
		},
	},
	{
		Name: "ammonia_nh3_as_n", Title: "How much nitrogen is in this ammonia?", Unit: "g N",
		Inputs: []formula.Input{number("ammonia_g", "ammonia counted as NH3", "g", 0, maxGrams)},
		Source: "molar masses, IUPAC 2021", Range: "any amount",
		Work: func(in *formula.Given) (formula.Answer, error) {
			v := in.Float("ammonia_g")
			if err := checkGrams("ammonia", v); err != nil {
				return formula.Answer{}, err
			}
			return formula.Number(float64(GramsNH3(v).N())), nil
		},
	},
	{
		Name: "tan_concentration_flowthrough", Title: "How much ammonia do fish add to water that passes them once?", Unit: "mg/L TAN",
		Inputs: []formula.Input{
			number("feed_lb_d", "feed given in a day", "lb/d", 0, maxKilograms),
			number("flow_gpm", "flow of water", "gal/min", minFlow, maxFlow),
			number("ammonia_factor", "ammonia factor of the feed and temperature", "", minFHMFactor, maxFHMFactor),
		},
		Source: "Piper et al. 1982, Fish Hatchery Management, p. 25", Range: "salmonid hatcheries",
		Cautions: []string{ammoniaCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TANInFlowFHM(quantity.Pounds(in.Float("feed_lb_d")), quantity.USGallonsPerMinute(in.Float("flow_gpm")), FHMFactor(in.Float("ammonia_factor"))))
		},
	},
	{
		Name: "tan_concentration_from_load", Title: "How much does a day's ammonia raise the ammonia of passing water?", Unit: "mg/L TAN",
		Inputs: []formula.Input{
			number("tan_g", "ammonia given off in a day, as N", "g N", 0, maxGrams),
			number("flow_litres_per_minute", "flow of water", "L/min", minFlow, maxFlow, named("flow_L_min")),
		},
		Source: "conservation of mass", Range: "water passes once, load even over the day",
		Cautions: []string{ammoniaCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TANInFlow(GramsN(in.Float("tan_g")), quantity.LitresPerMinute(in.Float("flow_litres_per_minute"))))
		},
	},
	{
		Name: "feed_nitrogen", Title: "How much nitrogen does my feed bring?", Unit: "g N",
		Inputs: []formula.Input{
			number("feed_g", "feed given", "g", 0, maxGrams, inGrams("feed_kg")),
			proteinInput(),
		},
		Source: "protein is 16 % nitrogen, Jones 1931 (from memory)", Range: "feed with protein of 10 to 70 %",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FeedN(quantity.Grams(in.Float("feed_g")), quantity.Fraction(in.Float("protein_fraction"))))
		},
	},
	{
		Name: "nitrogen_retention", Figures: formula.Rough, Title: "What share of the feed's nitrogen did the fish keep?",
		Inputs: []formula.Input{
			number("fish_gain_n_g", "nitrogen in the fish's growth", "g N", -maxGrams, maxGrams),
			number("feed_n_g", "nitrogen in the feed", "g N", smallestN, maxGrams),
		},
		Source: "definition; 0.25 to 0.30 is usual (from memory)", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(Retention(GramsN(in.Float("fish_gain_n_g")), GramsN(in.Float("feed_n_g"))))
		},
	},
	{
		Name: "solids_from_feed", Figures: formula.Rough, Title: "How much dry solids do fish leave from their feed?", Unit: "g",
		Inputs: []formula.Input{number("feed_g", "feed given", "g", 0, maxGrams, inGrams("feed_kg"))},
		Source: "Rakocy 2007, Ten guidelines for aquaponic systems, guideline 5: a quarter of feed, dry", Range: "dry pellets",
		Cautions: []string{"Take solids out daily. A closed pit of sludge gives off hydrogen sulphide: never enter one."},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(SolidsFromFeed(quantity.Grams(in.Float("feed_g"))))
		},
	},
	{
		Name: "nitrogen_in_mass", Title: "How much nitrogen is in this mass of solids, fish or dry plants?", Unit: "g N",
		Inputs: []formula.Input{
			number("mass_g", "mass", "g", 0, maxGrams, inGrams("mass_kg")),
			number("nitrogen_fraction", "share of nitrogen", "", 0, 1),
		},
		Source: "definition", Range: "any",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(PartN(quantity.Grams(in.Float("mass_g")), quantity.Fraction(in.Float("nitrogen_fraction"))))
		},
	},
}

// otherAmmonia says what the other published bases make of the same feed.
func otherAmmonia(feed quantity.Kilograms, protein quantity.Fraction) []formula.Other {
	rule, err := TANRuleOfThumb(feed)
	if err != nil {
		return nil
	}
	fao, err := AmmoniaFAO(quantity.Grams(KilogramsN(feed).Grams()), protein)
	if err != nil {
		return nil
	}
	return []formula.Other{
		{Basis: "0.03 kg TAN per kg feed, whatever its protein", Value: float64(rule), Unit: "kg TAN/d", Source: "Ebeling slides"},
		{Basis: "FAO, counted as NH3", Value: float64(fao), Unit: "g NH3/d", Source: "FAO TP 589 Appendix 4 (from memory)"},
	}
}

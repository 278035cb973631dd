package fish

import (
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func appetiteInput() formula.Input {
	return appetiteBound.inputOr("1", "appetite", "share of the last meals that was eaten")
}

func shareInput() formula.Input {
	return percentBound.input("feed_percent", "feed as share of body weight", named("feed_pct_bw", "pct")...)
}

const rationSource = tilapiaRationSource + "; " + catfishRationSource + "; trout Leitritz & Lewis 1980; others " + otherRationSource

// rationOf returns species, weight, temperature and appetite.
func rationOf(in *formula.Given) (Species, quantity.Grams, quantity.Celsius, quantity.Fraction, error) {
	s, err := SpeciesByName(in.Word("species"))
	return s, grams(in, "weight_g"), waterTemperature(in), quantity.Fraction(in.Float("appetite")), err
}

// fed names the source of the species' own table, rather than those of all.
func (s Species) fed(a formula.Answer, err error) (formula.Answer, error) {
	a.Source = s.rationsFrom()
	return a, err
}

var rationFormulas = []formula.Formula{
	{
		Name: "fish_ration_percent", Figures: formula.Rough, Title: "What share of their weight do I feed my fish in a day?", Unit: "% body wt/day",
		Inputs: []formula.Input{speciesInput(), weightBound.input("weight_g", "mean weight of a fish"), temperatureInput(), appetiteInput()},
		Source: rationSource, Range: "temperatures in which the species lives, weights of the ration tables", Cautions: []string{feedCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, w, t, appetite, err := rationOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return s.fed(one(RationPercent(s, w, t, appetite)))
		},
	},
	{
		Name: "fish_ration", Figures: formula.Rough, Title: "How much do I feed my fish in a day?", Unit: "g/d",
		Inputs: []formula.Input{speciesInput(), fishBound.input("fish", "number of fish"), weightBound.input("weight_g", "mean weight of a fish"), temperatureInput(), appetiteInput()},
		Source: rationSource, Range: "temperatures in which the species lives, weights of the ration tables", Cautions: []string{feedCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, w, t, appetite, err := rationOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			return s.fed(one(Ration(s, in.Float("fish"), w, t, appetite)))
		},
	},
	{
		Name: "rainbow_trout_daily_feed", Title: "What share of their weight do I feed trout of this length?", Unit: "% body wt/day", Also: []string{"rainbow trout daily feed"},
		Inputs: []formula.Input{
			fahrenheitBound.input("temperature_fahrenheit", "water temperature", append(named("T_F"), inCelsius("temperature_celsius"), inCelsius("T_C"))...),
			{Name: "length_in", Meaning: "class of length, inches", Choices: lengthClasses[:]},
		},
		Source: "Leitritz & Lewis 1980, Trout and Salmon Culture, feed chart (NC State Extension reproduction)", Range: "36 to 68 degF",
		Cautions: []string{feedCaution, "Above 65 degF feed trout only while oxygen is high."},
		Work: func(in *formula.Given) (formula.Answer, error) {
			class, err := LengthClassByName(in.Word("length_in"))
			if err != nil {
				return formula.Answer{}, err
			}
			return one(TroutRation(quantity.Fahrenheit(in.Float("temperature_fahrenheit")), class))
		},
	},
	{
		Name: "catfish_winter_daily_ration", Title: "What share of their weight do I feed catfish in winter, as mean of a day?", Unit: "% body wt/day",
		Inputs: []formula.Input{fahrenheitBound.input("temperature_fahrenheit", "water temperature", append(named("T_F"), inCelsius("temperature_celsius"))...)},
		Source: texas, Range: "45 to 65 degF", Cautions: []string{feedCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, err := CatfishWinterRation(quantity.Fahrenheit(in.Float("temperature_fahrenheit")))
			a := formula.Number(float64(w.Daily()))
			a.Text = "1 % of body weight, " + w.Description
			return a, err
		},
	},
	{
		Name: "feed_per_fish", Figures: formula.Rough, Title: "How much does one fish eat in a day?", Unit: "g/d",
		Inputs: []formula.Input{weightBound.input("fish_g", "weight of a fish"), {Name: "feed_percent", Meaning: "share of its weight, one number or a range like 1-2", Also: named("pct")}},
		Source: "FAO TP 589 7.2: 1 to 2 % in grow-out", Range: "0 to 30 % a day", Cautions: []string{feedCaution},
		Work: feedPerFish,
	},
	{
		Name: "feed_from_biomass", Figures: formula.Rough, Title: "How much do so many kilograms of fish eat in a day?", Unit: "kg/d",
		Inputs: []formula.Input{massBound.input("biomass_kg", "all fish"), shareInput()},
		Source: "share of body weight; Losordo, Flow rate estimation for RAS", Range: "0 to 30 % a day", Cautions: []string{feedCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FeedForBiomass(quantity.Kilograms(in.Float("biomass_kg")), quantity.Percent(in.Float("feed_percent"))))
		},
	},
	{
		Name: "haskell_ration", Figures: formula.Rough, Title: "What share of their weight do I feed trout that should grow so long in a day?", Unit: "% body wt/day",
		Inputs: []formula.Input{conversionBound.input("conversion", "feed conversion ratio", named("FCR")...), dailyLengthBound.input("length_gain_in", "gain in length a day", named("dL_in")...), inchesBound.input("length_in", "length", named("L_in")...)},
		Source: "Haskell 1959 (from memory)", Range: "trout of even shape", Cautions: []string{feedCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(HaskellRation(in.Float("conversion"), quantity.Inches(in.Float("length_gain_in")), quantity.Inches(in.Float("length_in"))))
		},
	},
}

// feedPerFish answers a range of shares with a range of feed.
func feedPerFish(in *formula.Given) (formula.Answer, error) {
	weight := grams(in, "fish_g")
	least, most, ranged := strings.Cut(in.Word("feed_percent"), "-")
	low, err := shareOf(weight, least)
	if err != nil || !ranged {
		return formula.Number(float64(low)), err
	}
	high, err := shareOf(weight, most)
	return formula.Span(float64(low), float64(high)), err
}

func shareOf(weight quantity.Grams, text string) (quantity.Grams, error) {
	share, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return 0, &formula.InputError{Formula: "feed_per_fish", Input: "feed_percent", Reason: "not a number", Hint: "write it like 1.5 or 1-2"}
	}
	return FeedPerFish(weight, quantity.Percent(share))
}

package pantry

import (
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// loadFormula asks Load for one size of jar.
func loadFormula(jar Jar, name, title string, also ...string) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: "lb", Source: guide, Range: "foods of our table", Also: also, Inputs: []formula.Input{foodInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Load(in.Word("food"), jar)
			return say(c, err, number[quantity.Pounds])
		},
	}
}

// sauceFormula asks for a thickness of tomato sauce, which the guide prints apart.
func sauceFormula(jar Jar, thickness, name, check string) formula.Formula {
	return formula.Formula{
		Name: name, Title: "What fills a canner with " + thickness + " tomato sauce?", Unit: "lb", Source: guide, Range: thickness + " tomato sauce",
		Also: []string{check}, Inputs: []formula.Input{remark("crop", "food")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Load("tomato sauce "+thickness, jar)
			return say(c, err, number[quantity.Pounds])
		},
	}
}

// quartsFormula gives one end of the quarts a bushel fills, as check files ask.
func quartsFormula(name, title, check string, end func(Span) float64) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: "qt", Source: guide, Range: "foods of our table", Also: []string{check}, Inputs: []formula.Input{foodInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := QuartsPerBushel(in.Word("food"))
			return say(c, err, func(s Span) formula.Answer { return number(end(s)) })
		},
	}
}

var yieldFormulas = []formula.Formula{
	loadFormula(Quart, "canner_load_quarts", "What fills a canner of 7 quarts?", "lb per canner load of 7 quarts"),
	loadFormula(Pint, "canner_load_pints", "What fills a canner of 9 pints?", "lb per canner load of 9 pints"),
	sauceFormula(Quart, "thin", "thin_sauce_quarts", "lb per 7 quarts thin sauce"),
	sauceFormula(Quart, "thick", "thick_sauce_quarts", "lb per 7 quarts thick sauce"),
	sauceFormula(Pint, "thick", "thick_sauce_pints", "lb per 9 pints thick sauce"),
	quartsFormula("quarts_per_bushel_low", "How many quarts does a bushel fill at least?", "quarts per bushel low", func(s Span) float64 { return s.Low }),
	quartsFormula("quarts_per_bushel_high", "How many quarts does a bushel fill at most?", "quarts per bushel high", func(s Span) float64 { return s.High }),
	{
		Name: "quarts_per_bushel", Title: "How many quarts does a bushel fill?", Unit: "qt", Source: guide, Range: "foods of our table", Also: []string{"quarts per bushel"}, Inputs: []formula.Input{foodInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := QuartsPerBushel(in.Word("food"))
			return say(c, err, span)
		},
	},
	{
		Name: "bushel_weight", Title: "What does a bushel weigh?", Unit: "lb", Source: guide, Range: "foods of our table", Also: []string{"bushel weight"}, Inputs: []formula.Input{foodInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := BushelWeight(in.Word("food"))
			return say(c, err, number[quantity.Pounds])
		},
	},
	{
		Name: "pounds_per_quart", Title: "What does one quart jar take?", Unit: "lb/qt", Source: guide, Range: "averages as printed, rounded", Also: []string{"lb per quart average"}, Inputs: []formula.Input{foodInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := PoundsPerQuart(in.Word("food"))
			return say(c, err, number[quantity.Pounds])
		},
	},
	{
		Name: "jars_from_produce", Title: "How many jars does this harvest fill?", Unit: "jars", Source: guide + ", bushel over quarts", Range: "0 to 100,000 lb",
		Inputs: []formula.Input{foodInput, {Name: "produce_lb", Meaning: "weight of the produce", Unit: "lb", High: mostPounds,
			Also: []formula.Alias{{Name: "produce_kg", Change: poundsFromKilograms}}}, jarInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			jar, err := jarGiven(in)
			if err != nil {
				return formula.Answer{}, err
			}
			c, err := JarsFrom(in.Word("food"), quantity.Pounds(in.Float("produce_lb")), jar)
			return say(c, err, span)
		},
	},
	{
		Name: "produce_for_jars", Title: "How much produce do these jars take?", Unit: "lb", Source: guide + ", bushel over quarts", Range: "0 to 100,000 jars",
		Inputs: []formula.Input{foodInput, {Name: "jars", Meaning: "number of jars", High: mostJars}, jarInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			jar, err := jarGiven(in)
			if err != nil {
				return formula.Answer{}, err
			}
			c, err := ProduceFor(in.Word("food"), in.Float("jars"), jar)
			return say(c, err, span)
		},
	},
}

func poundsFromKilograms(v float64) float64 { return float64(quantity.Kilograms(v).Grams().Pounds()) }

// processFormulas makes one formula for each food and canner of the tables.
func processFormulas() []formula.Formula {
	var list []formula.Formula
	for _, r := range boilingRows {
		list = append(list, boilingFormula(r.food))
	}
	for _, r := range pressureRows {
		list = append(list, pressureFormula("dial", r.food, float64(dialTops[len(dialTops)-1]), DialGauge),
			pressureFormula("weighted", r.food, highestAltitude, WeightedGauge))
	}
	return list
}

func slug(words string) string { return strings.ReplaceAll(words, " ", "_") }

func boilingFormula(food string) formula.Formula {
	return formula.Formula{
		Name: "boiling_water_" + slug(food), Title: "How long do " + food + " stay in a boiling-water canner?", Unit: "min", Source: guide,
		Range: "acidified, 0 to 10,000 ft", Also: []string{"boiling-water process " + food},
		Inputs: []formula.Input{jarInput, altitudeInput(highestAltitude), {Name: "acidified", Meaning: "acid added to every jar", Default: "yes", Choices: []string{"yes"}}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			in.Word("acidified")
			jar, err := jarGiven(in)
			if err != nil {
				return formula.Answer{}, err
			}
			c, err := atAltitude(in, func(a quantity.Feet) (Canning[Process], error) { return BoilingWater(food, jar, a) })
			return say(c, err, func(p Process) formula.Answer { return number(p.Minutes) })
		},
	}
}

func pressureFormula(gauge, food string, highest float64, ask func(string, Jar, quantity.Feet) (Canning[Process], error)) formula.Formula {
	return formula.Formula{
		Name: gauge + "_gauge_" + slug(food), Title: "What pressure does a canner with a " + gauge + " gauge need for " + food + "?", Unit: "psi", Source: guide,
		Range: "as printed; the time is in the words of the answer", Also: []string{gauge + "-gauge pressure " + food},
		Inputs: []formula.Input{altitudeInput(highest), {Name: "jar", Meaning: "pint or quart", Default: "quart"}, remark("pints_min"), remark("quarts_min")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			jar, err := jarGiven(in)
			if err != nil {
				return formula.Answer{}, err
			}
			c, err := atAltitude(in, func(a quantity.Feet) (Canning[Process], error) { return ask(food, jar, a) })
			return say(c, err, pressureWords)
		},
	}
}

func pressureWords(p Process) formula.Answer {
	answer := formula.Number(p.Psi)
	answer.Text = "for " + plain(float64(p.Minutes)) + " minutes"
	if p.Acidify {
		answer.Text += ", with acid in every jar"
	}
	return answer
}

// acidFormula asks Acidify for one acid.
func acidFormula(acid, unit, check string) formula.Formula {
	return formula.Formula{
		Name: slug(acid) + "_acidification", Title: "How much " + acid + " does a jar of tomatoes need?", Unit: unit, Source: guide, Range: "tomatoes, pint or quart",
		Also: []string{check}, Inputs: []formula.Input{jarInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			jar, err := jarGiven(in)
			if err != nil {
				return formula.Answer{}, err
			}
			c, err := Acidify(acid, jar)
			return say(c, err, func(a Acid) formula.Answer { return formula.Number(a.Amount) })
		},
	}
}

var canningFormulas = []formula.Formula{
	acidFormula("lemon juice", "Tbsp", "lemon juice acidification"),
	acidFormula("citric acid", "tsp", "citric acid acidification"),
	acidFormula("vinegar", "Tbsp", "vinegar acidification"),
	{
		Name: "low_acid_limit", Title: "Above which pH must food be pressure canned?", Unit: "pH", Source: guide, Range: "all food", Also: []string{"low-acid pH limit"},
		Work: func(*formula.Given) (formula.Answer, error) {
			c, err := canned(LowAcidLimit, nil)
			return say(c, err, number[quantity.PH])
		},
	},
	{
		Name: "is_low_acid", Title: "Is food of this pH low-acid?", Source: guide, Range: "pH 0 to 14",
		Inputs: []formula.Input{{Name: "ph", Meaning: "measured pH", High: highestPH, Also: also("pH")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := IsLowAcid(quantity.PH(in.Float("ph")))
			return say(c, err, func(low bool) formula.Answer {
				if low {
					return formula.Words("low-acid: pressure can it, by the guide")
				}
				return formula.Words("not low-acid by this measurement; follow the guide's food and method all the same")
			})
		},
	},
	{
		Name: "sterilising_temperature", Title: "How hot must low-acid food get?", Unit: "degF", Source: guide, Range: "10 to 15 psi on the gauge", Also: []string{"low-acid sterilising temperature"},
		Inputs: []formula.Input{remark("gauge_psig")},
		Work: func(*formula.Given) (formula.Answer, error) {
			degrees, _ := SterilisingTemperature()
			return say(degrees, nil, span)
		},
	},
	{
		Name: "safety_boil", Title: "How long do I boil home-canned low-acid food before eating it?", Unit: "min", Source: guide, Range: "0 to 10,000 ft; counted from sea level",
		Also:   []string{"safety boil before eating low-acid home-canned food"},
		Inputs: []formula.Input{{Name: "altitude_ft", Meaning: "altitude in feet, or <1000", Unit: "ft", High: highestAltitude, Default: "<1000", Also: also("altitude_ft<")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			_, high, err := bandGiven(in, "altitude_ft")
			if err != nil {
				return formula.Answer{}, err
			}
			c, err := SafetyBoil(quantity.Feet(high))
			return say(c, err, number[quantity.Minutes])
		},
	},
	{
		Name: "extra_safety_boil", Title: "How much longer for each further 1000 ft?", Unit: "min", Source: guide, Range: "each 1000 ft", Also: []string{"extra safety boil"},
		Inputs: []formula.Input{remark("per_1000_ft")},
		Work:   func(*formula.Given) (formula.Answer, error) { return say(ExtraBoil(), nil, number[quantity.Minutes]) },
	},
	{
		Name: "boiling_point", Title: "Where does water boil up here?", Unit: "degF", Source: "Complete Guide to Home Canning, altitude table", Range: "0 to 4000 ft, straight between the printed altitudes",
		Also:   []string{"boiling point of water"},
		Inputs: []formula.Input{{Name: "altitude_ft", Meaning: "altitude", Unit: "ft", High: highestBoiling}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := BoilingPoint(quantity.Feet(in.Float("altitude_ft")))
			return say(c, err, number[quantity.Fahrenheit])
		},
	},
	{
		Name: "jar_storage", Title: "How warm may sealed jars stand?", Unit: "degF", Source: guide, Range: "never above 95 degF",
		Work: func(*formula.Given) (formula.Answer, error) {
			keep, never := JarStorage()
			answer, err := say(keep, nil, span)
			limit, _ := never.Read()
			answer.Text = "never above " + plain(float64(limit)) + " degF"
			return answer, err
		},
	},
}

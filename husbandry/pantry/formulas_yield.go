package pantry

import (
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

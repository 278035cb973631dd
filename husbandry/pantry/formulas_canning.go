package pantry

import (
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

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
			c, err := atAltitude(in, highestAltitude, func(a quantity.Feet) (Canning[Process], error) { return BoilingWater(food, jar, a) })
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
			c, err := atAltitude(in, highest, func(a quantity.Feet) (Canning[Process], error) { return ask(food, jar, a) })
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
		Inputs: []formula.Input{{Name: "altitude_ft", Meaning: "altitude in feet, or <1000", Unit: "ft", High: highestAltitude}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			_, high := in.Band("altitude_ft")
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

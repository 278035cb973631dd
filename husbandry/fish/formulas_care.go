package fish

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func lengthInput() formula.Input {
	return lengthBound.input("length_cm", "length of the fish", named("L_cm")...)
}

var careFormulas = []formula.Formula{
	{
		Name: "condition_factor", Title: "How well fed does my fish look?", Also: []string{"Fulton condition factor"},
		Inputs: []formula.Input{weightBound.input("weight_g", "weight", named("W_g")...), lengthInput()},
		Source: "Fulton 1904: 100 W / L^3", Range: "fish of one kind compared with each other",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FultonCondition(grams(in, "weight_g"), Centimetres(in.Float("length_cm"))))
		},
	},
	{
		Name: "english_condition_factor", Title: "What is this metric condition factor in pounds and inches?", Unit: "lb/in3", Also: []string{"condition factor English C from metric K"},
		Inputs: []formula.Input{conditionBound.input("k", "condition factor K", named("K")...), remark("species", "kind of fish, a remark")},
		Source: fhm + ", p. 61: C = 36.13 K", Range: "K of 1e-6 to 1e-4",
		Work: func(in *formula.Given) (formula.Answer, error) { return one(EnglishCondition(in.Float("k"))) },
	},
	{
		Name: "weight_from_condition", Title: "How heavy is a fish of this length?", Unit: "lb", Also: []string{"weight from length C"},
		Inputs: []formula.Input{englishBound.input("c", "condition factor C, lb/in3", named("C")...), inchesInput(), remark("species", "kind of fish, a remark")},
		Source: fhm + ": W = C L^3", Range: "fish of usual shape",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(WeightByCondition(PoundsPerCubicInch(in.Float("c")), quantity.Inches(in.Float("length_in"))))
		},
	},
	{
		Name: "weight_from_length", Title: "How heavy is a fish of this length, by a stock's own relation?", Unit: "g",
		Inputs: []formula.Input{scaleBound.input("a", "factor of the relation"), exponentBound.input("b", "exponent of the relation"), lengthInput()},
		Source: "length-weight relation W = a L^b", Range: "lengths from which a and b were found",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(WeightByLength(in.Float("a"), in.Float("b"), Centimetres(in.Float("length_cm"))))
		},
	},
	{
		Name: "number_to_weigh", Figures: formula.Rough, Title: "How many fish do I weigh to know their mean?",
		Inputs: []formula.Input{cvInput("0.25"), precisionBound.inputOr("0.05", "precision", "how near the mean must be, as its share"),
			levelBound.inputOr("0.9", "level", "chance that it is"), someFishBound.input("fish", "fish in the cohort")},
		Source: "normal approximation with finite correction, Cochran 1977 (from memory)", Range: "fish netted at random, not the hungry ones at the top",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(NumberToWeigh(quantity.Fraction(in.Float("variation")), quantity.Fraction(in.Float("precision")), quantity.Fraction(in.Float("level")), in.Float("fish")))
		},
	},
}

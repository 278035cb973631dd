package crop

import "freshet.example/husbandry/formula"

// nutrientFormulas tell what plants want dissolved in their water.
var nutrientFormulas = []formula.Formula{
	{
		Name: "nutrient_in_solution", Title: "How much of this nutrient does a complete solution for plants hold?", Unit: "mg/L",
		Source: hoagland, Range: "12 nutrients, as the element; made for plants alone and no aim for a loop", Cautions: []string{dosingCaution},
		Inputs: []formula.Input{{Name: "nutrient", Meaning: "name of the nutrient, like iron"}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			n, err := NutrientNeed(in.Word("nutrient"))
			return n.answer(n.Solution), err
		},
	},
	{
		Name: "nutrient_in_loop", Title: "How much of this nutrient is advised for the water of a loop?", Unit: "mg/L",
		Source: "FAO TP 589", Range: "iron and nitrogen, as the element; of the others none is published that we hold", Cautions: []string{dosingCaution},
		Inputs: []formula.Input{{Name: "nutrient", Meaning: "name of the nutrient: iron or nitrogen"}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			n, err := NutrientNeed(in.Word("nutrient"))
			if err == nil && !n.Loop.Known() {
				err = &NotListedError{Table: "what is advised for loops", Asked: n.Nutrient}
			}
			answer := n.answer(n.Loop)
			answer.Source = n.LoopSource
			return answer, err
		},
	},
}

// answer gives a level, and what to beware of.
func (n NutrientLevel) answer(level Figure) formula.Answer {
	a := formula.Span(level.Low, level.High)
	if level.Low == level.High {
		a = formula.Number(level.Low)
	}
	if n.Beware != "" {
		a.Cautions = append(a.Cautions, n.Nutrient+": "+n.Beware)
	}
	return a
}

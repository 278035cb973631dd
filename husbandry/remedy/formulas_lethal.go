package remedy

import (
	"strings"

	"freshet.example/husbandry/formula"
)

// tested pairs a substance with the names under which its tests are asked for.
type tested struct {
	substance string
	also      []string
}

var testFormulas = testsOf(
	tested{"copper", []string{"{hours}-h LC50 copper (as Cu from CuSO4)", "{hours}-h LC50 copper"}},
	tested{"copper sulfate", []string{"{hours}-h LC50 copper sulfate", "{hours}-h LC50 copper sulfate (as CuSO4)"}},
	tested{"pyrethrins", []string{"{hours}-h LC50 pyrethrins", "{hours}-h LC50 pyrethrins range", "{hours}-h LC50 natural pyrethrins", "{hours}-h LC50 natural pyrethrins range"}},
	tested{"pyrethroids", []string{"{hours}-h LC50 pyrethroids", "{hours}-h LC50 pyrethroids range"}},
	tested{"azadirachtin product", []string{"{hours}-h LC50 NeemAzal (10 g/L azadirachtin)"}},
	tested{"azadirachtin", []string{"{hours}-h LC50 azadirachtin"}},
	tested{"neem oil", []string{"{hours}-h LC50 neem oil", "{hours}-h LC50 neem oil formulation"}},
	tested{"household soap", []string{"{hours}-h LD50 household soap at 23 ppt"}},
	tested{"detergent", []string{"{hours}-h LC50 detergent"}},
	tested{"liquid soap", []string{"{hours}-h LC50 liquid soap"}},
	tested{"Bti", []string{"{hours}-h LC50 Bti", "{hours}-h LC50 Bti range"}},
	tested{"spinosad", []string{"{hours}-h LC50 spinosad"}},
	tested{"sulfur", []string{"{hours}-h LC50 sulfur"}},
	tested{"hydrogen peroxide", []string{"{hours}-h LC50 hydrogen peroxide"}},
	tested{"potassium permanganate", []string{"{hours}-h LC50 potassium permanganate"}},
	tested{"salt", []string{"{hours}-h LC50 salt", "{hours}-h LC50 salt, abrupt"}},
	tested{"formalin", []string{"{hours}-h LC50 formalin"}},
)

func testsOf(list ...tested) []formula.Formula {
	formulas := make([]formula.Formula, len(list))
	for i, t := range list {
		formulas[i] = formula.Formula{
			Name: "lc50_" + strings.ToLower(strings.ReplaceAll(t.substance, " ", "_")), Title: "What concentration of " + t.substance + " killed half the fish?",
			Source: "see the answer", Range: "fish, water and hours that were tested", Cautions: chemical, Also: t.also,
			Inputs: []formula.Input{
				{Name: "species", Meaning: "fish, in words of its name", Default: notGiven},
				{Name: "hours", Meaning: "length of the test", Unit: "h", Default: notGiven},
				{Name: "alkalinity", Meaning: "as tested", Unit: "mg/L as CaCO3", Default: notGiven},
				{Name: "water_celsius", Meaning: "as tested", Unit: "degC", Default: notGiven, Also: also("T_C")},
			},
			Work: func(in *formula.Given) (formula.Answer, error) { return lethal(t.substance, in) },
		}
	}
	return formulas
}

// lethal answers with one figure where one test fits, and with the range of all
// that fit otherwise, each beside it.
func lethal(substance string, in *formula.Given) (formula.Answer, error) {
	found, err := Tests(substance, Choice{Species: wordOr(in, "species"), Hours: optional(in, "hours"),
		Alkalinity: optional(in, "alkalinity"), Celsius: optional(in, "water_celsius")})
	if err != nil {
		return formula.Answer{}, err
	}
	return together(substance, found)
}

func together(substance string, found []Test) (formula.Answer, error) {
	low, high := found[0].Low, found[0].High
	for _, t := range found[1:] {
		if t.Unit != found[0].Unit {
			return formula.Answer{}, &NotKnownError{"one unit for all these tests of " + substance + "; name the species"}
		}
		low, high = min(low, t.Low), max(high, t.High)
	}
	answer := formula.Span(low, high)
	if low == high {
		answer = formula.Number(low)
	}
	answer.Unit, answer.Source = string(found[0].Unit), found[0].Source
	if found[0].Above {
		answer.Text = "more than this"
	}
	if len(found) > 1 {
		answer.Others = others(found)
	}
	return answer, nil
}

func others(found []Test) []formula.Other {
	list := make([]formula.Other, len(found))
	for i, t := range found {
		list[i] = formula.Other{Basis: t.Species + ", " + short(t.Hours) + " h" + t.water(), Value: t.Low, Unit: string(t.Unit), Source: t.Source}
	}
	return list
}

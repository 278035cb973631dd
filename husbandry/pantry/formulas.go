package pantry

import (
	"math"
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = slices.Concat(yieldFormulas, processFormulas(), canningFormulas, storeFormulas, formula.Facts(facts))

// say turns an answer about canning into a formula's, with its caution.
func say[T any](c Canning[T], err error, words func(T) formula.Answer) (formula.Answer, error) {
	if err != nil {
		return formula.Answer{}, err
	}
	value, caution := c.Read()
	answer := words(value)
	answer.Cautions = append(answer.Cautions, caution)
	return answer, nil
}

func number[T ~float64](v T) formula.Answer { return formula.Number(float64(v)) }

func span(s Span) formula.Answer { return formula.Span(s.Low, s.High) }

func also(names ...string) []formula.Alias {
	aliases := make([]formula.Alias, len(names))
	for i, n := range names {
		aliases[i].Name = n
	}
	return aliases
}

// notGiven is the default of an input that may be left out.
const notGiven = "-"

// remark describes an input of check files that changes nothing here.
func remark(names ...string) formula.Input {
	return formula.Input{Name: names[0], Meaning: "a remark in check files; changes nothing", Default: notGiven, Also: also(names[1:]...)}
}

var (
	foodInput = formula.Input{Name: "food", Meaning: "food as the guide names it", Also: also("crop")}
	jarInput  = formula.Input{Name: "jar", Meaning: "pint or quart"}
	cropInput = formula.Input{Name: "crop", Meaning: "crop", Also: also("food")}
)

// altitudeInput is a number or a column of the guide's tables: "3001-6000", ">1000".
func altitudeInput(highest float64) formula.Input {
	return formula.Input{Name: "altitude_ft", Meaning: "altitude in feet, or a column of the guide such as 3001-6000 or >1000", Unit: "ft", High: highest}
}

func jarGiven(in *formula.Given) (Jar, error) { return ParseJar(in.Word("jar")) }

// atAltitude asks at both ends of the altitude given, up to the highest of the
// table. The higher end is the answer, and it must be one column with the lower.
func atAltitude(in *formula.Given, highest float64, ask func(quantity.Feet) (Canning[Process], error)) (Canning[Process], error) {
	low, high := in.Band("altitude_ft")
	if math.IsInf(low, -1) {
		low = 0
	}
	if math.IsInf(high, 1) {
		high = highest
	}
	bottom, err := ask(quantity.Feet(low))
	if err != nil {
		return bottom, err
	}
	top, err := ask(quantity.Feet(high))
	if err == nil && top != bottom {
		err = &NotInTableError{"one figure for altitudes " + in.Word("altitude_ft")}
	}
	return top, err
}

package pantry

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = slices.Concat(yieldFormulas, processFormulas(), canningFormulas, storeFormulas)

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

// bandGiven reads a number, "3001-6000", ">1000" or "<1000" as the lowest and
// highest value meant.
func bandGiven(in *formula.Given, name string) (low, high float64, err error) {
	text := strings.TrimSpace(in.Word(name))
	if first, last, ok := strings.Cut(text, "-"); ok && first != "" {
		low, err = strconv.ParseFloat(first, 64)
		if err == nil {
			high, err = strconv.ParseFloat(last, 64)
		}
		return low, high, err
	}
	v, err := strconv.ParseFloat(strings.TrimLeft(text, "<>="), 64)
	switch {
	case strings.Contains(text, "="):
	case strings.HasPrefix(text, ">"):
		v = math.Nextafter(v, math.Inf(1))
	case strings.HasPrefix(text, "<"):
		v = math.Nextafter(v, math.Inf(-1))
	}
	return v, v, err
}

// atAltitude asks at both ends of the altitude given. The higher end is the
// answer, and it must be one column with the lower.
func atAltitude(in *formula.Given, ask func(quantity.Feet) (Canning[Process], error)) (Canning[Process], error) {
	low, high, err := bandGiven(in, "altitude_ft")
	if err != nil {
		return Canning[Process]{}, &formula.InputError{Formula: "altitude", Input: "altitude_ft", Reason: "not a number", Hint: "write it like 1500 or 1001-3000"}
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

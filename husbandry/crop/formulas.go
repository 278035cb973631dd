package crop

import (
	"slices"
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists the computations of this package that can be asked for by
// name. GapsAndGluts and SowThisWeek are left out: they need whole records.
var Formulas = slices.Concat(heatFormulas, airFormulas, sunFormulas, waterFormulas, coefficientFormulas,
	guidelineFormulas, tableFormulas, yieldFormulas, saltFormulas, bedFormulas, seasonFormulas, signFormulas, nutrientFormulas, formula.Facts(facts))

// notGiven is the default of an input that need not be given.
const notGiven = "not given"

// number makes an answer of one number.
func number[T ~float64 | ~int](v T, err error) (formula.Answer, error) {
	return formula.Number(float64(v)), err
}

// figure makes an answer of a published range, with its source.
func figure(f Figure, err error) (formula.Answer, error) {
	answer := formula.Span(f.Low, f.High)
	answer.Source = f.Source.String()
	return answer, err
}

// also lists aliases that need no change of unit.
func also(names ...string) []formula.Alias {
	aliases := make([]formula.Alias, len(names))
	for i, n := range names {
		aliases[i].Name = n
	}
	return aliases
}

// inExamples lists a quantity's name as it is written beside worked examples.
func inExamples(name, examples string) []string {
	names := []string{name}
	for example := range strings.FieldsSeq(examples) {
		names = append(names, name+" (Ex."+example+")")
	}
	return names
}

// cropInput is the name of a crop in one of the tables.
func cropInput() formula.Input {
	return formula.Input{Name: "crop", Meaning: "name of the crop; words in any order"}
}

// word describes an input in words with a default.
func word(name, meaning, value string, choices ...string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Default: value, Choices: choices}
}

func celsius(in *formula.Given, name string) quantity.Celsius {
	return quantity.Celsius(in.Float(name))
}

func fahrenheit(in *formula.Given, name string) quantity.Fahrenheit {
	return quantity.Fahrenheit(in.Float(name))
}

func kilopascals(in *formula.Given, name string) quantity.Kilopascals {
	return quantity.Kilopascals(in.Float(name))
}

func percent(in *formula.Given, name string) quantity.Percent {
	return quantity.Percent(in.Float(name))
}

func metres(in *formula.Given, name string) quantity.Metres { return quantity.Metres(in.Float(name)) }

func energyOf(in *formula.Given, name string) MJPerM2 { return MJPerM2(in.Float(name)) }

// measured reads an input that need not be given.
func measured(in *formula.Given, name string) Measured {
	if !in.Has(name) {
		return Measured{}
	}
	return Measure(in.Float(name))
}

// yes reads an input of yes and no.
func yes(in *formula.Given, name string) bool { return in.Word(name) == "yes" }

func yesNo(name, meaning, value string) formula.Input { return word(name, meaning, value, "yes", "no") }

// unreadable says that a text is not of the form that was wanted.
func unreadable(form, text string) error { return &NotListedError{Table: form, Asked: text} }

func decimal(text string) (float64, error) { return strconv.ParseFloat(text, 64) }

// latitudeOf reads a latitude as decimal degrees or like 45deg43N.
func latitudeOf(in *formula.Given) (Degrees, error) {
	text := strings.TrimSpace(in.Word("latitude_degrees"))
	south := strings.HasSuffix(text, "S")
	whole, rest, inMinutes := strings.Cut(strings.TrimRight(text, "NS"), "deg")
	degrees, err := decimal(whole)
	if err == nil && inMinutes && rest != "" {
		minutes, bad := decimal(rest)
		degrees, err = degrees+minutes/60, bad
	}
	if err != nil {
		return Degrees(degrees), unreadable("latitudes like 45.72 or 45deg43N", text)
	}
	if south {
		degrees = -degrees
	}
	return Degrees(degrees), nil
}

// ratioOf reads a number that may be written as a fraction, 220/31.
func ratioOf(in *formula.Given, name string) (float64, error) {
	above, below, divided := strings.Cut(in.Word(name), "/")
	v, err := decimal(above)
	if err == nil && divided {
		var by float64
		by, err = decimal(below)
		v /= by
	}
	if err != nil {
		return v, unreadable("numbers like 7.1 or 220/31", in.Word(name))
	}
	return v, nil
}

// pairsOf reads a list of days like 90/65,72/46: highest over lowest.
func pairsOf[T Scale](in *formula.Given, name string) ([]Temperatures[T], error) {
	days := []Temperatures[T]{}
	for _, pair := range in.Labels(name) {
		high, low, _ := strings.Cut(pair, "/")
		max, bad := decimal(high)
		min, err := decimal(low)
		if bad != nil || err != nil {
			return nil, &NotListedError{Table: "days like 90/65", Asked: pair}
		}
		days = append(days, Temperatures[T]{T(max), T(min)})
	}
	return days, nil
}

// daysOf joins two lists of temperatures, day by day.
func daysOf(in *formula.Given, maxName, minName string) ([]Temperatures[quantity.Celsius], error) {
	max, min := in.Numbers(maxName), in.Numbers(minName)
	if len(max) != len(min) {
		return nil, &quantity.RangeError{Name: "number of lowest temperatures", Value: float64(len(min)),
			Low: float64(len(max)), High: float64(len(max)), Source: "one for each highest temperature"}
	}
	days := make([]Temperatures[quantity.Celsius], len(max))
	for i := range days {
		days[i] = Temperatures[quantity.Celsius]{quantity.Celsius(max[i]), quantity.Celsius(min[i])}
	}
	return days, nil
}

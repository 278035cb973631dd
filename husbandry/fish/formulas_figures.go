package fish

import (
	"strings"
	"unicode"

	"freshet.example/husbandry/formula"
)

// figureFormulas makes one formula of each quantity in the table of figures.
func figureFormulas() []formula.Formula {
	var all []formula.Formula
	at := map[string]int{}
	for _, f := range figures {
		if _, known := at[f.Quantity]; !known {
			at[f.Quantity] = len(all)
			all = append(all, figureFormula(f))
		}
		addConditions(&all[at[f.Quantity]], f)
	}
	return all
}

func figureFormula(f Figure) formula.Formula {
	words := figureWords[f.Quantity]
	return formula.Formula{
		Name: "published_" + snake(f.Quantity), Title: words.title, Unit: f.Unit, Cautions: cautions(words.caution),
		Source: f.Source, Range: "the conditions of each figure", Also: []string{f.Quantity},
		Work: func(in *formula.Given) (formula.Answer, error) { return published(f.Quantity, in) },
	}
}

func published(name string, in *formula.Given) (formula.Answer, error) {
	given := map[string]string{}
	for _, f := range figures {
		for condition := range formula.Parse(f.Given) {
			if f.Quantity == name && in.Has(condition) {
				given[condition] = in.Word(condition)
			}
		}
	}
	f, err := Published(name, given)
	a := formula.Number(f.Low)
	if f.Low != f.High {
		a = formula.Span(f.Low, f.High)
	}
	a.Unit, a.Source = f.Unit, f.Source
	return a, err
}

// addConditions declares the conditions of a figure as inputs.
func addConditions(to *formula.Formula, f Figure) {
	for _, pair := range strings.Split(f.Given, ";") {
		name, _, _ := strings.Cut(pair, "=")
		if name != "" && !declares(to, name) {
			to.Inputs = append(to.Inputs, remark(name, "condition of the measurement"))
		}
	}
}

func declares(f *formula.Formula, name string) bool {
	for _, i := range f.Inputs {
		if i.Name == name {
			return true
		}
	}
	return false
}

// snake turns words into a name: letters and digits in lower case, all else
// one underscore.
func snake(words string) string {
	between := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	return strings.Join(strings.FieldsFunc(strings.ToLower(words), between), "_")
}

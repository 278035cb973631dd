package formula

import (
	"strconv"
	"strings"
	"unicode"
)

// A Fact is one published figure that stands for itself: the outcome of a trial, a
// temperature at which something was seen, a rule's number. Facts that disagree
// stand beside each other.
type Fact struct {
	Quantity  string // what was measured, in words
	Title     string // as a grower would ask it; of the first Fact of a quantity
	Given     string // under which conditions: "acclimated_C=30;stage=adult"
	Low, High float64
	Unit      string
	Source    string
	Caution   string // of the first Fact of a quantity; empty where it does no harm to be mistaken in it
}

// An AmbiguousError says that several facts fit; the named condition would
// tell them apart.
type AmbiguousError struct {
	Quantity  string
	Condition string
}

// Error asks for the condition.
func (e *AmbiguousError) Error() string {
	return "several figures are published for " + e.Quantity + ": say which " + e.Condition
}

// An UnknownFactError says that a table holds no such figure.
type UnknownFactError struct{ Quantity string }

// Error names the quantity.
func (e *UnknownFactError) Error() string {
	return "no published figure called " + e.Quantity + " is known"
}

// FactOf finds the figure for a quantity under the conditions given, by name.
// Conditions not given are not asked for where one figure fits alone.
func FactOf(table []Fact, quantity string, given map[string]string) (Fact, error) {
	var found *Fact
	for i := range table {
		f := &table[i]
		if f.Quantity != quantity || !f.fits(given) {
			continue
		}
		if found != nil {
			return Fact{}, &AmbiguousError{quantity, found.condition(f)}
		}
		found = f
	}
	if found == nil {
		return Fact{}, &UnknownFactError{quantity}
	}
	return *found, nil
}

// fits reports whether each condition given is one of the fact's own, with the
// same value.
func (f *Fact) fits(given map[string]string) bool {
	own := Parse(f.Given)
	for name, value := range given {
		if held, ok := own[name]; !ok || !sameValue(held, value) {
			return false
		}
	}
	return true
}

func sameValue(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX == nil && errY == nil {
		return x == y
	}
	return strings.EqualFold(a, b)
}

// condition names the first condition in which two facts differ.
func (f *Fact) condition(other *Fact) string {
	theirs := Parse(other.Given)
	for _, pair := range strings.Split(f.Given, ";") {
		name, value, _ := strings.Cut(pair, "=")
		if !sameValue(theirs[name], value) {
			return name
		}
	}
	return "source"
}

// Facts makes one Formula of each quantity in a table, whose inputs are the
// conditions. Each goes by the quantity's words and by "published_" with them.
func Facts(table []Fact) []Formula {
	var all []Formula
	at := map[string]int{}
	for _, f := range table {
		if _, known := at[f.Quantity]; !known {
			at[f.Quantity] = len(all)
			all = append(all, factFormula(table, f))
		}
		addConditions(&all[at[f.Quantity]], f)
	}
	return all
}

func factFormula(table []Fact, f Fact) Formula {
	out := Formula{
		Name: "published_" + snake(f.Quantity), Title: f.Title, Unit: f.Unit,
		Source: f.Source, Range: "the conditions of each figure", Also: []string{f.Quantity},
		Work: func(in *Given) (Answer, error) { return askFact(table, f.Quantity, in) },
	}
	if f.Caution != "" {
		out.Cautions = []string{f.Caution}
	}
	return out
}

func askFact(table []Fact, quantity string, in *Given) (Answer, error) {
	given := map[string]string{}
	for _, f := range table {
		for condition := range Parse(f.Given) {
			if f.Quantity == quantity && in.Has(condition) {
				given[condition] = in.Word(condition)
			}
		}
	}
	f, err := FactOf(table, quantity, given)
	a := Number(f.Low)
	if f.Low != f.High {
		a = Span(f.Low, f.High)
	}
	a.Unit, a.Source = f.Unit, f.Source
	return a, err
}

// addConditions declares the conditions of a fact as inputs.
func addConditions(to *Formula, f Fact) {
	for _, pair := range strings.Split(f.Given, ";") {
		name, _, _ := strings.Cut(pair, "=")
		if name != "" && !declares(to, name) {
			to.Inputs = append(to.Inputs, Input{Name: name, Meaning: "condition of the measurement"})
		}
	}
}

func declares(f *Formula, name string) bool {
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

package fish

import (
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
)

// A Figure is one published number that stands for itself: the outcome of a
// trial, a temperature at which something was seen. Figures that disagree
// stand beside each other.
type Figure struct {
	Quantity  string // what was measured, in words
	Given     string // under which conditions: "acclimated_C=30;stage=adult"
	Low, High float64
	Unit      string
	Source    string
}

// An AmbiguousError says that several figures fit; the named condition would
// tell them apart.
type AmbiguousError struct {
	Quantity  string
	Condition string
}

// Error asks for the condition.
func (e *AmbiguousError) Error() string {
	return "several figures are published for " + e.Quantity + ": say which " + e.Condition
}

// Published returns the figure for a quantity under the conditions given, by
// name. Conditions not given are not asked for where one figure fits alone.
func Published(name string, given map[string]string) (Figure, error) {
	var found *Figure
	for i := range figures {
		f := &figures[i]
		if f.Quantity != name || !f.fits(given) {
			continue
		}
		if found != nil {
			return Figure{}, &AmbiguousError{name, found.condition(f)}
		}
		found = f
	}
	if found == nil {
		return Figure{}, &UnknownError{"published figure", name}
	}
	return *found, nil
}

// fits reports whether each condition given is one of the figure's own, with
// the same value.
func (f *Figure) fits(given map[string]string) bool {
	own := formula.Parse(f.Given)
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

// condition names the first condition in which two figures differ.
func (f *Figure) condition(other *Figure) string {
	theirs := formula.Parse(other.Given)
	for _, pair := range strings.Split(f.Given, ";") {
		name, value, _ := strings.Cut(pair, "=")
		if !sameValue(theirs[name], value) {
			return name
		}
	}
	return "source"
}

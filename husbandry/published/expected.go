package published

import (
	"slices"
	"strings"
)

// kind is how a printed figure is to be taken.
type kind uint8

const (
	words kind = iota
	number
	span
	below
	above
	figures
	refusal
)

// expectation is a printed figure, read.
type expectation struct {
	kind kind
	low  float64 // the number, or the low end
	high float64
	unit float64 // half a unit of the last digit printed
	list []float64
	text string // without remarks in brackets
}

// refusals are words for that no answer may be given.
var refusals = []string{"error", "an error", "refuse", "refused", "refusal", "rejected", "invalid", "not valid", "out of range", "outside", "outside range", "outside the range", "no answer", "none"}

// expect reads what is printed.
func expect(printed string) expectation {
	text := plainText(printed)
	e := expectation{text: text, list: figuresOf(text)}
	one, rest, isNumber := leading(text)
	low, high, after, isSpan := spanned(text)
	bound, sign := strings.TrimLeft(text, "<>=\u2264\u2265"), strings.TrimRight(text, digits+".,eE+- ")
	limit, end, isBound := leading(strings.TrimSpace(bound))
	switch {
	case isNumber && rest == "":
		e.kind, e.low, e.high, e.unit = number, one.value, one.value, one.unit
	case isSpan && after == "":
		e.kind, e.low, e.high, e.unit = span, low.value, high.value, max(low.unit, high.unit)
	case isBound && end == "" && (sign == "<" || sign == "<=" || sign == "\u2264"):
		e.kind, e.low, e.high, e.unit = below, limit.value, limit.value, limit.unit
	case isBound && end == "" && (sign == ">" || sign == ">=" || sign == "\u2265"):
		e.kind, e.low, e.high, e.unit = above, limit.value, limit.value, limit.unit
	case slices.Contains(refusals, strings.ToLower(text)):
		e.kind = refusal
	case len(e.list) > 1 && strings.Trim(text, "+-0123456789.,eE<>=/ \t|;\u2192\u2013") == "":
		e.kind = figures
	}
	return e
}

// ofRange tells whether a refusal is expected for a range that is left.
func (e expectation) ofRange() bool {
	return strings.Contains(strings.ToLower(e.text), "range") || strings.HasPrefix(strings.ToLower(e.text), "outside")
}

package quantity

import (
	"strconv"
	"strings"
)

// More digits than these no meter has, and a float64 would not keep them.
const (
	maxDigits = 15
	maxWhole  = 999_999_999_999_999
)

// A ParseError says why a typed value could not be read.
type ParseError struct {
	Text   string
	Reason string
	Hint   string
}

// Error reads as one sentence.
func (e *ParseError) Error() string {
	s := "\"" + e.Text + "\" " + e.Reason
	if e.Hint != "" {
		s += "; " + e.Hint
	}
	return s
}

// ParseMeasure reads a value as people write it: "7,5", "<0.25 ppm", "78F",
// "1 1/2 gal", "4 dKH", "0.5 mg/L as NH3", "1,250.5 L", "1.2E-03".
//
// A comma is a decimal comma unless points or further commas show that it
// groups thousands. A single comma before exactly three digits ("1,250") could
// be either and is refused. Fractions are kept exactly, so their divisor must
// be a product of twos and fives. Errors are a ParseError or a UnitError.
func ParseMeasure(text string) (Measure, error) {
	m := Measure{}
	rest := strings.TrimSpace(fractions.Replace(text))
	m.Censored, rest = bound(rest)
	sign := int64(1)
	if after, negative := strings.CutPrefix(rest, "-"); negative {
		sign, rest = -1, after
	}
	digits, decimals, rest, reason := number(rest)
	if reason.Reason != "" {
		reason.Text = text
		return Measure{}, &reason
	}
	m.Digits, m.Decimals = sign*digits, decimals
	var err error
	m.Unit, m.Basis, err = ParseUnit(rest)
	if err != nil {
		return Measure{}, err
	}
	return m, nil
}

// fractions spells out the signs that phones offer.
var fractions = strings.NewReplacer("\u00bd", " 1/2", "\u00bc", " 1/4", "\u00be", " 3/4",
	"\u215b", " 1/8", "\u215c", " 3/8", "\u215d", " 5/8", "\u215e", " 7/8", "\u2044", "/", "\u2212", "-")

// Ways to write a bound; longer ones first where one begins another.
var bounds = []struct {
	word string
	is   Censored
}{
	{"<=", Less}, {"<", Less}, {"\u2264", Less}, {"less than", Less}, {"under", Less}, {"below", Less},
	{">=", More}, {">", More}, {"\u2265", More}, {"more than", More}, {"over", More}, {"above", More},
}

func bound(text string) (Censored, string) {
	for _, b := range bounds {
		if len(text) >= len(b.word) && strings.EqualFold(text[:len(b.word)], b.word) {
			return b.is, strings.TrimSpace(text[len(b.word):])
		}
	}
	return Exact, text
}

// number reads the decimal or fraction at the head of text.
func number(text string) (digits int64, decimals int, rest string, why ParseError) {
	head, rest := run(text, "0123456789.,")
	if head == "" {
		return digits, decimals, rest, ParseError{Reason: "does not begin with a number", Hint: "write it like 7.5 or <0.25"}
	}
	if top, bottom, after, found := fraction(head, rest); found {
		var ok bool
		if digits, decimals, ok = exact(top, bottom); !ok {
			why = ParseError{Reason: "has a fraction that is no exact decimal", Hint: "write it as a decimal"}
		}
		return digits, decimals, after, why
	}
	plainText, why := ungroup(head)
	if why.Reason != "" {
		return digits, decimals, rest, why
	}
	whole, part, _ := strings.Cut(plainText, ".")
	whole, part, rest = scientific(whole, part, rest)
	digits, ok := integer(whole + part)
	if !ok || len(part) > maxDigits {
		why = ParseError{Reason: "has more digits than can be kept", Hint: "write at most 15"}
	}
	return digits, len(part), rest, why
}

// scientific moves the point of a number that an instrument wrote as 1.2E-03.
func scientific(whole, part, rest string) (_, _, after string) {
	if rest == "" || (rest[0] != 'e' && rest[0] != 'E') {
		return whole, part, rest
	}
	power, down := strings.CutPrefix(rest[1:], "-")
	if !down {
		power = strings.TrimPrefix(power, "+")
	}
	figures, after := run(power, "0123456789")
	places, err := strconv.Atoi(figures)
	if err != nil || places > maxDigits {
		return whole, part, rest
	}
	zeros := strings.Repeat("0", places)
	if down {
		padded := zeros + whole
		return padded[:len(padded)-len(zeros)], padded[len(padded)-len(zeros):] + part, after
	}
	padded := part + zeros
	return whole + padded[:len(zeros)], padded[len(zeros):max(len(part), len(zeros))], after
}

// run splits text after its longest head of the given letters.
func run(text, letters string) (head, rest string) {
	rest = strings.TrimLeft(text, letters)
	return text[:len(text)-len(rest)], rest
}

// integer reads up to 15 digits; empty text is nought.
func integer(text string) (v int64, ok bool) {
	text = strings.TrimLeft(text, "0")
	if len(text) > maxDigits {
		return v, false
	}
	for _, d := range text {
		v = v*10 + int64(d-'0')
	}
	return v, true
}

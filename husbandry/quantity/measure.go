package quantity

import (
	"math"
	"strconv"
	"strings"
)

// A Measure is a value as a person typed it: an exact decimal with its unit.
// What was typed is kept for ever; canonical values are computed from it.
type Measure struct {
	Digits   int64    // all digits, without the point: 750 for 7.50
	Decimals int      // how many of them stand behind the point: 2 for 7.50
	Censored Censored // when the kit only gave a bound: "<0.25"
	Unit     Unit
	Basis    Basis
}

// Censored says whether a value is itself or only a bound.
type Censored uint8

// The ways in which a value can be censored.
const (
	Exact Censored = iota // the value itself
	Less                  // the true value is below it, or at it
	More                  // the true value is above it, or at it
)

// String gives the sign: empty, "<" or ">".
func (c Censored) String() string {
	switch c {
	case Less:
		return "<"
	case More:
		return ">"
	default:
		return ""
	}
}

// Value is the decimal as a float64: the nearest one there is. It is not a
// number when the Measure holds more digits than ParseMeasure allows.
func (m Measure) Value() float64 {
	if m.Decimals < 0 || m.Decimals > maxDigits || m.Digits > maxWhole || m.Digits < -maxWhole {
		return nan
	}
	return float64(m.Digits) / math.Pow10(m.Decimals)
}

// Canonical gives the value in the quantity's canonical unit and basis. See
// the function Canonical for errors.
func (m Measure) Canonical(q Quantity) (float64, error) {
	return Canonical(q, m.Value(), m.Unit, m.Basis)
}

// String writes the measure as it was typed, in plain signs: "<0.25 ppm as NH3",
// "7.50", "78 degF". ParseMeasure reads it back to the same Measure.
func (m Measure) String() string {
	s := m.Censored.String() + m.decimal()
	if m.Unit != NoUnit {
		s += " " + m.Unit.String()
	}
	if m.Basis != NoBasis {
		s += " as " + m.Basis.String()
	}
	return s
}

func (m Measure) decimal() string {
	sign, digits := "", strconv.FormatInt(m.Digits, 10)
	if strings.HasPrefix(digits, "-") {
		sign, digits = "-", digits[1:]
	}
	if m.Decimals <= 0 {
		return sign + digits
	}
	for len(digits) <= m.Decimals {
		digits = "0" + digits
	}
	point := len(digits) - m.Decimals
	return sign + digits[:point] + "." + digits[point:]
}

// Show prints a computed value with few digits: at least so many figures, but
// never a rounded whole part, and no more. Show(0.05364, 2) is "0.054" and
// Show(1234.5, 2) is "1235". Figures are taken as at least 1 and at most 15.
func Show(v float64, figures int) string {
	figures = min(max(figures, 1), maxDigits)
	if v == 0 {
		return "0"
	}
	if v-v != 0 { // not a number, or without end
		return plain(v)
	}
	leading := int(math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(v, 'f', max(figures-1-leading, 0), 64)
}

// ShowChange prints two values as Show does, with as many more figures, up to
// two, as it takes to tell them apart: "25.6" and "25.8" rather than "26" twice.
func ShowChange(from, to float64, figures int) (string, string) {
	a, b := Show(from, figures), Show(to, figures)
	for more := 1; a == b && from != to && more <= 2; more++ {
		a, b = Show(from, figures+more), Show(to, figures+more)
	}
	return a, b
}

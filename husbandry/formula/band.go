package formula

import (
	"math"
	"strconv"
	"strings"
)

// Band returns the input as the lowest and the highest value meant: one number
// twice, the ends of "3001-6000", and for a comparison the end that it names
// with an infinity: ">1000" is everything from the next number above 1000,
// "<=21" everything up to 21.
func (in *Given) Band(name string) (low, high float64) {
	text, change, found := in.find(name)
	if !found {
		text = in.input(name).Default
	}
	low, high, ok := band(strings.TrimSpace(text))
	switch {
	case text == "":
		in.fail(name, "missing", in.input(name).wanted())
	case !ok:
		in.fail(name, "not a number", "write it like 7.5, 5-10 or <10")
	case change != nil:
		return change(low), change(high)
	}
	return low, high
}

func band(text string) (low, high float64, ok bool) {
	if v, ok := plainNumber(text); ok {
		return v, v, true
	}
	v, ok := plainNumber(strings.TrimLeft(text, "<>="))
	switch {
	case !ok:
		return ends(text)
	case strings.HasPrefix(text, "<="):
		return math.Inf(-1), v, true
	case strings.HasPrefix(text, ">="):
		return v, math.Inf(1), true
	case strings.HasPrefix(text, "<"):
		return math.Inf(-1), math.Nextafter(v, math.Inf(-1)), true
	case strings.HasPrefix(text, ">"):
		return math.Nextafter(v, math.Inf(1)), math.Inf(1), true
	}
	return math.NaN(), math.NaN(), false
}

// ends reads "3001-6000", of which the first may be below zero.
func ends(text string) (low, high float64, ok bool) {
	dash := strings.Index(strings.TrimLeft(text, "-"), "-")
	if dash == -1 {
		return math.NaN(), math.NaN(), false
	}
	dash += len(text) - len(strings.TrimLeft(text, "-"))
	low, first := plainNumber(text[:dash])
	high, last := plainNumber(text[dash+1:])
	return low, high, first && last && low <= high
}

// plainNumber reads a number with a decimal point or comma.
func plainNumber(text string) (float64, bool) {
	v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(text), ",", "."), 64)
	return v, err == nil
}

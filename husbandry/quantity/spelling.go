package quantity

import "strings"

// plainer turns what keyboards and kits print into plain ASCII.
var plainer = strings.NewReplacer(
	" ", "", "\t", "", "\u00a0", "", "\u202f", "", "\u00b0", "", "\u00ba", "", // blanks, degree signs
	"\u00b5", "u", "\u03bc", "u", "\u00b2", "2", "\u00b3", "3", // micro signs, superscripts
	"\u2082", "2", "\u2083", "3", "\u2084", "4", "\u00b9", "1", "\u207b", "-", "\u2212", "-", // subscripts, minus signs
	"\u00b7", "", "(", "", ")", "")

// squeeze gives the text in lower case without blanks, degree signs and
// brackets, so that spellings compare.
func squeeze(text string) string { return strings.ToLower(plainer.Replace(text)) }

// listed tells whether word stands in a list separated by blanks.
func listed(list, word string) bool {
	for _, w := range strings.Fields(list) {
		if w == word {
			return true
		}
	}
	return false
}

// ParseUnit reads a unit, and the basis if one is written with it: "mg/L",
// "\u00b0F", "ppm as NH3", "mg/L NO3-N", "gal". Empty text is NoUnit. Text that is
// neither is a UnitError.
func ParseUnit(text string) (Unit, Basis, error) {
	want := squeeze(text)
	if u, found := unitSpelt(want); found {
		return u, NoBasis, nil
	}
	for cut := range want {
		u, found := unitSpelt(want[:cut])
		if !found || !takesBasis(units[u].kind) {
			continue
		}
		if b, err := ParseBasis(strings.TrimLeft(want[cut:], "-,")); err == nil {
			return u, b, nil
		}
	}
	return NoUnit, NoBasis, &UnitError{Unit: strings.TrimSpace(text)}
}

func unitSpelt(want string) (Unit, bool) {
	for u := range unitCount {
		if want == strings.ToLower(units[u].symbol) || listed(units[u].spelt, want) {
			return u, true
		}
	}
	return NoUnit, false
}

// takesBasis tells whether a basis may be written behind units of the kind.
func takesBasis(k kind) bool { return k == kindMass || k == kindAmount || k == kindIlluminance }

package quantity

import "strings"

// A Basis says what a concentration is counted as, or, for light and dissolved
// solids, what the meter assumes. Its String is stable: it is what records and
// messages carry.
type Basis uint8

// The bases that are understood. NoBasis means that none was given.
const (
	NoBasis Basis = iota
	AsN
	AsNH3
	AsNH4
	AsNO2
	AsNO3
	AsCaCO3
	AsHCO3
	AsCa
	AsMg
	AsP
	AsPO4
	AsK
	AsFe
	AsCl
	AsCl2
	AsO2
	AsCO2
	AsTDS500         // dissolved solids as a meter prints them: 0.5 ppm for each uS/cm
	AsTDS700         // the same with 0.7 ppm for each uS/cm
	UnderSun         // a lux meter in daylight
	UnderFluorescent // under cool white fluorescent lamps
	UnderHalide      // under metal halide lamps
	UnderSodium      // under high pressure sodium lamps

	basisCount
)

// Symbols and other spellings, lower case without spaces.
var bases = [basisCount]struct{ symbol, spelt string }{
	NoBasis:          {"", ""},
	AsN:              {"N", "nitrogen nh3-n nh4-n no2-n no3-n tan nh3n nh4n no2n no3n ammonia-n nitrite-n nitrate-n"},
	AsNH3:            {"NH3", "ammonia"},
	AsNH4:            {"NH4", "ammonium nh4+"},
	AsNO2:            {"NO2", "nitrite no2-"},
	AsNO3:            {"NO3", "nitrate no3-"},
	AsCaCO3:          {"CaCO3", "calciumcarbonate"},
	AsHCO3:           {"HCO3", "bicarbonate hco3-"},
	AsCa:             {"Ca", "calcium"},
	AsMg:             {"Mg", "magnesium"},
	AsP:              {"P", "phosphorus po4-p po4p"},
	AsPO4:            {"PO4", "phosphate"},
	AsK:              {"K", "potassium"},
	AsFe:             {"Fe", "iron"},
	AsCl:             {"Cl", "chloride cl-"},
	AsCl2:            {"Cl2", "chlorine"},
	AsO2:             {"O2", "oxygen"},
	AsCO2:            {"CO2", "carbondioxide"},
	AsTDS500:         {"TDS500", "tds-500 500scale"},
	AsTDS700:         {"TDS700", "tds-700 700scale"},
	UnderSun:         {"sun", "sunlight daylight"},
	UnderFluorescent: {"fluorescent", "coolwhite"},
	UnderHalide:      {"halide", "metalhalide"},
	UnderSodium:      {"sodium", "hps highpressuresodium"},
}

// String gives the symbol: "NH3", "CaCO3"; empty for NoBasis.
func (b Basis) String() string {
	if b >= basisCount {
		return "unknown basis"
	}
	return bases[b].symbol
}

// ParseBasis reads a basis as people write it: "N", "as NO3", "NH3-N". Empty
// text is NoBasis; unknown text is a BasisError.
func ParseBasis(text string) (Basis, error) {
	want := strings.TrimPrefix(squeeze(text), "as")
	for b := range basisCount {
		if want == strings.ToLower(bases[b].symbol) || listed(bases[b].spelt, want) {
			return b, nil
		}
	}
	return NoBasis, &BasisError{Basis: text}
}

// A BasisError says that a basis is not known, is missing where readings of
// this quantity come in several, or does not fit.
type BasisError struct {
	Basis   string   // as given; empty when missing
	For     string   // the quantity; empty when the basis is unknown
	Unit    string   // the unit it came with
	Allowed []string // bases that would fit
}

// Error reads as one sentence.
func (e *BasisError) Error() string {
	choices := strings.Join(e.Allowed, ", ")
	if e.For == "" {
		return "basis \"" + e.Basis + "\" is not known"
	}
	if e.Basis == "" {
		return e.For + " in " + e.Unit + " needs a basis; say which of " + choices + " the kit or meter reads"
	}
	if choices == "" {
		return "basis \"" + e.Basis + "\" does not fit " + e.For + " in " + e.Unit + ", which takes none"
	}
	return "basis \"" + e.Basis + "\" does not fit " + e.For + " in " + e.Unit + "; use " + choices
}

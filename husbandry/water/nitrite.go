package water

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Ratio is the chloride that keeps nitrite out of the gills of a fish, as
// published.
type Ratio struct {
	Fish       string
	Chloride   float64 // mg of chloride for each mg of nitrite
	AsNitrogen bool    // the source counts nitrite as N; otherwise it does not say
	Source     string
}

// Ratios lists what is published. The ratio differs twentyfold between fish: one
// default for all of them is not safe.
var Ratios = []Ratio{
	{"catfish", 10, false, "SRAC catfish text: 10 to 1, and at least 100 mg/L of chloride as insurance"},
	{"warm-water fish", 6, false, "Purdue extension: 6 to 1 (3 to 1 is critical), 100 to 150 mg/L of chloride kept"},
	{"ornamental fish", 5, false, "trade text: 5 to 1"},
	{"salmon", 104, true, "Gutierrez et al. 2019, Aquaculture Research 50:2687, Atlantic salmon parr, as Cl : NO2-N"},
	{"trout", 104, true, "no figure of its own: taken from Atlantic salmon parr, Gutierrez et al. 2019"},
}

// Unit says how the ratio counts nitrite.
func (r Ratio) Unit() string {
	if r.AsNitrogen {
		return "mg Cl per mg NO2-N"
	}
	return "mg Cl per mg nitrite"
}

// InsuranceChloride is the chloride that catfish growers keep at all times.
// Source: SRAC catfish text.
const InsuranceChloride ChlorideCl = 100

// ChlorideRatioFor finds the published ratio for a fish whose name holds a listed
// one, as "Atlantic salmon parr" holds salmon. A fish that is not listed is a
// NameError: there is no safe default.
func ChlorideRatioFor(fish string) (Ratio, error) {
	known := make([]string, len(Ratios))
	for i, r := range Ratios {
		if strings.Contains(strings.ToLower(fish), r.Fish) {
			return r, nil
		}
		known[i] = r.Fish
	}
	return Ratio{}, &NameError{Name: fish, Of: "chloride ratio for", Known: known}
}

// ChlorideToNitrite is the ratio that a loop has: 0 to 1e5 mg/L of chloride over
// 0.001 to 1e5 mg/L of nitrite as nitrogen.
func ChlorideToNitrite(chloride ChlorideCl, nitrite quantity.NitriteN) (float64, error) {
	err := first(
		checkLoad("chloride", float64(chloride)),
		quantity.Within("nitrite", float64(nitrite), 0.001, mostLoad, "mg/L as N", ofPackage))
	if err != nil {
		return nan, err
	}
	return float64(chloride) / float64(nitrite), nil
}

// ChlorideNeeded is the chloride to add for a fish, given the nitrite and the
// chloride that are there, 0 to 1e5 mg/L each. Where the source of the ratio
// does not say how it counts nitrite, the ion is taken, which gives the larger
// dose.
func ChlorideNeeded(r Ratio, nitrite quantity.NitriteN, present ChlorideCl) (ChlorideCl, error) {
	if err := first(checkLoad("nitrite", float64(nitrite)), checkLoad("chloride", float64(present))); err != nil {
		return ChlorideCl(nan), err
	}
	counted := float64(nitrite)
	if !r.AsNitrogen {
		counted = float64(nitrite.Ion())
	}
	return max(ChlorideCl(r.Chloride*counted)-present, 0), nil
}

// ChlorideAtRatio is ChlorideNeeded for a ratio from 0 to 1000 and a nitrite
// that are counted alike, whichever way.
func ChlorideAtRatio(ratio float64, nitrite quantity.MgPerL, present ChlorideCl) (ChlorideCl, error) {
	err := first(
		quantity.Within("chloride ratio", ratio, 0, 1000, "", ofPackage),
		checkLoad("nitrite", float64(nitrite)),
		checkLoad("chloride", float64(present)))
	if err != nil {
		return ChlorideCl(nan), err
	}
	return max(ChlorideCl(ratio*float64(nitrite))-present, 0), nil
}

// SaltForChloride is the sodium chloride, mg/L, that holds 0 to 1e5 mg/L of
// chloride. Source: atomic weights.
func SaltForChloride(c ChlorideCl) (quantity.MgPerL, error) {
	if err := checkLoad("chloride", float64(c)); err != nil {
		return quantity.MgPerL(nan), err
	}
	return quantity.MgPerL(c / quantity.WeightCl * quantity.WeightNaCl), nil
}

// ChlorideOfSalt is the chloride that 0 to 1e5 mg/L of sodium chloride hold.
// Source: atomic weights.
func ChlorideOfSalt(salt quantity.MgPerL) (ChlorideCl, error) {
	if err := checkLoad("salt", float64(salt)); err != nil {
		return ChlorideCl(nan), err
	}
	return ChlorideCl(salt / quantity.WeightNaCl * quantity.WeightCl), nil
}

package water

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Base is a substance that raises alkalinity.
type Base struct {
	Name           string
	Formula        string
	Equivalent     float64 // grams that bind one mole of acid
	Carbon         float64 // moles of inorganic carbon it brings with that
	Brings         string  // what else it leaves in the water
	Caution        string
	DissolvesFully bool // at once, so that its pH can be foretold
}

const (
	burns  = "burns eyes and skin: goggles and gloves, add base to water and never water to base"
	gentle = "mild, but weigh it and dissolve it before it reaches the fish"
	sodium = "sodium gathers in a loop and harms plants: avoid it where plants grow"
	slow   = "dissolves slowly, less the higher the pH: dose by result, not by the table"
)

// Bases lists the bases that growers use. Equivalents and carbon follow from
// atomic weights (IUPAC 2021).
var Bases = []Base{
	{"potassium hydroxide", "KOH", quantity.WeightK + quantity.WeightO + quantity.WeightH, 0, "potassium", burns, true},
	{"calcium hydroxide", "Ca(OH)2", (quantity.WeightCa + 2*quantity.WeightO + 2*quantity.WeightH) / 2, 0, "calcium", burns, true},
	{"sodium bicarbonate", "NaHCO3", quantity.WeightNa + quantity.WeightHCO3, 1, "sodium", gentle + "; " + sodium, true},
	{"sodium carbonate", "Na2CO3", (2*quantity.WeightNa + quantity.WeightC + 3*quantity.WeightO) / 2, 0.5, "sodium", burns + "; " + sodium, true},
	{"potassium bicarbonate", "KHCO3", quantity.WeightK + quantity.WeightHCO3, 1, "potassium", gentle, true},
	{"potassium carbonate", "K2CO3", (2*quantity.WeightK + quantity.WeightC + 3*quantity.WeightO) / 2, 0.5, "potassium", burns, true},
	{"calcium carbonate", "CaCO3", quantity.WeightCaCO3 / 2, 0.5, "calcium", slow, false},
}

// kitchenNames are what shops call a base, and its formula; from memory. Lye and
// potash are left out: each is sold as several things.
var kitchenNames = []struct{ name, formula string }{
	{"baking soda", "NaHCO3"}, {"washing soda", "Na2CO3"}, {"soda ash", "Na2CO3"}, {"slaked lime", "Ca(OH)2"}, {"hydrated lime", "Ca(OH)2"}, {"limestone", "CaCO3"},
}

// A NameError says that a name stands in no table.
type NameError struct {
	Name  string   // as given
	Of    string   // what was looked for
	Known []string // the names that are known
}

// Error reads as one sentence.
func (e *NameError) Error() string {
	s := "no " + e.Of + " \"" + e.Name + "\" is known"
	if e.Known != nil {
		s += "; known are " + strings.Join(e.Known, ", ")
	}
	return s
}

// BaseNamed finds a base by its name, its formula or what shops call it. Any
// other name is a NameError.
func BaseNamed(name string) (Base, error) {
	for _, called := range kitchenNames {
		if strings.EqualFold(name, called.name) {
			name = called.formula
		}
	}
	known := make([]string, len(Bases))
	for i, b := range Bases {
		if strings.EqualFold(name, b.Formula) || strings.EqualFold(name, b.Name) {
			return b, nil
		}
		known[i] = b.Formula
	}
	return Base{}, &NameError{Name: name, Of: "base", Known: known}
}

// equivalentsPerMole of nitrogen: nitrification of a mole of ammonium frees two
// moles of acid.
const acidPerNitrogen = 2

// BaseForNitrification is the base that makes up for nitrifying 0 to 1e12 g of
// ammonia nitrogen. Plants give some of it back when they take up nitrate, so
// this is the most that is needed.
// Source: stoichiometry, two moles of acid for one of nitrogen.
func BaseForNitrification(b Base, nitrogen quantity.Grams) (quantity.Grams, error) {
	if err := quantity.Within("nitrified ammonia", float64(nitrogen), 0, mostMass, "g", ofPackage); err != nil {
		return quantity.Grams(nan), err
	}
	return nitrogen / quantity.WeightN * acidPerNitrogen * quantity.Grams(b.Equivalent), nil
}

// BaseForAlkalinity is the base that raises 0 to 1e9 L by 0 to 1e5 mg/L of
// alkalinity as CaCO3. Source: stoichiometry.
func BaseForAlkalinity(b Base, volume quantity.Litres, rise quantity.AlkalinityCaCO3) (quantity.Grams, error) {
	if err := first(checkVolume(volume), checkLoad("rise of alkalinity", float64(rise))); err != nil {
		return quantity.Grams(nan), err
	}
	return quantity.Grams(float64(volume) * equivalents(rise) * b.Equivalent), nil
}

// AlkalinityOfBase is the rise of alkalinity that 0 to 1e12 g of a base give in
// 0.001 to 1e9 L, once dissolved. Source: stoichiometry.
func AlkalinityOfBase(b Base, volume quantity.Litres, dose quantity.Grams) (quantity.AlkalinityCaCO3, error) {
	err := first(
		quantity.Within("volume", float64(volume), 0.001, mostVolume, "L", ofPackage),
		quantity.Within("dose", float64(dose), 0, mostMass, "g", ofPackage))
	if err != nil {
		return quantity.AlkalinityCaCO3(nan), err
	}
	milliequivalents := float64(dose) / b.Equivalent / float64(volume) * 1000
	return quantity.MilliequivalentsPerL(milliequivalents).CaCO3(), nil
}

package water

import "freshet.example/husbandry/quantity"

// HarmfulChlorine is the chlorine that is called toxic after a top-up, mg/L as
// Cl2. Source: extension text on top-up water. Safe is none that a test can see.
const HarmfulChlorine quantity.MgPerL = 0.05

// ChlorineAfterTopUp is what stands in the loop after the given share of it, 0
// to 1, was replaced by water with 0 to 20 mg/L of chlorine or chloramine, and
// none has yet been lost.
func ChlorineAfterTopUp(tap quantity.MgPerL, replaced quantity.Fraction) (quantity.MgPerL, error) {
	err := first(
		quantity.Within("chlorine", float64(tap), 0, 20, "mg/L", ofPackage),
		quantity.Within("share replaced", float64(replaced), 0, 1, "", quantity.ByDefinition))
	if err != nil {
		return quantity.MgPerL(nan), err
	}
	return tap * quantity.MgPerL(replaced), nil
}

// Thiosulfate is the sodium thiosulfate that binds 0 to 20 mg/L of chlorine in 0
// to 1e9 L, least and most. Sources differ: 2 to 7 parts for each part of
// chlorine (pond keepers' text). Chloramine takes the larger part and leaves its
// ammonia behind.
func Thiosulfate(volume quantity.Litres, tap quantity.MgPerL) (least, most quantity.Grams, err error) {
	if err := quantity.Within("chlorine", float64(tap), 0, 20, "mg/L", ofPackage); err != nil {
		return quantity.Grams(nan), quantity.Grams(nan), err
	}
	chlorine, err := Dose(tap, volume)
	return 2 * chlorine, 7 * chlorine, err
}

// weightChloramine is the molar mass of NH2Cl, g/mol.
const weightChloramine = quantity.WeightN + 2*quantity.WeightH + quantity.WeightCl

// AmmoniaOfChloramine is the ammonia that chloramine leaves when it is broken,
// from 0 to 20 mg/L of NH2Cl counted as itself.
// Source: atomic weights, one ammonia from each chloramine.
func AmmoniaOfChloramine(chloramine quantity.MgPerL) (quantity.AmmoniaN, error) {
	if err := quantity.Within("chloramine", float64(chloramine), 0, 20, "mg/L", ofPackage); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(chloramine * quantity.WeightN / weightChloramine), nil
}

// AmmoniaOfTotalChlorine is the same from a total chlorine test, 0 to 20 mg/L as
// Cl2, when all of it is chloramine.
// Source: atomic weights; one chloramine reads as one Cl2.
func AmmoniaOfTotalChlorine(total quantity.MgPerL) (quantity.AmmoniaN, error) {
	if err := quantity.Within("total chlorine", float64(total), 0, 20, "mg/L as Cl2", ofPackage); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(total * quantity.WeightN / quantity.WeightCl2), nil
}

package remedy

import "freshet.example/husbandry/quantity"

// copperShare is the share of copper in CuSO4.5H2O: 63.546/249.685 (atomic
// weights, IUPAC).
const copperShare = 63.546 / 249.685

// Alkalinities of the pond rule, mg/L as CaCO3: below 50 it is not used at all
// (tilapia copper treatment text); above 250 texts stop raising the dose (from
// memory).
const (
	softestForCopper = 50
	hardestForCopper = 250
)

// CopperSulfateRule returns the pond rule for CuSO4.5H2O in mg/L: total
// alkalinity over 100, for alkalinity 50 to 250. The channel catfish trial casts
// doubt on it: see CopperRuleMargin. It is for ponds without crops; copper in a
// loop harms filter and plants.
func CopperSulfateRule(alkalinity quantity.AlkalinityCaCO3) (quantity.MgPerL, error) {
	if err := quantity.Within("alkalinity", float64(alkalinity), softestForCopper, hardestForCopper, "mg/L as CaCO3", "pond rule alkalinity/100"); err != nil {
		return 0, err
	}
	return quantity.MgPerL(alkalinity / 100), nil // pond rule
}

// MinimumAlkalinity returns the alkalinity below which copper sulfate is not used
// at all, mg/L as CaCO3 (tilapia copper treatment text).
func MinimumAlkalinity() quantity.AlkalinityCaCO3 { return softestForCopper }

// CopperIn returns the copper in a concentration of copper sulfate crystals (0 to
// 100,000 mg/L) by the share of copper they hold, 0.2545 for CuSO4.5H2O.
func CopperIn(sulfate quantity.MgPerL, share quantity.Fraction) (quantity.MgPerL, error) {
	err := firstError(
		quantity.Within("copper sulfate", float64(sulfate), 0, mostPerLitre, "mg/L", quantity.OwnBounds),
		quantity.Within("share of copper", float64(share), leastActive, 1, "", quantity.OwnBounds))
	if err != nil {
		return 0, err
	}
	return sulfate * quantity.MgPerL(share), nil
}

// CopperRuleMargin returns how many times an LC50 of copper (mg/L Cu, 0.001 to
// 1000) exceeds what the rule would give at an alkalinity (1 to 1000), also
// where the rule forbids itself: with the catfish trial it is 3.8 at alkalinity
// 76 and 1.2 at 16.
func CopperRuleMargin(alkalinity quantity.AlkalinityCaCO3, lc50 quantity.MgPerL) (float64, error) {
	err := firstError(
		quantity.Within("alkalinity", float64(alkalinity), 1, hardestWater, "mg/L as CaCO3", quantity.OwnBounds),
		quantity.Within("LC50", float64(lc50), leastLC50, mostLC50, "mg/L Cu", quantity.OwnBounds))
	if err != nil {
		return 0, err
	}
	return float64(lc50) / (float64(alkalinity) / 100 * copperShare), nil
}

const (
	leastLC50 = 0.001
	mostLC50  = 1000
)

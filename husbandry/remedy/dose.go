package remedy

import "freshet.example/husbandry/quantity"

// Bounds of doses and loops. They are our own, wide on purpose.
const (
	mostGrams    = 1_000_000
	leastLitres  = 1
	mostLitres   = 1e10 // an acre-foot is 1.2 million litres
	mostPerLitre = 100_000
	leastActive  = 0.0001
)

// A PerLitre is a concentration: milligrams of a solid, or microlitres of a
// liquid, in a litre.
type PerLitre struct {
	Amount float64
	Volume bool // microlitres rather than milligrams
}

// Dilution returns what a dose becomes when a share of it reaches the loop:
// dose x active x share / volume. Dose in grams (or millilitres when volume is
// true), 0 to 1,000,000; active is the share of the product that is the
// substance counted, 0.0001 to 1; reaching 0 to 1; loop 1 to 1e10 L.
func Dilution(dose float64, volume bool, active, reaching quantity.Fraction, loop quantity.Litres) (PerLitre, error) {
	err := firstError(
		quantity.Within("dose", dose, 0, mostGrams, "g or mL", quantity.OwnBounds),
		quantity.Within("active share", float64(active), leastActive, 1, "", quantity.OwnBounds),
		quantity.Within("share that reaches the water", float64(reaching), 0, 1, "", quantity.ByDefinition),
		quantity.Within("water in the loop", float64(loop), leastLitres, mostLitres, "L", quantity.OwnBounds))
	if err != nil {
		return PerLitre{}, err
	}
	return PerLitre{dose * 1000 * float64(active) * float64(reaching) / float64(loop), volume}, nil
}

// Mass returns the grams of a product that give a concentration (0 to 100,000
// mg/L) in a volume (1 to 1e10 L): c V over the active share (0.0001 to 1).
func Mass(c quantity.MgPerL, volume quantity.Litres, active quantity.Fraction) (quantity.Grams, error) {
	err := firstError(
		quantity.Within("concentration", float64(c), 0, mostPerLitre, "mg/L", quantity.OwnBounds),
		quantity.Within("volume", float64(volume), leastLitres, mostLitres, "L", quantity.OwnBounds),
		quantity.Within("active share", float64(active), leastActive, 1, "", quantity.OwnBounds))
	if err != nil {
		return 0, err
	}
	return quantity.Grams(float64(c) * float64(volume) / 1000 / float64(active)), nil
}

// MassByArea returns the pounds for a pond given by its acre-feet (0.001 to
// 10,000) and a rate in pounds to the acre-foot (0 to 10,000).
func MassByArea(water quantity.AcreFeet, rate float64) (quantity.Pounds, error) {
	err := firstError(
		quantity.Within("acre-feet", float64(water), leastAcreFeet, mostAcreFeet, "acre-ft", quantity.OwnBounds),
		quantity.Within("rate", rate, 0, mostRate, "lb/acre-ft", quantity.OwnBounds))
	if err != nil {
		return 0, err
	}
	return quantity.Pounds(float64(water) * rate), nil
}

const (
	leastAcreFeet = 0.001
	mostAcreFeet  = 10_000
	mostRate      = 10_000
)

// firstError returns the first failure of several checks, or nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

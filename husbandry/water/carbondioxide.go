package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Above this pH the simple relation between pH, alkalinity and carbon dioxide
// is out of its depth: carbonate, borate and hydroxide take their shares.
const simpleToPH = 8.4

const carbonRange = quantity.OwnBounds + "; trustworthy to pH 8.4"

func checkCarbon(ph quantity.PH, t quantity.Celsius, a quantity.AlkalinityCaCO3) error {
	return first(
		quantity.Within("pH", float64(ph), 4.5, 10, "", carbonRange),
		checkCelsius(t, 0, 50, plummer),
		checkLoad("alkalinity", float64(a)))
}

// CarbonDioxide is the dissolved carbon dioxide of fresh water, from pH and
// alkalinity; pH 4.5 to 10 (trustworthy to 8.4), 0 to 50 degC. Leaving out
// the shielding by other ions, it reads 4 % high in soft water and 12 to 25 % in
// nutrient water, as the printed tables do; see CarbonDioxideIonic.
// Source: Plummer & Busenberg 1982.
func CarbonDioxide(ph quantity.PH, t quantity.Celsius, a quantity.AlkalinityCaCO3) (quantity.MgPerL, error) {
	if err := checkCarbon(ph, t, a); err != nil {
		return quantity.MgPerL(nan), err
	}
	return pureSystem(t).carbonDioxide(ph, a), nil
}

func (c system) carbonDioxide(ph quantity.PH, a quantity.AlkalinityCaCO3) quantity.MgPerL {
	return quantity.MgPerL(equivalents(a) / c.alkalinityPerCO2(hydrogen(ph)) * 1000 * quantity.WeightCO2)
}

// CarbonDioxideIonic is CarbonDioxide in water of the given ionic strength, 0
// to 0.1 mol/kg. It agrees with PHREEQC within 1 % in bicarbonate water; where
// calcium binds carbonate, above pH 8, it reads up to 9 % high.
// Source: Plummer & Busenberg 1982; extended Debye-Hueckel law, Kielland 1937.
func CarbonDioxideIonic(ph quantity.PH, t quantity.Celsius, a quantity.AlkalinityCaCO3, i IonicStrength) (quantity.MgPerL, error) {
	if err := first(checkCarbon(ph, t, a), checkIonic(i, t)); err != nil {
		return quantity.MgPerL(nan), err
	}
	return ionicSystem(t, i).carbonDioxide(ph, a), nil
}

// CarbonDioxideFactor is the number by which alkalinity as CaCO3 is multiplied
// to give carbon dioxide, as printed in tables for the pond side. Range and
// source are those of CarbonDioxide.
func CarbonDioxideFactor(ph quantity.PH, t quantity.Celsius) (float64, error) {
	c, err := CarbonDioxide(ph, t, 1)
	return float64(c), err
}

// PHOfCarbonDioxide is the pH of fresh water with the given alkalinity, 0.1 to
// 1e5 mg/L, once its carbon dioxide stands at 1e-4 to 1e5 mg/L; 0 to 50 degC.
// Source: Plummer & Busenberg 1982, solved for hydrogen.
func PHOfCarbonDioxide(co2 quantity.MgPerL, t quantity.Celsius, a quantity.AlkalinityCaCO3) (quantity.PH, error) {
	err := first(
		quantity.Within("carbon dioxide", float64(co2), 1e-4, mostLoad, "mg/L", ofPackage),
		quantity.Within("alkalinity", float64(a), 0.1, mostLoad, "mg/L as CaCO3", ofPackage),
		checkCelsius(t, 0, 50, plummer))
	if err != nil {
		return quantity.PH(nan), err
	}
	c := pureSystem(t)
	b := c.k1 * float64(co2) / quantity.WeightCO2 / 1000
	eq := equivalents(a)
	// eq = b x + 2 b k2 x2 with x = 1/h, by the root that does not cancel.
	x := 2 * eq / (b + math.Sqrt(b*b+8*b*c.k2*eq))
	return quantity.PH(math.Log10(x)), nil
}

// CarbonDioxideInAir is the carbon dioxide of fresh water that has come into
// balance with air of 200 to 10,000 parts per million of it, 0.5 to 1.1 atm, 0
// to 50 degC. Outdoor air holds about 425 (2024).
// Source: Plummer & Busenberg 1982.
func CarbonDioxideInAir(partsPerMillion float64, t quantity.Celsius, p quantity.Atmospheres) (quantity.MgPerL, error) {
	err := first(
		quantity.Within("carbon dioxide in air", partsPerMillion, 200, 10000, "ppm", ofPackage),
		quantity.Within("pressure", float64(p), 0.5, 1.1, "atm", ofPackage),
		checkCelsius(t, 0, 50, plummer))
	if err != nil {
		return quantity.MgPerL(nan), err
	}
	moles := power10(fitKH.at(t)) * float64(p) * partsPerMillion * 1e-6
	return quantity.MgPerL(moles * 1000 * quantity.WeightCO2), nil
}

// InorganicCarbon is the whole inorganic carbon (CO2, bicarbonate, carbonate) of
// fresh water, from pH and alkalinity; range and source are those of
// CarbonDioxide. An alkalinity less than what hydroxide alone gives at that pH is
// a RangeError: one of the two was misread.
func InorganicCarbon(ph quantity.PH, t quantity.Celsius, a quantity.AlkalinityCaCO3) (Millimolar, error) {
	if err := checkCarbon(ph, t, a); err != nil {
		return Millimolar(nan), err
	}
	c, h := pureSystem(t), hydrogen(ph)
	alone := quantity.MilliequivalentsPerL(hydroxide(t, h) * 1000).CaCO3()
	if err := quantity.Within("alkalinity", float64(a), float64(alone), mostLoad, "mg/L as CaCO3", "carbonate system: hydroxide alone at this pH"); err != nil {
		return Millimolar(nan), err
	}
	return Millimolar(equivalents(a-alone) / c.alkalinityPerCO2(h) * c.carbonPerCO2(h) * 1000), nil
}

// mostClosed keeps alkalinity under one mole a litre.
const mostClosed = 50000

// PHOfInorganicCarbon is the pH of fresh water that holds the given carbon, 0
// to 10,000 mmol/L, and alkalinity, 0 to 50,000 mg/L as CaCO3, and can lose none
// of it; 0 to 50 degC. Source: Plummer & Busenberg 1982, solved
// by Newton's steps in a bracket.
func PHOfInorganicCarbon(carbon Millimolar, t quantity.Celsius, a quantity.AlkalinityCaCO3) (quantity.PH, error) {
	err := first(
		quantity.Within("inorganic carbon", float64(carbon), 0, 10000, "mmol/L", ofPackage),
		quantity.Within("alkalinity", float64(a), 0, mostClosed, "mg/L as CaCO3", ofPackage),
		checkCelsius(t, 0, 50, plummer))
	if err != nil {
		return quantity.PH(nan), err
	}
	x := powersOf(t)
	b := balance{system: systemOf(x), kw: power10(fitKw.of(x)), carbon: float64(carbon) / 1000, eq: equivalents(a)}
	return quantity.PH(-math.Log10(b.hydrogen())), nil
}

// A balance is closed fresh water: its carbon, mol/L, its alkalinity, mol/L of
// charge, and the product of water's ions.
type balance struct {
	system
	kw, carbon, eq float64
}

// charges are those of carbonates and hydroxide, with their slope in hydrogen.
func (b balance) charges(h float64) (value, slope float64) {
	whole := h*h + b.k1*(h+b.k2)
	carbonates := b.carbon * b.k1 * (h + 2*b.k2) / whole
	return carbonates + b.kw/h, (b.carbon*b.k1-carbonates*(2*h+b.k1))/whole - b.kw/h/h
}

// start balances the carbonates alone, without the ions of water.
func (b balance) start() float64 {
	middle := b.k1 * (b.carbon - b.eq)
	return (middle + math.Sqrt(middle*middle+4*b.eq*b.k1*b.k2*(2*b.carbon-b.eq))) / (2 * b.eq)
}

// hydrogen balances the charges by Newton's steps: plain ones near the root, and
// far from it in logarithms, where the curve is nearly straight between its
// bends. One that leaves the bracket is halved.
func (b balance) hydrogen() float64 {
	low, high := b.kw, 1.0 // less than one mole of alkalinity cannot pass either
	h := b.start()
	for {
		if !(h > low && h < high) {
			h = math.Sqrt(low * high)
		}
		negative, slope := b.charges(h)
		positive := h + b.eq
		step := (negative - positive) / (slope - 1)
		if math.Abs(step) <= 1e-8*h { // the next would be its square
			return h - step
		}
		if negative > positive {
			low = h
		} else {
			high = h
		}
		if math.Abs(step) <= h/2 {
			h -= step
		} else {
			h *= math.Exp(math.Log(negative/positive) / (h * (1/positive - slope/negative)))
		}
	}
}

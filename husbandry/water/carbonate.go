package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const plummer = "Plummer & Busenberg 1982, used from 0 to 50 degC"

// A fit holds a, b, c, d, e of log10 K = a + bT + c/T + d log10 T + e/T2, T in
// kelvin: Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040.
type fit struct{ a, b, c, d, e float64 }

var (
	fitK1 = fit{-356.3094, -0.06091964, 21834.37, 126.8339, -1684915}
	fitK2 = fit{-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9}
	fitKH = fit{108.3865, 0.01985076, -6919.53, -40.45154, 669365}
	fitKw = fit{-283.971, -0.05069842, 13323.0, 102.24447, -1119669}
)

// powers are what fits weigh: T and log10 T.
type powers struct{ kelvin, log float64 }

func powersOf(t quantity.Celsius) powers {
	k := float64(t.Kelvin())
	return powers{k, math.Log10(k)}
}

func (f fit) of(x powers) float64 {
	return f.a + f.b*x.kelvin + f.c/x.kelvin + f.d*x.log + f.e/(x.kelvin*x.kelvin)
}

func (f fit) at(t quantity.Celsius) float64 { return f.of(powersOf(t)) }

func (f fit) p(t quantity.Celsius) (float64, error) {
	if err := checkCelsius(t, 0, 50, plummer); err != nil {
		return nan, err
	}
	return -f.at(t), nil
}

// PK1 is the first acidity constant of carbonic acid, 0 to 50 degC, pure water.
// Source: Plummer & Busenberg 1982.
func PK1(t quantity.Celsius) (float64, error) { return fitK1.p(t) }

// PK2 is the second acidity constant of carbonic acid, 0 to 50 degC, pure
// water. Source: Plummer & Busenberg 1982.
func PK2(t quantity.Celsius) (float64, error) { return fitK2.p(t) }

// PKH is Henry's constant of carbon dioxide, mol/kg at one atmosphere of it, 0
// to 50 degC, pure water. Source: Plummer & Busenberg 1982.
func PKH(t quantity.Celsius) (float64, error) { return fitKH.p(t) }

// PKw is the ion product of water, 0 to 50 degC. Source: Plummer & Busenberg
// 1982, quoting the literature.
func PKw(t quantity.Celsius) (float64, error) { return fitKw.p(t) }

// A system holds the two constants of carbonic acid at one temperature, for
// concentrations in mol/L and the activity of hydrogen.
type system struct{ k1, k2 float64 }

func pureSystem(t quantity.Celsius) system { return systemOf(powersOf(t)) }

func systemOf(x powers) system {
	return system{k1: power10(fitK1.of(x)), k2: power10(fitK2.of(x))}
}

// ionicSystem lets other ions shield bicarbonate and carbonate.
func ionicSystem(t quantity.Celsius, i IonicStrength) system {
	hco3, co3 := logActivity(1, sizeHCO3, i, t), logActivity(2, sizeCO3, i, t)
	return system{
		k1: power10(fitK1.at(t) - hco3),
		k2: power10(fitK2.at(t) + hco3 - co3),
	}
}

// hydroxide is the charge of hydroxide less that of hydrogen, mol/L, in pure
// water.
func hydroxide(t quantity.Celsius, h float64) float64 { return power10(fitKw.at(t))/h - h }

// alkalinityPerCO2 is the carbonate alkalinity, in equivalents, beside one mole
// of dissolved CO2.
func (c system) alkalinityPerCO2(h float64) float64 { return c.k1 / h * (1 + 2*c.k2/h) }

// carbonPerCO2 is the whole inorganic carbon beside one mole of dissolved CO2.
func (c system) carbonPerCO2(h float64) float64 { return 1 + c.k1/h*(1+c.k2/h) }

func hydrogen(ph quantity.PH) float64 { return power10(-float64(ph)) }

// equivalents gives alkalinity in mol/L of charge.
func equivalents(a quantity.AlkalinityCaCO3) float64 { return float64(a.Milliequivalents()) / 1000 }

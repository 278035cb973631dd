package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const benson = "Benson & Krause, Standard Methods 4500-O: 0 to 40 degC, 0 to 40 g/kg, 0.5 to 1.1 atm"

// OxygenSaturation is the dissolved oxygen of water in balance with moist air;
// 0 to 40 degC, 0 to 40 g/kg, 0.5 to 1.1 atm. The pressure is that at the site.
// Source: Benson & Krause 1980 and 1984, as in Standard Methods 4500-O and USGS
// memorandum 2011.03.
func OxygenSaturation(t quantity.Celsius, s quantity.Salinity, p quantity.Atmospheres) (quantity.MgPerL, error) {
	err := first(
		checkCelsius(t, 0, 40, benson),
		quantity.Within("salinity", float64(s), 0, 40, "g/kg", benson),
		quantity.Within("pressure", float64(p), 0.5, 1.1, "atm", benson))
	if err != nil {
		return quantity.MgPerL(nan), err
	}
	return quantity.MgPerL(oxygenAtOneAtmosphere(t, s) * oxygenPressureFactor(t, float64(p))), nil
}

func oxygenAtOneAtmosphere(t quantity.Celsius, s quantity.Salinity) float64 {
	x := 1 / float64(t.Kelvin())
	pure := -139.34411 + x*(1.575701e5+x*(-6.642308e7+x*(1.243800e10-x*8.621949e11)))
	salt := 1.7674e-2 + x*(-10.754+x*2140.7)
	return math.Exp(pure - float64(s)*salt)
}

// oxygenPressureFactor takes out the water vapour and the small excess of
// oxygen's compressibility.
func oxygenPressureFactor(t quantity.Celsius, p float64) float64 {
	k, c := float64(t.Kelvin()), float64(t)
	vapour := math.Exp(11.8571 - 3840.70/k - 216961/(k*k))
	theta := 0.000975 - 1.426e-5*c + 6.436e-8*c*c
	return p * (1 - vapour/p) * (1 - theta*p) / ((1 - vapour) * (1 - theta))
}

// PressureAtElevation is the mean air pressure at a height above the sea, -430
// to 5400 m. The day's weather moves it by up to 4 %.
// Source: standard atmosphere (ISO 2533), from memory.
func PressureAtElevation(height quantity.Metres) (quantity.Atmospheres, error) {
	err := quantity.Within("elevation", float64(height), -430, 5400, "m", "inhabited land, standard atmosphere")
	if err != nil {
		return quantity.Atmospheres(nan), err
	}
	return quantity.Atmospheres(math.Pow(1-2.25577e-5*float64(height), 5.25588)), nil
}

// OxygenPercent gives measured oxygen, 0 to 100 mg/L, as percent of saturation.
// Range and source are those of OxygenSaturation.
func OxygenPercent(o quantity.MgPerL, t quantity.Celsius, s quantity.Salinity, p quantity.Atmospheres) (quantity.Percent, error) {
	full, err := OxygenSaturation(t, s, p)
	if err := first(err, quantity.Within("oxygen", float64(o), 0, 100, "mg/L", ofPackage)); err != nil {
		return quantity.Percent(nan), err
	}
	return quantity.Percent(o / full * 100), nil
}

// OxygenOfPercent turns percent of saturation, 0 to 1000 %, into mg/L. Range
// and source are those of OxygenSaturation.
func OxygenOfPercent(percent quantity.Percent, t quantity.Celsius, s quantity.Salinity, p quantity.Atmospheres) (quantity.MgPerL, error) {
	full, err := OxygenSaturation(t, s, p)
	if err := first(err, quantity.Within("oxygen saturation", float64(percent), 0, 1000, "%", ofPackage)); err != nil {
		return quantity.MgPerL(nan), err
	}
	return full * quantity.MgPerL(percent) / 100, nil
}

package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Units of this package.
type (
	// UnionizedN is un-ionized ammonia, NH3, mg/L counted as nitrogen.
	UnionizedN float64
	// Millimolar is an amount dissolved, mmol/L.
	Millimolar float64
	// IonicStrength is half the sum of concentration times squared charge of all
	// ions, mol/kg.
	IonicStrength float64
	// Microsiemens is a conductivity at 25 degC, uS/cm.
	Microsiemens float64
	// ChlorideCl is dissolved chloride, mg/L of the ion.
	ChlorideCl float64
)

var nan = math.NaN()

// power10 is ten to the power of x, by the faster of two ways.
func power10(x float64) float64 { return math.Exp(x * math.Ln10) }

// Bounds that several formulas share. The pH that a reading may have at all is
// that of package quantity; no source states one.
const (
	lowestPH   = 2
	highestPH  = 13
	mostVolume = 1e9  // L
	mostLoad   = 1e5  // mg/L
	mostMass   = 1e12 // g
	ofPackage  = quantity.OwnBounds
)

func checkPH(ph quantity.PH) error {
	return quantity.Within("pH", float64(ph), lowestPH, highestPH, "", ofPackage)
}

func checkCelsius(t quantity.Celsius, low, high float64, source string) error {
	return quantity.Within("water temperature", float64(t), low, high, "degC", source)
}

func checkVolume(v quantity.Litres) error {
	return quantity.Within("volume", float64(v), 0, mostVolume, "L", ofPackage)
}

// checkLoad checks anything dissolved, in mg/L.
func checkLoad(name string, v float64) error {
	return quantity.Within(name, v, 0, mostLoad, "mg/L", ofPackage)
}

// first gives the first error there is.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

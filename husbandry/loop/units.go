package loop

import "freshet.example/husbandry/quantity"

// Units that only this package needs.
type (
	// MetresPerSecond is a speed of water, or a flow over an area.
	MetresPerSecond float64
	// SquareMetresPerSecond is a kinematic viscosity.
	SquareMetresPerSecond float64
	// WattsPerSquareMetreKelvin is a heat transfer coefficient, the U-value.
	WattsPerSquareMetreKelvin float64
	// KilowattHours is an amount of energy.
	KilowattHours float64
	// WattHours is an amount of energy, as batteries are sold.
	WattHours float64
	// CubicFeetPerSecond is a flow.
	CubicFeetPerSecond float64
	// NominalInches is the trade name of a pipe, which is not its diameter.
	NominalInches float64
)

// Exact by definition (SI brochure, NIST SP 811).
const (
	gravity        = 9.80665       // m/s2, standard
	joulesPerBTU   = 1055.05585262 // international table
	joulesPerKWh   = 3.6e6
	litresPerCubic = 1000
	secondsPerMin  = 60
	secondsPerHour = 3600
	minutesPerHour = 60
	hoursPerDay    = 24
)

// cubicMetresPerSecond turns litres a minute into the unit the laws are written in.
func cubicMetresPerSecond(q quantity.LitresPerMinute) float64 {
	return float64(q) / litresPerCubic / secondsPerMin
}

func litresPerMinute(cubicMetresPerSecond float64) quantity.LitresPerMinute {
	return quantity.LitresPerMinute(cubicMetresPerSecond * litresPerCubic * secondsPerMin)
}

// Changes from the units people type, for the aliases of Formulas.

func feetToMetres(v float64) float64        { return float64(quantity.Feet(v).Metres()) }
func metresToFeet(v float64) float64        { return float64(quantity.Metres(v).Feet()) }
func inchesToMetres(v float64) float64      { return float64(quantity.Inches(v).Metres()) }
func millimetresToMetres(v float64) float64 { return v / 1000 }
func gallonsToCubicM(v float64) float64     { return float64(quantity.USGallons(v).Litres().CubicMetres()) }
func litresToCubicM(v float64) float64      { return float64(quantity.Litres(v).CubicMetres()) }
func gpmToLitres(v float64) float64         { return float64(quantity.USGallonsPerMinute(v).LitresPerMinute()) }
func squareFeetToSquareM(v float64) float64 { return float64(quantity.SquareFeet(v).SquareMetres()) }
func cubicMToCubicFeet(v float64) float64 {
	return float64(quantity.CubicMetres(v).Litres().CubicFeet())
}
func minutesToHours(v float64) float64      { return v / minutesPerHour }
func fahrenheitToCelsius(v float64) float64 { return float64(quantity.Fahrenheit(v).Celsius()) }
func fahrenheitRiseToKelvin(v float64) float64 {
	return fahrenheitToCelsius(v) - fahrenheitToCelsius(0)
}
func gallonsToKilograms(v float64) float64       { return gallonsToCubicM(v) * waterDensity }
func kilowattHoursToWattHours(v float64) float64 { return v * 1000 }

// uFromUS changes a U-value from BTU per hour, square foot and degree Fahrenheit.
func uFromUS(v float64) float64 {
	return v * joulesPerBTU / secondsPerHour / squareFeetToSquareM(1) / fahrenheitRiseToKelvin(1)
}

// btuPerHour changes watts to the unit heaters are sold in where feet are used.
func btuPerHour(watts float64) float64 { return watts * secondsPerHour / joulesPerBTU }

// loadingFromUS changes gallons a minute on a square foot to metres a second.
func loadingFromUS(v float64) float64 {
	return cubicMetresPerSecond(quantity.LitresPerMinute(gpmToLitres(v))) / squareFeetToSquareM(1)
}

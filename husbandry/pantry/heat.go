package pantry

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// boilingPoints: AIB 539, altitude table, degF at 0, 1000, 2000, 3000 and 4000 ft.
var boilingPoints = [...]quantity.Fahrenheit{212.0, 210.2, 208.5, 206.7, 204.9}

// highestBoiling is the last altitude of the table we hold, and boilingStep its step.
const (
	highestBoiling = 4000
	boilingStep    = 1000
)

// BoilingPoint returns where water boils, from 0 to 4000 ft, straight between
// the printed altitudes. It says why altitude matters; times come from BoilingWater.
func BoilingPoint(altitude quantity.Feet) (Canning[quantity.Fahrenheit], error) {
	if err := quantity.Within("altitude", float64(altitude), 0, highestBoiling, "ft", guide); err != nil {
		return Canning[quantity.Fahrenheit]{}, err
	}
	below := math.Floor(float64(altitude) / boilingStep)
	above := math.Ceil(float64(altitude) / boilingStep)
	share := float64(altitude)/boilingStep - below
	low, high := boilingPoints[int(below)], boilingPoints[int(above)]
	return canned(low+quantity.Fahrenheit(share)*(high-low), nil)
}

// The last resort before eating low-acid food whose canning is in doubt (AIB 539).
const (
	safetyBoil      quantity.Minutes = 10
	extraBoil       quantity.Minutes = 1 // for each 1000 ft
	highestAltitude                  = 10_000
)

// SafetyBoil returns how long to boil home-canned low-acid food before eating
// it: 10 minutes below 1000 ft and one more for each 1000 ft, counted from sea
// level, which is the longer reading of the guide. It does not save food that
// shows any sign of spoiling: throw that away unopened. From 0 to 10,000 ft.
func SafetyBoil(altitude quantity.Feet) (Canning[quantity.Minutes], error) {
	err := quantity.Within("altitude", float64(altitude), 0, highestAltitude, "ft", guide)
	return canned(safetyBoil+extraBoil*quantity.Minutes(math.Floor(float64(altitude)/boilingStep)), err)
}

// ExtraBoil returns the minutes that each further 1000 ft adds to SafetyBoil.
func ExtraBoil() Canning[quantity.Minutes] { return Canning[quantity.Minutes]{extraBoil} }

// SterilisingTemperature returns the degrees Fahrenheit that low-acid food must
// reach, and the gauge pressures in psi that give them (AIB 539).
func SterilisingTemperature() (degrees, psi Canning[Span]) {
	return Canning[Span]{Span{240, 250}}, Canning[Span]{Span{10, 15}}
}

// JarStorage returns the degrees Fahrenheit at which sealed jars keep, and the
// temperature they must never pass (AIB 539).
func JarStorage() (keep Canning[Span], never Canning[quantity.Fahrenheit]) {
	return Canning[Span]{Span{50, 70}}, Canning[quantity.Fahrenheit]{95}
}

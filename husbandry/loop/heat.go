package loop

import (
	"math"
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Cover is a greenhouse cover with one published U-value, in BTU per hour,
// square foot and degree Fahrenheit as printed.
type Cover struct {
	Name   string
	UUS    float64
	Source string
}

const (
	ep406  = "greenhouse heat calculator page citing ASAE EP406"
	ep406b = "a second greenhouse heating page"
	vendor = "a conductive heat loss page"
)

// covers: sources disagree and stand beside each other.
var covers = [...]Cover{
	{"glass", 1.13, ep406},
	{"glass", 1.22, vendor},
	{"double polyethylene", 0.70, ep406},
	{"double polyethylene", 0.75, ep406b},
	{"double polyethylene", 0.70, vendor},
	{"8 mm polycarbonate", 0.58, ep406},
	{"twin-wall polycarbonate", 0.85, ep406b},
	{"triple polycarbonate", 0.38, ep406},
	{"double glass", 0.40, vendor},
	{"triple glass", 0.15, vendor},
}

// Covers returns every published U-value we hold for a cover, by name.
func Covers(name string) ([]Cover, error) {
	var found []Cover
	for _, c := range covers {
		if strings.EqualFold(c.Name, name) {
			found = append(found, c)
		}
	}
	if found == nil {
		return nil, &UnknownError{"greenhouse cover", name}
	}
	return found, nil
}

// CoverU returns the largest published U-value of a cover, because too small a
// heater is the costlier mistake.
func CoverU(name string) (WattsPerSquareMetreKelvin, error) {
	found, err := Covers(name)
	largest := 0.0
	for _, c := range found {
		largest = max(largest, c.UUS)
	}
	return WattsPerSquareMetreKelvin(uFromUS(largest)), err
}

// CoverLoss returns the heat that leaves through a cover: U A dT. Outside warmer
// than inside gives a gain, below zero.
func CoverLoss(u WattsPerSquareMetreKelvin, area quantity.SquareMetres, inside, outside quantity.Celsius) (quantity.Watts, error) {
	err := firstError(uBound.check(float64(u)), areaBound.check(float64(area)), airBound.check(float64(inside)), airBound.check(float64(outside)))
	if err != nil {
		return 0, err
	}
	return quantity.Watts(float64(u) * float64(area) * float64(inside-outside)), nil
}

// AirChangeLoss returns the heat that leaves with air: 0.33 n V dT watts, with n
// changes an hour and V in m3; 0.33 Wh/(m3 K) is what air holds.
func AirChangeLoss(changesPerHour float64, volume quantity.CubicMetres, inside, outside quantity.Celsius) (quantity.Watts, error) {
	err := firstError(changesBound.check(changesPerHour), volumeBound.check(float64(volume)), airBound.check(float64(inside)), airBound.check(float64(outside)))
	if err != nil {
		return 0, err
	}
	return quantity.Watts(0.33 * changesPerHour * float64(volume) * float64(inside-outside)), nil
}

// waterHeat is the specific heat of water near 20 degC, J/(kg K).
const waterHeat = 4186

// WarmingEnergy returns the heat to warm a mass of water by some kelvins. One
// cubic metre by 10 K takes 11.63 kWh.
func WarmingEnergy(water quantity.Kilograms, rise float64) (KilowattHours, error) {
	if err := firstError(litresBound.check(float64(water)), riseBound.check(rise)); err != nil {
		return 0, err
	}
	return KilowattHours(float64(water) * waterHeat * rise / joulesPerKWh), nil
}

// WarmingTime returns how long a heater takes, without losses. With losses it
// takes longer, or never gets there.
func WarmingTime(water quantity.Kilograms, rise float64, heater quantity.Watts) (quantity.Hours, error) {
	energy, err := WarmingEnergy(water, rise)
	if err == nil {
		err = loadBound.check(float64(heater))
	}
	if err != nil {
		return 0, err
	}
	return quantity.Hours(float64(energy) * joulesPerKWh / secondsPerHour / float64(heater)), nil
}

// TankLoss returns the heat that leaves a tank through its walls and surface:
// U A dT with one U-value for all of it. It leaves out evaporation, which from
// open warm water is often the larger part.
func TankLoss(u WattsPerSquareMetreKelvin, area quantity.SquareMetres, water, air quantity.Celsius) (quantity.Watts, error) {
	err := firstError(uBound.check(float64(u)), areaBound.check(float64(area)), waterBound.check(float64(water)), airBound.check(float64(air)))
	if err != nil {
		return 0, err
	}
	return quantity.Watts(float64(u) * float64(area) * float64(water-air)), nil
}

// CoolingTime returns the hours until unheated water reaches a limit, when the
// heater fails: Newton's cooling, m c / (U A) ln((T0-Ta)/(Tlimit-Ta)). The limit
// must lie between the water and the air, else it is never reached.
func CoolingTime(water quantity.Kilograms, u WattsPerSquareMetreKelvin, area quantity.SquareMetres, start, limit, air quantity.Celsius) (quantity.Hours, error) {
	err := firstError(litresBound.check(float64(water)), uBound.check(float64(u)), areaBound.check(float64(area)),
		waterBound.check(float64(start)), airBound.check(float64(air)), checkLimit(start, limit, air))
	if err != nil {
		return 0, err
	}
	constant := float64(water) * waterHeat / (float64(u) * float64(area)) / secondsPerHour
	return quantity.Hours(constant * math.Log(float64((start-air)/(limit-air)))), nil
}

// checkLimit refuses a limit that the water does not pass on its way to the air.
func checkLimit(start, limit, air quantity.Celsius) error {
	low, high := min(start, air), max(start, air)
	if limit == air {
		return &quantity.RangeError{Name: "limit", Value: float64(limit), Low: float64(low), High: float64(high), Unit: "degC", Source: "water only nears the temperature of the air"}
	}
	return quantity.Within("limit", float64(limit), float64(low), float64(high), "degC", "water only nears the temperature of the air")
}

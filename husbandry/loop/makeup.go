package loop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Evaporation returns the litres a day that leave an open water surface:
// A (pw - pa)(0.089 + 0.0782 v) / Y kilograms a second, pressures in kPa and Y
// the latent heat in kJ/kg (ASHRAE Applications handbook, pools; from memory).
// Air speed v is over the water. Air wetter than the water gives zero. A cover,
// rafts and leaves all make it less.
func Evaporation(area quantity.SquareMetres, water, air quantity.Celsius, humidity quantity.Percent, speed MetresPerSecond) (float64, error) {
	err := firstError(areaBound.check(float64(area)), waterBound.check(float64(water)), airBound.check(float64(air)),
		humidityBound.check(float64(humidity)), windBound.check(float64(speed)))
	if err != nil {
		return 0, err
	}
	deficit := max(0, vapourPressure(float64(water))-vapourPressure(float64(air))*float64(humidity)/100)
	latent := 2501 - 2.361*float64(water)                                           // kJ/kg, FAO-56 eq. 3-1
	perSecond := float64(area) * deficit * (0.089 + 0.0782*float64(speed)) / latent // ASHRAE
	return perSecond * secondsPerHour * hoursPerDay, nil
}

// vapourPressure returns the pressure of saturated vapour in kPa: FAO-56 eq. 11.
func vapourPressure(celsius float64) float64 {
	return 0.6108 * math.Exp(17.27*celsius/(celsius+237.3))
}

// MakeUp returns the water to add a day when a loop takes a percentage of its
// volume. The UVI system took 1.5 % of 110 m3; FAO 589 prints 1 to 3 %.
func MakeUp(total quantity.CubicMetres, percent quantity.Percent) (quantity.CubicMetres, error) {
	if err := firstError(volumeBound.check(float64(total)), percentBound.check(float64(percent))); err != nil {
		return 0, err
	}
	return quantity.CubicMetres(float64(total) * float64(percent) / 100), nil
}

// MakeUpRange returns the range FAO 589 prints for what a loop takes a day, in
// percent of its volume (p. 29, second hand).
func MakeUpRange() (low, high quantity.Percent) { return 1, 3 }

// UVIMakeUp is what the system of the University of the Virgin Islands took a
// day, in percent of its 110 m3 (its publications, as copied).
const UVIMakeUp quantity.Percent = 1.5

// A Balance is a day's water, in litres.
type Balance struct {
	Evaporation quantity.Litres
	Plants      quantity.Litres // what the crop transpires
	Solids      quantity.Litres // water that leaves with sludge
	Exchange    quantity.Litres // water changed or spilled
	Rain        quantity.Litres
}

// MakeUpBalance returns the litres to add so that the day's water balances. Below
// zero the loop gains water and must be able to overflow.
func MakeUpBalance(b Balance) (quantity.Litres, error) {
	for _, v := range [...]quantity.Litres{b.Evaporation, b.Plants, b.Solids, b.Exchange, b.Rain} {
		if err := balanceBound.check(float64(v)); err != nil {
			return 0, err
		}
	}
	return b.Evaporation + b.Plants + b.Solids + b.Exchange - b.Rain, nil
}

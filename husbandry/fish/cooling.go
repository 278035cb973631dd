package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const (
	heatOfWater    = 4186.0 // J for each litre and kelvin, near 20 degC
	secondsPerHour = 3600
)

// TimeConstant returns the hours in which a tank of 1 to 1e8 L comes 63 % of
// the way to the temperature of the air, when it loses 0.01 to 1e6 W for each
// kelvin of difference.
func TimeConstant(volume quantity.Litres, loss WattsPerKelvin) (quantity.Hours, error) {
	if err := firstError(volumeBound.check(float64(volume)), lossBound.check(float64(loss))); err != nil {
		return 0, err
	}
	return quantity.Hours(float64(volume) * heatOfWater / (float64(loss) * secondsPerHour)), nil
}

// TimeConstantFromReadings returns the time constant of a tank that went from
// one water temperature to another in 0.01 to 10,000 h, with steady air
// between. The second must lie between the first and the air; readings that do
// not are refused.
func TimeConstantFromReadings(first, second, air quantity.Celsius, elapsed quantity.Hours) (quantity.Hours, error) {
	if err := firstError(waterBound.check(float64(first)), waterBound.check(float64(second)), airBound.check(float64(air)), hoursBound.check(float64(elapsed))); err != nil {
		return 0, err
	}
	left := float64(second-air) / float64(first-air)
	if err := leftBound.check(left); err != nil {
		return 0, err
	}
	return quantity.Hours(-float64(elapsed) / math.Log(left)), nil
}

// HoursToTemperature returns the hours until water at a temperature of 0 to 45
// degC comes to the limit in steady air of -60 to 60 degC: Newton's law of
// cooling. It is not reached when the air is not beyond the limit, or when the
// water moves away from it.
func HoursToTemperature(now, air, limit quantity.Celsius, constant quantity.Hours) (hours quantity.Hours, reached bool, err error) {
	if err := firstError(waterBound.check(float64(now)), airBound.check(float64(air)), waterBound.check(float64(limit)), constantBound.check(float64(constant))); err != nil {
		return 0, false, err
	}
	gap, beyond := float64(now-limit), float64(limit-air)
	if gap == 0 {
		return 0, true, nil
	}
	if gap*beyond <= 0 {
		return 0, false, nil
	}
	return quantity.Hours(float64(constant) * math.Log1p(gap/beyond)), true, nil // t = tau ln((T0 - Ta)/(TL - Ta))
}

// HoursToLethal returns the hours until a tank that is no longer heated or
// cooled comes to a temperature that kills the species, and which. Fish are
// harmed and stop eating well before.
func HoursToLethal(s Species, now, air quantity.Celsius, constant quantity.Hours) (hours quantity.Hours, reached bool, limit quantity.Celsius, err error) {
	low, high := s.LethalLow.Value, s.LethalHigh.Value
	limit = low
	if now >= high || now > low && air > now {
		limit = high
	}
	hours, reached, err = HoursToTemperature(now, air, limit, constant)
	if err == nil && (now <= low || now >= high) {
		return 0, true, limit, nil
	}
	return hours, reached, limit, err
}

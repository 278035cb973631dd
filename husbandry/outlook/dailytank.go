package outlook

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A DailyTank is a mixed tank in air that follows a daily sine, with a heater
// that is always on: density heat volume dT/dt = loss (air - T) + heater.
type DailyTank struct {
	Volume   quantity.CubicMetres
	Density  float64 // kg/m3
	Heat     float64 // specific heat, J/kg/K
	Loss     float64 // W/K
	Heater   quantity.Watts
	AirMean  quantity.Celsius
	AirSwing float64        // K from the mean of the air to its top
	Rising   quantity.Hours // when the air passes its mean, rising
	Start    quantity.Celsius
}

const (
	secondsPerHour = 3600.0
	hoursPerDay    = 24.0
)

func (d DailyTank) check() error {
	return firstError(volumeBound.check(float64(d.Volume)), densityBound.check(d.Density), heatBound.check(d.Heat), lossBound.check(d.Loss),
		heaterBound.check(float64(d.Heater)), airBound.check(float64(d.AirMean)), swingBound.check(d.AirSwing), phaseBound.check(float64(d.Rising)), waterBound.check(float64(d.Start)))
}

// A Swing is how a tank answers a daily wave of the air.
type Swing struct {
	TimeConstant quantity.Hours    // in which a difference to the air falls to 37 %
	Gain         quantity.Fraction // swing of the water for each kelvin of the air
	Lag          quantity.Hours    // how long after the air the water is warmest
	Mean         quantity.Celsius  // of the water, once settled
	Amplitude    float64           // K from the water's mean to its top
}

// Swing returns how the tank answers. Volume 0.0001 to 100,000 m3, density 900
// to 1100 kg/m3, heat 3500 to 4500 J/kg/K, loss 0.001 to 1e7 W/K, heater 0 to
// 1e7 W, air -60 to 60 degC swinging by 0 to 40 K.
func (d DailyTank) Swing() (Swing, error) {
	if err := d.check(); err != nil {
		return Swing{}, err
	}
	constant := d.Density * d.Heat * float64(d.Volume) / d.Loss / secondsPerHour
	rate, turn := 1/constant, 2*math.Pi/hoursPerDay
	gain := rate / math.Hypot(rate, turn)
	return Swing{
		TimeConstant: quantity.Hours(constant), Gain: quantity.Fraction(gain), Lag: quantity.Hours(math.Atan2(turn, rate) / turn),
		Mean: d.AirMean + quantity.Celsius(float64(d.Heater)/d.Loss), Amplitude: gain * d.AirSwing,
	}, nil
}

// After returns the water temperature so many hours, 0 to 100,000, after its
// start. Ranges are those of Swing; start -60 to 100 degC.
func (d DailyTank) After(hours quantity.Hours) (quantity.Celsius, error) {
	s, err := d.Swing()
	if err := firstError(err, hoursBound.check(float64(hours))); err != nil {
		return 0, err
	}
	wave := func(at float64) float64 {
		return s.Amplitude * math.Sin(2*math.Pi*(at-float64(d.Rising)-float64(s.Lag))/hoursPerDay)
	}
	off := float64(d.Start-s.Mean) - wave(0)
	return s.Mean + quantity.Celsius(wave(float64(hours))+off*math.Exp(-float64(hours/s.TimeConstant))), nil
}

// PowerFor returns the heater that holds the tank at a mean temperature, -60 to
// 100 degC; 0 where the air alone keeps it warmer.
func (d DailyTank) PowerFor(mean quantity.Celsius) (quantity.Watts, error) {
	if err := firstError(d.check(), waterBound.check(float64(mean))); err != nil {
		return 0, err
	}
	return quantity.Watts(max(0, d.Loss*float64(mean-d.AirMean))), nil
}

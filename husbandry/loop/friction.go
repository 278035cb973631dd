package loop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// HazenWilliams returns the head lost to friction in a full pipe, in metres:
// 10.67 L Q^1.852 / (C^1.852 D^4.871), Q in m3/s. It is meant for turbulent
// water near 15 degC in pipes wider than 50 mm at 1 to 3 m/s; C is 140 to 150
// for plastic. Texts that round the last exponent to 4.87 lose 0.4 % at 25 mm;
// with 4.871 EPANET 2.2 agrees within 0.1 %.
func HazenWilliams(length, diameter quantity.Metres, flow quantity.LitresPerMinute, c float64) (quantity.Metres, error) {
	err := firstError(lengthBound.check(float64(length)), diameterBound.check(float64(diameter)),
		flowBound.check(float64(flow)), roughnessBound.check(c))
	if err != nil {
		return 0, err
	}
	q := cubicMetresPerSecond(flow)
	return quantity.Metres(10.67 * float64(length) * powers(q/c, 1.852, float64(diameter), -4.871)), nil // Hazen-Williams, SI
}

// HazenWilliamsUS returns the head lost to friction in feet, from feet and cubic
// feet a second: 4.727 L Q^1.852 / (C^1.852 D^4.871), the form EPANET uses.
func HazenWilliamsUS(length, diameter quantity.Feet, flow CubicFeetPerSecond, c float64) (quantity.Feet, error) {
	cubicM := float64(quantity.CubicFeet(flow).Litres().CubicMetres())
	err := firstError(lengthBound.check(feetToMetres(float64(length))), diameterBound.check(feetToMetres(float64(diameter))),
		flowBound.check(float64(litresPerMinute(cubicM))), roughnessBound.check(c))
	if err != nil {
		return 0, err
	}
	return quantity.Feet(4.727 * float64(length) * powers(float64(flow)/c, 1.852, float64(diameter), -4.871)), nil // Hazen-Williams, US
}

// DarcyWeisbach returns the head lost to friction in metres: f (L/D) v^2/2g.
func DarcyWeisbach(f float64, length, diameter quantity.Metres, speed MetresPerSecond) (quantity.Metres, error) {
	err := firstError(factorBound.check(f), lengthBound.check(float64(length)),
		diameterBound.check(float64(diameter)), speedBound.check(float64(speed)))
	if err != nil {
		return 0, err
	}
	return quantity.Metres(f * float64(length) / float64(diameter) * velocityHead(float64(speed))), nil // Darcy-Weisbach
}

// PipeSpeed returns how fast water runs in a full pipe: flow over cross-section.
func PipeSpeed(flow quantity.LitresPerMinute, diameter quantity.Metres) (MetresPerSecond, error) {
	if err := firstError(flowBound.check(float64(flow)), diameterBound.check(float64(diameter))); err != nil {
		return 0, err
	}
	return MetresPerSecond(cubicMetresPerSecond(flow) / circle(float64(diameter))), nil
}

// Reynolds returns the Reynolds number v D / nu of a full pipe. The kinematic
// viscosity of water is about 1.0e-6 m2/s at 20 degC.
func Reynolds(speed MetresPerSecond, diameter quantity.Metres, nu SquareMetresPerSecond) (float64, error) {
	err := firstError(speedBound.check(float64(speed)), diameterBound.check(float64(diameter)), viscosityBound.check(float64(nu)))
	if err != nil {
		return 0, err
	}
	return float64(speed) * float64(diameter) / float64(nu), nil
}

// LaminarFactor returns the friction factor of laminar flow: 64/Re up to Re 2000.
func LaminarFactor(reynolds float64) (float64, error) {
	if err := laminarBound.check(reynolds); err != nil {
		return 0, err
	}
	return 64 / reynolds, nil // Hagen-Poiseuille
}

// SwameeJain returns the friction factor of turbulent flow from the Reynolds
// number (5,000 to 1e8) and the roughness over the diameter (1e-6 to 1e-2):
// 0.25 / log10(e/3.7D + 5.74/Re^0.9)^2, Swamee & Jain 1976.
func SwameeJain(reynolds, relative float64) (float64, error) {
	if err := firstError(turbulentBound.check(reynolds), relativeBound.check(relative)); err != nil {
		return 0, err
	}
	log := math.Log10(relative/3.7 + 5.74/math.Pow(reynolds, 0.9))
	return 0.25 / (log * log), nil // Swamee & Jain 1976
}

// FrictionFactor returns the friction factor of a pipe: LaminarFactor up to
// Re 2000, SwameeJain from Re 5000. Between the two neither holds, and the
// answer is a RangeError.
func FrictionFactor(reynolds, relative float64) (float64, error) {
	if reynolds <= laminarBound.high {
		return LaminarFactor(reynolds)
	}
	return SwameeJain(reynolds, relative)
}

// powers returns x^a y^b for positive x and y, by logarithms, which is faster than
// two calls of math.Pow.
func powers(x, a, y, b float64) float64 { return math.Exp(a*math.Log(x) + b*math.Log(y)) }

// velocityHead returns v^2/2g.
func velocityHead(speed float64) float64 { return speed * speed / (2 * gravity) }

package quantity

import "math"

// SpecificGravity is the density of salt water over the density of fresh water
// at the same temperature.
type SpecificGravity float64

// hydrometerCelsius is the temperature at which a specific gravity typed
// without one is read: 25 degC over 25 degC, the usual aquarium hydrometer
// (common practice, no source).
const hydrometerCelsius = 25

// highestGravity is what a hydrometer may show.
const highestGravity = 1.031

// mostSalt is where the equation of sea water ends, g/kg.
const mostSalt = 42

const eos80 = "UNESCO EOS-80, Millero & Poisson 1981"

// SeaWaterDensity is the density of sea water at one atmosphere, kg/m3, for
// -2 to 40 degC and salinity 0 to 42 g/kg.
// Source: UNESCO EOS-80 (Millero & Poisson 1981, Deep-Sea Research 28A:625-629);
// UNESCO Technical Papers in Marine Science 44, 1983.
func SeaWaterDensity(t Celsius, s Salinity) (float64, error) {
	if err := Within("water temperature", float64(t), -2, 40, "degC", eos80); err != nil {
		return math.NaN(), err
	}
	if err := Within("salinity", float64(s), 0, mostSalt, "g/kg", eos80); err != nil {
		return math.NaN(), err
	}
	return seaWaterDensity(float64(t), float64(s)), nil
}

func seaWaterDensity(t, s float64) float64 {
	pure := 999.842594 + t*(6.793952e-2+t*(-9.095290e-3+t*(1.001685e-4+t*(-1.120083e-6+t*6.536332e-9))))
	a := 8.24493e-1 + t*(-4.0899e-3+t*(7.6438e-5+t*(-8.2467e-7+t*5.3875e-9)))
	b := -5.72466e-3 + t*(1.0227e-4-t*1.6546e-6)
	return pure + a*s + b*s*math.Sqrt(s) + 4.8314e-4*s*s
}

// SpecificGravity gives the specific gravity of the water at t, 0 to 40 degC,
// over fresh water at the same temperature. Source: SeaWaterDensity.
func (s Salinity) SpecificGravity(t Celsius) (SpecificGravity, error) {
	salt, err := SeaWaterDensity(t, s)
	if err != nil {
		return SpecificGravity(math.NaN()), err
	}
	return SpecificGravity(salt / seaWaterDensity(float64(t), 0)), nil
}

// Salinity gives the salinity of water whose hydrometer, read at t, stands at
// sg, for specific gravities from 1 to 1.031 (less than 42 g/kg at any
// temperature) and -2 to 40 degC. Source: SeaWaterDensity, solved by halving.
func (sg SpecificGravity) Salinity(t Celsius) (Salinity, error) {
	if err := Within("specific gravity", float64(sg), 1, highestGravity, "", eos80); err != nil {
		return Salinity(math.NaN()), err
	}
	if err := Within("water temperature", float64(t), -2, 40, "degC", eos80); err != nil {
		return Salinity(math.NaN()), err
	}
	return sg.solve(float64(t)), nil
}

func (sg SpecificGravity) solve(t float64) Salinity {
	density := float64(sg) * seaWaterDensity(t, 0)
	var low float64
	high := float64(mostSalt)
	for {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			return Salinity(low)
		}
		if seaWaterDensity(t, middle) < density {
			low = middle
		} else {
			high = middle
		}
	}
}

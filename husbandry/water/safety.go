package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// HarmfulUnionized is the NH3, as nitrogen, above which gills take harm.
// Source: IFAS FA-16. Deaths follow towards 2 mg/L.
const HarmfulUnionized UnionizedN = 0.05

// PHAtLimit is the pH at which the NH3 of the given total ammonia passes a
// limit, both above 0 and to 1e5 mg/L as nitrogen, 0 to 50 degC. When no pH
// from 2 to 13 does, it is not a number, without error.
// Source: Emerson et al. 1975, solved for pH.
func PHAtLimit(total quantity.AmmoniaN, t quantity.Celsius, limit UnionizedN) (quantity.PH, error) {
	if err := first(checkLimit(total, limit), checkCelsius(t, 0, 50, emerson)); err != nil {
		return quantity.PH(nan), err
	}
	return quantity.PH(inside(pKa(t)-logRatio(total, limit), lowestPH, highestPH)), nil
}

// TemperatureAtLimit is the temperature at which the NH3 of the given total
// ammonia passes a limit, both above 0 and to 1e5 mg/L as nitrogen. When none
// from 0 to 50 degC does, it is not a number, without error.
// Source: Emerson et al. 1975, solved for temperature.
func TemperatureAtLimit(total quantity.AmmoniaN, ph quantity.PH, limit UnionizedN) (quantity.Celsius, error) {
	if err := first(checkLimit(total, limit), checkPH(ph)); err != nil {
		return quantity.Celsius(nan), err
	}
	kelvin := 2729.92 / (float64(ph) + logRatio(total, limit) - 0.09018)
	return quantity.Celsius(inside(float64(quantity.Kelvin(kelvin).Celsius()), 0, 50)), nil
}

// AmmoniaAtLimit is the total ammonia whose NH3 is at a limit above 0 and to 1e5
// mg/L as nitrogen. Range and source are those of UnionizedFraction.
func AmmoniaAtLimit(ph quantity.PH, t quantity.Celsius, limit UnionizedN) (quantity.AmmoniaN, error) {
	f, err := UnionizedFraction(ph, t)
	if err := first(err, quantity.Within("limit of NH3", float64(limit), leastLimit, mostLoad, "mg/L as N", ofPackage)); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(float64(limit) / float64(f)), nil
}

const leastLimit = 1e-6

func checkLimit(total quantity.AmmoniaN, limit UnionizedN) error {
	return first(
		quantity.Within("total ammonia", float64(total), leastLimit, mostLoad, "mg/L as N", ofPackage),
		quantity.Within("limit of NH3", float64(limit), leastLimit, mostLoad, "mg/L as N", ofPackage))
}

// logRatio is pKa - pH where the limit is just met; not a number when all the
// ammonia there is stays below it.
func logRatio(total quantity.AmmoniaN, limit UnionizedN) float64 {
	return math.Log10(float64(total)/float64(limit) - 1)
}

func inside(v, low, high float64) float64 {
	if v >= low && v <= high {
		return v
	}
	return nan
}

// A Judgement says how the ammonia of a water stands against a limit, and what
// alone would carry it across: make safe water unsafe, or unsafe water safe.
// What cannot do so within its range is not a number.
type Judgement struct {
	Unionized   UnionizedN
	Limit       UnionizedN
	Safe        bool // at or below the limit
	PH          quantity.PH
	Temperature quantity.Celsius
	Ammonia     quantity.AmmoniaN
}

// JudgeAmmonia judges a water against a limit; ranges and source are those of
// UnionizedAmmonia and PHAtLimit. Water without ammonia is safe whatever else
// changes.
func JudgeAmmonia(total quantity.AmmoniaN, ph quantity.PH, t quantity.Celsius, limit UnionizedN) (Judgement, error) {
	nh3, err := UnionizedAmmonia(total, ph, t)
	ammonia, errAmmonia := AmmoniaAtLimit(ph, t, limit)
	if err := first(err, errAmmonia); err != nil {
		return Judgement{}, err
	}
	j := Judgement{nh3, limit, nh3 <= limit, quantity.PH(nan), quantity.Celsius(nan), ammonia}
	if total < leastLimit {
		return j, nil
	}
	var errPH, errTemperature error
	j.PH, errPH = PHAtLimit(total, t, limit)
	j.Temperature, errTemperature = TemperatureAtLimit(total, ph, limit)
	return j, first(errPH, errTemperature)
}

// Text says the judgement in a sentence with few digits.
func (j Judgement) Text() string {
	state, side, other := "safe", " above ", "unsafe"
	if !j.Safe {
		state, side, other = "unsafe", " below ", "safe"
	}
	s := state + ": NH3 " + quantity.Show(float64(j.Unionized), 2) + " of " + quantity.Show(float64(j.Limit), 2) + " mg/L as N"
	s += "; total ammonia" + side + quantity.Show(float64(j.Ammonia), 2) + " mg/L as N"
	if !math.IsNaN(float64(j.PH)) {
		s += ", or pH" + side + quantity.Show(float64(j.PH), 2)
	}
	if !math.IsNaN(float64(j.Temperature)) {
		s += ", or temperature" + side + quantity.Show(float64(j.Temperature), 2) + " degC"
	}
	return s + " alone would make it " + other
}

package water

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const (
	epa2013 = "EPA-822-R-13-001 (2013): pH 6.5 to 9, 0 to 30 degC"
	epa1999 = "EPA-822-R-99-014 (1999): pH 6.5 to 9, 0 to 30 degC"
)

func checkCriteria(ph quantity.PH, t quantity.Celsius, source string) error {
	return first(checkCriteriaPH(ph, source), checkCelsius(t, 0, 30, source))
}

func checkCriteriaPH(ph quantity.PH, source string) error {
	return quantity.Within("pH", float64(ph), 6.5, 9, "", source)
}

// sigmoid is the form of all these criteria: low at high pH, high at low pH.
func sigmoid(ph quantity.PH, middle, low, high float64) float64 {
	x := power10(float64(ph) - middle)
	return low/(1+1/x) + high/(1+x)
}

// EPA2013AcuteSalmonid is the one-hour criterion for wild fresh water with
// trout or salmon, total ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// Source: EPA-822-R-13-001.
func EPA2013AcuteSalmonid(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	if err := checkCriteria(ph, t, epa2013); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	fish := sigmoid(ph, 7.204, 0.275, 39.0)
	return quantity.AmmoniaN(math.Min(fish, acute2013(ph)*warmth2013(t))), nil
}

// EPA2013AcuteNoSalmonid is the one-hour criterion for wild fresh water without
// trout and salmon, total ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// Source: EPA-822-R-13-001 (the cap of 51.93 from memory, confirmed by the
// tabled values at 10 degC).
func EPA2013AcuteNoSalmonid(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	if err := checkCriteria(ph, t, epa2013); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(acute2013(ph) * math.Min(51.93, warmth2013(t))), nil
}

func acute2013(ph quantity.PH) float64 { return 0.7249 * sigmoid(ph, 7.204, 0.0114, 1.6181) }

func warmth2013(t quantity.Celsius) float64 {
	return 23.12 * power10(0.036*(20-float64(t)))
}

// EPA2013Chronic is the thirty-day criterion for wild fresh water, total
// ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// Source: EPA-822-R-13-001. Copies with 10 for 20 in the exponent give half.
func EPA2013Chronic(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	if err := checkCriteria(ph, t, epa2013); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	warmth := 2.126 * power10(0.028*(20-math.Max(float64(t), 7)))
	return quantity.AmmoniaN(0.8876 * sigmoid(ph, 7.688, 0.0278, 1.1994) * warmth), nil
}

// EPA2013FourDay is the highest mean of four days within the thirty: 2.5 times
// the thirty-day criterion as printed, with two figures, 0 to 1e5 mg/L as
// nitrogen. Source: EPA-822-R-13-001.
func EPA2013FourDay(chronic quantity.AmmoniaN) (quantity.AmmoniaN, error) {
	if err := checkLoad("chronic criterion", float64(chronic)); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return 2.5 * chronic, nil
}

// EPA1999AcuteSalmonid is the one-hour criterion of 1999 for wild fresh water
// with trout or salmon, total ammonia as nitrogen; pH 6.5 to 9. It has no
// temperature term. Source: EPA-822-R-99-014, equation as in South Dakota
// 74:51:01 Appendix A.
func EPA1999AcuteSalmonid(ph quantity.PH) (quantity.AmmoniaN, error) {
	if err := checkCriteriaPH(ph, epa1999); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(sigmoid(ph, 7.204, 0.275, 39.0)), nil
}

// EPA1999AcuteNoSalmonid is the one-hour criterion of 1999 for wild fresh water
// without trout and salmon, total ammonia as nitrogen; pH 6.5 to 9. It has no
// temperature term. Source: EPA-822-R-99-014, as in South Dakota 74:51:01.
func EPA1999AcuteNoSalmonid(ph quantity.PH) (quantity.AmmoniaN, error) {
	if err := checkCriteriaPH(ph, epa1999); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(sigmoid(ph, 7.204, 0.411, 58.4)), nil
}

// EPA1999ChronicEarlyLife is the thirty-day criterion of 1999 where fish eggs
// and larvae are present, total ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// Source: EPA-822-R-99-014, as in South Dakota 74:51:01.
func EPA1999ChronicEarlyLife(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	if err := checkCriteria(ph, t, epa1999); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(chronic1999(ph) * math.Min(2.85, warmth1999(float64(t)))), nil
}

// EPA1999ChronicNoEarlyLife is the thirty-day criterion of 1999 where no fish
// eggs and larvae are, total ammonia as nitrogen; pH 6.5 to 9, 0 to 30 degC.
// Source: EPA-822-R-99-014, as in South Dakota 74:51:01.
func EPA1999ChronicNoEarlyLife(ph quantity.PH, t quantity.Celsius) (quantity.AmmoniaN, error) {
	if err := checkCriteria(ph, t, epa1999); err != nil {
		return quantity.AmmoniaN(nan), err
	}
	return quantity.AmmoniaN(chronic1999(ph) * warmth1999(math.Max(float64(t), 7))), nil
}

func chronic1999(ph quantity.PH) float64 { return sigmoid(ph, 7.688, 0.0577, 2.487) }

func warmth1999(t float64) float64 { return 1.45 * power10(0.028*(25-t)) }

// RoundFigures rounds to 1 to 15 significant figures, as the printed tables of
// criteria do with two. Nought stays nought.
func RoundFigures(v float64, figures int) (float64, error) {
	err := first(
		quantity.Within("value", v, -math.MaxFloat64, math.MaxFloat64, "", ofPackage),
		quantity.Within("figures", float64(figures), 1, 15, "", ofPackage))
	if err != nil || v == 0 {
		return v, err
	}
	places := figures - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if places > 0 {
		return math.Round(v*math.Pow10(places)) / math.Pow10(places), nil
	}
	step := math.Pow10(-places)
	return math.Round(v/step) * step, nil
}

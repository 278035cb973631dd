package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Scale is the temperature scale in which degree days are counted.
type Scale interface {
	quantity.Celsius | quantity.Fahrenheit
}

// A Method is a published way to turn a day's highest and lowest temperature
// into degree days. A crop's total holds only for the method with which it was
// found (Andrews, Coop and others, Oregon State University Extension).
type Method int

// The methods.
const (
	SimpleMean   Method = iota // mean of the day less the base; no upper limit
	Modified                   // both temperatures first brought within base and upper ("86/50")
	SingleSine                 // area under a sine wave above the base; no upper limit
	SingleSineTo               // the same, cut off level at the upper limit
	CucumberHeat               // highest temperature only, folded back over the upper limit
)

// String names the method in words.
func (m Method) String() string {
	return [...]string{"simple mean", "modified (substitution)", "single sine",
		"single sine, horizontal cut-off", "cucumber heat units"}[m]
}

// A Rule is a method with its thresholds: all that must agree before two sums
// of degree days may be compared. Methods without an upper limit ignore Upper.
type Rule[T Scale] struct {
	Method Method
	Base   T
	Upper  T
}

// DegreeDays is a sum of degree days that keeps the rule it was counted by.
type DegreeDays[T Scale] struct {
	Total T // degree times day
	Rule  Rule[T]
}

// Temperatures is one day's highest and lowest air temperature.
type Temperatures[T Scale] struct {
	Max, Min T
}

// MixedRulesError says that degree days of two rules were put together.
type MixedRulesError struct {
	One, Other string // the two methods
}

// Error reads as one sentence.
func (e *MixedRulesError) Error() string {
	return "degree days by " + e.One + " and by " + e.Other + " with their thresholds cannot be put together"
}

// Plus adds two sums of the same rule; other rules are a MixedRulesError.
func (d DegreeDays[T]) Plus(more DegreeDays[T]) (DegreeDays[T], error) {
	if d.Rule != more.Rule {
		return DegreeDays[T]{}, &MixedRulesError{d.Rule.Method.String(), more.Rule.Method.String()}
	}
	return DegreeDays[T]{d.Total + more.Total, d.Rule}, nil
}

// Day returns the degree days of one day by the rule. Air temperatures -60 to
// 60 degC, lowest not above highest; upper limit above the base.
func (r Rule[T]) Day(t Temperatures[T]) (DegreeDays[T], error) {
	if err := r.check(t); err != nil {
		return DegreeDays[T]{}, err
	}
	var units float64
	max, min, base, upper := float64(t.Max), float64(t.Min), float64(r.Base), float64(r.Upper)
	switch r.Method {
	case SimpleMean:
		units = simpleMean(max, min, base)
	case Modified:
		units = modified(max, min, base, upper)
	case SingleSine:
		units = singleSine(max, min, base)
	case SingleSineTo:
		// What lies above the upper limit does not count: horizontal cut-off.
		units = singleSine(max, min, base) - singleSine(max, min, upper)
	case CucumberHeat:
		units = cucumberHeat(max, base, upper)
	}
	return DegreeDays[T]{T(units), r}, nil
}

// simpleMean counts the mean of the day above the base (Peet, NCSU, appendix 2).
func simpleMean(max, min, base float64) float64 { return math.Max(0, (max+min)/2-base) }

// modified replaces temperatures outside the limits before averaging (Iowa
// State University Agronomy 541; the "86/50" of maize growers).
func modified(max, min, base, upper float64) float64 {
	return (bounded(max, base, upper)+bounded(min, base, upper))/2 - base
}

// singleSine integrates a sine wave through the day's extremes above the base
// (Baskerville and Emin 1969, Ecology 50:514, from memory).
func singleSine(max, min, base float64) float64 {
	mean, swing := (max+min)/2, (max-min)/2
	switch {
	case max <= base:
		return 0
	case min >= base:
		return mean - base
	}
	rise := math.Asin((base - mean) / swing)
	return ((mean-base)*(math.Pi/2-rise) + swing*math.Cos(rise)) / math.Pi
}

// cucumberHeat counts the highest temperature above the base, folded back by
// as much as it exceeds the ceiling (Perry and Wehner 1996, HortTechnology 6:27).
func cucumberHeat(max, base, ceiling float64) float64 {
	if max > ceiling {
		max = ceiling - (max - ceiling)
	}
	return math.Max(0, max-base)
}

func bounded(v, low, high float64) float64 { return math.Min(math.Max(v, low), high) }

func (r Rule[T]) check(t Temperatures[T]) error {
	low, high, unit := airLimits[T]()
	if err := quantity.Within("highest air temperature", float64(t.Max), low, high, unit, quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("lowest air temperature", float64(t.Min), low, float64(t.Max), unit, quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("base temperature", float64(r.Base), low, high, unit, quantity.OwnBounds); err != nil {
		return err
	}
	if r.Method == SimpleMean || r.Method == SingleSine {
		return nil
	}
	return quantity.Within("upper temperature", float64(r.Upper), float64(r.Base), high, unit, quantity.OwnBounds)
}

// airLimits returns the coldest and hottest air that is believed, about the
// records of weather stations where people live.
func airLimits[T Scale]() (low, high float64, unit string) {
	var t T
	if _, fahrenheit := any(t).(quantity.Fahrenheit); fahrenheit {
		return airBound.low*1.8 + 32, airBound.high*1.8 + 32, "degF"
	}
	return airBound.low, airBound.high, airBound.unit
}

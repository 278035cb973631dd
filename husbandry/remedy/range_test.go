package remedy

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// The bounds again, independent of the code.
func TestBounds(t *testing.T) {
	for _, b := range []struct {
		name      string
		low, high float64
		call      func(v float64) error
	}{
		{"Dilution dose", 0, 1e6, func(v float64) error { return zero(Dilution(v, false, 1, 1, 1000)) }},
		{"Dilution active", 0.0001, 1, func(v float64) error { return zero(Dilution(1, false, quantity.Fraction(v), 1, 1000)) }},
		{"Dilution reaching", 0, 1, func(v float64) error { return zero(Dilution(1, false, 1, quantity.Fraction(v), 1000)) }},
		{"Dilution loop", 1, 1e10, func(v float64) error { return zero(Dilution(1, false, 1, 1, quantity.Litres(v))) }},
		{"Mass concentration", 0, 100000, func(v float64) error { return zero(Mass(quantity.MgPerL(v), 1, 1)) }},
		{"Mass volume", 1, 1e10, func(v float64) error { return zero(Mass(1, quantity.Litres(v), 1)) }},
		{"Mass active", 0.0001, 1, func(v float64) error { return zero(Mass(1, 1, quantity.Fraction(v))) }},
		{"MassByArea water", 0.001, 10000, func(v float64) error { return zero(MassByArea(quantity.AcreFeet(v), 1)) }},
		{"MassByArea rate", 0, 10000, func(v float64) error { return zero(MassByArea(1, v)) }},
		{"Judge concentration", 0, 100000, func(v float64) error { return zero(Judge("salt", PerLitre{v, false}, Water{})) }},
		{"Judge alkalinity", 0, 1000, func(v float64) error {
			return zero(Judge("copper", PerLitre{1, false}, Water{quantity.AlkalinityCaCO3(v)}))
		}},
		{"CopperSulfateRule", 50, 250, func(v float64) error { return zero(CopperSulfateRule(quantity.AlkalinityCaCO3(v))) }},
		{"CopperIn sulfate", 0, 100000, func(v float64) error { return zero(CopperIn(quantity.MgPerL(v), 0.25)) }},
		{"CopperIn share", 0.0001, 1, func(v float64) error { return zero(CopperIn(1, quantity.Fraction(v))) }},
		{"CopperRuleMargin alkalinity", 1, 1000, func(v float64) error { return zero(CopperRuleMargin(quantity.AlkalinityCaCO3(v), 1)) }},
		{"CopperRuleMargin LC50", 0.001, 1000, func(v float64) error { return zero(CopperRuleMargin(100, quantity.MgPerL(v))) }},
		{"Baths water", -2, 45, func(v float64) error {
			found, err := Baths("salt", "transport", quantity.Celsius(v))
			return zero(len(found), err)
		}},
		{"OxygenTaken", 0, 1000, func(v float64) error { return zero(OxygenTaken(quantity.MgPerL(v))) }},
	} {
		t.Run(b.name, func(t *testing.T) { holds(t, b.low, b.high, b.call) })
	}
}

// zero passes an error on, and complains of a value beside it.
func zero[T comparable](value T, err error) error {
	var none T
	if err != nil && value != none {
		return fmt.Errorf("%v beside the error %v", value, err) //nolint:errorlint // it must not pass for the error
	}
	return err
}

// holds asks at both ends and just outside them.
func holds(t *testing.T, low, high float64, call func(float64) error) {
	t.Helper()
	for _, v := range []float64{low, high} {
		if err := call(v); err != nil {
			t.Errorf("%v: %v", v, err)
		}
	}
	for _, v := range []float64{math.Nextafter(low, math.Inf(-1)), math.Nextafter(high, math.Inf(1)), math.NaN(), math.Inf(1), math.Inf(-1)} {
		var outside *quantity.RangeError
		if err := call(v); !errors.As(err, &outside) {
			t.Errorf("%v: got %v, want a RangeError", v, err)
		}
	}
}

package pantry

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
		{"JarsFrom", 0, 100000, func(v float64) error { return zero(JarsFrom("snap beans", quantity.Pounds(v), Quart)) }},
		{"ProduceFor", 0, 100000, func(v float64) error { return zero(ProduceFor("snap beans", v, Quart)) }},
		{"BoilingWater", 0, 10000, func(v float64) error {
			return zero(BoilingWater("raw whole tomatoes", Quart, quantity.Feet(v)))
		}},
		{"DialGauge", 0, 8000, func(v float64) error { return zero(DialGauge("snap beans", Quart, quantity.Feet(v))) }},
		{"WeightedGauge", 0, 10000, func(v float64) error { return zero(WeightedGauge("snap beans", Quart, quantity.Feet(v))) }},
		{"IsLowAcid", 0, 14, func(v float64) error { return zero(IsLowAcid(quantity.PH(v))) }},
		{"BoilingPoint", 0, 4000, func(v float64) error { return zero(BoilingPoint(quantity.Feet(v))) }},
		{"SafetyBoil", 0, 10000, func(v float64) error { return zero(SafetyBoil(quantity.Feet(v))) }},
		{"FreezerLife", -40, 0, func(v float64) error { return zero(FreezerLife(quantity.Fahrenheit(v))) }},
		{"DriedFruitMonths", 60, 80, func(v float64) error { return zero(DriedFruitMonths(quantity.Fahrenheit(v))) }},
		{"DriedWeight", 0, 100000, func(v float64) error { return zero(DriedWeight("carrots", quantity.Pounds(v))) }},
		{"FreshHerb", 0, 1000, func(v float64) error { return zero(FreshHerb(v)) }},
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

// A column of the guide ends at its printed altitude and the next begins above it.
func TestColumnsEndWhereTheGuidePrints(t *testing.T) {
	for _, c := range []struct {
		altitude       quantity.Feet
		minutes        quantity.Minutes
		dial, weighted float64
	}{
		{0, 85, 11, 10}, {1000, 85, 11, 10}, {1000.5, 90, 11, 15}, {2000, 90, 11, 15}, {2000.5, 90, 12, 15}, {3000, 90, 12, 15}, {3000.5, 95, 12, 15},
		{4000, 95, 12, 15}, {4000.5, 95, 13, 15}, {6000, 95, 13, 15}, {6000.5, 100, 14, 15}, {8000, 100, 14, 15},
	} {
		boiled, err := BoilingWater("raw whole tomatoes", Quart, c.altitude)
		dial, err2 := DialGauge("snap beans", Quart, c.altitude)
		weighted, err3 := WeightedGauge("snap beans", Pint, c.altitude)
		if err := errors.Join(err, err2, err3); err != nil {
			t.Fatal(err)
		}
		if boiled.value.Minutes != c.minutes || dial.value.Psi != c.dial || weighted.value.Psi != c.weighted {
			t.Errorf("%v ft: %v %v %v", c.altitude, boiled, dial, weighted)
		}
		if !boiled.value.Acidify || dial.value.Acidify || dial.value.Minutes != 25 || weighted.value.Minutes != 20 || boiled.value.Psi != 0 {
			t.Errorf("%v ft: %v %v %v", c.altitude, boiled, dial, weighted)
		}
	}
}

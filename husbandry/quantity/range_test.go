package quantity

import (
	"errors"
	"math"
	"testing"
)

// refuses checks that a function takes both bounds, and refuses what lies just
// outside them and what is no number, as a RangeError.
func refuses(t *testing.T, name string, low, high float64, try func(float64) error) {
	t.Helper()
	for _, v := range []float64{low, high} {
		if err := try(v); err != nil {
			t.Errorf("%s refuses its bound %v: %v", name, v, err)
		}
	}
	step := 1e-9 * math.Max(1, math.Max(math.Abs(low), math.Abs(high)))
	for _, v := range []float64{low - step, high + step, math.NaN(), math.Inf(1), math.Inf(-1)} {
		var wrong *RangeError
		if err := try(v); !errors.As(err, &wrong) {
			t.Errorf("%s takes %v: %v", name, v, err)
		}
	}
}

func TestRanges(t *testing.T) {
	refuses(t, "density at temperature", -2, 40, func(v float64) error { _, err := SeaWaterDensity(Celsius(v), 0); return err })
	refuses(t, "density at salinity", 0, 42, func(v float64) error { _, err := SeaWaterDensity(0, Salinity(v)); return err })
	refuses(t, "gravity at temperature", -2, 40, func(v float64) error { _, err := Salinity(10).SpecificGravity(Celsius(v)); return err })
	refuses(t, "gravity at salinity", 0, 42, func(v float64) error { _, err := Salinity(v).SpecificGravity(25); return err })
	refuses(t, "salinity at temperature", -2, 40, func(v float64) error { _, err := SpecificGravity(1.01).Salinity(Celsius(v)); return err })
	refuses(t, "salinity of gravity", 1, 1.031, func(v float64) error { _, err := SpecificGravity(v).Salinity(25); return err })
	refuses(t, "lux", 0, 54*3000, func(v float64) error { _, err := Lux(v).PhotonFlux(UnderSun); return err })
	refuses(t, "within", -1, 1, func(v float64) error { return Within("x", v, -1, 1, "", "") })
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var wrong *RangeError
		if err := Within("x", v, math.Inf(-1), math.Inf(1), "", ""); !errors.As(err, &wrong) {
			t.Errorf("%v is within no bounds: %v", v, err)
		}
		if _, err := Convert(v, UnitGallon, UnitLitre); !errors.As(err, &wrong) {
			t.Errorf("Convert takes %v: %v", v, err)
		}
		for _, q := range Quantities() {
			if _, err := Canonical(q, v, q.Unit(), q.Basis()); !errors.As(err, &wrong) {
				t.Errorf("Canonical of %s takes %v: %v", q, v, err)
			}
			if _, err := Express(q, v, q.Unit(), q.Basis()); !errors.As(err, &wrong) {
				t.Errorf("Express of %s takes %v: %v", q, v, err)
			}
		}
		if _, err := ask(t, "unit_no3n_from_no3", "no3_mg_L=NaN"); !errors.As(err, &wrong) {
			t.Errorf("unit_no3n_from_no3 takes NaN: %v", err)
		}
	}
	if v, err := Convert(math.MaxFloat64, UnitMetre, UnitMetre); err != nil || v != math.MaxFloat64 {
		t.Errorf("the largest number is refused: %v", err)
	}
}

func TestRangeErrorReads(t *testing.T) {
	err := &RangeError{Name: "pH", Value: 75, Low: 2, High: 13}
	if got := err.Error(); got != "pH 75 is outside 2 to 13" {
		t.Error(got)
	}
	err = &RangeError{Name: "flow", Value: -1, Low: 0, High: 1234567.89, Unit: "L/h", Source: "pump"}
	if got := err.Error(); got != "flow -1 L/h is outside 0 to 1234568 L/h (pump)" {
		t.Error(got)
	}
}

func TestDigitsOfARange(t *testing.T) {
	if got := plain(1.0000025+1e-9) + " " + plain(1.0000025-1e-9); got != "1.000003 1.000002" {
		t.Error(got)
	}
}

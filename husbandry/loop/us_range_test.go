package loop

import (
	"math"
	"testing"
)

// TestRangesInUSUnitsAreTheMetricOnes: what a formula in US units says it takes
// is what the metric one takes, and what it takes. One BTU/h ft2 degF is 5.678
// W/m2 K, one ft2 0.0929 m2, one degF a rise of 5/9 K, one US gallon 3.785 kg.
func TestRangesInUSUnitsAreTheMetricOnes(t *testing.T) {
	ranges := map[string][2]float64{
		"u_btu": {uBound.low / 5.678263, uBound.high / 5.678263}, "area_ft2": {areaBound.low / 0.09290304, areaBound.high / 0.09290304},
		"infiltration_percent": {0, 100}, "gallons": {litresBound.low / 3.785412, litresBound.high / 3.785412},
	}
	rises := map[string][2]float64{"cover_heat_loss_us": {0, airBound.high * 1.8}, "water_warming_btu": {riseBound.low * 1.8, riseBound.high * 1.8}}
	looked := 0
	for i := range Formulas {
		f := &Formulas[i]
		rise, ours := rises[f.Name]
		if !ours {
			continue
		}
		ranges["rise_f"] = rise
		for _, in := range f.Inputs {
			looked++
			if want := ranges[in.Name]; !(math.Abs(in.Low-want[0]) <= 1e-5*math.Abs(want[0])) || !(math.Abs(in.High-want[1]) <= 1e-5*math.Abs(want[1])) {
				t.Errorf("%s takes %s of %v to %v, want %v", f.Name, in.Name, in.Low, in.High, want)
			}
		}
	}
	if looked != 6 {
		t.Errorf("%d inputs", looked)
	}
	for leak, rise := range map[string]string{"0": "0", "100": "50"} {
		if a, err := asked("cover_heat_loss_us", map[string]string{"u_btu": "1", "area_ft2": "100", "rise_f": rise, "infiltration_percent": leak}); err != nil || !(math.Abs(a-map[string]float64{"0": 0, "50": 10000}[rise]) <= 1) {
			t.Errorf("a rise of %s degF with %s %%: %v %v", rise, leak, a, err)
		}
	}
	for leak, rise := range map[string]string{"100.5": "50", "-1": "50", "0": "-1"} {
		if a, err := asked("cover_heat_loss_us", map[string]string{"u_btu": "1", "area_ft2": "100", "rise_f": rise, "infiltration_percent": leak}); err == nil {
			t.Errorf("a rise of %s degF with %s %%: %v", rise, leak, a)
		}
	}
}

// asked is the number that a formula of this package answers.
func asked(name string, typed map[string]string) (float64, error) {
	for i := range Formulas {
		if Formulas[i].Name == name {
			a, err := Formulas[i].Ask(typed)
			return a.Value, err
		}
	}
	return math.NaN(), nil
}

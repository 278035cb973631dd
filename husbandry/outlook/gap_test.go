package outlook

import (
	"errors"
	"math"
	"testing"
)

const tenYears = 3653.0 // days

// TestTenYearsBetweenWeighings: a fish weighed twice, ten years apart, is forecast
// from the second; how it will be ten years after its last is told far more widely
// than how in ten days.
func TestTenYearsBetweenWeighings(t *testing.T) {
	chicks := grown(t, "chickweight.csv", "chick", "x", "y", "diet", "2", unchanged)[:5]
	kin, err := LearnKin(chicks)
	if err != nil {
		t.Fatal(err)
	}
	list, err := kin.Ahead(Curve{[]float64{4, tenYears}, []float64{60, 250}}, []float64{tenYears + 10, 2 * tenYears})
	if err != nil {
		t.Fatal(err)
	}
	wide := 0.0
	for _, p := range list {
		low, high, err := p.Between(0.9)
		if err != nil || !(low > 0 && low < high) || math.IsInf(high, 1) || math.Log(high/low) <= wide {
			t.Errorf("at %g days %g to %g, before by a factor of %g: %v", p.At, low, high, math.Exp(wide), err)
		}
		wide = math.Log(high / low)
	}
	if near, err := list[0].Quantile(0.5); err != nil || near < 125 || near > 500 {
		t.Errorf("ten days after 250 g it has %g g: %v", near, err)
	}
}

// TestTenYearsOfHours are more than a forecast is learnt from, and refused in words.
func TestTenYearsOfHours(t *testing.T) {
	var wrong *PastError
	if _, err := Learn(barn, make([]Hour, tenYears*24), nil, 1); !errors.As(err, &wrong) {
		t.Errorf("ten years of hours: %v", err)
	}
}

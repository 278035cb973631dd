package crop

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// TestTheSolutionIsItsSalts: Hoagland & Arnon's solution 1 is 5 mmol/L of
// potassium nitrate, 5 of calcium nitrate, 1 of potassium dihydrogen phosphate
// and 2 of magnesium sulfate; printed as the element, rounded.
func TestTheSolutionIsItsSalts(t *testing.T) {
	for nutrient, want := range map[string]float64{
		"nitrogen": (5 + 2*5) * quantity.WeightN, "potassium": (5 + 1) * quantity.WeightK, "calcium": 5 * quantity.WeightCa,
		"phosphorus": quantity.WeightP, "magnesium": 2 * quantity.WeightMg, "sulfur": 2 * quantity.WeightS,
	} {
		n, err := NutrientNeed(nutrient)
		if err != nil || n.Solution.Low != n.Solution.High || !(math.Abs(n.Solution.Low-want) <= 0.7) {
			t.Errorf("%s: %v mg/L, the salts hold %.1f (%v)", nutrient, n.Solution, want, err)
		}
	}
}

// TestTraceElements holds the rest as printed, from memory.
func TestTraceElements(t *testing.T) {
	for nutrient, want := range map[string][2]float64{
		"iron": {1, 5}, "manganese": {0.5, 0.5}, "zinc": {0.05, 0.05}, "copper": {0.02, 0.02}, "boron": {0.5, 0.5}, "molybdenum": {0.01, 0.01},
	} {
		if n, err := NutrientNeed(nutrient); err != nil || n.Solution != (Figure{want[0], want[1], Memory}) {
			t.Errorf("%s: %v (%v)", nutrient, n.Solution, err)
		}
	}
	iron, err := NutrientNeed("Iron")
	if err != nil || iron.Loop != (Figure{1, 2, FAO589}) {
		t.Error(iron, err)
	}
	nitrogen, err := NutrientNeed("nitrogen")
	if err != nil || !(math.Abs(nitrogen.Loop.Low*4.42664-5) <= 1e-3) || !(math.Abs(nitrogen.Loop.High*4.42664-150) <= 1e-2) {
		t.Error(nitrogen, err)
	}
	for _, s := range deficiencies {
		if _, err := NutrientNeed(s.Nutrient); err != nil {
			t.Error(err)
		}
	}
	var unknown *NotListedError
	if _, err := NutrientNeed("moonlight"); !errors.As(err, &unknown) {
		t.Error(err)
	}
	for i := range nutrientFormulas {
		if a, err := nutrientFormulas[i].Ask(map[string]string{"nutrient": "copper"}); (err != nil) != (nutrientFormulas[i].Name == "nutrient_in_loop") || err == nil && len(a.Cautions) != 2 {
			t.Errorf("%s of copper: %v %v", nutrientFormulas[i].Name, a, err)
		}
	}
}

package fit

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// TestDescribedBounds pins what may be asked.
func TestDescribedBounds(t *testing.T) {
	type span struct{ low, high float64 }
	any, positive := span{-1e150, 1e150}, span{1e-150, 1e150}
	want := map[string]span{"x": any, "y": any, "value": any, "time": any, "beyond": any, "confidence": {0.5, 0.9999}, "dose": positive}
	for _, f := range Formulas {
		for _, in := range f.Inputs {
			w, pinned := want[in.Name]
			if got := (span{in.Low, in.High}); got != w && got != positive && (pinned || got != span{}) { // sizes are positive
				t.Errorf("%s of %s from %v to %v, want %v", in.Name, f.Name, got.low, got.high, w)
			}
		}
	}
}

func limitOf(err error) float64 {
	var r *quantity.RangeError
	if !errors.As(err, &r) {
		return math.NaN()
	}
	return r.High
}

// TestLeastAndMost: as few as a curve can do with are taken, and no more than
// this package says.
func TestLeastAndMost(t *testing.T) {
	const individuals = 1e4
	many := make([][]float64, individuals+1)
	for i := range many {
		many[i] = []float64{1, 2}
	}
	if _, err := LogisticAmong(many, many); limitOf(err) != individuals {
		t.Error(err)
	}
	wide := make([][]float64, 1001)
	for i := range wide {
		wide[i] = []float64{1, 2}
	}
	if _, err := LeastSquares(wide, []float64{1, 2}); limitOf(err) != 1000 {
		t.Error(err)
	}
	var r *quantity.RangeError
	if _, err := LogisticAmong([][]float64{{1, 2, 3}, {1, 3}}, [][]float64{{1, 4, 9}, {1.5, 9}}); errors.As(err, &r) && r.Name == "number of points" {
		t.Error(err)
	}
	four, err := Logistic.Fit([]float64{0, 1, 2, 3}, []float64{1, 4, 8, 9})
	if err != nil || four.DF != 1 {
		t.Error(four, err)
	}
}

// TestNoNumber: where a curve is no number the squares are without end, and so
// is the error of what the points do not tell.
func TestNoNumber(t *testing.T) {
	x, y := []float64{1, 2, 3}, []float64{1, 2, 4}
	none := func(float64, []float64) float64 { return math.NaN() }
	if got := squares(none, x, y, []float64{1}); got != math.Inf(1) {
		t.Error(got)
	}
	if f := finished(none, x, y, []float64{1}, math.Inf(1)); f.RSS != math.Inf(1) {
		t.Error(f.RSS)
	}
	heedless := func(x float64, b []float64) float64 { return b[0] * x } // of its second parameter
	if f := finished(heedless, x, y, []float64{1, 1}, 1); f.SE[0] != math.Inf(1) || f.SE[1] != math.Inf(1) {
		t.Error(f.SE)
	}
}

// TestSlopeAtNought: the derivative of exp(bx) by b is x where b is 0.
func TestSlopeAtNought(t *testing.T) {
	rising := func(x float64, b []float64) float64 { return math.Exp(b[0] * x) }
	for i, got := range jacobian(rising, []float64{1, 2, 3}, []float64{0})[0] {
		if !(math.Abs(got-float64(i+1)) <= 1e-8) { // no number is no slope either
			t.Error(i+1, got)
		}
	}
}

// TestReferencesCanBeChosen: the first input lists the reference curves.
func TestReferencesCanBeChosen(t *testing.T) {
	var asked []formula.Input
	for _, f := range Formulas {
		if f.Name == "reference_curve" {
			asked = f.Inputs
		}
	}
	if len(asked) == 0 || len(asked[0].Choices) != len(References) {
		t.Error(asked)
	}
}

// TestWeightsOfIndividuals: an individual with more points counts for more, by
// 1 + ratio squared times the squares of its shape; worked by hand.
func TestWeightsOfIndividuals(t *testing.T) {
	m := among{x: [][]float64{{0}, {0, 0}}, y: [][]float64{{1}, {3, 3}}, n: 3} // at the inflection each shape is 1/2
	if a := m.curves([]float64{0, 1}, 1); !(math.Abs(a.Asym-4.5) <= 1e-12) {
		t.Error(a.Asym)
	}
}

// TestPredictEnds: a line answers up to the ends of its ranges and not beyond.
func TestPredictEnds(t *testing.T) {
	l, err := StraightLine([]float64{0, 1, 2, 3}, []float64{1, 3.1, 4.9, 7})
	if err != nil {
		t.Fatal(err)
	}
	beyond := func(v float64) float64 { return math.Nextafter(v, math.Copysign(math.Inf(1), v)) }
	for _, c := range []struct {
		x, confidence float64
		ok            bool
	}{
		{1e150, 0.9, true}, {-1e150, 0.9, true}, {beyond(1e150), 0.9, false}, {beyond(-1e150), 0.9, false}, {math.NaN(), 0.9, false},
		{1, 0.5, true}, {1, 0.9999, true}, {1, math.Nextafter(0.5, 0), false}, {1, math.Nextafter(0.9999, 1), false}, {1, math.NaN(), false},
	} {
		if _, _, _, err := l.Predict(c.x, quantity.Fraction(c.confidence)); (err == nil) != c.ok {
			t.Errorf("at %g, %g: %v", c.x, c.confidence, err)
		}
	}
}

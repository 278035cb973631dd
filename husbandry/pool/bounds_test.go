package pool

import (
	"errors"
	"math"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

// TestDescribedBounds pins what may be asked.
func TestDescribedBounds(t *testing.T) {
	type span struct{ low, high float64 }
	value := span{-1e150, 1e150}
	want := map[string]span{
		"confidence": {0.5, 0.9999}, "se": {1e-150, 1e150}, "hits": {0, 1e9}, "n": {1, 1e9}, "factor": {0, 1}, "amount": {0, 1e100}, "exposure": {0, 1e100},
		"mean": value, "later": value, "y": value, "x": value, "value": value,
	}
	for _, f := range Formulas {
		for _, in := range f.Inputs {
			w, pinned := want[in.Name]
			if (in.Name == "x" || in.Name == "value") && strings.Contains(f.Name, "slope") { // products of four are taken
				w = span{-1e70, 1e70}
			}
			if got := (span{in.Low, in.High}); got != w && (pinned || got != span{}) {
				t.Errorf("%s of %s from %v to %v, want %v", in.Name, f.Name, got.low, got.high, w)
			}
		}
	}
}

// TestTooMany: what is more than this package takes is refused by the number.
func TestTooMany(t *testing.T) {
	const sites = 1e5
	pairs := make([][]float64, sites+1)
	for i := range pairs {
		pairs[i] = []float64{1, 2}
	}
	ones := make([]float64, 2e6)
	for i := range ones {
		ones[i] = 1
	}
	_, intercept := RandomIntercept(pairs)
	_, slopes := RandomSlopes(pairs, pairs)
	_, meta := Meta(ones[:sites+1], ones[:sites+1], DerSimonianLaird)
	_, means := JamesStein(ones[:1e6+1], 1)
	_, high := JamesStein([]float64{1, 2, 3, 1.5e150}, 1)
	_, low := JamesStein([]float64{1, 2, 3, -1.5e150}, 1)
	_, seasons := Standardise([][]float64{ones[:1001], ones[:1001]}, [][]float64{ones[:1001], ones[:1001]})
	_, yearly := Standardise(pairs, pairs)
	_, tests := Discoveries(ones[:1e6+1], 0.05)
	_, tries := JamesSteinShares([]float64{1, 2, 3, 4}, 1.5e9)
	for _, c := range []struct {
		what string
		err  error
		high float64
	}{
		{"groups", intercept, sites}, {"groups with slopes", slopes, sites}, {"sites", meta, sites}, {"means", means, 1e6},
		{"a mean too high", high, 1e150}, {"a mean too low", low, 1e150}, {"tries", tries, 1e9}, {"seasons", seasons, 1000}, {"tests", tests, 1e6}, {"sites of a year", yearly, sites},
	} {
		var r *quantity.RangeError
		if !errors.As(c.err, &r) || r.High != c.high {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
}

// TestFewest: the least that is taken.
func TestFewest(t *testing.T) {
	if _, err := RandomIntercept([][]float64{{1}, {2, 4}}); err != nil {
		t.Error(err)
	}
	if _, err := RandomSlopes([][]float64{{1}, {1, 2, 3}}, [][]float64{{2}, {2, 5, 6}}); err != nil {
		t.Error(err)
	}
	if s, err := JamesSteinShares([]float64{0, 1, 1, 0}, 1); err != nil || s.Mean != 0.5 {
		t.Error(s, err)
	}
	if at, err := placeAmong([]string{"north", "south"}, "east"); err == nil || at != 0 {
		t.Error(at, err)
	}
	if _, err := formulatest.Ask(t, Formulas, "shrunken_weight", "yi=[3.2 2.9 4.1] se=[0.3 0.2 0.5] site=rowboat"); err == nil || !strings.Contains(err.Error(), "unknown word") {
		t.Error("a row that is no number was found")
	}
}

// TestVarianceOfTwo: for two means of equal variance both ways give half the
// squared difference less that variance, by hand from their definitions.
func TestVarianceOfTwo(t *testing.T) {
	for _, c := range []struct{ difference, variance float64 }{{1.8, 1}, {2.1, 1.5}, {1, 1}} {
		y, v := []float64{0, c.difference}, []float64{c.variance, c.variance}
		want := max(0, c.difference*c.difference/2-c.variance)
		if pm, reml := pauleMandel(y, v), remlTau2(y, v); !(math.Abs(pm-want) <= 1e-12) || !(math.Abs(reml-want) <= 1e-7) {
			t.Errorf("%v: %v and %v, want %v", c, pm, reml, want)
		}
	}
	// The restricted likelihood of two means is that of their difference, whose
	// variance is the sum; here the best span of the walk begins at exactly 1.
	if got := remlTau2([]float64{0, 2.25}, []float64{2.9375, 0.125}); !(math.Abs(got-1) <= 1e-7) {
		t.Error(got)
	}
}

// TestLinesThatAgree: groups that lie about one line differ in nothing.
func TestLinesThatAgree(t *testing.T) {
	x := []float64{0, 1, 2, 3}
	up, down := []float64{0.1, 0.9, 1.9, 3.1}, []float64{-0.1, 1.1, 2.1, 2.9} // of the same line, errors opposed
	s, err := RandomSlopes([][]float64{x, x}, [][]float64{up, down})
	if err != nil || s.VarIntercept > 1e-12 || s.VarSlope > 1e-12 || !(math.Abs(s.Slope-1) <= 1e-12) || !(math.Abs(s.Intercept) <= 1e-12) {
		t.Errorf("%+v %v", s, err)
	}
}

// TestOwnLines: groups with hardly any error within keep their own lines.
func TestOwnLines(t *testing.T) {
	x := []float64{0, 1, 2, 3, 4}
	var xs, ys [][]float64
	starts, steps := []float64{1, 3, 8, 2}, []float64{0.5, 2, 1, -1}
	for i := range starts {
		var y []float64
		for j, at := range x {
			y = append(y, starts[i]+steps[i]*at+1e-6*[]float64{1, -2, 2, -2, 1}[j])
		}
		xs, ys = append(xs, x), append(ys, y)
	}
	s, err := RandomSlopes(xs, ys)
	if err != nil {
		t.Fatal(err)
	}
	for i := range starts {
		if !(math.Abs(s.OwnIntercepts[i]-starts[i]) <= 1e-4) || !(math.Abs(s.Own[i]-steps[i]) <= 1e-4) {
			t.Errorf("%v and %v, want %v and %v", s.OwnIntercepts[i], s.Own[i], starts[i], steps[i])
		}
	}
}

// TestPlacesOfSitesApart: sites that are far apart have one place each.
func TestPlacesOfSitesApart(t *testing.T) {
	s, err := Meta([]float64{30, 20, 10, 0}, []float64{0.1, 0.1, 0.1, 0.1}, REML)
	if err != nil {
		t.Fatal(err)
	}
	places, err := s.Rank(0.95)
	for i, p := range places {
		if err != nil || p.Low != i+1 || p.High != i+1 || !(math.Abs(p.Expected-float64(i+1)) <= 1e-5) {
			t.Errorf("%d: %+v %v", i, p, err)
		}
	}
}

// TestGroupsFarApart: means 30,000 apart about which values lie 1 off have, by
// the analysis of variance, 30000^2/2-1 between and 2 within: more than is told.
func TestGroupsFarApart(t *testing.T) {
	m, err := RandomIntercept([][]float64{{-1, 1}, {29999, 30001}})
	if err != nil || !(math.Abs(m.Between/m.Within-1e8) <= 1) {
		t.Errorf("%g times, %v", m.Between/m.Within, err)
	}
}

// TestSquaresInFourFigures: as Efron & Morris, with one figure more than the table prints.
func TestSquaresInFourFigures(t *testing.T) {
	a, err := formulatest.Ask(t, Formulas, "james_stein_squares", "hits=18,17,16,15,14,14,13,12,11,11,10x5,9,8,7;n=45;"+
		"later=.346,.298,.276,.222,.273,.270,.263,.210,.269,.230,.264,.256,.303,.264,.226,.285,.316,.200")
	if err != nil || a.Text != "0.07532 / 0.02131" {
		t.Error(a.Text, err)
	}
}

package trial

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

// TestDescribedBounds pins what may be asked.
func TestDescribedBounds(t *testing.T) {
	type span struct{ low, high float64 }
	value, positive, million, share := span{-1e150, 1e150}, span{1e-150, 1e150}, span{0, 1e6}, span{0, 1}
	want := map[string]span{
		"confidence": {0.5, 0.9999}, "n": {2, 1e6}, "n1": {2, 1e6}, "n2": {2, 1e6}, "delta": positive, "sd": positive, "power": {0.5, 0.999}, "alpha": {0.0001, 0.5},
		"p": share, "w": positive, "events": million, "events_a": million, "events_b": million, "events1": million, "events2": million,
		"n_a": {1, 1e6}, "n_b": {1, 1e6}, "exposure1": positive, "exposure2": positive, "time": {0, 1e150}, "event": share, "t": {0, 1e150}, "horizon": {0, 1e150},
		"x": value, "y": value, "value": value, "d": value,
	}
	of := map[string]span{ // where a formula's own range is another
		"geometric_ratio x": positive, "geometric_ratio y": positive,
		"smallest_p n": {1, 500}, "smallest_p m": {1, 500}, "equivalence low": {-1e150, 0}, "equivalence high": {0, 1e150}, "equivalence alpha": {0.0001, 0.25}, "wilson n": {1, 1e6}, "clopper_pearson n": {1, 1e6}, "jeffreys n": {1, 1e6}, "mid_p n": {1, 1e6},
	}
	for _, f := range Formulas {
		for _, in := range f.Inputs {
			if in.Default == "none" || len(in.Choices) > 0 {
				continue // a remark, or one of several words
			}
			w, known := want[in.Name]
			for name, other := range of {
				if part, input, _ := strings.Cut(name, " "); input == in.Name && strings.HasPrefix(f.Name, part) {
					w, known = other, true
				}
			}
			if got := (span{in.Low, in.High}); known && got != w {
				t.Errorf("%s of %s from %v to %v, want %v", in.Name, f.Name, got.low, got.high, w)
			}
		}
	}
}

// TestNamesAndTitlesDiffer: what is asked for by name or chosen by title is one thing.
func TestNamesAndTitlesDiffer(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Formulas {
		if seen[f.Name] || seen[f.Title] {
			t.Errorf("%s (%s) is there twice", f.Name, f.Title)
		}
		seen[f.Name], seen[f.Title] = true, true
	}
}

// TestFewest: as few values as each takes are enough.
func TestFewest(t *testing.T) {
	one, two := []float64{4}, []float64{4, 5}
	blocks, feed := Factor{"block", []string{"n", "n", "s", "s"}}, Factor{"feed", []string{"a", "b", "a", "b"}}
	for name, err := range map[string]error{
		"one way":                 second(OneWay([][]float64{two, one})),
		"groups by ranks":         second(KruskalWallis([][]float64{two, one})),
		"one factor":              second(Factorial([]float64{1, 2, 4}, []Factor{{"feed", []string{"a", "a", "b"}}}, false)),
		"one to spare":            second(Factorial([]float64{1, 2, 3, 4.1}, []Factor{blocks, feed}, false)),
		"adjusted, the first":     second(Adjusted([]float64{1, 2, 3, 4.1}, []Factor{blocks, feed}, "block", 0.95)),
		"equivalence":             second(Equivalent(two, []float64{4.1, 5}, -1, 1, 0.25)),
		"paired shift":            second(HodgesLehmannPaired(one, 0.95)),
		"shift":                   second(HodgesLehmann(one, one, 0.95)),
		"differences":             second(Differences(one, one)),
		"paired":                  second(PairedDifferences(two, 0.95)),
		"signs":                   second(PermuteSigns(one)),
		"relabelling":             second(PermuteMeans(one, one)),
		"power of hardly any":     second(Power(2, 0.02, 1, 0.05, TwoGroups)),
		"power, unlike":           second(PowerUnequal(2, 2, 1, 1, 0.05)),
		"notice":                  second(Detectable(2, 1, 0.8, 0.05, Pairs)),
		"quantile":                second(Quantile(one, 0.5, Type7)),
		"weighted quantile":       second(WeightedQuantile(one, one, 0.5)),
		"U":                       second(MannWhitneyU(one, one)),
		"ranks by the curve":      second(MannWhitneyNormal(one, []float64{5}, true)),
		"signed ranks":            third(SignedRank(one)),
		"summary":                 second(Summary(one)),
		"log-rank":                second(LogRank([]Life{{1, true}}, []Life{{2, false}})),
		"risk ratio":              third(RiskRatio(Count{1, 3}, Count{2, 4}, 0.95)),
		"dunnett, the last":       third(Dunnett([][]float64{drug1, drug2}, 1, 0.95)),
		"a million events":        third(Rate(Exposure{1e6, 1}, 0.95)),
		"survival of one group":   formulaOf("median_life", "time=[1 2 3];event=[1 1 1]"),
		"dunnett against a first": formulaOf("dunnett_critical", "value=[1 2 3 4 5 7];group=[a a b b c c]"),
	} {
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestFewestBeds: a difference of 30 spreads is told by two pairs, with one degree
// of freedom; one of three spreads by a single bed with ten plots of six arms.
func TestFewestBeds(t *testing.T) {
	if beds, err := (Blocks{0, 2, 1}).BedsFor(30, 1, 0.8, 0.05); err != nil || beds != 2 {
		t.Error(beds, err)
	}
	if beds, err := (Blocks{0, 6, 10}).BedsFor(3, 1, 0.8, 0.05); err != nil || beds != 1 {
		t.Error(beds, err)
	}
}

// TestSumsOfSubsets: of 1, 2 and 3 two add up to 3, 4 or 5; of 1 and 2 any to 0
// to 3, alike often.
func TestSumsOfSubsets(t *testing.T) {
	if got := subsetSums([]int{1, 2, 3}, 2); !slices.Equal(got, []float64{0, 0, 0, 1, 1, 1, 0}) {
		t.Error(got)
	}
	if got := anySums([]int{1, 2}); !slices.Equal(got, []float64{0.25, 0.25, 0.25, 0.25}) {
		t.Error(got)
	}
}

// TestChancesAreNoMoreThanCertain: what chance always does has the chance 1.
func TestChancesAreNoMoreThanCertain(t *testing.T) {
	if tails, err := MannWhitneyNormal([]float64{1, 4}, []float64{2, 3}, true); err != nil || tails.TwoSided != 1 {
		t.Error(tails, err)
	}
	for n := 2; n < 300; n += 2 {
		if p := binomialP(float64(n/2), float64(n), 0.5); p > 1 {
			t.Errorf("%g of %d", p, n)
		}
		if p := newTables(Count{n / 2, n}, Count{n / 2, n}).noLikelier(n / 2); p > 1 {
			t.Errorf("%g of %d against as many", p, n)
		}
	}
}

// TestOneEvent: of one event the interval of the rate begins at -ln(0.975).
func TestOneEvent(t *testing.T) {
	_, i, err := Rate(Exposure{1, 1}, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low", i.Low, -math.Log(0.975), 1e-9)
	if r, err := RateRatio(Exposure{3, 1}, Exposure{0, 1}, 0.95); err != nil || r.Bounded || !math.IsInf(r.High, 1) {
		t.Error(r, err)
	}
}

// TestEndsOfRatios: Fieller's interval of means above and below nothing, and what
// the logarithm of a ratio gives by the normal curve.
func TestEndsOfRatios(t *testing.T) {
	x, y := []float64{9, 10, 11}, []float64{4, 5, 6}
	up, err := Fieller(x, y, true, 0.95)
	if err != nil || up.Low >= 2 || up.High <= 2 {
		t.Error(up, err)
	}
	down, err := Fieller(x, []float64{-4, -5, -6}, true, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "low", down.Low, -up.High, 1e-12)
	near(t, "high", down.High, -up.Low, 1e-12)
	r, err := LogRatio(x, y, 0.95)
	if err != nil || !math.IsInf(r.DF, 1) {
		t.Error(r, err)
	}
	se := math.Sqrt(1/3.0/100 + 1/3.0/25)
	near(t, "p", r.P, math.Erfc(math.Log(2)/se/math.Sqrt2), 1e-9)
}

// TestEquivalenceShowsTheIntervalOfItsLevel: of twice the doubt, by Welch.
func TestEquivalenceShowsTheIntervalOfItsLevel(t *testing.T) {
	e, err := Equivalent(drug1, drug2, -3, 3, 0.05)
	c, other := Welch(drug1, drug2, 0.9)
	if err != nil || other != nil {
		t.Fatal(err, other)
	}
	near(t, "low", e.Low, c.Low, 1e-12)
	near(t, "high", e.High, c.High, 1e-12)
}

// TestLogRankOfTwo: one of two ends while both are watched: a half beyond what was
// to be expected, with a variance of a quarter.
func TestLogRankOfTwo(t *testing.T) {
	c, err := LogRank([]Life{{1, true}}, []Life{{2, false}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "value", c.Value, 1, 1e-12)
}

// TestFisherNextToTheTop: with one table more beyond it the odds are bounded.
func TestFisherNextToTheTop(t *testing.T) {
	f, err := Fisher(Count{2, 3}, Count{1, 5}, 0.95)
	if err != nil || math.IsInf(f.High, 1) || f.High < f.OddsRatio {
		t.Error(f, err)
	}
}

// TestGroupsUnnamedAreTheFirst: the first of the alphabet, by what the named one gives.
func TestGroupsUnnamedAreTheFirst(t *testing.T) {
	for name, inputs := range map[string][2]string{
		"median_life":      {"time=[1 2 3 7 8 9];event=[1 1 1 1 1 1];arm=[a a a b b b]", ";group=a"},
		"dunnett_critical": {"value=[1 2 3 4 5 7 8];group=[a a b b c c c]", ";control=a"},
	} {
		got, err := formulatest.Ask(t, Formulas, name, inputs[0])
		want, other := formulatest.Ask(t, Formulas, name, inputs[0]+inputs[1])
		if err != nil || other != nil || got.Value != want.Value {
			t.Errorf("%s: %v and %v, %v, %v", name, got.Value, want.Value, err, other)
		}
	}
}

// TestMostLives: as many lives as are taken is told when there are more.
func TestMostLives(t *testing.T) {
	_, err := KaplanMeier(make([]Life, 1e7+1), 0.95)
	if r, ok := errors.AsType[*quantity.RangeError](err); !ok || r.High != 1e7 {
		t.Error(err)
	}
}

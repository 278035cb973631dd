package watch

import (
	"math"
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// TestDescribedBounds pins what may be asked.
func TestDescribedBounds(t *testing.T) {
	type span struct{ low, high float64 }
	value, positive := span{-1e150, 1e150}, span{1e-150, 1e150}
	want := map[string]span{
		"confidence": {0.5, 0.9999}, "first": {2, 1e7}, "at": {1, 1e7}, "slack": {0, 3}, "decision": {0.5, 20}, "lambda": {1e-6, 1},
		"shortest": {1, 1e6}, "from": {2, 1e6}, "h": {1, 1000}, "p": {1e-9, 1 - 1e-9}, "floor": positive, "penalty": positive, "sd": positive,
		"a": {0, 1}, "b": {0, 1}, "alpha": {0, 1}, "beta": {0, 1}, "gamma": {0, 1}, "period": {1, 366}, "limit": {0.5, 100},
		// where a formula's own range is another
		"ewma limit": {1, 6}, "winters period": {2, 366}, "ets period": {2, 24}, "winters_multiplicative value": positive, "interval_score alpha": {0.0001 - 1e-12, 0.5},
		"lognormal y": positive, "lognormal mu": {-300, 300}, "lognormal sd": {1e-150, 20}, "log y": positive, "log mu": {-300, 300}, "log sd": {1e-150, 20},
	}
	for _, f := range Formulas {
		for _, in := range f.Inputs {
			if in.Default == "none" || len(in.Choices) > 0 {
				continue // a remark, or one of several words
			}
			w, known := want[in.Name]
			if !known {
				w = value
			}
			for name, other := range want {
				if part, input, ok := strings.Cut(name, " "); ok && input == in.Name && (strings.HasPrefix(f.Name, part) || strings.HasSuffix(f.Name, "_"+part)) {
					w = other
				}
			}
			if got := (span{in.Low, in.High}); got != w {
				t.Errorf("%s of %s from %v to %v, want %v", in.Name, f.Name, got.low, got.high, w)
			}
		}
	}
}

// TestBestSharesAreNotAsked: who asks for the best smoothing gives no shares.
func TestBestSharesAreNotAsked(t *testing.T) {
	for _, f := range Formulas {
		if strings.HasPrefix(f.Name, "winters") && strings.Contains(f.Name, "_best") && len(f.Inputs) != 3 {
			t.Errorf("%s asks %d inputs", f.Name, len(f.Inputs))
		}
	}
}

// TestFewestReadings: as few readings as each takes are enough.
func TestFewestReadings(t *testing.T) {
	one, two, three := []float64{4}, []float64{4, 5}, []float64{4, 5, 7}
	odd := []float64{1, 3, 2, 1.1, 3.2, 2, 1, 3.1, 2.2}
	for name, err := range map[string]error{
		"mean":            second(Mean(one)),
		"spread":          second(SD(two)),
		"median":          second(Median(one)),
		"MAD":             second(MAD(two)),
		"z":               second(ModifiedZ(two, 1)),
		"chart":           second(Individuals(two)),
		"EWMA":            second(EWMA(two, 1, 1, 2)),
		"CUSUM":           second(CUSUM(two, 0, 5, 2)),
		"trend":           second(TheilSen([]float64{1, 1, 2}, three, 0.9)),
		"trend by ranks":  second(MannKendall(three)),
		"break":           second(OneBreak(three, 1)),
		"segments":        second(Segments(two, 1, 1)),
		"penalty":         second(SegmentPenalty(two)),
		"break by ranks":  second(Pettitt(three)),
		"smoothing":       second(Simple(two, 0.5, 1)),
		"best smoothing":  second(SimpleBest(three)),
		"Holt":            second(Holt(three, 0.5, 0.5, 1)),
		"season":          second(HoltWinters(odd[:7], 3, Additive, Shares{}, 1)),
		"season of two":   second(HoltWinters(odd[:5], 2, Additive, Shares{}, 1)),
		"ETS":             second(ETS(odd, 3, Additive)),
		"ETS of two":      second(ETS(odd, 2, Additive)),
		"naive":           second(Naive(two, 1, 1, 0.9)),
		"drift":           second(Drift(three, 1, 0.9)),
		"scaled error":    second(MASE(two, one, one, 1)),
		"the last season": second(LastSeasonMASE(odd[:7], 3)),
		"the last of one": second(LastSeasonMASE(three, 1)),
	} {
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestMostReadings: ten million readings are taken, and no more.
func TestMostReadings(t *testing.T) {
	many := make([]float64, 1e7+1)
	if _, err := Mean(many[1:]); err != nil {
		t.Error(err)
	}
	if !outside(second(Mean(many))) {
		t.Error("one more was taken")
	}
}

// TestEndsOfIntervals: an interval ends where readings may, and is asked for with
// a confidence below certainty.
func TestEndsOfIntervals(t *testing.T) {
	if err := second(IntervalScore(1, 2, 1e150, 0.1)); err != nil {
		t.Error(err)
	}
	if !outside(second(IntervalScore(1, 2, 1.5e150, 0.1))) || !outside(second(IntervalScoreLogNormal(1, 1, 1, 0.99995))) {
		t.Error("more was taken")
	}
}

// TestPlacesAreCountedFromOne: in what a formula says the first reading is 1.
func TestPlacesAreCountedFromOne(t *testing.T) {
	if counted(0) != 1 || counted(4) != 5 || firstOf(nil) != -1 || firstOf([]int{2, 3}) != 3 {
		t.Error(counted(0), counted(4), firstOf(nil), firstOf([]int{2, 3}))
	}
	a, err := formulatest.Ask(t, Formulas, "ewma_at", "value=[10 12 20];first=2;lambda=0.25;at=1")
	if err != nil || a.Value != 10.75 {
		t.Error(a, err)
	}
	a, err = formulatest.Ask(t, Formulas, "ewma_half_width", "value=[10 12];first=2;lambda=0.25;limit=2")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "half width in the end", a.Value, 2*math.Sqrt(math.Pi)*math.Sqrt(0.25/1.75*(1-math.Pow(0.75, 4))), 1e-9)
}

// TestBreakAfterTheFirst: a change after one reading is found.
func TestBreakAfterTheFirst(t *testing.T) {
	p, err := Segments([]float64{0, 9, 9.1, 9}, 1, 1)
	if err != nil || !slices.Equal(p.Breaks, []int{1}) {
		t.Error(p, err)
	}
}

// TestSharesStayBelowAll: readings whose rise grows are followed best by more
// than all of each error; all is the most that is given.
func TestSharesStayBelowAll(t *testing.T) {
	var rising, seasons []float64
	for i := range 30 {
		rising = append(rising, float64(i*i))
		seasons = append(seasons, float64(i*i*i)+float64(i%3))
	}
	if best, err := SimpleBest(rising); err != nil || best != 1 {
		t.Error(best, err)
	}
	best, err := HoltWintersBest(seasons, 3, Additive, 1)
	for _, share := range []float64{float64(best.Shares.Alpha), float64(best.Shares.Beta), float64(best.Shares.Gamma)} {
		if err != nil || share < 0 || share > 1 {
			t.Error(best.Shares, err)
		}
	}
	if best.Shares.Beta < 0.9 {
		t.Error("the trend is hardly believed", best.Shares)
	}
}

// TestAICcByItsDefinition: n ln(squares) and, for each of three shares, the
// level, the step, the seasons but one and the spread, two, corrected for few
// readings (Hurvich & Tsai 1989); with a season that multiplies, twice the sum
// of the logarithms of the forecasts more (Hyndman et al. 2002).
func TestAICcByItsDefinition(t *testing.T) {
	values := []float64{12, 15, 19, 14, 13, 17, 20, 15, 14, 17, 22, 16, 15, 19, 23, 18}
	f, err := ETS(values, 4, Additive)
	if err != nil {
		t.Fatal(err)
	}
	const n, k = 16.0, 3 + 2 + 3 + 1.0
	squares := f.Sigma * f.Sigma * (n - (k - 1))
	near(t, "AICc", f.AICc, n*math.Log(squares)+2*k+2*k*(k+1)/(n-k-1), 1e-9)
}

// TestSharesThatCannotBe have no likelihood.
func TestSharesThatCannotBe(t *testing.T) {
	for _, b := range [][3]float64{{-0.1, 0, 0}, {0.5, -0.1, 0}, {0.5, 0.6, 0}, {0.5, 0.1, -0.1}, {0.5, 0.1, 0.51}, {1.1, 0.1, 0}} {
		if _, l := run([]float64{1, 2, 3, 4}, 2, Additive, append(b[:], 1, 0, 0)); !math.IsInf(l, 1) {
			t.Errorf("%v has the likelihood %g", b, l)
		}
	}
	for _, b := range [][3]float64{{0, 0, 0}, {0.5, 0.5, 0.5}, {1, 1, 0}, {0, 0, 1}} {
		if _, l := run([]float64{1, 2, 3, 5}, 2, Additive, append(b[:], 1, 0, 0)); math.IsInf(l, 0) || math.IsNaN(l) {
			t.Errorf("%v has the likelihood %g", b, l)
		}
	}
}

// TestSeasonThatMovesWithTheLevel: three readings ahead, with a period of two, a
// level and a season that take in 0.5 and 0.25 of the errors: of a level of 10
// and a season of 1, worked from E[(1+e/2)^2 (1+e/4)^2], with E[e^4] = 3 v^2.
func TestSeasonThatMovesWithTheLevel(t *testing.T) {
	const a, g, v = 0.5, 0.25, 0.16
	f := ETSFit{Alpha: a, Gamma: g, Sigma: 0.4, Level: 10, Season: []float64{1, 0.5}, how: Multiplicative}
	s, err := f.Forecast(3, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	mean := 10 * (1 + a*g*v)
	square := 100 * (1 + v*(a*a+g*g+4*a*g) + 3*v*v*a*a*g*g) * (1 + a*a*v) * (1 + v)
	near(t, "mean", s.Value, mean, 1e-12)
	near(t, "spread", (s.High-s.Low)/2/1.6448536269514722, math.Sqrt(square-mean*mean), 1e-9)
}

// TestFarthestOfNothing: where no reading is out, none is far.
func TestFarthestOfNothing(t *testing.T) {
	if far := Farthest([]float64{0, -0.25}); far != 0.25 {
		t.Error(far)
	}
}

// TestRepeatingSeasonHasNoScale: what repeats exactly leaves nothing to scale by,
// and a value beside the refusal would be without end.
func TestRepeatingSeasonHasNoScale(t *testing.T) {
	if err := second(MASE([]float64{1, 2, 1, 2}, []float64{3}, []float64{1}, 2)); !outside(err) {
		t.Error(err)
	}
}

// TestLogScoresAtTheirEnds: the scores of a logarithm take what they say.
func TestLogScoresAtTheirEnds(t *testing.T) {
	for _, c := range []struct{ came, mean, sd float64 }{{1, -300, 1}, {1, 300, 1}, {1, 0, 20}, {1e-150, 0, 1}, {1, 0, 1e-150}} {
		if err := second(CRPSLogNormal(c.came, c.mean, c.sd)); err != nil {
			t.Errorf("%v: %v", c, err)
		}
	}
}

package trial

import (
	"math"
	"math/rand"
	"strconv"
	"testing"

	"freshet.example/husbandry/quantity"
)

// TestFiellerWithoutBound: with g of 1 or more there is no interval; the roots
// are kept apart from it.
func TestFiellerWithoutBound(t *testing.T) {
	r, err := Fieller([]float64{3, 5, 3, 5, 3}, []float64{0, 1, 7, 2}, true, 0.95)
	if err != nil || r.Bounded || !math.IsInf(r.Low, -1) || !math.IsInf(r.High, 1) || r.G < 1 || !math.IsNaN(r.P) {
		t.Errorf("%+v %v", r, err)
	}
	near(t, "first root", r.Roots[0], 0.469993858656, 1e-8)
	near(t, "second root", r.Roots[1], -38.4946083561, 1e-8)
	r, err = Fieller([]float64{-1, 1.1}, []float64{-1, 1.2}, false, 0.95) // every ratio fits
	if err != nil || r.Bounded || !math.IsNaN(r.Roots[0]) || !math.IsInf(r.High, 1) {
		t.Errorf("%+v %v", r, err)
	}
	r, err = Fieller([]float64{5, 6, 7}, []float64{-9, -10, -11}, false, 0.95)
	if err != nil || !r.Bounded || r.Low >= r.Estimate || r.High <= r.Estimate {
		t.Errorf("a negative ratio: %+v %v", r, err)
	}
	_, h := boundedSpan(Ratio{High: 3})
	if !math.IsNaN(h) {
		t.Error("a span where there is none")
	}
}

// TestThreeAgainstThree: no interval of 95 percent exists.
func TestThreeAgainstThree(t *testing.T) {
	s, err := HodgesLehmann([]float64{5, 6, 9}, []float64{1, 3, 4}, 0.95)
	if err != nil || !s.Short || s.Low != 1 || s.High != 8 || s.Estimate != 4 {
		t.Errorf("%+v %v", s, err)
	}
	near(t, "achieved", float64(s.Achieved), 0.9, 1e-12)
}

// TestFisherAtTheEnds: the odds ratio is 0 or without bound where one cell is
// empty, and has no meaning where nothing can vary.
func TestFisherAtTheEnds(t *testing.T) {
	f, err := Fisher(Count{5, 5}, Count{1, 4}, 0.95)
	if err != nil || !math.IsInf(f.OddsRatio, 1) || !math.IsInf(f.High, 1) {
		t.Errorf("%+v %v", f, err)
	}
	near(t, "p", f.P, 1.0/21, 1e-9) // C(5,5)C(4,1)/C(9,6) = 4/84
	f, err = Fisher(Count{0, 5}, Count{0, 4}, 0.95)
	if err != nil || !math.IsNaN(f.OddsRatio) || f.P != 1 || f.Low != 0 || !math.IsInf(f.High, 1) {
		t.Errorf("%+v %v", f, err)
	}
	f, err = Fisher(Count{0, 5}, Count{3, 4}, 0.95)
	if err != nil || f.OddsRatio != 0 || f.Low != 0 || math.IsInf(f.High, 1) {
		t.Errorf("%+v %v", f, err)
	}
}

// TestSharesAtTheEnds: all or none.
func TestSharesAtTheEnds(t *testing.T) {
	for name, f := range map[string]func(int, int) (Interval, error){
		"wilson":          func(x, n int) (Interval, error) { return Wilson(x, n, 0.95) },
		"wilson cc":       func(x, n int) (Interval, error) { return WilsonCorrected(x, n, 0.95) },
		"clopper-pearson": func(x, n int) (Interval, error) { return ClopperPearson(x, n, 0.95) },
		"jeffreys":        func(x, n int) (Interval, error) { return Jeffreys(x, n, 0.95) },
		"mid-p":           func(x, n int) (Interval, error) { return MidP(x, n, 0.95) },
	} {
		none, err := f(0, 12)
		all, fault := f(12, 12)
		if err != nil || fault != nil || none.Low != 0 || all.High != 1 || none.High <= 0 || all.Low >= 1 {
			t.Errorf("%s: %+v %+v", name, none, all)
		}
		if !(math.Abs(none.High+all.Low-1) <= 1e-12) {
			t.Errorf("%s is not even: %+v %+v", name, none, all)
		}
	}
	i, err := WilsonCorrected(6, 12, 0.95) // at a half there is nothing to correct
	w, _ := Wilson(6, 12, 0.95)
	if err != nil || !(math.Abs(i.Low-w.Low) <= 1e-12) || !(math.Abs(i.High-w.High) <= 1e-12) {
		t.Errorf("%+v %+v", i, w)
	}
}

// TestZeroEvents: the upper bound is 1-(alpha/2)^(1/n), not 3/n.
func TestZeroEvents(t *testing.T) {
	for _, n := range []int{1, 10, 30, 250} {
		i, err := ClopperPearson(0, n, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "upper bound", i.High, 1-math.Pow(0.025, 1/float64(n)), 1e-10)
	}
}

// TestSurvivalByHand: ten lives, four of them still going.
func TestSurvivalByHand(t *testing.T) {
	lives := []Life{{1, true}, {2, true}, {2, true}, {3, false}, {4, true}, {5, false}, {6, true}, {6, false}, {7, true}, {8, true}}
	steps, err := KaplanMeier(lives, 0.95)
	if err != nil || len(steps) != 6 {
		t.Fatal(steps, err)
	}
	for i, want := range []float64{0.9, 0.7, 0.7 * 5 / 6, 0.7 * 5 / 6 * 0.75, 0.7 * 5 / 6 * 0.75 / 2, 0} {
		near(t, "survival", steps[i].Survival, want, 1e-12)
	}
	if s := steps[1]; s.AtRisk != 9 || s.Ends != 2 {
		t.Errorf("%+v", s)
	}
	if s := steps[5]; !math.IsNaN(s.SE) || !math.IsNaN(s.Low) || !math.IsNaN(s.High) {
		t.Errorf("an interval where none survive: %+v", s)
	}
	near(t, "median", MedianLife(steps), 6, 1e-12)
	m, _ := RestrictedMeanLife(steps, 5)
	near(t, "restricted mean", m, 1+0.9+2*0.7+0.7*5/6, 1e-12)
	m, _ = RestrictedMeanLife(steps, 0.5)
	near(t, "restricted mean before any end", m, 0.5, 1e-12)
	m, _ = RestrictedMeanLife(steps, 2)
	near(t, "restricted mean at an end", m, 1.9, 1e-12)
	before, _ := At(steps, 0.5)
	if before.Survival != 1 || before.Low != 1 || before.High != 1 {
		t.Errorf("%+v", before)
	}
	at, _ := At(steps, 2)
	near(t, "at an end", at.Survival, 0.7, 1e-12)
}

// TestMedianOnAFlatHalf: where just half survive over a stretch, its middle.
func TestMedianOnAFlatHalf(t *testing.T) {
	steps, _ := KaplanMeier([]Life{{1, true}, {2, true}, {5, true}, {9, false}}, 0.95)
	near(t, "middle of the stretch", MedianLife(steps), 3.5, 1e-12)
	steps, _ = KaplanMeier([]Life{{1, true}, {2, true}, {5, false}, {9, false}}, 0.95)
	near(t, "no end after", MedianLife(steps), 2, 1e-12)
	steps, _ = KaplanMeier([]Life{{1, true}, {2, false}, {5, false}, {9, false}}, 0.95)
	if !math.IsNaN(MedianLife(steps)) {
		t.Error("a median that was not reached")
	}
	near(t, "just below a half", MedianLife([]Step{{Time: 1, Survival: 0.5 - 1.5e-9}, {Time: 3, Survival: 0.1}}), 1, 1e-12)
	near(t, "a half but for rounding", MedianLife([]Step{{Time: 1, Survival: 0.5 + 0.9e-9}, {Time: 3, Survival: 0.1}}), 2, 1e-12)
	near(t, "above a half", MedianLife([]Step{{Time: 1, Survival: 0.5 + 1.5e-9}, {Time: 3, Survival: 0.1}}), 3, 1e-12)
}

// TestNearTies: sums within a thousandth of a millionth count as tied.
func TestNearTies(t *testing.T) {
	p, err := PermuteSigns([]float64{1, 1 + 3e-9, 1, 1}) // whole size 4: slack 4e-9
	if err != nil || p.AsHigh != 1 {
		t.Errorf("%+v %v", p, err)
	}
	p, _ = PermuteSigns([]float64{0.5, 0.25, -(0.5 - 0.7e-9), 2}) // one flip from observed differs by 1.4e-9 of 3.25
	q, _ := PermuteSigns([]float64{0.5, 0.25, -0.5, 2})
	if p.AsHigh != q.AsHigh {
		t.Errorf("near ties count %v, true ties %v", p.AsHigh, q.AsHigh)
	}
	v, _ := WeightedQuantile([]float64{1, 2}, []float64{1, 1}, 0.5*(1+1.5e-12))
	w, _ := WeightedQuantile([]float64{1, 2}, []float64{1, 1}, 0.5*(1+0.5e-12))
	if v != 2 || w != 1 {
		t.Errorf("weights just short of the share: %v and %v", v, w)
	}
}

// TestBlocksByHand: values made of block and treatment and nothing else but one
// pattern that leans on neither.
func TestBlocksByHand(t *testing.T) {
	var values []float64
	block, feed := Factor{Name: "block"}, Factor{Name: "feed"}
	pattern := [3][3]float64{{1, -2, 1}, {-2, 4, -2}, {1, -2, 1}} // rows and columns sum to 0
	for b := range 3 {
		for f := range 3 {
			values = append(values, 10+float64(b)*5+float64(f*f)*2+pattern[b][f]/4)
			block.Levels, feed.Levels = append(block.Levels, strconv.Itoa(b)), append(feed.Levels, strconv.Itoa(f))
		}
	}
	e, err := Adjusted(values, []Factor{block, feed}, "feed", 0.95)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{15, 17, 23} {
		near(t, "adjusted mean", e.Means[i], want, 1e-12)
	}
	near(t, "difference", e.Differences[1].Difference, 8, 1e-12)
	near(t, "F", e.Test.F, 52/0.5625, 1e-9)
	near(t, "residual degrees", e.Differences[0].DF, 4, 1e-12)
	lost, err := Adjusted(values[1:], []Factor{{"block", block.Levels[1:]}, {"feed", feed.Levels[1:]}}, "feed", 0.95)
	if err != nil || len(lost.Means) != 3 || lost.Differences[0].DF != 3 {
		t.Fatal(lost, err)
	}
	near(t, "means and differences agree", lost.Means[1]-lost.Means[0], lost.Differences[0].Difference, 1e-12)
}

// TestProperties: which way things go, over a thousand random trials.
func TestProperties(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 1000 {
		x, y := random(r), random(r)
		c, err := Welch(x, y, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		back, _ := Welch(y, x, 0.95)
		wide, _ := Welch(x, y, 0.99)
		p, _ := Pooled(x, y, 0.95)
		switch {
		case !(math.Abs(c.Difference+back.Difference) <= 1e-12) || !(math.Abs(c.Low+back.High) <= 1e-9) || !(math.Abs(c.P-back.P) <= 1e-12):
			t.Fatalf("turned round: %+v %+v", c, back)
		case wide.Low > c.Low || wide.High < c.High:
			t.Fatalf("surer and narrower: %+v %+v", c, wide)
		case (c.P < 0.05) != (c.Low > 0 || c.High < 0):
			t.Fatalf("p and interval disagree: %+v", c)
		case c.DF > p.DF+1e-9 || c.DF < float64(min(len(x), len(y))-1)-1e-9:
			t.Fatalf("degrees of freedom: %+v", c)
		}
		u, _ := MannWhitneyU(x, y)
		v, _ := MannWhitneyU(y, x)
		if !(math.Abs(u+v-float64(len(x)*len(y))) <= 1e-9) {
			t.Fatalf("U of %v and %v", u, v)
		}
		tails, _ := MannWhitneyExact(x, y)
		if tails.Upper+tails.Lower < 1 || tails.TwoSided > 1+1e-12 {
			t.Fatalf("%+v", tails)
		}
	}
}

func random(r *rand.Rand) []float64 {
	values := make([]float64, 2+r.Intn(6))
	for i := range values {
		values[i] = 10 + 3*r.NormFloat64()
	}
	return values
}

// TestPowerGoesUp: more beds, larger differences and looser levels notice more.
func TestPowerGoesUp(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for range 200 {
		n, d, alpha := 2+20*r.Float64(), 0.1+3*r.Float64(), 0.01+0.2*r.Float64()
		p, err := Power(n, d, 1, quantityOf(alpha), TwoGroups)
		more, _ := Power(n+1, d, 1, quantityOf(alpha), TwoGroups)
		larger, _ := Power(n, d+0.1, 1, quantityOf(alpha), TwoGroups)
		if err != nil || more <= p && p < 0.999999 || larger <= p && p < 0.999999 || p < alpha {
			t.Fatalf("%v: %v, %v, %v (%v)", n, p, more, larger, err)
		}
	}
}

// TestEquivalentSaysSo: inside the margin it is, across it it is not.
func TestEquivalentSaysSo(t *testing.T) {
	in, _ := Equivalent(drug1, drug2, -4, 4, 0.05)
	out, _ := Equivalent(drug1, drug2, -2, 2, 0.05)
	if !in.Equivalent || out.Equivalent {
		t.Errorf("%+v %+v", in, out)
	}
	near(t, "low", in.Low, in.Difference-(in.High-in.Difference), 1e-9)
}

func quantityOf(v float64) quantity.Fraction { return quantity.Fraction(v) }

package water

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestLimitsSolve(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 8))
	for range 1000 {
		total, limit := quantity.AmmoniaN(0.1+5*random.Float64()), UnionizedN(0.01+0.08*random.Float64())
		ph, c := quantity.PH(6+3*random.Float64()), quantity.Celsius(50*random.Float64())
		is(t, "pH", float64(must(UnionizedAmmonia(total, must(PHAtLimit(total, c, limit)), c))), float64(limit), 1e-9)
		is(t, "ammonia", float64(must(UnionizedAmmonia(must(AmmoniaAtLimit(ph, c, limit)), ph, c))), float64(limit), 1e-9)
		at := must(TemperatureAtLimit(total, ph, limit))
		if !math.IsNaN(float64(at)) {
			is(t, "temperature", float64(must(UnionizedAmmonia(total, ph, at))), float64(limit), 1e-9)
			continue
		}
		cold, hot := must(UnionizedAmmonia(total, ph, 0)), must(UnionizedAmmonia(total, ph, 50))
		if cold < limit && hot > limit {
			t.Fatalf("no temperature found for %v mg/L at pH %v", total, ph)
		}
	}
	if v := must(PHAtLimit(0.04, 20, 0.05)); !math.IsNaN(float64(v)) {
		t.Errorf("less ammonia than the limit passes it at pH %v", v)
	}
	if v := must(TemperatureAtLimit(0.04, 8, 0.05)); !math.IsNaN(float64(v)) {
		t.Errorf("less ammonia than the limit passes it at %v degC", v)
	}
	// At the limit's very share of a half, pH is the pKa.
	is(t, "half", float64(must(PHAtLimit(0.1, 25, 0.05))), must(PKa(25)), 1e-12)
}

// The ends of the range in which a single change is looked for.
func TestLimitsEnd(t *testing.T) {
	ratioAt := func(ph, pKa float64) quantity.AmmoniaN { return quantity.AmmoniaN(0.05 * (1 + math.Pow(10, pKa-ph))) }
	pKa := must(PKa(20))
	for ph, found := range map[float64]bool{12.999: true, 13.001: false} {
		if v := must(PHAtLimit(ratioAt(ph, pKa), 20, 0.05)); !math.IsNaN(float64(v)) != found {
			t.Errorf("pH %v: %v", ph, v)
		}
	}
	for ph, found := range map[float64]bool{2.001: true, 1.999: false} {
		total := UnionizedN(0.001)
		limit := UnionizedN(float64(total) / (1 + math.Pow(10, pKa-ph)))
		if limit < leastLimit {
			continue // no such limit may be asked for
		}
		if v := must(PHAtLimit(quantity.AmmoniaN(total), 20, limit)); !math.IsNaN(float64(v)) != found {
			t.Errorf("pH %v: %v", ph, v)
		}
	}
	low := quantity.AmmoniaN(1e5)
	if v := must(PHAtLimit(low, 50, 1e-6)); !math.IsNaN(float64(v)) {
		t.Errorf("pH %v is below the range", v)
	}
	for c, found := range map[quantity.Celsius]bool{0.01: true, 49.99: true} {
		limit := must(UnionizedAmmonia(1, 8, c))
		if v := must(TemperatureAtLimit(1, 8, limit)); !math.IsNaN(float64(v)) != found || !(math.Abs(float64(v-c)) <= 1e-9) {
			t.Errorf("%v degC: %v", c, v)
		}
	}
	for _, share := range []float64{0.999, 1.001} {
		for _, c := range []quantity.Celsius{0, 50} {
			limit := UnionizedN(float64(must(UnionizedAmmonia(1, 8, c))) * share)
			inside := c == 0 && share > 1 || c == 50 && share < 1
			if v := must(TemperatureAtLimit(1, 8, limit)); !math.IsNaN(float64(v)) != inside {
				t.Errorf("just beside %v degC: %v", c, v)
			}
		}
	}
}

func TestJudgement(t *testing.T) {
	j := must(JudgeAmmonia(1, 7.2, 25, HarmfulUnionized))
	if !j.Safe || !math.IsNaN(float64(j.Temperature)) {
		t.Errorf("%+v", j)
	}
	if got := j.Text(); got != "safe: NH3 0.0089 of 0.050 mg/L as N; total ammonia above 5.6 mg/L as N, or pH above 8.0 alone would make it unsafe" {
		t.Error(got)
	}
	j = must(JudgeAmmonia(2, 8, 25, HarmfulUnionized))
	if got := j.Text(); j.Safe || got != "unsafe: NH3 0.11 of 0.050 mg/L as N; total ammonia below 0.93 mg/L as N, or pH below 7.7, or temperature below 14 degC alone would make it safe" {
		t.Error(got)
	}
	j = must(JudgeAmmonia(0, 8, 25, HarmfulUnionized))
	if got := j.Text(); !j.Safe || got != "safe: NH3 0 of 0.050 mg/L as N; total ammonia above 0.93 mg/L as N alone would make it unsafe" {
		t.Error(got)
	}
	at := must(AmmoniaAtLimit(8, 25, 0.05))
	if !must(JudgeAmmonia(at*(1-1e-12), 8, 25, 0.05)).Safe || must(JudgeAmmonia(at*(1+1e-9), 8, 25, 0.05)).Safe {
		t.Error("the limit itself is not the edge")
	}
	is(t, "IFAS FA-16", float64(HarmfulUnionized), 0.05, 0)
}

func TestSplit(t *testing.T) {
	product := func(x []float64) (float64, error) { return x[0] * x[1], nil }
	shares := must(Split(product, []float64{2, 3}, []float64{4, 5}))
	is(t, "first of 14", shares[0], 8, 1e-12) // (4-2) times the mean of 3 and 5
	is(t, "second of 14", shares[1], 6, 1e-12)
	three := func(x []float64) (float64, error) { return x[0] * x[1] * x[2], nil }
	shares = must(Split(three, []float64{0, 0, 0}, []float64{1, 1, 1}))
	for i := range shares {
		is(t, "a third", shares[i], 1.0/3, 1e-12)
	}
	// Glove game: input 0 is one hand, 1 and 2 the other; Shapley 2/3, 1/6, 1/6.
	glove := func(x []float64) (float64, error) { return math.Min(x[0], x[1]+x[2]), nil }
	shares = must(Split(glove, []float64{0, 0, 0}, []float64{1, 1, 1}))
	is(t, "left glove", shares[0], 2.0/3, 1e-12)
	is(t, "right glove", shares[1], 1.0/6, 1e-12)
	if one := must(Split(product, []float64{2, 3}, []float64{2, 3})); one[0] != 0 || one[1] != 0 {
		t.Errorf("no change is shared as %v", one)
	}
}

func TestSplitProperties(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 9))
	for range 1000 {
		n := 1 + random.IntN(5)
		before, after := make([]float64, n), make([]float64, n)
		for i := range n {
			before[i], after[i] = random.Float64(), random.Float64()
		}
		idle := random.IntN(n)
		after[idle] = before[idle]
		figure := func(x []float64) (float64, error) {
			v := 1.0
			for i := range x {
				v = v*x[i] + math.Sin(x[i])
			}
			return v, nil
		}
		shares := must(Split(figure, before, after))
		sum := 0.0
		for _, s := range shares {
			sum += s
		}
		change := must(figure(after)) - must(figure(before))
		if !(math.Abs(sum-change) <= 1e-15*float64(n)) || shares[idle] != 0 && n > 1 && !(math.Abs(shares[idle]) <= 1e-15) {
			t.Fatalf("%v sum to %v, not %v; idle input %d", shares, sum, change, idle)
		}
	}
}

func TestSplitRefuses(t *testing.T) {
	one := func(x []float64) (float64, error) { return 1, nil }
	var wrong *quantity.RangeError
	for n, good := range map[int]bool{0: false, 1: true, 12: true, 13: false} {
		if _, err := Split(one, make([]float64, n), make([]float64, n)); (err == nil) != good || err != nil && !errors.As(err, &wrong) {
			t.Errorf("%d inputs: %v", n, err)
		}
	}
	if _, err := Split(one, make([]float64, 2), make([]float64, 3)); !errors.As(err, &wrong) {
		t.Error("two inputs became three")
	}
	failing := errors.New("no reading")
	if _, err := Split(func([]float64) (float64, error) { return 0, failing }, []float64{1}, []float64{2}); !errors.Is(err, failing) {
		t.Error("the figure's own failure is lost")
	}
	if _, err := Split(func([]float64) (float64, error) { return math.NaN(), nil }, []float64{1}, []float64{2}); !errors.As(err, &wrong) {
		t.Error("a figure that is no number is shared")
	}
}

// A figure of one digit is shown with one.
func TestTextOfASpan(t *testing.T) {
	if got := (Span{Low: math.NaN(), High: 3}).Text() + " " + (Span{Low: 6, High: 8.5}).Text(); got != "<3 6-8.5" {
		t.Error(got)
	}
}

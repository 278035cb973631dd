package trial

import (
	"math"
	"math/big"
	"testing"
)

// everyTable weighs every table with the margins of two shares at an odds ratio, in
// whole numbers and fractions: C(n1,k) C(n2,m-k) ratio^k.
func everyTable(a, b Count, ratio float64) (weights map[int64]*big.Rat, sum *big.Rat) {
	weights, sum = map[int64]*big.Rat{}, new(big.Rat)
	n1, n2, events := int64(a.N), int64(b.N), int64(a.Events+b.Events)
	odds := new(big.Rat).SetFloat64(ratio)
	for k := max(0, events-n2); k <= min(n1, events); k++ {
		ways := new(big.Int).Mul(new(big.Int).Binomial(n1, k), new(big.Int).Binomial(n2, events-k))
		w := new(big.Rat).SetInt(ways)
		for range k {
			w.Mul(w, odds)
		}
		weights[k] = w
		sum.Add(sum, w)
	}
	return weights, sum
}

// meanEvents is how many events the first share has on average at an odds ratio.
func meanEvents(a, b Count, ratio float64) float64 {
	weights, sum := everyTable(a, b, ratio)
	mean := new(big.Rat)
	for k, w := range weights {
		mean.Add(mean, new(big.Rat).Mul(w, big.NewRat(k, 1)))
	}
	v, _ := mean.Quo(mean, sum).Float64()
	return v
}

// asMany is the chance of as many events or more in the first share.
func asMany(a, b Count, ratio float64) float64 {
	weights, sum := everyTable(a, b, ratio)
	upper := new(big.Rat)
	for k, w := range weights {
		if k >= int64(a.Events) {
			upper.Add(upper, w)
		}
	}
	v, _ := upper.Quo(upper, sum).Float64()
	return v
}

// TestFisherInWholeNumbers: the conditional estimate is the odds ratio at which
// the events observed are the mean, and the low end that at which as many or
// more have half the doubt. R 4.2.2's fisher.test searches both to about one
// part in 100,000: what it prints misses its own definition by more than we do.
func TestFisherInWholeNumbers(t *testing.T) {
	for _, c := range []struct {
		a, b      Count
		ofR, lowR float64 // 0 where R is not looked at
	}{
		{Count{15, 120}, Count{9, 118}, 1.72621340362, 0},
		{Count{3, 40}, Count{11, 42}, 0, 0.0382504705424},
	} {
		f, err := Fisher(c.a, c.b, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		off := func(ratio float64) float64 { return math.Abs(meanEvents(c.a, c.b, ratio) - float64(c.a.Events)) }
		tail := func(ratio float64) float64 { return math.Abs(asMany(c.a, c.b, ratio) - 0.025) }
		if off(f.OddsRatio) > 1e-9 || tail(f.Low) > 1e-9 {
			t.Errorf("%v and %v: %g events and %g of a chance beside it", c.a, c.b, off(f.OddsRatio), tail(f.Low))
		}
		if c.ofR > 0 && off(c.ofR) < 1e-6 || c.lowR > 0 && tail(c.lowR) < 1e-7 {
			t.Errorf("%v and %v: R is nearer than was said", c.a, c.b)
		}
	}
}

package outlook

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// TestNitriteThatOnlyRises has no peak, however its rise ends in rounding: it comes
// to First Feed / ((First + Dilution)(Second + Dilution)) from below.
func TestNitriteThatOnlyRises(t *testing.T) {
	for _, c := range []struct {
		chain Chain
		start Pools
	}{
		{Chain{Feed: 1, First: 0.1, Second: 0.2}, Pools{}},
		{Chain{Feed: 1, First: 0.1, Second: 0.2}, Pools{Ammonia: 0.1}},
		{Chain{Feed: 0.3, First: 0.4, Second: 0.05, Dilution: 0.01}, Pools{Ammonia: 0.2, Nitrite: 0.1}},
		{Chain{Feed: 1, First: 0.1}, Pools{Ammonia: 1}}, // nothing takes nitrite away
		{Chain{First: 0.1}, Pools{Ammonia: 1}},
	} {
		at, high, err := c.chain.NitritePeak(c.start)
		var unsteady *UnsteadyError
		if !errors.As(err, &unsteady) || !strings.Contains(unsteady.Why, "has no peak") || at != 0 || high != 0 {
			t.Errorf("%+v from %+v: %v h, %v mg/L, %v", c.chain, c.start, at, high, err)
		}
	}
}

// TestAPeakWithinTheFirstStep: after a pulse nitrite is highest ln(k1/k2)/(k1-k2) later
// (Bateman 1910), also where that is a few minutes; and not later by rounding where a
// feed lets it fall to where it stays.
func TestAPeakWithinTheFirstStep(t *testing.T) {
	at, high, err := (Chain{First: 50, Second: 0.5}).NitritePeak(Pools{Ammonia: 1})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "minutes later", float64(at), math.Log(100)/49.5, 1e-9)
	near(t, "what it comes to", float64(high), math.Pow(100, -0.5/49.5), 1e-9) // (k1/k2)^(-k2/(k1-k2))
	fed := Chain{Feed: 0.01, First: 0.3, Second: 0.1}
	at, high, err = fed.NitritePeak(Pools{Ammonia: 2})
	rest, other := fed.After(Pools{Ammonia: 2}, 1000)
	if err != nil || other != nil || high <= rest.Nitrite || at > 10 {
		t.Errorf("%v mg/L after %v h, in the end %v; %v, %v", high, at, rest.Nitrite, err, other)
	}
}

// TestNodesOfDormandAndPrince: each stage stands where the authors' does (0, 1/5, 3/10,
// 4/5, 8/9, 1, 1; Dormand & Prince 1980, table 2, from memory), since its weights add up
// to that; and the last stage is of order five: of the mean of t^n over a step it makes
// 1/(n+1). The weights of the error know no difference there up to order four.
func TestNodesOfDormandAndPrince(t *testing.T) {
	nodes := []float64{0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1}
	for i, weights := range stages {
		sum := 0.0
		for _, w := range weights {
			sum += w
		}
		near(t, "node", sum, nodes[i+1], 1e-14)
	}
	for n := range 5 {
		mean, off := 0.0, 0.0
		for i, c := range nodes {
			if i < len(stages[5]) {
				mean += stages[5][i] * math.Pow(c, float64(n))
			}
			off += misses[i] * math.Pow(c, float64(n))
		}
		near(t, "mean of a power", mean, 1/float64(n+1), 1e-14)
		if n < 4 {
			near(t, "no error of a power", off, 0, 1e-14)
		} else if math.Abs(off) < 1e-4 {
			t.Errorf("order five shows no error: %g", off)
		}
	}
}

// TestAStepThatMissesIsTriedAgain from where it was, and shorter as its error tells:
// the error rises with the fifth power of the step.
func TestAStepThatMissesIsTriedAgain(t *testing.T) {
	from := [3]float64{1}
	decays := func(y [3]float64) [3]float64 { return [3]float64{-y[0]} }
	step := bisect(1e-4, 1, func(step float64) float64 {
		_, miss := tryStep(decays, from, step)
		return 1.5 - miss
	})
	var asked []float64
	y, ok := integrate(func(y [3]float64) [3]float64 {
		asked = append(asked, y[0])
		return decays(y)
	}, from, 100*step)
	if !ok {
		t.Fatal("it does not end")
	}
	near(t, "where the second try begins", asked[7], 1, 0)
	near(t, "how far its first stage goes", 1-asked[8], step/5*0.9*math.Pow(1.5, -0.2), 1e-8)
	near(t, "what is left", y[0], math.Exp(-100*step), 1e-9)
	for miss, want := range map[float64]float64{1: 0.9, 32: 0.45, 0: 4, 1e-30: 4, 1e30: 0.1} {
		near(t, "the next step", longer(miss), want, 1e-12)
	}
}

// TestNothingTakesNoTime: no time leaves the pools as they are, and a straight line is
// followed to its end.
func TestNothingTakesNoTime(t *testing.T) {
	y, ok := integrate(func([3]float64) [3]float64 { return [3]float64{1, 1, 1} }, [3]float64{1, 2, 3}, 0)
	if !ok || y != [3]float64{1, 2, 3} {
		t.Error(y, ok)
	}
	rises, ok := integrate(func([3]float64) [3]float64 { return [3]float64{2, 0, 0} }, [3]float64{}, 0.5)
	if !ok {
		t.Error("a straight line does not end")
	}
	near(t, "half an hour of a straight line", rises[0], 1, 1e-12)
}

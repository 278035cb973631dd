package fish

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"freshet.example/husbandry/chance"
)

// Worked by hand from the definition: variances (4 x 0.15^2 of the mean of all, squared, + squares) / (4 + n - 1).
func TestGrowthWithKin(t *testing.T) {
	for name, c := range map[string]struct {
		own, kin       []TGC1000
		mean, cv, own1 float64
	}{
		"one interval, no kin":    {[]TGC1000{1}, nil, 1, 0.15 * math.Sqrt2, 1},
		"no weighing, one of kin": {nil, []TGC1000{2}, 2, 0.15 * math.Sqrt2, 0},
		// Both variances 0.0225 x 1.5^2; of one of the kin twice that; share 2/3.
		"one interval, one of kin": {[]TGC1000{1}, []TGC1000{2}, 4.0 / 3, math.Sqrt(0.050625*5/3) / (4.0 / 3), 2.0 / 3},
		// Own: mean 1.5, squares 0.5 + 4 x 0.050625, over 5.
		"two intervals, no kin": {[]TGC1000{1, 2}, nil, 1.5, math.Sqrt((0.5+0.2025)/5*1.5) / 1.5, 1},
		"always alike":          {slices.Repeat([]TGC1000{1}, 20), nil, 1, 0.08, 1},
	} {
		g, err := GrowthWithKin(c.own, c.kin)
		if err != nil {
			t.Fatal(name, err)
		}
		if !(math.Abs(float64(g.Coefficient)-c.mean) <= 1e-12 && math.Abs(float64(g.CV)-c.cv) <= 1e-12 && math.Abs(float64(g.OwnShare)-c.own1) <= 1e-12) {
			t.Errorf("%s: %+v, not %g, %g, %g", name, g, c.mean, c.cv, c.own1)
		}
	}
	for name, c := range map[string][2][]TGC1000{
		"nothing": {}, "shrinking": {{-1, -2}, nil}, "no number": {{TGC1000(math.NaN())}, nil}, "beyond fish": {nil, {20.5, 1}}, "too many": {slices.Repeat([]TGC1000{1}, 1_000_001), nil}, "beyond loss": {{-21, 1}, {1}},
	} {
		if g, err := GrowthWithKin(c[0], c[1]); err == nil {
			t.Errorf("%s: %+v", name, g)
		}
	}
	if _, err := GrowthWithKin(slices.Repeat([]TGC1000{20, -20, 1}, 333_333), []TGC1000{1}); err != nil {
		t.Error("as many as may be, at the ends:", err)
	}
}

// Cohorts drawn by another law than the forecaster's (logarithms of coefficients
// between cohorts and from weighing to weighing): what is foretold of the next
// interval with kin holds as it says, lies nearer than without, and more so the
// fewer weighings there are.
func TestKinBringForecastsNearer(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for _, weighings := range []int{1, 2, 4} {
		const runs = 4000
		held, with, without := 0, 0.0, 0.0
		for range runs {
			drawn := func(n int) (list []TGC1000) {
				level := 1.2 * math.Exp(0.12*r.NormFloat64())
				for range n {
					list = append(list, TGC1000(level*math.Exp(0.15*r.NormFloat64())))
				}
				return list
			}
			var kin []TGC1000
			for range 3 {
				kin = append(kin, TGC1000(meanGrowth(drawn(8))))
			}
			own := drawn(weighings + 1)
			next := float64(own[weighings])
			g, err := GrowthWithKin(own[:weighings], kin)
			if err != nil {
				t.Fatal(err)
			}
			alone, err := GrowthWithKin(own[:weighings], nil)
			if err != nil {
				t.Fatal(err)
			}
			reach := math.Exp(chance.NormalQuantile(0.9) * math.Sqrt(math.Log1p(float64(g.CV*g.CV))))
			if next > float64(g.Coefficient)/reach && next < float64(g.Coefficient)*reach {
				held++
			}
			with += math.Pow(next-float64(g.Coefficient), 2)
			without += math.Pow(next-float64(alone.Coefficient), 2)
		}
		if share := float64(held) / runs; share < 0.77 || share > 0.87 {
			t.Errorf("%d weighings: 8 in 10 held %.3f", weighings, share)
		}
		t.Logf("%d weighings: held %.3f, squared errors %.3f of those without kin", weighings, float64(held)/runs, with/without)
		if most := map[int]float64{1: 0.85, 2: 0.93, 4: 0.99}[weighings]; with/without > most {
			t.Errorf("%d weighings: squared errors %.3f of those without kin", weighings, with/without)
		}
	}
}

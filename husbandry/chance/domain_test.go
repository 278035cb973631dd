package chance

import (
	"math"
	"math/rand"
	"testing"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

// TestDomains: asked outside its domain a function answers NaN, and on the ends
// of it what the limit is.
func TestDomains(t *testing.T) {
	half := []float64{0.5}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"normal cdf", NormalCDF(nan), nan}, {"normal cdf", NormalCDF(inf), 1}, {"normal survival", NormalSurvival(-inf), 1},
		{"normal quantile", NormalQuantile(nan), nan}, {"normal quantile", NormalQuantile(-1e-9), nan}, {"normal quantile", NormalQuantile(1 + 1e-9), nan},
		{"normal quantile", NormalQuantile(0), -inf}, {"normal quantile", NormalQuantile(1), inf}, {"normal quantile", NormalQuantile(0.5), 0},
		{"lognormal quantile", LogNormalQuantile(0.5, 2, 0), math.Exp(2)}, {"lognormal quantile", LogNormalQuantile(0.5, 2, -1e-9), nan},
		{"lognormal quantile", LogNormalQuantile(1.1, 2, 1), nan}, {"lognormal quantile", LogNormalQuantile(0.5, 2, 0.1), math.Exp(2)},

		{"gamma cdf", GammaCDF(nan, 1), nan}, {"gamma cdf", GammaCDF(-1e-9, 1), nan}, {"gamma cdf", GammaCDF(1, 0), nan}, {"gamma cdf", GammaCDF(0, 2), 0}, {"gamma cdf", GammaCDF(inf, 2), 1},
		{"gamma survival", GammaSurvival(nan, 1), nan}, {"gamma survival", GammaSurvival(-1e-9, 1), nan}, {"gamma survival", GammaSurvival(1, 0), nan}, {"gamma survival", GammaSurvival(0, 2), 1}, {"gamma survival", GammaSurvival(inf, 2), 0},
		{"gamma quantile", GammaQuantile(0.5, 0), nan}, {"gamma quantile", GammaQuantile(-0.1, 1), nan}, {"gamma quantile", GammaQuantile(1.1, 1), nan}, {"gamma quantile", GammaQuantile(0, 1), 0}, {"gamma quantile", GammaQuantile(1, 1), inf},
		{"chi-squared cdf", ChiSquaredCDF(nan, 1), nan}, {"chi-squared survival", ChiSquaredSurvival(1, 0), nan}, {"chi-squared quantile", ChiSquaredQuantile(0.5, 0), nan},

		{"beta cdf", BetaCDF(nan, 1, 1), nan}, {"beta cdf", BetaCDF(-1e-9, 1, 1), nan}, {"beta cdf", BetaCDF(1+1e-9, 1, 1), nan}, {"beta cdf", BetaCDF(0.5, 0, 1), nan}, {"beta cdf", BetaCDF(0.5, 1, 0), nan},
		{"beta cdf", BetaCDF(0, 0.5, 0.5), 0}, {"beta cdf", BetaCDF(1, 0.5, 0.5), 1}, {"beta cdf", BetaCDF(0.25, 1, 1), 0.25},
		{"beta quantile", BetaQuantile(nan, 1, 1), nan}, {"beta quantile", BetaQuantile(-1e-9, 1, 1), nan}, {"beta quantile", BetaQuantile(1+1e-9, 1, 1), nan}, {"beta quantile", BetaQuantile(0.5, 0, 1), nan}, {"beta quantile", BetaQuantile(0.5, 1, 0), nan},
		{"beta quantile", BetaQuantile(0.25, 0.5, 0.5), math.Pow(math.Sin(math.Pi/8), 2)}, // the arcsine distribution
		{"beta quantile", BetaQuantile(0.3, 1, 1), 0.3}, {"beta quantile", BetaQuantile(0, 1, 1), 0}, {"beta quantile", BetaQuantile(1, 1, 1), 1},

		{"t cdf", TCDF(nan, 1), nan}, {"t cdf", TCDF(1, 0), nan}, {"t cdf", TCDF(inf, 1), 1}, {"t cdf", TCDF(-inf, 1), 0}, {"t cdf", TCDF(1, inf), NormalCDF(1)}, {"t cdf", TCDF(1, 1), 0.75}, {"t cdf", TCDF(0, 0.3), 0.5},
		{"t survival", TSurvival(nan, 1), nan}, {"t survival", TSurvival(1, 0), nan}, {"t survival", TSurvival(1, 1), 0.25},
		{"t two-sided", TTwoSided(nan, 1), nan}, {"t two-sided", TTwoSided(1, 0), nan}, {"t two-sided", TTwoSided(-1, 1), 0.5},
		{"t quantile", TQuantile(nan, 1), nan}, {"t quantile", TQuantile(-1e-9, 1), nan}, {"t quantile", TQuantile(1+1e-9, 1), nan}, {"t quantile", TQuantile(0.5, 0), nan}, {"t quantile", TQuantile(0.75, 1), 1}, {"t quantile", TQuantile(1, 1), inf}, {"t quantile", TQuantile(0, 1), -inf}, {"t quantile", TQuantile(0.5, 1), 0},
		{"F cdf", FCDF(nan, 1, 1), nan}, {"F cdf", FCDF(-1e-9, 1, 1), nan}, {"F cdf", FCDF(1, 0, 1), nan}, {"F cdf", FCDF(1, 1, 0), nan}, {"F cdf", FCDF(inf, 1, 1), 1}, {"F cdf", FCDF(0, 1, 1), 0},
		{"F survival", FSurvival(nan, 1, 1), nan}, {"F survival", FSurvival(-1e-9, 1, 1), nan}, {"F survival", FSurvival(1, 0, 1), nan}, {"F survival", FSurvival(1, 1, 0), nan}, {"F survival", FSurvival(inf, 1, 1), 0}, {"F survival", FSurvival(0, 1, 1), 1},
		{"F quantile", FQuantile(0.5, 0, 1), nan}, {"F quantile", FQuantile(0.5, 1, 0), nan}, {"F quantile", FQuantile(2, 1, 1), nan}, {"F quantile", FQuantile(0.5, 1, 1), 1}, {"F quantile", FQuantile(1, 1, 1), inf},

		{"noncentral t", NoncentralTCDF(nan, 3, 1), nan}, {"noncentral t", NoncentralTCDF(1, 1-1e-9, 1), nan}, {"noncentral t", NoncentralTCDF(1, 3, 37+1e-9), nan}, {"noncentral t", NoncentralTCDF(1, 3, -37-1e-9), nan},
		{"noncentral t", NoncentralTCDF(1, inf, 0.5), NormalCDF(0.5)}, {"noncentral t", NoncentralTCDF(-50, 3, 37), 0},
		{"range", StudentizedRangeCDF(nan, 3, 3), nan}, {"range", StudentizedRangeCDF(1, 2-1e-9, 3), nan}, {"range", StudentizedRangeCDF(1, 200+1e-9, 3), nan}, {"range", StudentizedRangeCDF(1, 3, 1-1e-9), nan},
		{"range", StudentizedRangeCDF(0, 3, 3), 0}, {"range", StudentizedRangeCDF(-1, 3, 3), 0}, {"range", StudentizedRangeCDF(inf, 3, 3), 1}, {"range of two", StudentizedRangeCDF(1, 2, inf), 1 - 2*NormalSurvival(1/math.Sqrt2)},
		{"range of two", StudentizedRangeCDF(3, 2, 5), 1 - TTwoSided(3/math.Sqrt2, 5)}, {"range of two", StudentizedRangeCDF(5, 2, 1), 1 - TTwoSided(5/math.Sqrt2, 1)},
		{"range quantile", StudentizedRangeQuantile(0.9, 2, 5), math.Sqrt2 * TQuantile(0.95, 5)}, {"range quantile", StudentizedRangeQuantile(0, 3, 3), 0},
		{"range quantile", StudentizedRangeQuantile(0.999999+1e-9, 3, 3), nan}, {"range quantile", StudentizedRangeQuantile(-1e-9, 3, 3), nan}, {"range quantile", StudentizedRangeQuantile(0.5, 1, 3), nan}, {"range quantile", StudentizedRangeQuantile(0.5, 200+1e-9, 3), nan}, {"range quantile", StudentizedRangeQuantile(0.5, 3, 1-1e-9), nan}, {"range quantile of two", StudentizedRangeQuantile(0.9, 2, 1), math.Sqrt2 * TQuantile(0.95, 1)},
		{"Dunnett", DunnettCDF(nan, half, 3), nan}, {"Dunnett", DunnettCDF(1, nil, 3), nan}, {"Dunnett", DunnettCDF(1, []float64{0}, 3), nan}, {"Dunnett", DunnettCDF(1, []float64{0.3, 1}, 3), nan}, {"Dunnett", DunnettCDF(1, half, 1-1e-9), nan},
		{"Dunnett", DunnettCDF(0, half, 3), 0}, {"Dunnett", DunnettCDF(-1, half, 3), 0}, {"Dunnett of one", DunnettCDF(1.7, half, 3), 1 - TTwoSided(1.7, 3)}, {"Dunnett of one", DunnettCDF(1.7, half, inf), 1 - 2*NormalSurvival(1.7)}, {"Dunnett of one", DunnettCDF(0.4, half, 1), 1 - TTwoSided(0.4, 1)},
		{"Dunnett quantile", DunnettQuantile(0.9, half, 5), TQuantile(0.95, 5)}, {"Dunnett quantile", DunnettQuantile(0.999999+1e-9, half, 5), nan}, {"Dunnett quantile", DunnettQuantile(-1e-9, half, 5), nan}, {"Dunnett quantile", DunnettQuantile(0.9, nil, 5), nan}, {"Dunnett quantile", DunnettQuantile(0, half, 5), 0},

		{"binomial", BinomialProbability(1, 2.5, 0.5), nan}, {"binomial", BinomialProbability(1, -1, 0.5), nan}, {"binomial", BinomialProbability(1, 2, 1.1), nan}, {"binomial", BinomialProbability(1, 2, -1e-9), nan}, {"binomial", BinomialProbability(nan, 2, 0.5), nan},
		{"binomial", BinomialProbability(3, 2, 0.5), 0}, {"binomial", BinomialProbability(0.5, 2, 0.5), 0}, {"binomial", BinomialProbability(-1, 2, 0.5), 0}, {"binomial", BinomialProbability(1, 2, 0.5), 0.5}, {"binomial", BinomialProbability(0, 0, 0.5), 1},
		{"binomial cdf", BinomialCDF(1, 2.5, 0.5), nan}, {"binomial cdf", BinomialCDF(nan, 2, 0.5), nan}, {"binomial cdf", BinomialCDF(1, 2, 1.1), nan}, {"binomial cdf", BinomialCDF(1, 2, -1e-9), nan}, {"binomial cdf", BinomialCDF(-0.5, 2, 0.5), 0}, {"binomial cdf", BinomialCDF(2, 2, 0.5), 1}, {"binomial cdf", BinomialCDF(1.9, 2, 0.5), 0.75}, {"binomial cdf", BinomialCDF(0, 2, 0.5), 0.25},
		{"Poisson", PoissonProbability(nan, 1), nan}, {"Poisson", PoissonProbability(1, -1e-9), nan}, {"Poisson", PoissonProbability(1, inf), nan}, {"Poisson", PoissonProbability(0.5, 1), 0}, {"Poisson", PoissonProbability(-1, 1), 0},
		{"Poisson cdf", PoissonCDF(nan, 1), nan}, {"Poisson cdf", PoissonCDF(1, -1e-9), nan}, {"Poisson cdf", PoissonCDF(1, inf), nan}, {"Poisson cdf", PoissonCDF(-0.5, 1), 0}, {"Poisson cdf", PoissonCDF(inf, 1), 1}, {"Poisson cdf", PoissonCDF(0.5, 1), math.Exp(-1)}, {"Poisson cdf", PoissonCDF(0, 1), math.Exp(-1)},
		{"hypergeometric", HypergeometricProbability(nan, 3, 2, 2), nan}, {"hypergeometric", HypergeometricProbability(1, 2.5, 2, 2), nan}, {"hypergeometric", HypergeometricProbability(1, 3, -1, 2), nan}, {"hypergeometric", HypergeometricProbability(1, 3, 2, 6), nan}, {"hypergeometric", HypergeometricProbability(1, 3, 2, 0.5), nan},
		{"hypergeometric", HypergeometricProbability(0.5, 3, 2, 2), 0}, {"hypergeometric", HypergeometricProbability(4, 3, 2, 4), 0}, {"hypergeometric", HypergeometricProbability(2, 3, 2, 1), 0}, {"hypergeometric", HypergeometricProbability(0, 3, 2, 3), 0}, {"hypergeometric", HypergeometricProbability(1, 1, 1, 1), 0.5},
		{"hypergeometric cdf", HypergeometricCDF(nan, 3, 2, 2), nan}, {"hypergeometric cdf", HypergeometricCDF(-1, 3, 2, 2), 0}, {"hypergeometric cdf", HypergeometricCDF(9, 3, 2, 2), 1}, {"hypergeometric cdf", HypergeometricCDF(1.5, 1, 1, 1), 1}, {"hypergeometric cdf", HypergeometricCDF(1.5, 3, 2, 2), 0.7}, {"hypergeometric cdf", HypergeometricCDF(2, 3, 2, 2), 1}, {"hypergeometric cdf", HypergeometricCDF(2.5e8-1, 5e8, 5e8, 2.5e8), 1}, {"hypergeometric cdf", HypergeometricCDF(1, 5e8, 5e8, 2.5e8), 0},
	} {
		if !same(c.got, c.want) {
			t.Errorf("%s is %v, want %v", c.name, c.got, c.want)
		}
	}
}

// same compares to nine digits; NaN equals NaN and infinities themselves.
func same(a, b float64) bool {
	if math.IsNaN(b) || math.IsInf(b, 0) {
		return math.IsNaN(a) && math.IsNaN(b) || a == b
	}
	return math.Abs(a-b) <= 1e-9*math.Max(1e-3, math.Abs(b))
}

// TestQuantilesInvert: below its quantile a distribution has just that chance.
func TestQuantilesInvert(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 1000 {
		p, a, b := r.Float64(), 0.3+20*r.Float64(), 0.3+20*r.Float64()
		for name, back := range map[string]float64{
			"normal": NormalCDF(NormalQuantile(p)), "t": TCDF(TQuantile(p, a), a), "F": FCDF(FQuantile(p, a, b), a, b),
			"chi-squared": ChiSquaredCDF(ChiSquaredQuantile(p, a), a), "beta": BetaCDF(BetaQuantile(p, a, b), a, b), "gamma": GammaCDF(GammaQuantile(p, a), a),
		} {
			if !(math.Abs(back-p) <= 1e-9) {
				t.Fatalf("%s: %v comes back as %v (%v, %v)", name, p, back, a, b)
			}
		}
	}
}

// TestNormalQuantileFarOut holds it to roots found with 40 digits by mpmath 1.3
// (Johansson and others), and back through the distribution.
func TestNormalQuantileFarOut(t *testing.T) {
	for p, x := range map[float64]float64{
		0.49: -0.025068908258711035762, 0.3: -0.52440051270804078404, 0.025: -1.9599639845400542355, 1e-4: -3.7190164854556805644, 1e-9: -5.9978070150076868716, 1e-15: -7.941345326170996781, 1e-17: -8.4937932241095980744, 1e-20: -9.2623400897984075737, 1e-100: -21.273453560965324295, 1e-300: -37.047096299361199237,
	} {
		if got := NormalQuantile(p); !(math.Abs(got-x) <= 2e-15*math.Max(1, -x)) {
			t.Errorf("quantile at %v is %v, not %v", p, got, x)
		}
	}
	r := rand.New(rand.NewSource(3))
	for range 1000 {
		x := -37 * r.Float64()
		if back := NormalQuantile(NormalCDF(x)); !(math.Abs(back-x) <= 1e-13*math.Max(1, -x)) {
			t.Fatalf("%v comes back as %v", x, back)
		}
	}
}

// TestTailsAdd: what lies below and what lies above make one, and the density
// is the slope of the distribution.
func TestTailsAdd(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 1000 {
		x, a, b := 10*r.Float64(), 0.3+20*r.Float64(), 0.3+20*r.Float64()
		for name, sum := range map[string]float64{
			"gamma": GammaCDF(x, a) + GammaSurvival(x, a), "chi-squared": ChiSquaredCDF(x, a) + ChiSquaredSurvival(x, a), "F": FCDF(x, a, b) + FSurvival(x, a, b), "t": TCDF(x, a) + TSurvival(x, a),
			"normal": NormalCDF(x) + NormalSurvival(x), "mirror": TCDF(x, a) + TCDF(-x, a), "beta": BetaCDF(x/10, a, b) + BetaCDF(1-x/10, b, a),
		} {
			if !(math.Abs(sum-1) <= 1e-12) {
				t.Fatalf("%s: tails add to %v at %v (%v, %v)", name, sum, x, a, b)
			}
		}
		const h = 1e-4
		slope := (NormalCDF(x-5+h) - NormalCDF(x-5-h)) / (2 * h)
		if !(math.Abs(slope-NormalDensity(x-5)) <= 1e-8) {
			t.Fatalf("density at %v is %v, slope %v", x-5, NormalDensity(x-5), slope)
		}
	}
}

// TestEqualLambda: as many beds under a treatment as under the control.
func TestEqualLambda(t *testing.T) {
	for _, l := range EqualLambda(3) {
		if !same(l, math.Sqrt(0.5)) {
			t.Errorf("lambda is %v", l)
		}
	}
	if len(EqualLambda(3)) != 3 {
		t.Error("one number a treatment")
	}
}

// TestGaussRule: sixteen points integrate powers up to the 31st exactly.
func TestGaussRule(t *testing.T) {
	for power := 0.0; power < 32; power++ {
		got := 0.0
		nodes(0, 1, 1, func(x, weight float64) { got += weight * math.Pow(x, power) })
		if !(math.Abs(got*(power+1)-1) <= 1e-13) {
			t.Errorf("power %v integrates to %v", power, got)
		}
	}
}

// TestNeverAboveOne: a chance stays a chance, far out too.
func TestNeverAboveOne(t *testing.T) {
	for _, df := range []float64{1, 2, 5, 17, 60, 300, 5000} {
		for _, q := range []float64{30, 300, 1e6} {
			if p := StudentizedRangeCDF(q, 5, df); p > 1 {
				t.Errorf("range %v with %v: %v", q, df, p-1)
			}
			if p := DunnettCDF(q, EqualLambda(4), df); p > 1 {
				t.Errorf("Dunnett %v with %v: %v", q, df, p-1)
			}
		}
	}
	for marked := 1.0; marked < 10; marked++ {
		for plain := 1.0; plain < 10; plain++ {
			if p := HypergeometricCDF(marked, marked, plain, marked+1); p > 1 {
				t.Errorf("hypergeometric of %v and %v: %v", marked, plain, p-1)
			}
		}
	}
}

// TestRangesOfInputs pins what may be asked.
func TestRangesOfInputs(t *testing.T) {
	type span struct{ low, high float64 }
	value, positive, share := span{-1e15, 1e15}, span{0, 1e15}, span{0, 1}
	usual := map[string]span{
		"x": positive, "t": value, "q": positive, "f": positive, "p": {1e-300, 1 - 1e-12}, "df": {0.01, 1e9}, "df1": {0.01, 1e9}, "df2": {0.01, 1e9},
		"v": {1, 1e9}, "k": {2, 200}, "a": {1e-6, 1e9}, "b": {1e-6, 1e9}, "shape": {1e-6, 1e9}, "shift": {-37, 37}, "n": {0, 1e9}, "mean": {0, 1e9},
		"marked": {0, 1e9}, "plain": {0, 1e9}, "drawn": {0, 1e9},
		"studentized_range_quantile.p": {1e-300, 0.999999}, "dunnett_quantile.p": {1e-300, 0.999999},
		"normal_survival.x": value, "normal_density.x": value, "lognormal_quantile.mean": {-300, 300}, "sd": {0, 10},
		"gamma_quantile.shape": {0.001, 1e6}, "beta_quantile.a": {0.001, 1e6}, "beta_quantile.b": {0.001, 1e6},
		"normal_cdf.x": value, "beta_cdf.x": share, "noncentral_t_cdf.df": {1, 1e9}, "dunnett_cdf.t": positive, "dunnett_cdf.k": {1, 200}, "dunnett_quantile.k": {1, 200},
		"binomial_probability.x": {0, 1e9}, "binomial_cdf.x": {0, 1e9}, "poisson_probability.x": {0, 1e9}, "poisson_cdf.x": {0, 1e9},
		"hypergeometric_probability.x": {0, 1e9}, "hypergeometric_cdf.x": {0, 1e9}, "binomial_probability.p": share, "binomial_cdf.p": share,
	}
	for _, f := range Formulas {
		for _, input := range f.Inputs {
			want, own := usual[f.Name+"."+input.Name]
			if !own {
				want = usual[input.Name]
			}
			if got := (span{input.Low, input.High}); got != want {
				t.Errorf("%s of %s from %v to %v, want %v", input.Name, f.Name, got.low, got.high, want)
			}
		}
	}
}

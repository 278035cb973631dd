package chance

import (
	"math"
	"math/rand"
	"slices"
	"testing"
)

// TestHalving: between two powers of two lie 2^52 floats, which 52 halvings
// tell apart.
func TestHalving(t *testing.T) {
	asked := 0
	x := Root(0.25, 0.5, func(x float64) float64 {
		asked++
		return x - 1.0/3
	})
	if asked != 52 || !(math.Abs(x-1.0/3) <= 1e-16) {
		t.Errorf("%v after %d", x, asked)
	}
}

// TestDoubling: the stretch looked at is 1, then twice as long each time.
func TestDoubling(t *testing.T) {
	for name, search := range map[string]func(f func(float64) float64) float64{
		"RootAbove": func(f func(float64) float64) float64 { return RootAbove(0, f) }, "soonRoot": soonRoot,
	} {
		var asked []float64
		x := search(func(x float64) float64 {
			asked = append(asked, x)
			return x - 5
		})
		if x != 5 || !slices.Equal(slices.DeleteFunc(asked, func(x float64) bool { return x == 0 })[:4], []float64{1, 2, 4, 8}) {
			t.Errorf("%s: %v after %v", name, x, asked)
		}
	}
}

// TestSmallTailsAreSolvedFor: the quantile of an exponential value at 1-2^-40
// is 40 ln 2, and the chance itself has not the digits to say so.
func TestSmallTailsAreSolvedFor(t *testing.T) {
	if got, want := GammaQuantile(1-math.Exp2(-40), 1), 40*math.Ln2; !(math.Abs(got-want) <= 1e-12*want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// TestWhole: above 2^53 floats have gaps of more than one.
func TestWhole(t *testing.T) {
	if most := math.Exp2(53); !whole(most) || whole(most+2) || whole(0.5) || whole(-1) || !whole(0) {
		t.Error("whole")
	}
}

// TestFarOut holds the quadratures against closed forms, far out and with few
// degrees of freedom: the range of two is a difference, which Student's t
// tells; and with two degrees of freedom the noncentral t comes to, integrated
// by parts with root = sqrt(t^2+2),
//
//	Phi(-shift) + t/root exp(-shift^2/root^2) Phi(t shift/root).
func TestFarOut(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 1000 {
		far, shift := math.Pow(10, 6*r.Float64()), 74*r.Float64()-37
		root := math.Sqrt(far*far + 2)
		want := NormalCDF(-shift) + far/root*math.Exp(-shift*shift/(root*root))*NormalCDF(far*shift/root)
		if got := NoncentralTCDF(far, 2, shift); !(math.Abs(got-want) <= 1e-11) {
			t.Fatalf("noncentral t of %v, shift %v: %v, want %v", far, shift, got, want)
		}
	}
	for range 100 {
		far, df := math.Pow(10, 6*r.Float64()), math.Pow(10, 3*r.Float64())
		if got, want := StudentizedRangeCDF(far, 2, df), 1-TTwoSided(far/math.Sqrt2, df); !(math.Abs(got-want) <= 1e-11) {
			t.Fatalf("range of two of %v with %v: %v, want %v", far, df, got, want)
		}
	}
}

// TestSpread: s^2 has the mean 1 and s^4 the mean 1+2/df, since df*s^2 is
// chi-squared, of mean df and variance 2 df; and some range is certain.
func TestSpread(t *testing.T) {
	for _, df := range []float64{1, 1.5, 2, 3, 5, 10, 30, 1e3, 1e6, 1e9} {
		square := overSpread(df, 2, func(s float64) float64 { return s * s })
		fourth := overSpread(df, 2, func(s float64) float64 { return s * s * s * s })
		if !(math.Abs(square-1) <= 1e-9) || !(math.Abs(fourth/(1+2/df)-1) <= 1e-8) {
			t.Errorf("with %v: %v, %v", df, square-1, fourth/(1+2/df)-1)
		}
	}
	for k := 2.0; k <= 200; k++ {
		if whole := rangeCDF(100, k); !(math.Abs(whole-1) <= 1e-9) {
			t.Errorf("%v of them: %v", k, whole-1)
		}
	}
}

package pool

import (
	"errors"
	"math"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

// The fifteen p values of Benjamini & Hochberg 1995, section 4.1 (from memory):
// at 0.05 the first four are discoveries, where the equal share for each
// (Bonferroni) finds three.
var thrombolysis = []float64{0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1}

func TestDiscoveriesOfThePaper(t *testing.T) {
	found, err := Discoveries(thrombolysis, 0.05)
	if err != nil || !slices.Equal(found, append([]bool{true, true, true, true}, make([]bool, 11)...)) {
		t.Errorf("%v, %v", found, err)
	}
	turned := slices.Clone(thrombolysis)
	slices.Reverse(turned)
	if found, err := Discoveries(turned, 0.05); err != nil || !slices.Equal(found, append(make([]bool, 11), true, true, true, true)) {
		t.Errorf("in another order: %v, %v", found, err)
	}
}

// A later rank carries the earlier ones with it: 0.04 alone would not do at 0.025.
func TestDiscoveriesAreSteppedUp(t *testing.T) {
	for _, c := range []struct {
		p    []float64
		want int
	}{{[]float64{0.04, 0.045}, 2}, {[]float64{0.04, 0.06}, 0}, {[]float64{0.05}, 1}, {[]float64{0.0501}, 0}} {
		found, err := Discoveries(c.p, 0.05)
		n := 0
		for _, f := range found {
			if f {
				n++
			}
		}
		if err != nil || n != c.want {
			t.Errorf("%v: %d, %v", c.p, n, err)
		}
	}
}

func TestDiscoveriesRefuse(t *testing.T) {
	for _, c := range []struct {
		p     []float64
		share quantity.Fraction
	}{{nil, 0.1}, {[]float64{-0.1}, 0.1}, {[]float64{1.1}, 0.1}, {[]float64{math.NaN()}, 0.1}, {[]float64{0.5}, 0}, {[]float64{0.5}, 0.00009}, {[]float64{0.5}, 0.6}} {
		var out *quantity.RangeError
		if found, err := Discoveries(c.p, c.share); found != nil || !errors.As(err, &out) {
			t.Errorf("%v at %v: %v, %v", c.p, c.share, found, err)
		}
	}
}

// As few false ones as one in ten thousand, and as many as half, can be asked for.
func TestSharesOfFalseDiscoveries(t *testing.T) {
	for _, share := range []quantity.Fraction{0.0001, 0.5} {
		if found, err := Discoveries([]float64{float64(share)}, share); err != nil || !found[0] {
			t.Errorf("at %v: %v, %v", share, found, err)
		}
	}
}

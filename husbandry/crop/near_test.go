package crop

import (
	"math"
	"math/rand/v2"
	"testing"
)

// near checks a value to a share of itself.
func near[T ~float64](t *testing.T, name string, got T, err error, want, share float64) {
	t.Helper()
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	if off := math.Abs(float64(got) - want); !(off <= share*math.Max(math.Abs(want), 1e-12)) {
		t.Errorf("%s: got %v, want %v", name, float64(got), want)
	}
}

// same checks a value to the rounding of floating point.
func same[T ~float64](t *testing.T, name string, got T, err error, want float64) {
	t.Helper()
	near(t, name, got, err, want, 1e-9)
}

// someCases is the number of random cases of each property.
const someCases = 1000

func seeded() *rand.Rand { return rand.New(rand.NewPCG(1, 2)) }

// between returns a random number in a range.
func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

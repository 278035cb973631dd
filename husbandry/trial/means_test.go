package trial

import (
	"math"
	"testing"
)

// near reports values that differ by more than a relative tolerance.
func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s is %.12g, want %.12g", name, got, want)
	}
}

// sleep data of Student 1908 as printed in the help of R's t.test.
var (
	drug1 = []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
	drug2 = []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
)

func TestWelchSleep(t *testing.T) {
	c, err := Welch(drug1, drug2, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "t", c.T, -1.8608, 5e-5)
	near(t, "df", c.DF, 17.776, 5e-5)
	near(t, "p", c.P, 0.07939, 1e-4)
	near(t, "low", c.Low, -3.3654832, 1e-7)
	near(t, "high", c.High, 0.2054832, 1e-6)
}

func TestBedsNeeded(t *testing.T) {
	// R 4.2.2 power.t.test(delta=120, sd=80, power=0.8)
	b, err := BedsNeeded(120, 80, 0.8, 0.05, TwoGroups)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "exact beds", b.Exact, 8.06030909053, 1e-6)
	if b.Each != 9 {
		t.Errorf("beds each %d, want 9", b.Each)
	}
}

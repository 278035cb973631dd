package outlook

import (
	"errors"
	"math"
	"testing"
	"testing/quick"

	"freshet.example/husbandry/quantity"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.12g, want %.12g within %g", what, got, want, within)
	}
}

// TestChainKeepsNitrogen: with nothing taken away the three pools rise by what
// was fed, at any rates.
func TestChainKeepsNitrogen(t *testing.T) {
	holds := func(a, b uint8, feed uint8) bool {
		c := Chain{Feed: float64(feed) / 100, First: float64(a) / 10, Second: float64(b) / 10}
		y, err := c.After(Pools{1, 2, 3}, 36)
		sum := float64(y.Ammonia) + float64(y.Nitrite) + float64(y.Nitrate)
		return err == nil && math.Abs(sum-6-36*c.Feed) < 1e-9
	}
	if err := quick.Check(holds, nil); err != nil {
		t.Error(err)
	}
}

func TestChainRefusals(t *testing.T) {
	for _, c := range []Chain{{Feed: -1}, {First: 101}, {Second: math.NaN()}, {Dilution: -0.1}, {Uptake: math.Inf(1)}, {Feed: 1001}} {
		var outside *quantity.RangeError
		if _, err := c.After(Pools{}, 1); !errors.As(err, &outside) {
			t.Errorf("%+v was taken", c)
		}
	}
	var unsteady *UnsteadyError
	if _, err := (Chain{Feed: 1, First: 1, Second: 1}).Steady(); !errors.As(err, &unsteady) {
		t.Errorf("nitrate that nothing takes comes to rest: %v", err)
	}
	for _, p := range []Pools{{0, 1, 0}, {1, 2, 0}} {
		if at, high, err := (Chain{First: 0.1, Second: 0.2}).NitritePeak(p); !errors.As(err, &unsteady) || at != 0 || high != 0 {
			t.Errorf("falling nitrite has a peak: %v, %v, %v", at, high, err)
		}
	}
	// From nothing, nitrite only rises to where it stays.
	if at, high, err := (Chain{Feed: 1, First: 0.1, Second: 0.2}).NitritePeak(Pools{}); !errors.As(err, &unsteady) || at != 0 || high != 0 {
		t.Errorf("nitrite that only rises has a peak at %v", at)
	}
	var outside *quantity.RangeError
	if at, high, err := (Chain{First: -1}).NitritePeak(Pools{}); !errors.As(err, &outside) || at != 0 || high != 0 {
		t.Errorf("%v, %v, %v", at, high, err)
	}
	// A late peak, by the textbook: ln(k1/k2)/(k1-k2) after a pulse.
	at, _, _ := (Chain{First: 0.0001, Second: 10}).NitritePeak(Pools{Ammonia: 1})
	near(t, "late peak", float64(at), math.Log(0.0001/10)/(0.0001-10), 1e-9)
	at, _, err := (Chain{First: 0.3, Second: 0.00001}).NitritePeak(Pools{Ammonia: 1})
	near(t, "later peak", float64(at), math.Log(0.3/0.00001)/(0.3-0.00001), 1e-6)
	if err != nil {
		t.Error(err)
	}
}

// TestSaturatingNearsTheChain: far below half speed the two are the same.
func TestSaturatingNearsTheChain(t *testing.T) {
	s := Saturating{Feed: 0.05, FirstSpeed: 800, FirstHalf: 10_000, SecondSpeed: 900, SecondHalf: 10_000, Uptake: 0.003}
	c := Chain{Feed: 0.05, First: 0.08, Second: 0.09, Uptake: 0.003}
	a, err := s.After(Pools{1, 0.2, 10}, 24)
	b, other := c.After(Pools{1, 0.2, 10}, 24)
	if err != nil || other != nil {
		t.Fatal(err, other)
	}
	near(t, "ammonia", float64(a.Ammonia), float64(b.Ammonia), 2e-4)
	near(t, "nitrite", float64(a.Nitrite), float64(b.Nitrite), 2e-4)
	near(t, "nitrate", float64(a.Nitrate), float64(b.Nitrate), 2e-4)
	var unsteady *UnsteadyError
	for _, s := range []Saturating{
		{Feed: 0.2, FirstSpeed: 0.2, FirstHalf: 1, SecondSpeed: 1, SecondHalf: 1, Uptake: 1},
		{Feed: 0.2, FirstSpeed: 1, FirstHalf: 1, SecondSpeed: 0.1, SecondHalf: 1, Uptake: 1},
		{Feed: 0.2, FirstSpeed: 1, FirstHalf: 1, SecondSpeed: 1, SecondHalf: 1},
	} {
		if _, err := s.Steady(); !errors.As(err, &unsteady) {
			t.Errorf("%+v comes to rest", s)
		}
	}
}

// TestLambert: w + ln w = x, from far below to far above 0.
func TestLambert(t *testing.T) {
	for _, x := range []float64{-700, -40, -3, -0.5, 0, 0.3, 1, 2, 5, 30, 1e3, 1e6} {
		w := lambert(x)
		near(t, "w + ln w", w+math.Log(w), x, 1e-12*math.Max(1, math.Abs(x)))
	}
	if left, err := Left(0, 1, 1, 5); left != 0 || err != nil {
		t.Errorf("%v of nothing is left: %v", left, err)
	}
}

// TestDailyTankByHand: water of one time constant in air that does not swing.
func TestDailyTankByHand(t *testing.T) {
	d := DailyTank{Volume: 1, Density: 1000, Heat: 4000, Loss: 4e6 / 3600, AirMean: 10, Start: 20} // 1 h
	at, err := d.After(1)
	near(t, "after one constant", float64(at), 10+10/math.E, 1e-12)
	w, other := d.PowerFor(5)
	if err != nil || other != nil || w != 0 {
		t.Errorf("air of 10 degC needs %v W for 5 degC: %v %v", w, err, other)
	}
	// Always at the top at the lag after the air's own top, six hours after rising.
	d.AirSwing, d.Rising, d.Start = 8, 3, 10
	s, err := d.Swing()
	if err != nil {
		t.Fatal(err)
	}
	top, err := d.After(24*40 + 3 + 6 + s.Lag)
	near(t, "top", float64(top), 10+s.Amplitude, 1e-9)
	if err != nil {
		t.Error(err)
	}
}

// TestExponentialOfASquare against the ordinary exponential on the diagonal.
func TestExponentialOfASquare(t *testing.T) {
	e := square{{1}, {0, -30}, {0, 0, 0.25}, {0, 0, 0, -0.5}}.exponential()
	for i, x := range []float64{1, -30, 0.25, -0.5} {
		near(t, "exponential", e[i][i]/math.Exp(x), 1, 1e-12)
	}
}

// TestEachStepMustTakeAway: each of the three ways out must take something
// away, ammonia's and nitrite's too.
func TestEachStepMustTakeAway(t *testing.T) {
	for _, c := range []Chain{{Feed: 1, Second: 1, Uptake: 1}, {Feed: 1, First: 1, Uptake: 1}, {Feed: 1, First: 1, Second: 1}} {
		var unsteady *UnsteadyError
		if at, err := c.Steady(); !errors.As(err, &unsteady) || at != (Pools{}) {
			t.Errorf("%+v: %v, %v", c, at, err)
		}
	}
	at, err := (Chain{Feed: 0.1, First: 0.5, Second: 0.25, Uptake: 0.125}).Steady()
	if err != nil || at != (Pools{Ammonia: 0.2, Nitrite: 0.4, Nitrate: 0.8}) {
		t.Error(at, err)
	}
}

// TestNoTankBesideARefusal: what is refused has no temperature and no heater.
func TestNoTankBesideARefusal(t *testing.T) {
	var outside *quantity.RangeError
	if at, err := (DailyTank{}).After(1); !errors.As(err, &outside) || at != 0 {
		t.Error(at, err)
	}
	if power, err := (DailyTank{}).PowerFor(20); !errors.As(err, &outside) || power != 0 {
		t.Error(power, err)
	}
}

package outlook

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Pools are the three dissolved forms of nitrogen in one mixed water, mg/L as N.
type Pools struct {
	Ammonia quantity.AmmoniaN
	Nitrite quantity.NitriteN
	Nitrate quantity.NitrateN
}

// A Chain turns ammonia to nitrite to nitrate, each step in proportion to what
// is there: fair where the water holds far less than the bacteria could take.
type Chain struct {
	Feed     float64 // ammonia set free, mg/L/h as N
	First    float64 // ammonia to nitrite, 1/h
	Second   float64 // nitrite to nitrate, 1/h
	Dilution float64 // water replaced, 1/h
	Uptake   float64 // nitrate taken by plants, 1/h
}

func (c Chain) check() error {
	return firstError(feedBound.check(c.Feed), rateBound.check(c.First), rateBound.check(c.Second), rateBound.check(c.Dilution), rateBound.check(c.Uptake))
}

func (p Pools) check() error {
	return firstError(poolBound.check(float64(p.Ammonia)), poolBound.check(float64(p.Nitrite)), poolBound.check(float64(p.Nitrate)))
}

// After returns the pools so many hours later. Feed 0 to 1000 mg/L/h, rates 0
// to 100 /h, pools 0 to 100,000 mg/L, 0 to 100,000 h.
func (c Chain) After(p Pools, hours quantity.Hours) (Pools, error) {
	if err := firstError(c.check(), p.check(), hoursBound.check(float64(hours))); err != nil {
		return Pools{}, err
	}
	return c.after(p, float64(hours)), nil
}

// after takes the exponential of the chain's matrix, with the feed as a fourth
// pool that never changes. The sum of exponentials of the textbooks divides by
// the difference of two rates, which may be 0.
func (c Chain) after(p Pools, hours float64) Pools {
	a := square{
		{-(c.First + c.Dilution) * hours, 0, 0, c.Feed * hours},
		{c.First * hours, -(c.Second + c.Dilution) * hours, 0, 0},
		{0, c.Second * hours, -(c.Uptake + c.Dilution) * hours, 0},
	}
	y := a.exponential().times(column{float64(p.Ammonia), float64(p.Nitrite), float64(p.Nitrate), 1})
	return Pools{quantity.AmmoniaN(y[0]), quantity.NitriteN(y[1]), quantity.NitrateN(y[2])}
}

// Steady returns the pools that the chain comes to: each step's rate must be
// above 0, or what flows into it never stops rising.
func (c Chain) Steady() (Pools, error) {
	if err := c.check(); err != nil {
		return Pools{}, err
	}
	out := [...]float64{c.First + c.Dilution, c.Second + c.Dilution, c.Uptake + c.Dilution}
	if min(out[0], out[1], out[2]) <= 0 {
		return Pools{}, &UnsteadyError{"a step that takes nothing away lets its pool rise for ever"}
	}
	ammonia := c.Feed / out[0]
	nitrite := c.rest()
	return Pools{quantity.AmmoniaN(ammonia), quantity.NitriteN(nitrite), quantity.NitrateN(c.Second * nitrite / out[2])}, nil
}

// An UnsteadyError says why there is nothing to come to rest at, or no peak.
type UnsteadyError struct{ Why string }

// Error says why.
func (e *UnsteadyError) Error() string { return e.Why }

// NitritePeak returns when nitrite is highest, and how high, or an
// UnsteadyError where it only rises or only falls.
func (c Chain) NitritePeak(p Pools) (quantity.Hours, quantity.NitriteN, error) {
	if err := firstError(c.check(), p.check()); err != nil {
		return 0, 0, err
	}
	slope := func(hours float64) float64 {
		y := c.after(p, hours)
		return c.First*float64(y.Ammonia) - (c.Second+c.Dilution)*float64(y.Nitrite)
	}
	const steps, farthest = 400, 40.0 // as many of the slowest step's own times
	slowest := math.Inf(1)
	for _, r := range []float64{c.First + c.Dilution, c.Second + c.Dilution} {
		if r > 0 {
			slowest = min(slowest, r)
		}
	}
	step := farthest / slowest / steps
	if slope(0) < 0 {
		return 0, 0, &UnsteadyError{"nitrite does not rise from here"}
	}
	low, high := 0.0, step
	for high <= farthest/slowest && slope(high) > 0 {
		low, high = high, high+step
	}
	at := bisect(low, high, slope)
	if peak := c.after(p, at).Nitrite; float64(peak) > c.rest()*(1+1e-9) {
		return quantity.Hours(at), peak, nil
	}
	return 0, 0, &UnsteadyError{"nitrite stays, or rises to where it stays, and has no peak"}
}

// rest is the nitrite that the chain comes to: a peak lies above it, and what rounding
// takes for a fall does not. It is no number where nothing takes nitrite away.
func (c Chain) rest() float64 {
	return c.First * c.Feed / (c.First + c.Dilution) / (c.Second + c.Dilution)
}

// bisect finds where a falling function passes 0 between two ends.
func bisect(low, high float64, f func(float64) float64) float64 {
	const halvings = 60 // to the last digit
	for range halvings {
		if middle := (low + high) / 2; f(middle) > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

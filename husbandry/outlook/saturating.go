package outlook

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Saturating is a chain whose steps have a greatest speed, as bacteria on a
// given surface have: v S / (K + S) (Monod 1949).
type Saturating struct {
	Feed                    float64 // ammonia set free, mg/L/h as N
	FirstSpeed, FirstHalf   float64 // greatest speed, mg/L/h, and ammonia at half of it, mg/L
	SecondSpeed, SecondHalf float64 // of nitrite to nitrate
	Uptake                  float64 // nitrate taken by plants, 1/h
}

func (s Saturating) check() error {
	return firstError(feedBound.check(s.Feed), speedBound.check(s.FirstSpeed), halfBound.check(s.FirstHalf),
		speedBound.check(s.SecondSpeed), halfBound.check(s.SecondHalf), rateBound.check(s.Uptake))
}

// slope is how fast the pools change, mg/L/h.
func (s Saturating) slope(y [3]float64) [3]float64 {
	first := s.FirstSpeed * y[0] / (s.FirstHalf + y[0])
	second := s.SecondSpeed * y[1] / (s.SecondHalf + y[1])
	return [3]float64{s.Feed - first, first - second, second - s.Uptake*y[2]}
}

// After returns the pools so many hours later, good to nine digits. Feed 0 to
// 1000 and speeds up to 1000 mg/L/h, halves up to 10,000 mg/L, uptake 0 to 100
// /h, pools 0 to 100,000 mg/L, 0 to 100,000 h.
func (s Saturating) After(p Pools, hours quantity.Hours) (Pools, error) {
	if err := firstError(s.check(), p.check(), hoursBound.check(float64(hours))); err != nil {
		return Pools{}, err
	}
	y := [3]float64{float64(p.Ammonia), float64(p.Nitrite), float64(p.Nitrate)}
	y, ok := integrate(s.slope, y, float64(hours))
	if !ok {
		return Pools{}, &UnsteadyError{"the steps are too fast for so long a time"}
	}
	return Pools{quantity.AmmoniaN(y[0]), quantity.NitriteN(y[1]), quantity.NitrateN(y[2])}, nil
}

// Steady returns the pools it comes to. Each step must be able to go faster
// than the feed, and plants must take nitrate.
func (s Saturating) Steady() (Pools, error) {
	if err := s.check(); err != nil {
		return Pools{}, err
	}
	if min(s.FirstSpeed, s.SecondSpeed) <= s.Feed || s.Uptake == 0 {
		return Pools{}, &UnsteadyError{"more comes in than the slowest step can take away"}
	}
	return Pools{
		quantity.AmmoniaN(s.Feed * s.FirstHalf / (s.FirstSpeed - s.Feed)),
		quantity.NitriteN(s.Feed * s.SecondHalf / (s.SecondSpeed - s.Feed)),
		quantity.NitrateN(s.Feed / s.Uptake),
	}, nil
}

// Left returns what is left of a substance, 0 to 100,000 mg/L, that is used up
// at a greatest speed and a half-speed concentration, after so many hours:
// K W(S0/K exp((S0 - V t)/K)), Lambert's W.
func Left(start quantity.MgPerL, speed float64, half quantity.MgPerL, hours quantity.Hours) (quantity.MgPerL, error) {
	if err := firstError(poolBound.check(float64(start)), speedBound.check(speed), halfBound.check(float64(half)), hoursBound.check(float64(hours))); err != nil {
		return 0, err
	}
	if start == 0 {
		return 0, nil
	}
	k := float64(half)
	logOf := math.Log(float64(start)/k) + (float64(start)-speed*float64(hours))/k
	return quantity.MgPerL(k * lambert(logOf)), nil
}

// lambert solves w + ln w = x for w by Newton's method in ln w, which cannot
// overflow where exp(x) would.
func lambert(x float64) float64 {
	const rounds = 8 // it takes six at most
	u := x
	if x > math.E {
		u = math.Log(x)
	}
	for range rounds {
		w := math.Exp(u)
		u -= (w + u - x) / (w + 1)
	}
	return math.Exp(u)
}

package chance

import "math"

// Root is where the rising function f passes zero between low and high, by
// halving until the two floats are neighbours: slow, and never wrong. It is low
// where f starts above zero, and high where it never gets there.
func Root(low, high float64, f func(float64) float64) float64 {
	for {
		mid := low + (high-low)/2
		if mid <= low || mid >= high {
			return mid
		}
		if f(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
}

// positiveQuantile inverts a distribution on the values above 0. The tail
// that holds the smaller chance is the one that is solved.
func positiveQuantile(p float64, cdf, survival func(float64) float64) float64 {
	switch {
	case !isChance(p):
		return math.NaN()
	case p == 0:
		return 0
	case p == 1:
		return math.Inf(1)
	}
	gap := func(x float64) float64 { return cdf(x) - p }
	if p > 0.5 {
		gap = func(x float64) float64 { return (1 - p) - survival(x) }
	}
	return RootAbove(0, gap)
}

// RootAbove is where the rising function f passes zero above low: the stretch
// looked at doubles until it holds the place.
func RootAbove(low float64, f func(float64) float64) float64 {
	reach := 1.0
	for f(low+reach) < 0 {
		reach *= 2
	}
	return Root(low, low+reach, f)
}

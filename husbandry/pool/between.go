package pool

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// tau2 is the variance between sites, never below 0.
func tau2(y, v []float64, by Method) float64 {
	switch by {
	case REML:
		return remlTau2(y, v)
	case PauleMandel:
		return pauleMandel(y, v)
	case DerSimonianLaird:
		return derSimonianLaird(y, v)
	}
	return 0
}

// derSimonianLaird is DerSimonian & Laird 1986, equation 8.
func derSimonianLaird(y, v []float64) float64 {
	w, w2 := 0.0, 0.0
	for _, one := range v {
		w += 1 / one
		w2 += 1 / (one * one)
	}
	return max(0, (spread(y, v, 0)-float64(len(y)-1))/(w-w2/w))
}

// pauleMandel finds the variance at which the weighted spread equals its
// expectation, k-1. (Paule & Mandel 1982)
func pauleMandel(y, v []float64) float64 {
	df := float64(len(y) - 1)
	return rootAbove(widest(y, v), func(t float64) float64 { return spread(y, v, t) - df })
}

// remlTau2 is the variance between sites that makes the restricted likelihood
// of the means largest. (Viechtbauer 2005, J. Educ. Behav. Stat. 30:261)
func remlTau2(y, v []float64) float64 {
	return lowest(widest(y, v), func(t float64) float64 {
		logs, weights := 0.0, 0.0
		for _, one := range v {
			logs += math.Log(one + t)
			weights += 1 / (one + t)
		}
		return logs + math.Log(weights) + spread(y, v, t)
	})
}

// widest is more than any variance between sites can be: the squared range of
// the means, or, should they agree, the largest variance of a mean.
func widest(y, v []float64) float64 {
	low, high, most := y[0], y[0], v[0]
	for i := range y {
		low, high, most = min(low, y[i]), max(high, y[i]), max(most, v[i])
	}
	return (high-low)*(high-low) + most
}

// rootAbove is where f, which falls, passes zero in [0, high]; 0 when it is
// nowhere above zero.
func rootAbove(high float64, f func(float64) float64) float64 {
	low := 0.0
	if f(low) <= 0 {
		return 0
	}
	for {
		mid := low + (high-low)/2
		if mid <= low || mid >= high {
			return mid
		}
		if f(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
}

// lowest is where f is smallest in [0, high]: a walk over spans that double,
// for f may have two valleys, then golden sections of the best. Zero wins ties.
func lowest(high float64, f func(float64) float64) float64 {
	best, least := 0.0, f(0)
	for at := high; at > high*nothing; at /= 2 {
		if value := f(at); value < least {
			best, least = at, value
		}
	}
	if best == 0 {
		return 0
	}
	return golden(best/2, min(2*best, high), f)
}

// nothing is the part of the largest variance that counts as none.
const nothing = 1e-15

// golden narrows a valley of f by golden sections (Kiefer 1953).
func golden(low, high float64, f func(float64) float64) float64 {
	ratio := (math.Sqrt(5) - 1) / 2
	for range 80 { // 0.618^80 is below 1e-16
		a, b := high-ratio*(high-low), low+ratio*(high-low)
		if f(a) < f(b) {
			high = b
		} else {
			low = a
		}
	}
	return (low + high) / 2
}

func sensible(confidence quantity.Fraction) error {
	return quantity.Within("confidence", float64(confidence), 0.5, 0.9999, "", quantity.OwnBounds)
}

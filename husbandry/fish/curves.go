package fish

import "math"

// Growth curves. Units are the caller's own, as long as they agree: lengths or
// weights from 1e-6 to 1e7, rates from 1e-6 to 100 for each unit of time, times
// within 1e5.

// Bertalanffy returns the length at time t of a fish with the longest length
// longest, the rate k, and length zero at t0.
func Bertalanffy(longest, k, t0, t float64) (float64, error) {
	if err := firstError(curveBound.check(longest), curveRateBound.check(k), timeBound.check(t0), timeBound.check(t)); err != nil {
		return 0, err
	}
	return -longest * math.Expm1(-k*(t-t0)), nil // L = Linf (1 - e^(-K (t - t0)))
}

// Gompertz returns a e^(-b e^(-k t)): weight at time t of a fish that ends at
// a, where b, 1e-6 to 1e7, sets the start.
func Gompertz(a, b, k, t float64) (float64, error) {
	if err := firstError(curveBound.check(a), curveBound.check(b), curveRateBound.check(k), timeBound.check(t)); err != nil {
		return 0, err
	}
	return a * math.Exp(-b*math.Exp(-k*t)), nil // Santos et al. 2013, Acta Scientiarum 35(3), form
}

// Logistic returns the size at time t of a fish that ends at asymptote, is half
// grown at time middle, and has the time scale scale, 1e-6 to 1e7.
func Logistic(asymptote, middle, scale, t float64) (float64, error) {
	if err := firstError(curveBound.check(asymptote), timeBound.check(middle), curveBound.check(scale), timeBound.check(t)); err != nil {
		return 0, err
	}
	return asymptote / (1 + math.Exp((middle-t)/scale)), nil
}

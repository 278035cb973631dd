package outlook

import "math"

// integrate follows y' = slope(y) for a time by the embedded pair of Dormand &
// Prince 1980 (J. Comput. Appl. Math. 6:19), step by step as large as the error
// allows; false where that takes more than a million steps.
func integrate(slope func([3]float64) [3]float64, y [3]float64, time float64) ([3]float64, bool) {
	const most, first = 1_000_000, 0.01
	var done float64
	step := first * time
	for range most {
		if done >= time {
			return y, true
		}
		step = min(step, time-done)
		next, miss := tryStep(slope, y, step)
		if miss <= 1 {
			y, done = next, done+step
		}
		step *= longer(miss)
	}
	return y, false
}

// longer is by how much the next step is longer than one with such a miss: the
// error rises with the step's fifth power, so that the next one will miss by 0.9^5.
func longer(miss float64) float64 {
	const safety, order, least, most = 0.9, 5, 0.1, 4
	return min(most, max(least, safety*math.Pow(miss, -1.0/order)))
}

// Weights of Dormand & Prince: of the earlier slopes in each stage, and of the
// slopes in the difference between the orders five and four.
var (
	stages = [...][]float64{
		{1.0 / 5},
		{3.0 / 40, 9.0 / 40},
		{44.0 / 45, -56.0 / 15, 32.0 / 9},
		{19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
		{9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
		{35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84},
	}
	misses = [...]float64{71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40}
)

// tryStep gives the pools after one step, and its error as a multiple of what
// is allowed.
func tryStep(slope func([3]float64) [3]float64, y [3]float64, step float64) (next [3]float64, miss float64) {
	const relative, absolute = 1e-11, 1e-13
	slopes := [len(misses)][3]float64{slope(y)}
	for s, weights := range stages {
		next = y
		for j, weight := range weights {
			for i := range next {
				next[i] += step * weight * slopes[j][i]
			}
		}
		slopes[s+1] = slope(next)
	}
	for i := range next {
		off := 0.0
		for j, w := range misses {
			off += step * w * slopes[j][i]
		}
		miss = max(miss, math.Abs(off)/(absolute+relative*math.Abs(next[i])))
	}
	return next, miss
}

package fit

import (
	"math"
	"slices"
)

// Minimise looks for the point at which f is smallest, from a start, by the
// simplex of Nelder & Mead 1965 (Computer J. 7:308), begun anew where it
// settles until that helps no more, in so many rounds at most. Steps give the
// size of the first simplex in each direction. Where f is NaN the ground counts
// as infinitely high.
func Minimise(f func([]float64) float64, start, steps []float64, rounds int) (at []float64, least float64) {
	at, least = start, ground(f, start)
	for range rounds {
		next, value := nelderMead(f, at, steps)
		if !(value < least-1e-12*math.Abs(least)) {
			break
		}
		at, least = next, value
	}
	return at, least
}

type corner struct {
	at    []float64
	value float64
}

func ground(f func([]float64) float64, at []float64) float64 {
	v := f(at)
	if math.IsNaN(v) {
		return math.Inf(1)
	}
	return v
}

func nelderMead(f func([]float64) float64, start, steps []float64) ([]float64, float64) {
	simplex := []corner{{start, ground(f, start)}}
	for i, step := range steps {
		at := slices.Clone(start)
		at[i] += step
		simplex = append(simplex, corner{at, ground(f, at)})
	}
	for range 200 * len(start) {
		slices.SortFunc(simplex, func(a, b corner) int {
			switch {
			case a.value < b.value:
				return -1
			case a.value > b.value:
				return 1
			}
			return 0
		})
		worst := simplex[len(simplex)-1].value
		if worst-simplex[0].value <= 1e-14*math.Abs(simplex[0].value) {
			break
		}
		replaceWorst(f, simplex)
	}
	return simplex[0].at, simplex[0].value
}

// replaceWorst mirrors the worst corner in the middle of the others; farther
// when that is the best yet, nearer when it is no good, and draws all corners
// towards the best when nothing helps.
func replaceWorst(f func([]float64) float64, simplex []corner) {
	last := len(simplex) - 1
	mirrored := beyond(f, simplex, 1)
	switch {
	case mirrored.value < simplex[0].value:
		simplex[last] = mirrored
		if far := beyond(f, simplex, 1); far.value < mirrored.value {
			simplex[last] = far
		}
	case mirrored.value < simplex[last-1].value:
		simplex[last] = mirrored
	default:
		if mirrored.value < simplex[last].value {
			simplex[last] = mirrored
		}
		if near := beyond(f, simplex, -0.5); near.value < simplex[last].value {
			simplex[last] = near
			return
		}
		for i := range simplex[1:] {
			c := &simplex[i+1]
			c.at = between(simplex[0].at, c.at, 0.5)
			c.value = ground(f, c.at)
		}
	}
}

// beyond steps from the worst corner through the middle of the others.
func beyond(f func([]float64) float64, simplex []corner, times float64) corner {
	last := len(simplex) - 1
	middle := make([]float64, len(simplex[0].at))
	for _, c := range simplex[:last] {
		for i, v := range c.at {
			middle[i] += v / float64(last)
		}
	}
	at := between(middle, simplex[last].at, -times)
	return corner{at, ground(f, at)}
}

func between(a, b []float64, share float64) []float64 {
	at := make([]float64, len(a))
	for i := range a {
		at[i] = a[i] + share*(b[i]-a[i])
	}
	return at
}

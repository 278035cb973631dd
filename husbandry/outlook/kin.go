package outlook

import (
	"math"
	"slices"

	"freshet.example/husbandry/fit"
)

// Kin is what the curves of others say of how one of their kind grows: a mean
// curve, and how single ones leave it.
//
// On the logarithm of size, each one is the mean curve, plus a level of its own,
// plus a growth rate of its own that drifts (the integral of an
// Ornstein-Uhlenbeck process, as in Taylor, Cumberland & Sy 1994, J. Amer.
// Statist. Assoc. 89:727), plus error. Rates differ in proportion to how fast
// the kind grows at that age: the clock is the mean curve's own. The spreads
// are found by restricted maximum likelihood (Patterson & Thompson
// 1971), held to usual values where there are few others.
type Kin struct {
	others  []Curve
	spreads spreads
	grid    []float64 // ages, the others' and those asked about
	clock   []float64
	within  []covariance // of each of the others, shared where their ages are the same
	sum     matrix       // precision of the mean curve
	weighed []float64
}

// spreads are the logarithms of: the spread of levels, of growth over the whole
// clock, the memory of the rate as a share of the clock, and the error; and
// last how level and rate go together, as an inverse hyperbolic tangent.
type spreads [5]float64

// What the spreads are taken for before the others are seen, and how surely:
// they span what chicks, trees and fish show. Common practice, no source.
var (
	usual  = spreads{-2.5, -0.7, 0, -3.5, 0} // levels 8 %, growth 50 %, a rate that lasts, error 3 %
	unsure = spreads{1.5, 1.5, 1.5, 1.5, 0.5}
)

const usualWorth = 4.0 // others that these values are worth

// diffuse is the spread of a mean curve's level and slope of which nothing is known.
const diffuse = 10.0

// covariance is the root of one curve's covariance, and what it was made for.
type covariance struct {
	at   []float64
	root matrix
	inv  matrix
}

// LearnKin learns from the curves of others. Curves of one point say something
// of the level only. At least two curves must have two points or more.
func LearnKin(others []Curve) (*Kin, error) {
	k := &Kin{}
	followed := 0
	for _, c := range others {
		if err := c.check(); err != nil {
			return nil, err
		}
		if len(c.At) > 0 {
			k.others = append(k.others, c)
		}
		if len(c.At) > 1 {
			followed++
		}
	}
	if followed < 2 {
		return nil, &CurveError{-1, "at least two others must have been measured twice"}
	}
	k.regrid()
	return k, k.fit()
}

// regrid sets the ages at which the mean curve is held.
func (k *Kin) regrid(more ...float64) {
	k.grid = ages(k.others, more...)
	k.clock = meanGrowth(k.grid, k.others)
}

// fit finds the spreads.
func (k *Kin) fit() error {
	start, steps := usual[:], []float64{0.5, 0.5, 0.5, 0.5, 0.3}
	at, least := fit.Minimise(func(at []float64) float64 {
		k.spreads = spreads(at)
		return k.misfit()
	}, start, steps, 2)
	k.spreads = spreads(at)
	if k.misfit(); least == unfit {
		return &CurveError{-1, "no spread fits them"}
	}
	return nil
}

// along is the clock at an age of the grid.
func (k *Kin) along(at float64) float64 {
	i, _ := slices.BinarySearch(k.grid, at)
	return k.clock[min(i, len(k.clock)-1)]
}

// drift is the covariance of two points of one's own, without the error: times
// counted on the clock from one's own first point.
func (k *Kin) drift(u, v float64) float64 {
	level, growth, memory := math.Exp(2*k.spreads[0]), math.Exp(2*k.spreads[1]), math.Exp(k.spreads[2])
	together := math.Tanh(k.spreads[4]) * math.Sqrt(level*growth) * memory
	return level + growth*drifted(u, v, memory) + together*(2-math.Exp(-u/memory)-math.Exp(-v/memory))
}

// drifted is the covariance of the integral of a rate of spread 1 that forgets.
func drifted(u, v, memory float64) float64 {
	return memory * memory * (2*min(u, v)/memory - 1 + math.Exp(-u/memory) + math.Exp(-v/memory) - math.Exp(-math.Abs(u-v)/memory))
}

func (k *Kin) noise() float64 { return math.Exp(2 * k.spreads[3]) }

// own is the covariance among points of one curve, which begins at an age.
func (k *Kin) own(at []float64, begins float64) matrix {
	c, first := newMatrix(len(at)), k.along(begins)
	for i := range c {
		for j := range i + 1 {
			c[i][j] = k.drift(k.along(at[i])-first, k.along(at[j])-first)
			c[j][i] = c[i][j]
		}
		c[i][i] += k.noise()
	}
	return c
}

// unfit is the misfit of spreads that no curves can have.
var unfit = math.Inf(1)

// misfit is minus the logarithm of the restricted likelihood of the others, with
// the usual values counted in. It leaves the mean curve behind.
func (k *Kin) misfit() float64 {
	total := 0.0
	for i, s := range k.spreads {
		off := (s - usual[i]) / unsure[i]
		total += off * off / 2
	}
	ok := k.factor()
	prior, priorOK := k.bending().root()
	if !ok || !priorOK {
		return unfit
	}
	k.sum, k.weighed = prior.inverse(), make([]float64, len(k.grid))
	total += prior.logRoot()
	for i, c := range k.others {
		r := c.logs()
		total += k.within[i].root.logRoot() + dot(r, k.within[i].root.solve(r))/2
		k.count(i, 1)
	}
	root, ok := k.sum.root()
	if !ok {
		return unfit
	}
	half := root.forth(k.weighed)
	return total + root.logRoot() - dot(half, half)/2
}

// factor takes the roots of the others' covariances, one for those of the same ages.
func (k *Kin) factor() bool {
	k.within = k.within[:0]
	for _, c := range k.others {
		if same := slices.IndexFunc(k.within, func(w covariance) bool { return slices.Equal(w.at, c.At) }); same != -1 {
			k.within = append(k.within, k.within[same])
			continue
		}
		root, ok := k.own(c.At, c.At[0]).root()
		if !ok {
			return false
		}
		k.within = append(k.within, covariance{c.At, root, root.inverse()})
	}
	return true
}

// bending is the covariance of the mean curve, of which only this is known
// beforehand: that it bends by one, on the logarithm, over the whole clock.
func (k *Kin) bending() matrix {
	c := newMatrix(len(k.grid))
	for i, u := range k.clock {
		for j, v := range k.clock {
			c[i][j] = min(u, v) + diffuse*diffuse*(1+u*v)
		}
		c[i][i] += 1e-6 // a thousandth of the size: so that it can be inverted
	}
	return c
}

// count adds one of the others to the mean curve, or with -1 takes it away.
func (k *Kin) count(i int, sign float64) {
	c, inv := k.others[i], k.within[i].inv
	r := c.logs()
	for a, at := range c.At {
		row, _ := slices.BinarySearch(k.grid, at)
		k.weighed[row] += sign * dot(inv[a], r)
		for b, other := range c.At {
			column, _ := slices.BinarySearch(k.grid, other)
			k.sum[row][column] += sign * inv[a][b]
		}
	}
}

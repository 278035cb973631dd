package outlook

import (
	"math"
	"slices"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Prospect is what size one will have at an age: its logarithm is spread as
// Student's t.
type Prospect struct {
	At     float64 // age
	Middle float64 // the logarithm of the median size
	Spread float64 // of the logarithm
	Few    float64 // degrees of freedom, by how many others there are
}

// Quantile returns the size below which it stays with a chance of p, 0.0001 to 0.9999.
func (p Prospect) Quantile(chanceBelow quantity.Fraction) (float64, error) {
	if err := quantity.Within("chance", float64(chanceBelow), 0.0001, 0.9999, "", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return math.Exp(p.Middle + p.Spread*chance.TQuantile(float64(chanceBelow), p.Few)), nil
}

// Between returns the interval that holds with a level of 0.01 to 0.999.
func (p Prospect) Between(level quantity.Fraction) (low, high float64, err error) {
	if err := checkLevel(level); err != nil {
		return 0, 0, err
	}
	reach := p.Spread * chance.TQuantile((1+float64(level))/2, p.Few)
	return math.Exp(p.Middle - reach), math.Exp(p.Middle + reach), nil
}

// Above returns the chance that the size is above a target.
func (p Prospect) Above(target float64) (quantity.Fraction, error) {
	if err := sizeBound.check(target); err != nil {
		return 0, err
	}
	return quantity.Fraction(chance.TSurvival((math.Log(target)-p.Middle)/p.Spread, p.Few)), nil
}

// Ahead forecasts the rest of one's curve from its points so far, at ages after
// its last point. With no points at all it tells of any one of the kind.
func (k *Kin) Ahead(own Curve, at []float64) ([]Prospect, error) {
	if err := own.check(); err != nil {
		return nil, err
	}
	last := math.Inf(-1)
	if n := len(own.At); n > 0 {
		last = own.At[n-1]
	}
	for i, a := range at {
		if err := ageBound.check(a); err != nil {
			return nil, err
		}
		if a <= last {
			return nil, &CurveError{i, "a forecast must lie after what came before it"}
		}
		last = a
	}
	here, misfit := k.asking(slices.Concat(own.At, at))
	root, ok := here.sum.root()
	if !ok || misfit == unfit {
		return nil, &CurveError{-1, "no mean curve fits the others"}
	}
	few := float64(len(k.others)) - 1 + usualWorth
	stretch := here.stretch(len(own.At))
	list := here.condition(root, own, at)
	for i := range list {
		list[i].Few = few
		list[i].Spread *= stretch
	}
	return list, nil
}

// asking is the same kin with more ages on its grid, and its misfit.
func (k *Kin) asking(more []float64) (here *Kin, misfit float64) {
	here = &Kin{others: k.others, spreads: k.spreads}
	here.regrid(more...)
	return here, here.misfit()
}

// condition weighs one's own points against the mean curve, whose doubt counts too.
func (k *Kin) condition(root matrix, own Curve, at []float64) []Prospect {
	mean, doubt := root.solve(k.weighed), root.inverse()
	n := len(own.At)
	all := slices.Concat(own.At, at)
	begins := k.grid[0] // one of whom nothing is known began where the first of the others did
	if n > 0 {
		begins = all[0]
	}
	cov := k.own(all, begins)
	rows := make([]int, len(all))
	for i, a := range all {
		rows[i], _ = slices.BinarySearch(k.grid, a)
	}
	for i := range cov {
		for j := range cov {
			cov[i][j] += doubt[rows[i]][rows[j]]
		}
	}
	left := own.logs()
	known := newMatrix(n)
	for i := range known {
		left[i] -= mean[rows[i]]
		copy(known[i], cov[i])
	}
	seen, ok := known.root()
	list := make([]Prospect, len(at))
	for j := range at {
		row := cov[n+j]
		middle, variance := mean[rows[n+j]], row[n+j]
		if ok && n > 0 {
			gain := seen.forth(row[:n])
			middle += dot(gain, seen.forth(left))
			variance -= dot(gain, gain)
		}
		list[j] = Prospect{At: at[j], Middle: middle, Spread: math.Sqrt(max(variance, 1e-12))}
	}
	return list
}

// stretch is by how much intervals must be widened or drawn in so that they
// would have held for the others, each forecast from as many of its first
// points by the rest; drawn towards 1 where there are few others.
func (k *Kin) stretch(points int) float64 {
	const worth = 10.0 // others that leaving things as they are is worth: common practice, no source
	squares, count := worth, worth
	for i, c := range k.others {
		if len(c.At) <= points || points == 0 {
			continue
		}
		k.count(i, -1)
		if root, ok := k.sum.root(); ok {
			sum := 0.0
			for j, p := range k.condition(root, Curve{c.At[:points], c.Size[:points]}, c.At[points:]) {
				off := (math.Log(c.Size[points+j]) - p.Middle) / p.Spread
				sum += off * off
			}
			squares += sum / float64(len(c.At)-points)
			count++
		}
		k.count(i, 1)
	}
	return math.Sqrt(squares / count)
}

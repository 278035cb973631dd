package trial

import (
	"math"
	"math/rand/v2"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// Blocks are beds that each hold every arm of a trial, on so many plots each:
// what differs from bed to bed then sets no arm apart (Fisher 1935, The Design
// of Experiments). Beds 1 to 200, Arms 2 to 6, Plots 1 to 10.
type Blocks struct {
	Beds, Arms, Plots int
}

func (b Blocks) check() error {
	for _, one := range []struct {
		name      string
		n         int
		low, high float64
	}{{"beds", b.Beds, fewestBlocks, mostBlocks}, {"arms", b.Arms, 2, 6}, {"plots of an arm in a bed", b.Plots, 1, 10}} {
		if err := quantity.Within(one.name, float64(one.n), one.low, one.high, "", quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

// Layout draws which arm, from 0, stands on each plot of each bed, in the order
// in which plots lie. The same seed draws the same.
func (b Blocks) Layout(seed uint64) ([][]int, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	r := rand.New(rand.NewPCG(seed, uint64(b.Beds))) // #nosec G404 -- to be drawn again by who checks it
	beds := make([][]int, b.Beds)
	for i := range beds {
		for plot := range b.Arms * b.Plots {
			beds[i] = append(beds[i], plot%b.Arms)
		}
		r.Shuffle(len(beds[i]), func(x, y int) { beds[i][x], beds[i][y] = beds[i][y], beds[i][x] })
	}
	return beds, nil
}

// df are the degrees of freedom left by beds and arms.
func (b Blocks) df() float64 {
	return float64(b.Beds*b.Arms*b.Plots - b.Beds - b.Arms + 1)
}

// Power is the chance that a two-sided t test at level alpha notices the
// difference delta of an arm from the first, when plots treated alike in one bed
// spread with standard deviation sd. Ranges of delta, sd and alpha as for
// BedsNeeded; one degree of freedom must be left.
func (b Blocks) Power(delta, sd float64, alpha quantity.Fraction) (float64, error) {
	if err := b.told(delta, sd, alpha); err != nil {
		return 0, err
	}
	t, shift := b.edge(delta/sd, alpha)
	return tailPower(t, b.df(), shift) + tailPower(t, b.df(), -shift), nil
}

// Detectable is the smallest difference noticed with a power of 0.5 to 0.999.
func (b Blocks) Detectable(sd float64, power, alpha quantity.Fraction) (float64, error) {
	if err := b.told(sd, sd, alpha); err != nil {
		return 0, err
	}
	if err := quantity.Within("power", float64(power), 0.5, 0.999, "", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return sd * chance.RootAbove(0, func(d float64) float64 {
		t, shift := b.edge(d, alpha)
		return tailPower(t, b.df(), shift) - float64(power)
	}), nil
}

// edge is the t beyond which a difference is told, and how many standard errors
// a true one of d standard deviations is.
func (b Blocks) edge(d float64, alpha quantity.Fraction) (t, shift float64) {
	shift, _ = shiftAndDF(float64(b.Beds*b.Plots), d, TwoGroups)
	return chance.TQuantile(1-float64(alpha)/2, b.df()), shift
}

func (b Blocks) told(delta, sd float64, alpha quantity.Fraction) error {
	if err := b.check(); err != nil {
		return err
	}
	if err := tested(delta, sd, alpha, TwoGroups); err != nil {
		return err
	}
	return quantity.Within("plots beyond one for each bed and arm", b.df(), 1, math.MaxFloat64, "", "by definition: a lone bed with one plot of each tells nothing of chance")
}

// BedsFor is how many beds notice the difference delta with a power of 0.5 to
// 0.999, with the same arms and plots; 200 at most.
func (b Blocks) BedsFor(delta, sd float64, power, alpha quantity.Fraction) (int, error) {
	for b.Beds = fewestBlocks; b.Beds <= mostBlocks; b.Beds++ {
		if b.check() == nil && b.df() < 1 {
			continue
		}
		got, err := b.Power(delta, sd, alpha)
		if err != nil || got >= float64(power) {
			return b.Beds, err
		}
	}
	return 0, quantity.Within("beds wanted", float64(b.Beds), fewestBlocks, mostBlocks, "beds", "bounds of this program: the difference is too small for any garden")
}

const fewestBlocks, mostBlocks = 1, 200

package trial

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Permutation is how often relabelling the beds gives as large a difference.
type Permutation struct {
	Arrangements float64 // ways to label the beds; the smallest possible Upper is one in these
	AsFar        float64 // of them, as far out on either side as observed, which counts too
	AsHigh       float64 // of them, as high or higher than observed
	Sum          float64 // observed: of the differences, or of the values of x about the mean of all
}

// TwoSided is the chance of a difference as large on either side.
func (p Permutation) TwoSided() float64 { return p.AsFar / p.Arrangements }

// Upper is the chance of a difference as high or higher.
func (p Permutation) Upper() float64 { return p.AsHigh / p.Arrangements }

// tie is how close two sums must be, in parts of the whole, to count as equal:
// sums of decimals differ in their last bits.
const tie = 1e-9

// PermuteMeans compares two means by trying every way to share the values out
// (Fisher 1935; Pitman 1937). Two-sided means the difference at least as large
// on either side, not twice the smaller tail. One value or more in each group;
// above fifty million ways ErrTooMany.
func PermuteMeans(x, y []float64) (Permutation, error) {
	if _, err := jointRanks(x, y); err != nil {
		return Permutation{}, err
	}
	if ways(len(x)+len(y), len(x)) > 5e7 {
		return Permutation{}, ErrTooMany
	}
	all := append(append([]float64{}, x...), y...)
	var size float64
	centre := mean(all)
	for i := range all {
		all[i] -= centre
		size += math.Abs(all[i])
	}
	count := newTally(total(all[:len(x)]), size)
	count.choose(all, len(x), 0)
	return count.Permutation, nil
}

// PermuteSigns compares pairs by trying every way to swap the two within each:
// all signs of the differences d (Fisher 1935, The Design of Experiments, 21).
// One difference or more, at most 26.
func PermuteSigns(d []float64) (Permutation, error) {
	if err := enough("differences", d, 1); err != nil {
		return Permutation{}, err
	}
	if len(d) > 26 {
		return Permutation{}, ErrTooMany
	}
	var size float64
	for _, one := range d {
		size += math.Abs(one)
	}
	count := newTally(total(d), size)
	count.flip(d, 0)
	return count.Permutation, nil
}

// SmallestP is the smallest one-sided chance that n beds against m (1 to 500
// each) can give: with three against three nothing below 1 in 20 can come out.
func SmallestP(n, m int) (float64, error) {
	for _, beds := range []int{n, m} {
		if err := quantity.Within("beds in a group", float64(beds), 1, 500, "beds", quantity.OwnBounds); err != nil {
			return 0, err
		}
	}
	return 1 / ways(n+m, n), nil
}

func ways(all, n int) float64 {
	w := 1.0
	for i := range n {
		w = w * float64(all-i) / float64(i+1)
	}
	return math.Round(w)
}

// A tally compares each arrangement's sum with the observed one.
type tally struct {
	Permutation
	slack float64
}

func newTally(observed, size float64) tally {
	return tally{Permutation{Sum: observed}, tie * size}
}

func (t *tally) add(sum float64) {
	t.Arrangements++
	if sum >= t.Sum-t.slack {
		t.AsHigh++
	}
	if math.Abs(sum) >= math.Abs(t.Sum)-t.slack {
		t.AsFar++
	}
}

// choose tries every way to take n of the values.
func (t *tally) choose(values []float64, n int, sum float64) {
	switch {
	case n == 0:
		t.add(sum)
	case len(values) == n:
		t.add(sum + total(values))
	default:
		t.choose(values[1:], n-1, sum+values[0])
		t.choose(values[1:], n, sum)
	}
}

// flip tries every choice of signs.
func (t *tally) flip(d []float64, sum float64) {
	if len(d) == 0 {
		t.add(sum)
		return
	}
	t.flip(d[1:], sum+d[0])
	t.flip(d[1:], sum-d[0])
}

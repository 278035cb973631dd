package trial

import (
	"errors"
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// ErrNoSpread says that the values do not differ, so that no interval can be
// told from them.
var ErrNoSpread = errors.New("trial: the values do not differ, so their spread says nothing of chance; add decimals or more beds")

// ErrTooMany says that an exact count would take too long.
var ErrTooMany = errors.New("trial: too many arrangements to count one by one; use the t comparison")

// A Sample is what a t comparison needs to know of one group.
type Sample struct {
	N        int
	Mean     float64
	Variance float64 // with n-1 below; NaN when n is 1
}

// SD is the standard deviation, with n-1 below.
func (s Sample) SD() float64 { return math.Sqrt(s.Variance) }

// square is the squared standard error of the mean.
func (s Sample) square() float64 { return s.Variance / float64(s.N) }

// Summary counts a group. It needs one value or more, all finite.
func Summary(values []float64) (Sample, error) {
	if err := enough("values", values, 1); err != nil {
		return Sample{}, err
	}
	m := mean(values)
	return Sample{len(values), m, squaresAbout(m, values) / float64(len(values)-1)}, nil
}

// enough refuses a list with fewer than least values, or with one that is not finite.
func enough(name string, values []float64, least int) error {
	if err := quantity.Within("number of "+name, float64(len(values)), float64(least), math.MaxInt32, "", quantity.OwnBounds); err != nil {
		return err
	}
	for _, v := range values {
		if err := quantity.Within(name, v, -1e150, 1e150, "", "bounds of this program: squares must stay finite"); err != nil {
			return err
		}
	}
	return nil
}

// sensible refuses a confidence that is no chance between none and certainty.
func sensible(confidence quantity.Fraction) error {
	return quantity.Within("confidence", float64(confidence), 0.5, 0.9999, "", quantity.OwnBounds)
}

// mean is taken twice, so that a large common part does not cost digits.
func mean(values []float64) float64 {
	n := float64(len(values))
	var first float64
	for _, v := range values {
		first += v / n
	}
	rest := 0.0
	for _, v := range values {
		rest += v - first
	}
	return first + rest/n
}

func squaresAbout(centre float64, values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += (v - centre) * (v - centre)
	}
	return sum
}

func sorted(values []float64) []float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	return s
}

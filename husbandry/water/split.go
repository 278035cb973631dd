package water

import (
	"math/bits"

	"freshet.example/husbandry/quantity"
)

// A Derived figure is computed from inputs that are measured.
type Derived func(inputs []float64) (float64, error)

// mostInputs bounds the work of Split: 4,096 evaluations.
const mostInputs = 12

// Split shares the change of a derived figure among its inputs: how much of it
// each input brought, averaged over every order in which the inputs could have
// changed. The shares sum to the change. It needs 1 to 12 inputs, equally many
// before and after; the figure must be computable for every mixture of them.
// Source: Shapley 1953, A value for n-person games.
func Split(figure Derived, before, after []float64) ([]float64, error) {
	n := len(before)
	err := first(
		quantity.Within("number of inputs", float64(n), 1, mostInputs, "", ofPackage),
		quantity.Within("number of inputs after", float64(len(after)), float64(n), float64(n), "", "by definition: as many as before"))
	if err != nil {
		return nil, err
	}
	values, err := mixtures(figure, before, after)
	if err != nil {
		return nil, err
	}
	shares := make([]float64, n)
	weights := orderings(n)
	for mixture, value := range values {
		changed := bits.OnesCount(uint(mixture))
		for i := range n {
			if mixture>>i&1 == 0 {
				shares[i] += weights[changed] * (values[mixture|1<<i] - value)
			}
		}
	}
	settle(shares, values[len(values)-1]-values[0])
	return shares, nil
}

// mixtures computes the figure for every choice of changed inputs; bit i of the
// index says that input i has its later value.
func mixtures(figure Derived, before, after []float64) ([]float64, error) {
	values := make([]float64, 1<<len(before))
	inputs := make([]float64, len(before))
	for mixture := range values {
		for i := range inputs {
			inputs[i] = before[i]
			if mixture>>i&1 == 1 {
				inputs[i] = after[i]
			}
		}
		v, err := figure(inputs)
		if err := first(err, quantity.Within("derived figure", v, -1e300, 1e300, "", ofPackage)); err != nil {
			return nil, err
		}
		values[mixture] = v
	}
	return values, nil
}

// orderings gives the share of all orders of n inputs in which a given input
// changes after exactly k given others: k! (n-1-k)! / n!.
func orderings(n int) []float64 {
	weights := make([]float64, n)
	weights[0] = 1 / float64(n)
	for k := 1; k < n; k++ {
		weights[k] = weights[k-1] * float64(k) / float64(n-k)
	}
	return weights
}

// settle gives the rounding that is left to the largest share, so that the
// shares sum to the change.
func settle(shares []float64, change float64) {
	largest, sum := 0, 0.0
	for i, s := range shares {
		sum += s
		if s*s > shares[largest]*shares[largest] {
			largest = i
		}
	}
	shares[largest] += change - sum
}

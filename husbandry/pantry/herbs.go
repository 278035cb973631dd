package pantry

import "freshet.example/husbandry/quantity"

// A Herb is an answer about herbs kept for the household. Like a Canning, it
// gives its value only together with its caution.
type Herb[T any] struct{ value T }

// Read returns the value and HerbCaution.
func (h Herb[T]) Read() (value T, caution string) { return h.value, HerbCaution }

// HerbDrying returns the degrees Fahrenheit at which leaves dry without losing
// their oils, 95 to 115 (NCHFP, from memory).
func HerbDrying() Herb[Span] { return Herb[Span]{Span{95, 115}} }

// HerbStorage returns the months that dried leaves keep their scent in closed
// jars in the dark, 6 to 12 (common practice, no source).
func HerbStorage() Herb[Span] { return Herb[Span]{Span{6, 12}} }

// FreshHerb returns the fresh herb that stands for a dried amount in a recipe,
// three times as much by volume (NCHFP prints 3 to 4, from memory), for 0 to
// 1000 of any unit.
func FreshHerb(dried float64) (Herb[float64], error) {
	if err := quantity.Within("dried herb", dried, 0, mostDried, "", quantity.OwnBounds); err != nil {
		return Herb[float64]{}, err
	}
	return Herb[float64]{3 * dried}, nil
}

const mostDried = 1000

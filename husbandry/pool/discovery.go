package pool

import (
	"cmp"
	"slices"

	"freshet.example/husbandry/quantity"
)

// Discoveries tells which of several tests stand out when among those that do
// no more than the given share may be false on average (Benjamini & Hochberg
// 1995, J. R. Stat. Soc. B 57:289). It holds for tests that are independent, or
// that lean the same way, as those of one site against each of the others do
// (Benjamini & Yekutieli 2001). P values 0 to 1, at least one; share above 0 to 0.5.
func Discoveries(p []float64, share quantity.Fraction) ([]bool, error) {
	if err := quantity.Within("number of tests", float64(len(p)), 1, 1e6, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	if err := quantity.Within("share of false discoveries", float64(share), 0.0001, 0.5, "", quantity.OwnBounds); err != nil {
		return nil, err
	}
	order := make([]int, len(p))
	for i := range p {
		order[i] = i
		if err := quantity.Within("p value", p[i], 0, 1, "", quantity.ByDefinition); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(p[a], p[b]) })
	found := make([]bool, len(p))
	for rank := len(order); rank > 0; rank-- {
		if p[order[rank-1]] > float64(share)*float64(rank)/float64(len(p)) {
			continue
		}
		for _, i := range order[:rank] {
			found[i] = true
		}
		break
	}
	return found, nil
}

package trial

import (
	"cmp"
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// A QuantileType says where between two ordered values a quantile lies, by
// the numbers of Hyndman & Fan 1996 (The American Statistician 50:361).
type QuantileType int

// The types used here. Type 8 is close to median-unbiased whatever the
// distribution, so percentile bands use it; type 7 is what most spreadsheets
// and statistics programs print; type 6 is Weibull's plotting position.
const (
	Type6 QuantileType = 6
	Type7 QuantileType = 7
	Type8 QuantileType = 8
)

// Quantile is the value below which the share p of the values lies. One value
// or more; p from 0 to 1. Beyond the outermost values it gives those values.
func Quantile(values []float64, p quantity.Fraction, by QuantileType) (float64, error) {
	if err := enough("values", values, 1); err != nil {
		return 0, err
	}
	if err := quantity.Within("share p", float64(p), 0, 1, "", quantity.ByDefinition); err != nil {
		return 0, err
	}
	if err := quantity.Within("quantile type", float64(by), 6, 8, "", "Hyndman & Fan 1996"); err != nil {
		return 0, err
	}
	return between(sorted(values), quantilePlace(float64(p), float64(len(values)), by)), nil
}

// quantilePlace is where the quantile lies among values numbered from 1.
// (Hyndman & Fan 1996, definitions 6, 7 and 8)
func quantilePlace(p, n float64, by QuantileType) float64 {
	switch by {
	case Type6:
		return (n + 1) * p
	case Type7:
		return 1 + (n-1)*p
	}
	return (n+1.0/3)*p + 1.0/3
}

// between reads ordered values at a place counted from 1, in straight lines.
func between(ordered []float64, place float64) float64 {
	place = min(max(place, 1), float64(len(ordered)))
	whole := math.Floor(place)
	i := int(whole) - 1
	share := place - whole
	if i+1 == len(ordered) {
		return ordered[i]
	}
	return ordered[i] + share*(ordered[i+1]-ordered[i])
}

// Median is the middle value, or the mean of the middle two. One value or more.
func Median(values []float64) (float64, error) { return Quantile(values, 0.5, Type7) }

// GroupMedians are the medians of groups, which weigh each group alike however
// many values it has; their Median and mean are two other answers than the
// median of all. Each group holds one value or more.
func GroupMedians(groups [][]float64) ([]float64, error) {
	var medians []float64
	for _, g := range groups {
		m, err := Median(g)
		if err != nil {
			return nil, err
		}
		medians = append(medians, m)
	}
	return medians, nil
}

// WeightedQuantile is the smallest value at which the running share of the
// weights reaches p (the inverse of the weighted distribution; no value is
// invented between two). Weights above 0, one a value; p from 0 to 1.
func WeightedQuantile(values, weights []float64, p quantity.Fraction) (float64, error) {
	order, total, err := weighed(values, weights, p)
	if err != nil {
		return 0, err
	}
	return countedAt(values, weights, order, float64(p)*total*(1-1e-12)), nil
}

// CountedQuantile is the type 7 quantile of the values, each repeated as often
// as its count says (counts are whole numbers of 1 or more): for fish weighed
// in size classes. p from 0 to 1.
func CountedQuantile(values, counts []float64, p quantity.Fraction) (float64, error) {
	order, total, err := weighed(values, counts, p)
	if err != nil {
		return 0, err
	}
	place := quantilePlace(float64(p), total, Type7)
	low := math.Floor(place)
	a, b := countedAt(values, counts, order, low), countedAt(values, counts, order, min(low+1, total))
	return a + (place-low)*(b-a), nil
}

// countedAt is the first value at which the running counts reach a place, the
// last one when none does.
func countedAt(values, counts []float64, order []int, place float64) (value float64) {
	running := 0.0
	for _, i := range order {
		value = values[i]
		if running += counts[i]; running >= place {
			break
		}
	}
	return value
}

// weighed checks values with weights and gives their rising order and total.
func weighed(values, weights []float64, p quantity.Fraction) (order []int, total float64, err error) {
	if err = enough("values", values, 1); err != nil {
		return
	}
	if err = quantity.Within("number of weights", float64(len(weights)), float64(len(values)), float64(len(values)), "", "by definition: one a value"); err != nil {
		return
	}
	if err = quantity.Within("share p", float64(p), 0, 1, "", quantity.ByDefinition); err != nil {
		return
	}
	for i, w := range weights {
		if err = quantity.Within("weight", w, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
			return
		}
		order = append(order, i)
		total += w
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(values[i], values[j]) })
	return
}

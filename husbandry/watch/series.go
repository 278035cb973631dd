package watch

import (
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// enough refuses a series with fewer than least values or one that is not finite.
func enough(values []float64, least int) error {
	if err := quantity.Within("number of readings", float64(len(values)), float64(least), 1e7, "", quantity.OwnBounds); err != nil {
		return err
	}
	for _, v := range values {
		if err := quantity.Within("reading", v, -1e150, 1e150, "", quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

func mean(values []float64) float64 {
	first, rest, n := 0.0, 0.0, float64(len(values))
	for _, v := range values {
		first += v / n
	}
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

// Mean is the mean of readings. One or more, finite.
func Mean(values []float64) (float64, error) {
	if err := enough(values, 1); err != nil {
		return 0, err
	}
	return mean(values), nil
}

// SD is the standard deviation of readings, with n-1 below. Two or more.
func SD(values []float64) (float64, error) {
	if err := enough(values, 2); err != nil {
		return 0, err
	}
	return math.Sqrt(squaresAbout(mean(values), values) / float64(len(values)-1)), nil
}

func median(values []float64) float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	n := len(s)
	return (s[(n-1)/2] + s[n/2]) / 2
}

// Median is the middle reading, or the mean of the middle two. One or more.
func Median(values []float64) (float64, error) {
	if err := enough(values, 1); err != nil {
		return 0, err
	}
	return median(values), nil
}

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
	return finite(values)
}

func finite(values []float64) error {
	for _, v := range values {
		if err := quantity.Within("reading", v, -1e150, 1e150, "", quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

func mean(values []float64) float64 {
	var first, rest float64
	n := float64(len(values))
	for _, v := range values {
		first += v / n
	}
	for _, v := range values {
		rest += v - first
	}
	return first + rest/n
}

// confident refuses a confidence that is no chance between none and certainty.
func confident(confidence quantity.Fraction) error {
	return quantity.Within("confidence", float64(confidence), 0.5, 0.9999, "", quantity.OwnBounds)
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

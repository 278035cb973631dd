package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// GrowthResponse returns growth at a temperature as a share of growth at the
// middle of the optimum: a bell that is zero at the lowest temperature of
// growth and at the highest of feeding, and outside them. Temperatures at which
// the species dies are refused. For tilapia it gives a third to a quarter of
// full growth at 72 degF, where SRAC prints a third.
func GrowthResponse(s Species, t quantity.Celsius) (quantity.Fraction, error) {
	if err := s.alive(t); err != nil {
		return 0, err
	}
	low, best, high := float64(s.GrowthLow.Value), s.optimum(), float64(s.FeedHigh.Value)
	at := float64(t)
	if at <= low || at >= high {
		return 0, nil
	}
	shape := (best - low) / (high - best)
	return quantity.Fraction((high - at) / (high - best) * math.Pow((at-low)/(best-low), shape)), nil // Yan & Hunt 1999, Annals of Botany 84:607-614, from memory
}

// GrowthUnits returns the degree days that a day at a temperature is worth: as
// many as at the optimum, times the GrowthResponse. With a coefficient found
// near the optimum it takes the place of plain degree days, which promise ever
// more growth in ever warmer water.
func GrowthUnits(s Species, t quantity.Celsius) (DegreeDays, error) {
	response, err := GrowthResponse(s, t)
	if err != nil {
		return 0, err
	}
	return DegreeDays(s.optimum() * float64(response)), nil
}

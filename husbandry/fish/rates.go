package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const percent = 100

// SpecificGrowthRate returns the growth rate of fish that went from w0 to w1,
// each 0.001 to 100,000 g, in 0.01 to 3650 days. It falls as fish grow, so it
// must not be carried on to larger fish.
func SpecificGrowthRate(w0, w1 quantity.Grams, days quantity.Days) (PercentPerDay, error) {
	if err := checkGrowth(w0, w1, days); err != nil {
		return 0, err
	}
	return PercentPerDay(percent * math.Log(float64(w1)/float64(w0)) / float64(days)), nil // SGR = 100 (ln W1 - ln W0) / t
}

// GrowthRateOfGain returns the specific growth rate of a gain given as a share
// of the starting weight (0.5 for half as much again), over 0.01 to 3650 days.
func GrowthRateOfGain(gain quantity.Fraction, days quantity.Days) (PercentPerDay, error) {
	if err := firstError(gainShareBound.check(float64(gain)), daysBound.check(float64(days))); err != nil {
		return 0, err
	}
	return PercentPerDay(percent * math.Log1p(float64(gain)) / float64(days)), nil
}

// DailyGain returns the mean gain a day of fish that went from w0 to w1, each
// 0.001 to 100,000 g, in 0.01 to 3650 days.
func DailyGain(w0, w1 quantity.Grams, days quantity.Days) (GramsPerDay, error) {
	if err := checkGrowth(w0, w1, days); err != nil {
		return 0, err
	}
	return GramsPerDay(float64(w1-w0) / float64(days)), nil
}

// DailyGainOfRate returns the mean gain a day of fish of w0, 0.001 to 100,000
// g, that grow at a steady rate of -50 to 50 %/d for 0.01 to 3650 days.
func DailyGainOfRate(w0 quantity.Grams, rate PercentPerDay, days quantity.Days) (GramsPerDay, error) {
	if err := firstError(weightBound.check(float64(w0)), rateBound.check(float64(rate)), daysBound.check(float64(days))); err != nil {
		return 0, err
	}
	return GramsPerDay(float64(w0) * math.Expm1(float64(rate)/percent*float64(days)) / float64(days)), nil
}

// WeightByRate returns the weight of fish of w0 after days at a steady rate.
// Ranges are those of DailyGainOfRate.
func WeightByRate(w0 quantity.Grams, rate PercentPerDay, days quantity.Days) (quantity.Grams, error) {
	if err := firstError(weightBound.check(float64(w0)), rateBound.check(float64(rate)), daysBound.check(float64(days))); err != nil {
		return 0, err
	}
	return quantity.Grams(float64(w0) * math.Exp(float64(rate)/percent*float64(days))), nil
}

// PercentGain returns the gain of fish that went from w0 to w1, each 0.001 to
// 100,000 g, in percent of w0.
func PercentGain(w0, w1 quantity.Grams) (quantity.Percent, error) {
	if err := firstError(weightBound.check(float64(w0)), weightBound.check(float64(w1))); err != nil {
		return 0, err
	}
	return quantity.Percent(percent * float64(w1-w0) / float64(w0)), nil
}

// EndWeight returns the weight after a gain of -100,000 to 100,000 g. A loss
// larger than the fish is an error of whatever is computed from it.
func EndWeight(w0, gain quantity.Grams) (quantity.Grams, error) {
	if err := firstError(weightBound.check(float64(w0)), gainBound.check(float64(gain))); err != nil {
		return 0, err
	}
	return w0 + gain, nil
}

// FeedConversion returns feed of 0 to 1e9 g for each gain of 1e-6 to 1e9 g,
// both as they are weighed: feed as fed, fish wet. The gain is net; whether
// the weight of dead fish counts as gain must be said with the number.
func FeedConversion(feed, gain quantity.Grams) (float64, error) {
	if err := firstError(feedBound.check(float64(feed)), netGainBound.check(float64(gain))); err != nil {
		return 0, err
	}
	return float64(feed) / float64(gain), nil
}

// ProteinEfficiency returns the gain, -1e5 to 1e5 g, for each gram of protein
// fed, 1e-6 to 1e9 g.
func ProteinEfficiency(gain, protein quantity.Grams) (float64, error) {
	if err := firstError(gainBound.check(float64(gain)), proteinFedBound.check(float64(protein))); err != nil {
		return 0, err
	}
	return float64(gain) / float64(protein), nil
}

// Survival returns the share of 1 to 1e7 stocked fish that were counted later,
// in percent. More fish than were stocked give more than 100: count again.
func Survival(stocked, counted float64) (quantity.Percent, error) {
	if err := firstError(someFishBound.check(stocked), fishBound.check(counted)); err != nil {
		return 0, err
	}
	return quantity.Percent(percent * counted / stocked), nil
}

func checkGrowth(w0, w1 quantity.Grams, days quantity.Days) error {
	return firstError(weightBound.check(float64(w0)), weightBound.check(float64(w1)), daysBound.check(float64(days)))
}

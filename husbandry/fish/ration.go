package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A rationClass says what share of its weight a fish eats in a day, falling
// from the light end of the class to the heavy end.
type rationClass struct {
	from, to       quantity.Grams
	atFrom, atTo   quantity.Percent
	classification string // what the source calls the class
}

const (
	tilapiaRationSource = "SRAC 283 Table 1, from memory; above 450 g FAO TP 589, 1 to 2 % in grow-out"
	catfishRationSource = "FAO AFFRIS: fry 6 to 10 %, fingerlings 2 to 5 %, broodfish 1 to 2 %; weights of the classes are common practice, no source"
	otherRationSource   = "common practice, no source; from 50 g within FAO TP 589, 1 to 2 % in grow-out"
)

var tilapiaRations = [...]rationClass{
	{0.02, 0.5, 20, 15, "fry"},
	{0.5, 5, 15, 10, "fry"},
	{5, 20, 10, 7, "fingerling"},
	{20, 50, 7, 4, "fingerling"},
	{50, 100, 4, 3.5, "grow-out"},
	{100, 250, 3.5, 1.5, "grow-out"},
	{250, 450, 1.5, 1, "grow-out"},
	{450, 5000, 1, 1, "grow-out"},
}

var catfishRations = [...]rationClass{
	{0.1, 5, 10, 6, "fry"},
	{5, 100, 5, 2, "fingerling"},
	{100, 20000, 2, 1, "broodfish"},
}

var otherRations = [...]rationClass{
	{0.1, 5, 10, 5, "fry"},
	{5, 50, 5, 2, "fingerling"},
	{50, 20000, 2, 1, "grow-out"},
}

// RationPercent returns a day's feed as share of body weight, for a fish of
// its weight at a water temperature. Appetite, 0 to 1, is the share of its last
// meals that the cohort finished. The figure is the classes' at the optimum
// temperature, falls in a straight line to nothing at the ends of the feeding
// range (common practice, no source), and is zero outside it; trout follow
// their own chart. Deadly temperatures and weights outside the tables are
// refused.
func RationPercent(s Species, weight quantity.Grams, t quantity.Celsius, appetite quantity.Fraction) (quantity.Percent, error) {
	if err := firstError(s.alive(t), weightBound.check(float64(weight)), appetiteBound.check(float64(appetite))); err != nil {
		return 0, err
	}
	if t < s.FeedLow.Value || t > s.FeedHigh.Value {
		return 0, nil
	}
	full, err := s.fullRation(weight, t)
	return full * quantity.Percent(appetite), err
}

// fullRation is the ration at full appetite within the feeding range. The ends
// of that range were converted once, which may cost a last digit.
func (s Species) fullRation(weight quantity.Grams, t quantity.Celsius) (quantity.Percent, error) {
	if s.rations == nil {
		return TroutRation(max(chartLow, t.Fahrenheit()), TroutLengthClass(weight))
	}
	if s.Name == catfish && t.Fahrenheit() <= winterHigh {
		w, err := CatfishWinterRation(max(winterLow, t.Fahrenheit()))
		return w.Daily(), err
	}
	base, err := s.baseRation(weight)
	return base * quantity.Percent(s.appetiteAt(t)), err
}

// rationsFrom is where the species' ration stands.
func (s Species) rationsFrom() string {
	switch {
	case s.rations == nil:
		return "trout chart of Leitritz & Lewis 1980 (NC State Extension reproduction)"
	case s.Name == catfish:
		return catfishRationSource + "; winter by " + texas
	case &s.rations[0] == &tilapiaRations[0]:
		return tilapiaRationSource
	default:
		return otherRationSource
	}
}

// baseRation interpolates within a class along the logarithm of weight.
func (s Species) baseRation(weight quantity.Grams) (quantity.Percent, error) {
	lightest, heaviest := s.rations[0].from, s.rations[len(s.rations)-1].to
	if err := quantity.Within("weight of a fish", float64(weight), float64(lightest), float64(heaviest), "g", s.rationsFrom()); err != nil {
		return 0, err
	}
	c := s.rations[0]
	for _, next := range s.rations[1:] {
		if weight < next.from {
			break
		}
		c = next
	}
	along := math.Log(float64(weight/c.from)) / math.Log(float64(c.to/c.from))
	return c.atFrom + quantity.Percent(along)*(c.atTo-c.atFrom), nil
}

// appetiteAt is 1 within the optimum and falls to 0 at the ends of feeding.
func (s Species) appetiteAt(t quantity.Celsius) float64 {
	below := (t - s.FeedLow.Value) / (s.OptimumLow.Value - s.FeedLow.Value)
	above := (s.FeedHigh.Value - t) / (s.FeedHigh.Value - s.OptimumHigh.Value)
	return float64(min(1, below, above))
}

// Ration returns a day's feed for 0 to 1e7 fish, in grams. See RationPercent.
func Ration(s Species, fish float64, weight quantity.Grams, t quantity.Celsius, appetite quantity.Fraction) (quantity.Grams, error) {
	if err := fishBound.check(fish); err != nil {
		return 0, err
	}
	share, err := RationPercent(s, weight, t, appetite)
	return quantity.Grams(fish * float64(weight) * float64(share) / percent), err
}

// FeedPerFish returns a day's feed for one fish of 0.001 to 100,000 g at a
// share of its weight of 0 to 30 %.
func FeedPerFish(weight quantity.Grams, share quantity.Percent) (quantity.Grams, error) {
	if err := firstError(weightBound.check(float64(weight)), percentBound.check(float64(share))); err != nil {
		return 0, err
	}
	return quantity.Grams(float64(weight) * float64(share) / percent), nil
}

// FeedForBiomass returns a day's feed for 0 to 1e6 kg of fish at a share of
// their weight of 0 to 30 %.
func FeedForBiomass(biomass quantity.Kilograms, share quantity.Percent) (quantity.Kilograms, error) {
	if err := firstError(massBound.check(float64(biomass)), percentBound.check(float64(share))); err != nil {
		return 0, err
	}
	return quantity.Kilograms(float64(biomass) * float64(share) / percent), nil
}

const troutHatcheryFactor = 3 // Haskell 1959, from memory

// HaskellRation returns a day's feed of trout as share of body weight, from a
// feed conversion of 0.1 to 20, the gain in length of 0 to 1 in a day, and the
// length of 0.1 to 100 in: 3 x conversion x gain x 100 / length, as weight
// goes with the cube of length.
func HaskellRation(conversion float64, gain, length quantity.Inches) (quantity.Percent, error) {
	if err := firstError(conversionBound.check(conversion), dailyLengthBound.check(float64(gain)), inchesBound.check(float64(length))); err != nil {
		return 0, err
	}
	return quantity.Percent(troutHatcheryFactor * conversion * float64(gain) * percent / float64(length)), nil
}

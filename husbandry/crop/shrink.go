package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// An Expected is what to expect of the next planting, with its spread.
type Expected struct {
	Mean   float64
	Spread float64           // standard deviation of one planting about the mean
	Weight quantity.Fraction // how much of the mean comes from the grower's own plantings
}

// Within80 returns the range in which 8 plantings of 10 should fall, taking
// them as normally spread.
func (e Expected) Within80() (low, high float64) {
	const z = 1.2815515655446004 // 0.9 quantile of the normal distribution
	return e.Mean - z*e.Spread, e.Mean + z*e.Spread
}

// Shrink weighs a grower's own plantings against a published range: n plantings
// count n against one for the range, so that the first own planting already
// halves it and none leaves it as it is. The range is read as holding 19 of 20
// growers, and plantings at one place as spread like places among themselves
// (normal theory with known variances; the equal spreads are an assumption).
// Figure with Low above 0; own values 0 to 5000.
func Shrink(published Figure, own []float64) (Expected, error) {
	err := firstError(
		valueBound.checkAs("lowest published value", published.Low),
		quantity.Within("highest published value", published.High, published.Low, valueBound.high, "", quantity.OwnBounds))
	if err != nil {
		return Expected{}, err
	}
	sum := 0.0
	for _, v := range own {
		if err := valueBound.checkAs("own value", v); err != nil {
			return Expected{}, err
		}
		sum += v
	}
	n := float64(len(own))
	spread := placeSpread(published)
	return Expected{
		Mean:   (published.Middle() + sum) / (1 + n),
		Spread: spread * math.Sqrt(1+1/(1+n)), // doubt of the mean and of the planting itself
		Weight: quantity.Fraction(n / (1 + n)),
	}, nil
}

// placeSpread reads a range as four standard deviations wide, and a single
// published value as good to a tenth of itself.
func placeSpread(f Figure) float64 {
	return math.Max((f.High-f.Low)/4, f.Middle()/10)
}

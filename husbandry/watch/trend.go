package watch

import (
	"math"
	"slices"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Trend is a straight line that a few wild readings do not bend.
type Trend struct {
	Slope          float64 // the median of the slopes between all two readings
	Intercept      float64 // median of y less Slope times median of x
	MedianResidual float64 // the other intercept: the median of y less Slope times x
	Slopes         int     // how many slopes there were
	Low, High      float64 // interval of the slope
}

// TheilSen lays the line through readings (Theil 1950; Sen 1968, J. Am. Stat.
// Assoc. 63:1379). The interval counts out slopes by Sen's ranks, from the
// variance corrected for ties and rounded to whole ranks. Three readings or
// more, up to 3,000, of which two differ in x; confidence 0.5 to 0.9999.
func TheilSen(x, y []float64, confidence quantity.Fraction) (Trend, error) {
	if err := pairs(x, y, 3); err != nil {
		return Trend{}, err
	}
	if err := confident(confidence); err != nil {
		return Trend{}, err
	}
	if err := quantity.Within("number of different x", float64(len(ties(x))), 2, math.MaxInt32, "", "by definition: more than one"); err != nil {
		return Trend{}, err
	}
	var slopes []float64
	for i := range x {
		for j := range i {
			if x[i] != x[j] {
				slopes = append(slopes, (y[i]-y[j])/(x[i]-x[j]))
			}
		}
	}
	slices.Sort(slopes)
	t := Trend{Slope: median(slopes), Slopes: len(slopes)}
	t.Intercept = median(y) - t.Slope*median(x)
	residuals := make([]float64, len(x))
	for i := range x {
		residuals[i] = y[i] - t.Slope*x[i]
	}
	t.MedianResidual = median(residuals)
	reach := chance.NormalQuantile((1+float64(confidence))/2) * math.Sqrt(senVariance(x, y))
	n := float64(len(slopes))
	low := int(math.RoundToEven((n - reach) / 2))
	high := int(math.RoundToEven((n+reach)/2)) + 1
	t.Low, t.High = slopes[max(low, 1)-1], slopes[min(high, len(slopes))-1]
	return t, nil
}

// senVariance is the variance of the count of rises less falls when there is
// no trend, corrected for ties. (Sen 1968, equation 2.6)
func senVariance(x, y []float64) float64 {
	n := float64(len(x))
	v := n * (n - 1) * (2*n + 5)
	for _, values := range [][]float64{x, y} {
		for _, t := range ties(values) {
			v -= t * (t - 1) * (2*t + 5)
		}
	}
	return v / 18
}

// ties counts how many share each value.
func ties(values []float64) []float64 {
	times := map[float64]float64{}
	for _, v := range values {
		times[v]++
	}
	var counts []float64
	for _, t := range times {
		counts = append(counts, t)
	}
	return counts
}

func pairs(x, y []float64, least int) error {
	if err := enough(x, least); err != nil {
		return err
	}
	if err := quantity.Within("number of y", float64(len(y)), float64(len(x)), float64(len(x)), "", "by definition: as many as x"); err != nil {
		return err
	}
	if err := quantity.Within("number of readings", float64(len(x)), float64(least), 3000, "", "bounds of this program: they are compared two by two"); err != nil {
		return err
	}
	return enough(y, least)
}

// A Kendall is a test for a trend of any shape, up or down.
type Kendall struct {
	S        float64 // rises less falls, over all two readings
	Variance float64 // of S without a trend, corrected for ties
	Z        float64 // with the correction for continuity
	P        float64 // two-sided
	Tau      float64 // tau-b: S over what it could be, given the ties
}

// MannKendall asks whether readings in order of time rise or fall (Mann 1945,
// Econometrica 13:245; Kendall 1938, Biometrika 30:81). Independent readings
// are assumed: take out the season first. Three readings or more, up to 3,000,
// not all equal.
func MannKendall(values []float64) (Kendall, error) {
	order := make([]float64, len(values))
	for i := range order {
		order[i] = float64(i)
	}
	if err := pairs(order, values, 3); err != nil {
		return Kendall{}, err
	}
	k := Kendall{Variance: senVariance(order, values)}
	if err := spread(k.Variance); err != nil {
		return Kendall{}, err
	}
	tied := 0.0
	for _, t := range ties(values) {
		tied += t * (t - 1) / 2
	}
	for i := range values {
		for j := range i {
			k.S += sign(values[i] - values[j]) //nolint:gosec // j stays below i
		}
	}
	all := float64(len(values)*(len(values)-1)) / 2
	k.Tau = k.S / math.Sqrt(all*(all-tied))
	k.Z = (k.S - sign(k.S)) / math.Sqrt(k.Variance)
	k.P = 2 * chance.NormalSurvival(math.Abs(k.Z))
	return k, nil
}

func sign(v float64) float64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

package watch

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Forecast is a smoothed series and what it says of the next readings.
type Forecast struct {
	Next []float64 // the forecasts of 1, 2, 3 ... readings ahead
	SSE  float64   // squares of the one-step errors
	MSE  float64
	MAE  float64 // mean of their sizes
}

// score folds the one-step errors into a forecast.
func (f *Forecast) score(errors []float64) {
	for _, e := range errors {
		f.SSE += e * e
		f.MAE += math.Abs(e) / float64(len(errors))
	}
	f.MSE = f.SSE / float64(len(errors))
}

// Simple is simple exponential smoothing: the level starts at the first reading
// and moves by the share alpha (0 to 1) of each error; all forecasts are the
// last level. Two readings or more; ahead from 1 to 1,000. (Brown 1959)
func Simple(values []float64, alpha quantity.Fraction, ahead int) (Forecast, error) {
	if err := smoothable(values, 2, ahead, alpha); err != nil {
		return Forecast{}, err
	}
	level, errors := simple(values, float64(alpha))
	var f Forecast
	f.score(errors)
	for range ahead {
		f.Next = append(f.Next, level)
	}
	return f, nil
}

func simple(values []float64, alpha float64) (level float64, errors []float64) {
	level = values[0]
	for _, v := range values[1:] {
		errors = append(errors, v-level)
		level += alpha * (v - level)
	}
	return level, errors
}

// SimpleBest is the alpha with which Simple makes the fewest squares, to 1e-6,
// looked for in hundredths, and in hundredths of these. Three readings or more.
func SimpleBest(values []float64) (quantity.Fraction, error) {
	if err := enough(values, 3); err != nil {
		return 0, err
	}
	sse := func(alpha float64) float64 {
		_, errors := simple(values, alpha)
		var f Forecast
		f.score(errors)
		return f.SSE
	}
	const parts = 100
	var best float64
	for low, high := 0.0, 1.0; high-low > 1e-7; {
		step := (high - low) / parts
		for i := range parts + 1 {
			if at := low + float64(i)*step; sse(at) < sse(best) {
				best = at
			}
		}
		low, high = max(0, best-step), min(1, best+step)
	}
	return quantity.Fraction(best), nil
}

// Holt smooths level and trend, by shares alpha and beta (0 to 1) of the
// errors, from the second reading and the first step on. Three readings or
// more; ahead from 1 to 1,000. (Holt 1957)
func Holt(values []float64, alpha, beta quantity.Fraction, ahead int) (Forecast, error) {
	if err := smoothable(values, 3, ahead, alpha, beta); err != nil {
		return Forecast{}, err
	}
	level, trend := values[1], values[1]-values[0]
	var errors []float64
	for _, v := range values[2:] {
		expected := level + trend
		errors = append(errors, v-expected)
		next := expected + float64(alpha)*(v-expected)
		trend += float64(beta) * (next - level - trend)
		level = next
	}
	var f Forecast
	f.score(errors)
	for h := range ahead {
		f.Next = append(f.Next, level+float64(h+1)*trend)
	}
	return f, nil
}

func smoothable(values []float64, least, ahead int, shares ...quantity.Fraction) error {
	if err := enough(values, least); err != nil {
		return err
	}
	if err := quantity.Within("readings ahead", float64(ahead), 1, 1000, "", quantity.OwnBounds); err != nil {
		return err
	}
	for _, s := range shares {
		if err := quantity.Within("smoothing share", float64(s), 0, 1, "", quantity.ByDefinition); err != nil {
			return err
		}
	}
	return nil
}

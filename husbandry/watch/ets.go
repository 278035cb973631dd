package watch

import (
	"math"
	"slices"

	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/quantity"
)

// An ETSFit is an exponential smoothing model with its likelihood: errors,
// trend and season in one, with the first states fitted too.
type ETSFit struct {
	Alpha, Beta, Gamma float64
	Sigma              float64 // of the errors; a share of the forecast when the season multiplies
	AICc               float64
	Level, Trend       float64   // after the last reading
	Season             []float64 // of the last period, oldest first
	how                Season
}

// ETS fits additive errors, trend and season, or multiplicative errors and
// season with additive trend, by maximum likelihood (Hyndman, Koehler, Snyder &
// Grose 2002, Int. J. Forecasting 18:439). What the search for so many states
// finds depends on where it starts: hold no digit beyond the second against it.
// Three periods at least; period from 2 to 24; readings above 0 when the season
// multiplies.
func ETS(values []float64, period int, how Season) (ETSFit, error) {
	if err := seasonal(values, period, how); err != nil {
		return ETSFit{}, err
	}
	if err := quantity.Within("period", float64(period), 2, 24, "readings", quantity.OwnBounds); err != nil {
		return ETSFit{}, err
	}
	if err := enough(values, 3*period); err != nil {
		return ETSFit{}, err
	}
	best, least := []float64(nil), math.Inf(1)
	for _, stretch := range []int{2, len(values) / period} { // a season that moved, or one that stayed
		states := firstStates(values[:stretch*period], period, how)
		with := func(shares []float64) float64 {
			_, likelihood := run(values, period, how, append(slices.Clone(shares), states...))
			return likelihood
		}
		shares, value := searched(with, []float64{0.2, 0.02, 0.1})
		if value < least {
			best, least = append(slices.Clone(shares), states...), value
		}
	}
	steps := make([]float64, len(best))
	for i, b := range best {
		steps[i] = math.Abs(b)/20 + 1e-3
	}
	best, least = fit.Minimise(func(b []float64) float64 {
		_, likelihood := run(values, period, how, b)
		return likelihood
	}, best, steps, 1)
	f, _ := run(values, period, how, best)
	n, k := float64(len(values)), float64(len(best)+1)
	f.AICc = least + 2*k*n/(n-k-1)
	return f, nil
}

// firstStates guesses level, step and all seasons but the last before the first
// reading, from whole periods.
func firstStates(values []float64, period int, how Season) []float64 {
	level, trend, season := wintersStart(values, period, how)
	return append([]float64{level - trend*float64(period/2), trend}, season[:period-1]...)
}

// run takes a model through a series. B holds the three shares, the first
// level and step, and all seasons but the last, which the others settle.
// Likelihood is -2 log likelihood but for a constant (Hyndman et al. 2002).
func run(values []float64, period int, how Season, b []float64) (f ETSFit, likelihood float64) {
	f = ETSFit{Alpha: b[0], Beta: b[1], Gamma: b[2], Level: b[3], Trend: b[4], how: how}
	if !(f.Alpha >= 0 && f.Beta >= 0 && f.Beta <= f.Alpha && f.Gamma >= 0 && f.Gamma <= 1-f.Alpha) {
		return f, math.Inf(1)
	}
	var last float64
	if how == Multiplicative {
		last = float64(period)
	}
	for _, s := range b[5:] {
		last -= s
	}
	f.Season = append(slices.Grow(slices.Clone(b[5:]), len(values)), last)
	squares, logs := 0.0, 0.0
	for _, v := range values {
		e, mu := f.step(v)
		squares += e * e
		if how == Multiplicative {
			logs += math.Log(mu) // NaN, hence refused, when a forecast falls below 0
		}
	}
	n := float64(len(values))
	f.Sigma = math.Sqrt(squares / (n - float64(len(b))))
	return f, n*math.Log(squares) + 2*logs
}

// step takes in one reading; e is its error, a share of the forecast mu when
// the season multiplies.
func (f *ETSFit) step(v float64) (e, mu float64) {
	expected, season := f.Level+f.Trend, f.Season[0]
	mu = f.how.join(expected, season)
	e = v - mu
	own, unit := season+f.Gamma*e, 1.0
	if f.how == Multiplicative {
		e /= mu
		own, unit = season*(1+f.Gamma*e), expected
	}
	f.Level = expected + f.Alpha*e*unit
	f.Trend += f.Beta * e * unit
	f.Season = append(f.Season[1:], own)
	return e, mu
}

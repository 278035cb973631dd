package watch

import (
	"math"

	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/quantity"
)

// A Season says how the season enters: added to the level, or as a factor of it.
type Season int

const (
	// Additive seasons swing by the same amount whatever the level.
	Additive Season = iota
	// Multiplicative seasons swing in proportion to the level, which must stay above 0.
	Multiplicative
)

// Shares are the smoothing shares of level, trend and season, 0 to 1 each.
type Shares struct{ Alpha, Beta, Gamma quantity.Fraction }

// A Seasonal is a series smoothed with a season.
type Seasonal struct {
	Forecast
	Level, Trend float64
	Season       []float64 // of the last period, oldest first
	Shares       Shares
}

// HoltWinters smooths level, trend and season (Winters 1960, Management Sci.
// 6:324), started from the first two periods taken apart by moving averages
// (as R does; results depend on the start). Two periods and one reading at
// least; period from 2 to 366; readings above 0 when the season multiplies;
// ahead from 1 to 1,000.
func HoltWinters(values []float64, period int, how Season, by Shares, ahead int) (Seasonal, error) {
	if err := seasonal(values, period, how); err != nil {
		return Seasonal{}, err
	}
	if err := smoothable(values, 2*period+1, ahead, by.Alpha, by.Beta, by.Gamma); err != nil {
		return Seasonal{}, err
	}
	return winters(values, period, how, by).ahead(ahead, how), nil
}

// HoltWintersBest is HoltWinters with the shares that make the fewest squares.
// The valley is shallow: another program's shares may differ a good deal.
func HoltWintersBest(values []float64, period int, how Season, ahead int) (Seasonal, error) {
	if _, err := HoltWinters(values, period, how, Shares{}, ahead); err != nil {
		return Seasonal{}, err
	}
	squares := func(b []float64) float64 {
		for _, share := range b {
			if share < 0 || share > 1 {
				return math.Inf(1)
			}
		}
		return winters(values, period, how, sharesOf(b)).SSE
	}
	var best Shares
	least := math.Inf(1)
	for _, start := range [][]float64{{0.3, 0.1, 0.1}, {0.1, 0.01, 0.3}, {0.7, 0.05, 0.5}} {
		if at, value := searched(squares, start); value < least {
			best, least = sharesOf(at), value
		}
	}
	return winters(values, period, how, best).ahead(ahead, how), nil
}

// searched looks for the lowest place of f from a start, at first by steps of
// half its size.
func searched(f func([]float64) float64, start []float64) (at []float64, least float64) {
	var steps []float64
	for _, s := range start {
		steps = append(steps, s/2)
	}
	return fit.Minimise(f, start, steps, 20)
}

func sharesOf(b []float64) Shares {
	return Shares{quantity.Fraction(b[0]), quantity.Fraction(b[1]), quantity.Fraction(b[2])}
}

func seasonal(values []float64, period int, how Season) error {
	if err := quantity.Within("period", float64(period), 2, 366, "readings", quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("kind of season", float64(how), float64(Additive), float64(Multiplicative), "", quantity.OwnBounds); err != nil {
		return err
	}
	if err := enough(values, 2*period+1); err != nil {
		return err
	}
	for _, v := range values {
		if how == Additive {
			break
		}
		if err := quantity.Within("reading under a season that multiplies", v, 1e-150, math.MaxFloat64, "", "by definition: above 0"); err != nil {
			return err
		}
	}
	return nil
}

func winters(values []float64, period int, how Season, by Shares) Seasonal {
	s := Seasonal{Shares: by}
	s.Level, s.Trend, s.Season = wintersStart(values[:2*period], period, how)
	var errors []float64
	for _, v := range values[period:] {
		errors = append(errors, s.step(v, how))
	}
	s.score(errors)
	return s
}

// ahead adds the forecasts.
func (s Seasonal) ahead(ahead int, how Season) Seasonal {
	for h := range ahead {
		s.Next = append(s.Next, how.join(s.Level+float64(h+1)*s.Trend, s.Season[h%len(s.Season)]))
	}
	return s
}

// step takes in one reading and gives back the error of its forecast.
func (s *Seasonal) step(v float64, how Season) float64 {
	before, old := s.Level, s.Season[0]
	e := v - how.join(s.Level+s.Trend, old)
	a, b, g := float64(s.Shares.Alpha), float64(s.Shares.Beta), float64(s.Shares.Gamma)
	s.Level = a*how.part(v, old) + (1-a)*(s.Level+s.Trend)
	s.Trend = b*(s.Level-before) + (1-b)*s.Trend
	s.Season = append(s.Season[1:], g*how.part(v, s.Level)+(1-g)*old)
	return e
}

// join puts a season on a level; part takes away what is known of a reading.
func (how Season) join(level, season float64) float64 {
	if how == Multiplicative {
		return level * season
	}
	return level + season
}

func (how Season) part(reading, known float64) float64 {
	if how == Multiplicative {
		return reading / known
	}
	return reading - known
}

// wintersStart takes two periods apart: a moving average over one period is the
// trend, through which a line gives the first level and step; what is left is
// the season, brought to a mean of nothing (or of one).
func wintersStart(values []float64, period int, how Season) (level, trend float64, season []float64) {
	half := period / 2
	var at, average []float64
	season = make([]float64, period)
	times := make([]float64, period) // an odd period leaves two for the first place
	for i := half; i+half < len(values); i++ {
		m := movingAverage(values, i, period)
		at, average = append(at, float64(len(at)+1)), append(average, m)
		season[i%period] += how.part(values[i], m)
		times[i%period]++
	}
	for i := range season {
		season[i] /= times[i]
	}
	trend = slope(at, average)
	level = mean(average) - trend*mean(at)
	centre := mean(season)
	for i := range season {
		season[i] = how.part(season[i], centre)
	}
	return level, trend, season
}

// slope is that of the least-squares line.
func slope(x, y []float64) float64 {
	var both, own float64
	centre := mean(x)
	for i := range x {
		both += (x[i] - centre) * y[i]
		own += (x[i] - centre) * x[i]
	}
	return both / own
}

// movingAverage is the mean over one period about place i, the ends counting
// half where the period is even.
func movingAverage(values []float64, i, period int) float64 {
	half := period / 2
	sum := 0.0
	for j := i - half; j <= i+half; j++ {
		sum += values[j]
	}
	if period%2 == 0 {
		sum -= (values[i-half] + values[i+half]) / 2
	}
	return sum / float64(period)
}

package watch

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Forecast is the reading so many steps ahead (1 to 1,000) with its normal
// interval, mean and variance exact under the model; confidence 0.5 to 0.9999.
// (Hyndman, Koehler, Ord & Snyder 2005, J. Forecasting 24:17)
func (f ETSFit) Forecast(ahead int, confidence quantity.Fraction) (Span, error) {
	if err := quantity.Within("readings ahead", float64(ahead), 1, 1000, "", quantity.OwnBounds); err != nil {
		return Span{}, err
	}
	if err := confident(confidence); err != nil {
		return Span{}, err
	}
	season := f.Season[(ahead-1)%len(f.Season)]
	if f.how == Multiplicative {
		mean, variance := f.product(ahead)
		return spanned(season*mean, math.Abs(season)*math.Sqrt(variance), confidence), nil
	}
	return spanned(f.Level+float64(ahead)*f.Trend+season, math.Sqrt(f.sum(ahead)), confidence), nil
}

// sum is the variance ahead when everything adds: each error in between moves
// the level, the trend and, a whole period on, the season.
func (f ETSFit) sum(ahead int) float64 {
	sum := 1.0
	for j := 1; j < ahead; j++ {
		c := f.Alpha + f.Beta*float64(j)
		if j%len(f.Season) == 0 {
			c += f.Gamma
		}
		sum += c * c
	}
	return f.Sigma * f.Sigma * sum
}

// product is the mean and the variance ahead, for a season of 1 now, when
// errors and season multiply. What is followed is the level and the trend, each
// times the season that the reading will have: an error e turns that pair into
// (F + e*G) of itself, and into (1 + Gamma*e) times as much where it falls on
// the same place of the period. Only the means of e, e*e and e^4 enter.
func (f ETSFit) product(ahead int) (mean, variance float64) {
	v := f.Sigma * f.Sigma
	carried := pairMatrix{{1, 1}, {0, 1}}
	moved := pairMatrix{{f.Alpha, f.Alpha}, {f.Beta, f.Beta}}
	first := [2]float64{f.Level, f.Trend}
	second := pairMatrix{{f.Level * f.Level, f.Level * f.Trend}, {f.Level * f.Trend, f.Trend * f.Trend}}
	for j := 1; j < ahead; j++ {
		gamma := 0.0
		if (ahead-j)%len(f.Season) == 0 {
			gamma = f.Gamma
		}
		both := moved.plus(carried, gamma)
		cross := carried.around(second, moved).plus(moved.around(second, carried), 1)
		first = carried.plus(moved, v*gamma).of(first)
		second = carried.around(second, carried).
			plus(both.around(second, both), v).
			plus(cross, v*gamma).
			plus(moved.around(second, moved), 3*v*v*gamma*gamma)
	}
	mean = first[0] + first[1]
	square := second[0][0] + second[0][1] + second[1][0] + second[1][1]
	return mean, (1+v)*square - mean*mean
}

// A pairMatrix turns a pair of level and trend into another.
type pairMatrix [2][2]float64

func (m pairMatrix) plus(o pairMatrix, times float64) pairMatrix {
	for i := range m {
		for j := range m[i] {
			m[i][j] += times * o[i][j]
		}
	}
	return m
}

func (m pairMatrix) of(v [2]float64) [2]float64 {
	return [2]float64{m[0][0]*v[0] + m[0][1]*v[1], m[1][0]*v[0] + m[1][1]*v[1]}
}

// around is m times middle times o turned over.
func (m pairMatrix) around(middle, o pairMatrix) pairMatrix {
	var r pairMatrix
	for i := range r {
		for j := range r[i] {
			left := [2]float64{o[j][0], o[j][1]}
			through := middle.of(left)
			r[i][j] = m[i][0]*through[0] + m[i][1]*through[1]
		}
	}
	return r
}

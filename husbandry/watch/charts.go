package watch

import (
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// d2 and d3 are the mean and the standard deviation of the distance between
// two standard normal values; tables round them to 1.128 and 0.853.
var (
	d2 = 2 / math.Sqrt(math.Pi)
	d3 = math.Sqrt(2 - 4/math.Pi)
)

// A Chart is a control chart of single readings.
type Chart struct {
	Centre       float64 // their mean
	Sigma        float64 // from the mean moving range
	Lower, Upper float64 // three Sigma from Centre
	RangeUpper   float64 // upper limit of the moving range
	Outside      []int   // places, from 0, of readings beyond the limits
}

// Individuals draws the chart of single readings with limits from how much one
// reading differs from the next (Shewhart 1931; Wheeler 1992). Two readings or
// more, not all equal.
func Individuals(values []float64) (Chart, error) {
	if err := enough(values, 2); err != nil {
		return Chart{}, err
	}
	c := Chart{Centre: mean(values), Sigma: movingSigma(values)}
	if err := spread(c.Sigma); err != nil {
		return Chart{}, err
	}
	c.Lower, c.Upper = c.Centre-3*c.Sigma, c.Centre+3*c.Sigma
	c.RangeUpper = (d2 + 3*d3) * c.Sigma
	for i, v := range values {
		if v < c.Lower || v > c.Upper {
			c.Outside = append(c.Outside, i)
		}
	}
	return c, nil
}

// movingSigma is the mean distance of neighbours over d2.
func movingSigma(values []float64) float64 {
	sum := 0.0
	for i := 1; i < len(values); i++ {
		sum += math.Abs(values[i] - values[i-1])
	}
	return sum / float64(len(values)-1) / d2
}

func spread(sigma float64) error {
	return quantity.Within("spread of the readings", sigma, math.SmallestNonzeroFloat64, math.MaxFloat64, "", "by definition: the readings must differ")
}

// A Smoothed chart is what it remembers of all readings so far, with the
// limits that it should stay within.
type Smoothed struct {
	Centre, Sigma float64
	Value         []float64 // the weighted mean after each reading
	HalfWidth     []float64 // the limits lie this far from Centre
	Signals       []int     // places, from 0, at which Value is beyond them
}

// EWMA draws the exponentially weighted moving average: each reading enters
// with weight lambda (above 0, at most 1) and fades; limits lie so many
// (limit, 1 to 6) standard deviations of the average away, narrower at first.
// Centre and spread come from the first readings (at least two, known to be
// good). (Roberts 1959, Technometrics 1:239; Lucas & Saccucci 1990)
func EWMA(values []float64, lambda, limit float64, first int) (Smoothed, error) {
	s := Smoothed{}
	var err error
	if s.Centre, s.Sigma, err = base(values, first); err != nil {
		return s, err
	}
	if err := quantity.Within("weight lambda", lambda, 1e-6, 1, "", quantity.OwnBounds); err != nil {
		return Smoothed{}, err
	}
	if err := quantity.Within("limit", limit, 1, 6, "standard deviations", quantity.OwnBounds); err != nil {
		return Smoothed{}, err
	}
	z, fading := s.Centre, 1.0
	for i, v := range values {
		z += lambda * (v - z)
		fading *= (1 - lambda) * (1 - lambda)
		half := limit * s.Sigma * math.Sqrt(lambda/(2-lambda)*(1-fading))
		s.Value, s.HalfWidth = append(s.Value, z), append(s.HalfWidth, half)
		if math.Abs(z-s.Centre) > half {
			s.Signals = append(s.Signals, i)
		}
	}
	return s, nil
}

// Sums are a pair of running sums of how far readings lie above and below the
// centre, in standard deviations.
type Sums struct {
	Up, Down               []float64
	FirstUp, FirstDown     int // places, from 0, of the first signals; -1 when there is none
	LargestUp, LargestDown float64
}

// CUSUM runs the tabular cumulative sums: each adds what a reading exceeds the
// slack (in standard deviations, 0 to 3; half of the shift worth noticing) and
// signals beyond decision (0.5 to 20). Sums are not reset. Centre and spread
// come from the first readings. (Page 1954, Biometrika 41:100)
func CUSUM(values []float64, slack, decision float64, first int) (Sums, error) {
	var s Sums
	centre, sigma, err := base(values, first)
	if err != nil {
		return s, err
	}
	if err := quantity.Within("slack", slack, 0, 3, "standard deviations", quantity.OwnBounds); err != nil {
		return s, err
	}
	if err := quantity.Within("decision", decision, 0.5, 20, "standard deviations", quantity.OwnBounds); err != nil {
		return s, err
	}
	above, below := make([]float64, len(values)), make([]float64, len(values))
	for i, v := range values {
		above[i], below[i] = (v-centre)/sigma, (centre-v)/sigma
	}
	s.Up, s.Down = RunningSums(above, slack), RunningSums(below, slack)
	s.LargestUp, s.LargestDown = slices.Max(s.Up), slices.Max(s.Down)
	beyond := func(sum float64) bool { return sum > decision }
	s.FirstUp, s.FirstDown = slices.IndexFunc(s.Up, beyond), slices.IndexFunc(s.Down, beyond)
	return s, nil
}

// RunningSums adds up by how much values, in spreads above their centre, exceed
// the slack, and never falls below 0 (Page 1954).
func RunningSums(values []float64, slack float64) []float64 {
	sums, sum := make([]float64, len(values)), 0.0
	for i, v := range values {
		sum = max(0, sum+v-slack)
		sums[i] = sum
	}
	return sums
}

// base is centre and spread of the first readings.
func base(values []float64, first int) (centre, sigma float64, err error) {
	if err = finite(values); err != nil {
		return
	}
	if err = quantity.Within("readings known to be good", float64(first), 2, float64(len(values)), "", quantity.ByDefinition); err != nil {
		return
	}
	sigma = movingSigma(values[:first])
	if err = spread(sigma); err != nil {
		return
	}
	return mean(values[:first]), sigma, nil
}

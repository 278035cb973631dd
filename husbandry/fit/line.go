package fit

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Line is a straight line through points, y = Intercept + Slope*x.
type Line struct {
	Intercept, Slope     float64
	InterceptSE, SlopeSE float64
	Sigma                float64 // standard deviation of the residuals
	Linear
}

// StraightLine fits a line through points by least squares. Three points or
// more, of which two differ in x.
func StraightLine(x, y []float64) (Line, error) {
	if err := quantity.Within("number of points", float64(len(x)), 3, 1e7, "", quantity.OwnBounds); err != nil {
		return Line{}, err
	}
	ones := make([]float64, len(x))
	for i := range ones {
		ones[i] = 1
	}
	l, err := LeastSquares([][]float64{ones, x}, y)
	if err != nil {
		return Line{}, err
	}
	if err := quantity.Within("number of different x", float64(l.Rank), 2, 2, "", quantity.OwnBounds); err != nil {
		return Line{}, err
	}
	return Line{l.Coefficients[0], l.Coefficients[1], l.SE[0], l.SE[1], l.Sigma(), l}, nil
}

// Predict is the line's value at x with the interval in which one more point
// would lie. Confidence 0.5 to 0.9999.
func (l Line) Predict(x float64, confidence quantity.Fraction) (value, low, high float64, err error) {
	if err = quantity.Within("x", x, -1e150, 1e150, "", quantity.OwnBounds); err != nil {
		return
	}
	if err = quantity.Within("confidence", float64(confidence), 0.5, 0.9999, "", quantity.OwnBounds); err != nil {
		return
	}
	value, se := l.Combine([]float64{1, x})
	reach := l.reach(confidence) * math.Hypot(se, l.Sigma)
	return value, value - reach, value + reach, nil
}

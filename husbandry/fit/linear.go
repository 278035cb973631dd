package fit

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Linear is a fitted straight model: values as sums of columns, each with a
// coefficient.
type Linear struct {
	Coefficients []float64   // NaN for a column that earlier ones already hold
	SE           []float64   // their standard errors; NaN when no degrees of freedom are left
	Rank         int         // columns that could be told apart
	DF           int         // values less Rank
	RSS          float64     // residual sum of squares
	spread       [][]float64 // covariance of the coefficients over Sigma squared
}

// Sigma is the standard deviation of the residuals, with DF below.
func (l Linear) Sigma() float64 { return math.Sqrt(l.RSS / float64(l.DF)) }

// LeastSquares fits y as a sum of columns, each as long as y. Columns that
// earlier ones already hold (within one part in ten million) get no
// coefficient, so that confounded terms show instead of exploding. All values
// finite, one column and one value at least.
func LeastSquares(columns [][]float64, y []float64) (Linear, error) {
	if err := rectangle(columns, y); err != nil {
		return Linear{}, err
	}
	q, r, kept := orthogonal(columns)
	rest := append([]float64{}, y...)
	effects := make([]float64, len(q))
	for range 2 { // twice, so that rounding leaves nothing behind
		for i := range q {
			part := dot(q[i], rest)
			effects[i] += part
			subtract(rest, part, q[i])
		}
	}
	l := Linear{Rank: len(q), DF: len(y) - len(q), RSS: dot(rest, rest)}
	l.fill(len(columns), kept, effects, invertUpper(r))
	return l, nil
}

func rectangle(columns [][]float64, y []float64) error {
	n := float64(len(y))
	if err := quantity.Within("number of values", n, 1, 1e7, "", quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("number of columns", float64(len(columns)), 1, 1000, "", quantity.OwnBounds); err != nil {
		return err
	}
	for _, c := range append([][]float64{y}, columns...) {
		if err := quantity.Within("length of a column", float64(len(c)), n, n, "", "by definition: as many as values"); err != nil {
			return err
		}
		for _, v := range c {
			if err := quantity.Within("value", v, -1e150, 1e150, "", quantity.OwnBounds); err != nil {
				return err
			}
		}
	}
	return nil
}

// orthogonal is Gram-Schmidt, each column cleaned twice (Bjorck 1967); r
// tells the kept columns in terms of the orthogonal ones.
func orthogonal(columns [][]float64) (q, r [][]float64, kept []int) {
	const aliased = 1e-7
	for j, column := range columns {
		v := append([]float64{}, column...)
		before := math.Sqrt(dot(v, v))
		row := make([]float64, len(q)+1)
		for range 2 {
			for i := range q {
				part := dot(q[i], v)
				row[i] += part
				subtract(v, part, q[i])
			}
		}
		norm := math.Sqrt(dot(v, v))
		if norm <= aliased*before {
			continue
		}
		for i := range v {
			v[i] /= norm
		}
		row[len(q)] = norm
		q, r, kept = append(q, v), append(r, row), append(kept, j)
	}
	return q, r, kept
}

// invertUpper inverts the triangle whose column j is r[j].
func invertUpper(r [][]float64) [][]float64 {
	n := len(r)
	inverse := make([][]float64, n)
	for i := range inverse {
		inverse[i] = make([]float64, n)
	}
	for j := range n {
		inverse[j][j] = 1 / r[j][j]
		for i := j - 1; i >= 0; i-- {
			for k := i + 1; k <= j; k++ {
				inverse[i][j] -= r[k][i] * inverse[k][j]
			}
			inverse[i][j] /= r[i][i]
		}
	}
	return inverse
}

func (l *Linear) fill(columns int, kept []int, effects []float64, inverse [][]float64) {
	l.Coefficients, l.SE = make([]float64, columns), make([]float64, columns)
	l.spread = make([][]float64, columns)
	for j := range columns {
		l.Coefficients[j], l.SE[j] = math.NaN(), math.NaN()
		l.spread[j] = make([]float64, columns)
	}
	for a, j := range kept {
		l.Coefficients[j] = dot(inverse[a], effects)
		for b, k := range kept {
			l.spread[j][k] = dot(inverse[a], inverse[b])
		}
		l.SE[j] = l.Sigma() * math.Sqrt(l.spread[j][j])
	}
}

// Combine is a weighted sum of the coefficients with its standard error, such
// as a prediction or a difference of two treatments. One weight a column;
// columns without a coefficient must have weight 0, or the sum is NaN.
func (l Linear) Combine(weights []float64) (value, se float64) {
	variance := 0.0
	for i, w := range weights {
		if w == 0 {
			continue
		}
		value += w * l.Coefficients[i]
		for j, u := range weights {
			variance += w * u * l.spread[i][j]
		}
	}
	return value, l.Sigma() * math.Sqrt(variance)
}

// reach is how far the interval of an estimate reaches on either side, in
// standard errors, at the given confidence.
func (l Linear) reach(confidence quantity.Fraction) float64 {
	return chance.TQuantile((1+float64(confidence))/2, float64(l.DF))
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// subtract takes times*b from a, in place.
func subtract(a []float64, times float64, b []float64) {
	for i := range a {
		a[i] -= times * b[i]
	}
}

package fit

import (
	"errors"
	"math"

	"freshet.example/husbandry/quantity"
)

// ErrNoFit says that no start led to a curve.
var ErrNoFit = errors.New("fit: no start led to a curve; the points do not bend as this curve does")

// A Curve is a formula with parameters b that is to pass near points.
type Curve func(x float64, b []float64) float64

// A Fitted is a curve with the parameters that come nearest to the points.
type Fitted struct {
	Parameters []float64
	SE         []float64 // standard errors by linear approximation at the fit
	RSS        float64   // residual sum of squares
	Sigma      float64   // standard deviation of the residuals
	DF         int       // points less parameters
	Curve      Curve
}

// At is the fitted curve's value at x.
func (f Fitted) At(x float64) float64 { return f.Curve(x, f.Parameters) }

// Determined reports whether every parameter is known to better than half its
// size. Where not, the points fit many curves: their fitted values may be
// shown, a final size must not.
func (f Fitted) Determined() bool {
	for i, se := range f.SE {
		if !(se <= math.Abs(f.Parameters[i])/2) {
			return false
		}
	}
	return true
}

// Fit brings the curve as near to the points as it can, in squares, from the
// best of several starts: Levenberg's method (Quart. Appl. Math. 2:164, 1944)
// with Marquardt's scaling (J. SIAM 11:431, 1963). Starts matter more than the
// method: give several. More points than parameters; all values finite.
func Fit(curve Curve, x, y []float64, starts ...[]float64) (Fitted, error) {
	best := Fitted{RSS: math.Inf(1)}
	for _, start := range starts {
		if err := rectangle([][]float64{x}, y); err != nil {
			return Fitted{}, err
		}
		if err := quantity.Within("number of points", float64(len(x)), float64(len(start)+1), 1e7, "", "by definition: more than parameters"); err != nil {
			return Fitted{}, err
		}
		if f := descend(curve, x, y, start); f.RSS < best.RSS {
			best = f
		}
	}
	if math.IsInf(best.RSS, 1) {
		return Fitted{}, ErrNoFit
	}
	return best, nil
}

// descend walks downhill from one start until no step helps.
func descend(curve Curve, x, y, start []float64) Fitted {
	b := append([]float64{}, start...)
	rss := squares(curve, x, y, b)
	damping := 1e-3
	for range 2000 {
		step, ok := levenbergStep(curve, x, y, b, damping)
		if !ok {
			break
		}
		tried := moved(b, step)
		lower := squares(curve, x, y, tried)
		if !(lower < rss) {
			if damping *= 10; damping > 1e12 {
				break
			}
			continue
		}
		settled := lower > rss*(1-1e-15) && small(step, b)
		b, rss, damping = tried, lower, max(damping/10, 1e-15)
		if settled {
			break
		}
	}
	return finished(curve, x, y, polished(curve, x, y, b, rss), rss)
}

// polished goes the last steps undamped (Gauss-Newton): near the bottom the
// squares no longer tell one step from the next, though half of the parameters'
// digits are still to be had. It stops where the squares rise again.
func polished(curve Curve, x, y, b []float64, rss float64) []float64 {
	for range 20 {
		step, ok := levenbergStep(curve, x, y, b, 0)
		if !ok {
			break
		}
		tried := moved(b, step)
		if !(squares(curve, x, y, tried) <= rss*(1+1e-12)) {
			break
		}
		if b = tried; small(step, b) {
			break
		}
	}
	return b
}

func small(step, b []float64) bool {
	for i := range step {
		if math.Abs(step[i]) > 1e-10*math.Abs(b[i]) {
			return false
		}
	}
	return true
}

// levenbergStep solves (J'J + damping*diag(J'J)) step = J'residual as least
// squares with one extra row a parameter, which keeps the digits that J'J loses.
func levenbergStep(curve Curve, x, y, b []float64, damping float64) ([]float64, bool) {
	slopes := jacobian(curve, x, b)
	gap := residuals(curve, x, y, b)
	for j := range slopes {
		size := math.Sqrt(dot(slopes[j], slopes[j]))
		extra := make([]float64, len(b))
		extra[j] = math.Sqrt(damping) * size
		slopes[j] = append(slopes[j], extra...)
	}
	gap = append(gap, make([]float64, len(b))...)
	l, err := LeastSquares(slopes, gap)
	return l.Coefficients, err == nil && l.Rank == len(b)
}

func finished(curve Curve, x, y, b []float64, rss float64) Fitted {
	f := Fitted{Parameters: b, RSS: rss, DF: len(x) - len(b), Curve: curve}
	if !(rss < math.Inf(1)) {
		f.RSS = math.Inf(1)
		return f
	}
	f.Sigma = math.Sqrt(rss / float64(f.DF))
	l, err := LeastSquares(jacobian(curve, x, b), residuals(curve, x, y, b))
	f.SE = make([]float64, len(b))
	for j := range b {
		f.SE[j] = math.Inf(1)
		if err == nil && l.Rank == len(b) {
			f.SE[j] = f.Sigma * math.Sqrt(l.spread[j][j])
		}
	}
	return f
}

// jacobian is how the curve moves with each parameter, one column a parameter,
// by differences on both sides with one refinement (Richardson 1911).
func jacobian(curve Curve, x, b []float64) [][]float64 {
	columns := make([][]float64, len(b))
	for j := range b {
		columns[j] = make([]float64, len(x))
		h := 2e-5 * math.Abs(b[j])
		if h == 0 {
			h = 1e-6
		}
		for i := range x {
			columns[j][i] = (4*slope(curve, x[i], b, j, h/2) - slope(curve, x[i], b, j, h)) / 3
		}
	}
	return columns
}

func slope(curve Curve, x float64, b []float64, j int, h float64) float64 {
	at := b[j]
	b[j] = at + h
	above := curve(x, b)
	b[j] = at - h
	below := curve(x, b)
	b[j] = at
	return (above - below) / (2 * h)
}

func residuals(curve Curve, x, y, b []float64) []float64 {
	gap := make([]float64, len(x))
	for i := range x {
		gap[i] = y[i] - curve(x[i], b)
	}
	return gap
}

func squares(curve Curve, x, y, b []float64) float64 {
	gap := residuals(curve, x, y, b)
	rss := dot(gap, gap)
	if math.IsNaN(rss) {
		return math.Inf(1)
	}
	return rss
}

func moved(b, step []float64) []float64 {
	m := make([]float64, len(b))
	for i := range b {
		m[i] = b[i] + step[i]
	}
	return m
}

package pool

import (
	"math"

	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/quantity"
)

// Slopes is the model of lines in groups: every group has its own level and
// its own slope, which spread about common ones independently of each other.
type Slopes struct {
	Intercept, Slope       float64 // of the middle group
	SlopeSE                float64
	VarIntercept, VarSlope float64   // between groups
	Within                 float64   // about a group's line
	Criterion              float64   // -2 log restricted likelihood at the estimate
	Own                    []float64 // each group's slope, drawn towards Slope
	OwnIntercepts          []float64 // each group's intercept, drawn towards Intercept
}

// RandomSlopes fits the model by restricted maximum likelihood (Laird & Ware
// 1982, Biometrics 38:963). Two groups or more, each with a point or more, and
// at least four points in all of which two differ in x.
func RandomSlopes(x, y [][]float64) (Slopes, error) {
	l, err := lined(x, y)
	if err != nil {
		return Slopes{}, err
	}
	at, least := []float64{0, 0}, l.criterion([]float64{0, 0})
	for _, start := range [][]float64{{1, 1}, {0.1, 0.01}, {3, 0.3}} { // standard deviations over that within
		steps := []float64{start[0] / 2, start[1] / 2}
		if tried, value := fit.Minimise(l.criterion, start, steps, 20); value < least {
			at, least = tried, value
		}
	}
	return l.slopes(at, least), nil
}

// lines holds the sums over points that the likelihood needs, by group.
type lines struct {
	zz    []square     // sums of 1, x, x*x
	zy    [][2]float64 // sums of y, x*y
	yy, n float64
}

func lined(x, y [][]float64) (lines, error) {
	var l lines
	if err := quantity.Within("number of groups", float64(len(x)), 2, 1e5, "", quantity.OwnBounds); err != nil {
		return l, err
	}
	if err := quantity.Within("number of groups in y", float64(len(y)), float64(len(x)), float64(len(x)), "", "by definition: as in x"); err != nil {
		return l, err
	}
	var all square
	for i := range x {
		n := float64(len(x[i]))
		if err := quantity.Within("number of points in a group", n, 1, 1e7, "", quantity.OwnBounds); err != nil {
			return l, err
		}
		if err := quantity.Within("number of y in a group", float64(len(y[i])), n, n, "", "by definition: as in x"); err != nil {
			return l, err
		}
		if err := l.add(x[i], y[i]); err != nil {
			return l, err
		}
		all = all.plus(l.zz[i], 1)
	}
	if err := quantity.Within("number of points", l.n, 4, 1e7, "", quantity.OwnBounds); err != nil {
		return l, err
	}
	return l, quantity.Within("spread of x", all.determinant(), 1e-300, math.MaxFloat64, "", "by definition: two points must differ in x")
}

func (l *lines) add(x, y []float64) error {
	var zz square
	var zy [2]float64
	for j := range x {
		for _, v := range []float64{x[j], y[j]} {
			if err := quantity.Within("value", v, -1e70, 1e70, "", quantity.OwnBounds); err != nil {
				return err
			}
		}
		zz = zz.plus(square{1, x[j], x[j], x[j] * x[j]}, 1)
		zy[0] += y[j]
		zy[1] += x[j] * y[j]
		l.yy += y[j] * y[j]
	}
	l.zz, l.zy, l.n = append(l.zz, zz), append(l.zy, zy), l.n+float64(len(x))
	return nil
}

// solved is the model at given standard deviations of level and slope, both
// over that within.
type solved struct {
	beta    [2]float64
	inverse square // of X'V^-1X
	rss     float64
	logs    float64
	pull    []square // how far each group's own sums move it
}

func (l lines) solve(sd []float64) solved {
	d := square{sd[0] * sd[0], 0, 0, sd[1] * sd[1]}
	var s solved
	var xx square
	var xy [2]float64
	s.rss = l.yy
	for i, zz := range l.zz {
		grown := identity.plus(d.times(zz), 1)
		w := grown.inverse().times(d)
		s.pull = append(s.pull, w)
		s.logs += math.Log(grown.determinant())
		xx = xx.plus(zz.plus(zz.times(w).times(zz), -1), 1)
		wz := w.of(l.zy[i])
		zwz := zz.of(wz)
		xy[0] += l.zy[i][0] - zwz[0]
		xy[1] += l.zy[i][1] - zwz[1]
		s.rss -= l.zy[i][0]*wz[0] + l.zy[i][1]*wz[1]
	}
	s.inverse = xx.inverse()
	s.beta = s.inverse.of(xy)
	s.rss -= s.beta[0]*xy[0] + s.beta[1]*xy[1]
	s.logs += math.Log(xx.determinant())
	return s
}

// criterion is -2 log restricted likelihood, the variance within profiled out.
func (l lines) criterion(sd []float64) float64 {
	s, df := l.solve(sd), l.n-2
	return df*(math.Log(2*math.Pi*s.rss/df)+1) + s.logs
}

func (l lines) slopes(sd []float64, least float64) Slopes {
	s := l.solve(sd)
	within := s.rss / (l.n - 2)
	m := Slopes{Intercept: s.beta[0], Slope: s.beta[1], SlopeSE: math.Sqrt(within * s.inverse.d),
		VarIntercept: within * sd[0] * sd[0], VarSlope: within * sd[1] * sd[1], Within: within, Criterion: least}
	for i, zz := range l.zz {
		fitted := zz.of(s.beta)
		own := s.pull[i].of([2]float64{l.zy[i][0] - fitted[0], l.zy[i][1] - fitted[1]})
		m.OwnIntercepts = append(m.OwnIntercepts, s.beta[0]+own[0])
		m.Own = append(m.Own, s.beta[1]+own[1])
	}
	return m
}

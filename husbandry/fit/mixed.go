package fit

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// An Among is a logistic curve whose final size differs among individuals.
type Among struct {
	Asym, Xmid, Scal       float64 // of the middle individual
	AsymSE, XmidSE, ScalSE float64
	SDAsym                 float64 // standard deviation of the final size among individuals
	Sigma                  float64 // standard deviation of the residuals
	LogLikelihood          float64
	Own                    []float64 // final size of each individual, drawn towards the middle
}

// LogisticAmong fits Asym/(1+exp((xmid-x)/scal)) to several individuals at
// once, with the final size normal among them and the timing shared, by the
// alternating maximum likelihood of Lindstrom & Bates 1990 (Biometrics 46:673). Two individuals or more, each with a point or
// more, and more points than 4 in all.
func LogisticAmong(x, y [][]float64) (Among, error) {
	if err := quantity.Within("number of individuals", float64(len(x)), 2, 1e4, "", quantity.OwnBounds); err != nil {
		return Among{}, err
	}
	if err := quantity.Within("number of individuals in y", float64(len(y)), float64(len(x)), float64(len(x)), "", "by definition: as in x"); err != nil {
		return Among{}, err
	}
	var allX, allY []float64
	for i := range x {
		if err := rectangle([][]float64{x[i]}, y[i]); err != nil {
			return Among{}, err
		}
		allX, allY = append(allX, x[i]...), append(allY, y[i]...)
	}
	if err := quantity.Within("number of points", float64(len(allX)), 5, 1e7, "", quantity.OwnBounds); err != nil {
		return Among{}, err
	}
	pooled, err := Logistic.Fit(allX, allY)
	if err != nil {
		return Among{}, err
	}
	m := among{x, y, float64(len(allX))}
	a, ratio := m.alternate(pooled.Parameters)
	m.errors(&a, ratio)
	return a, nil
}

type among struct {
	x, y [][]float64
	n    float64
}

// alternate takes turns, until neither moves: the curves that fit best given
// how much final sizes may spread, and the spread that is likeliest when the
// curves are made straight where they are. Ratio is the standard deviation of
// the final size over that of the residuals.
func (m among) alternate(start []float64) (a Among, ratio float64) {
	ratio = 1
	timing := start[1:]
	for range 200 {
		timing, _ = Minimise(func(t []float64) float64 { return m.curves(t, ratio).Sigma }, timing,
			[]float64{timing[0] / 20, timing[1] / 20}, 20)
		a = m.curves(timing, ratio)
		before := ratio
		columns, response := m.straightened(a)
		likely, least := Minimise(func(r []float64) float64 { return m.deviance(columns, response, r[0]) },
			[]float64{ratio}, []float64{ratio / 4}, 20)
		ratio = math.Abs(likely[0])
		a.LogLikelihood = -least / 2
		if math.Abs(ratio-before) <= 1e-9*ratio {
			break
		}
	}
	a.SDAsym = ratio * a.Sigma
	return a, ratio
}

// curves finds the best sizes for a given timing, each individual's drawn
// towards the middle one as far as the ratio asks.
func (m among) curves(timing []float64, ratio float64) Among {
	top, bottom := 0.0, 0.0
	shapes := make([][]float64, len(m.x))
	for i := range m.x {
		g := make([]float64, len(m.x[i]))
		for j, x := range m.x[i] {
			g[j] = Logistic.Curve(x, []float64{1, timing[0], timing[1]})
		}
		shapes[i] = g
		size := 1 + ratio*ratio*dot(g, g)
		top += dot(g, m.y[i]) / size
		bottom += dot(g, g) / size
	}
	a := Among{Asym: top / bottom, Xmid: timing[0], Scal: timing[1]}
	rss := 0.0
	for i, g := range shapes {
		gap := append([]float64{}, m.y[i]...)
		subtract(gap, a.Asym, g)
		part := dot(g, gap)
		own := ratio * ratio * part / (1 + ratio*ratio*dot(g, g))
		a.Own = append(a.Own, a.Asym+own)
		rss += dot(gap, gap) - own*part
	}
	a.Sigma = math.Sqrt(rss / m.n)
	return a
}

// straightened gives each individual's curve as a straight model about the fit:
// how it moves with Asym, xmid and scal, and what those would have to explain.
func (m among) straightened(a Among) (columns [][3][]float64, response [][]float64) {
	for i := range m.x {
		at := []float64{a.Own[i], a.Xmid, a.Scal}
		slopes := jacobian(Logistic.Curve, m.x[i], at)
		w := residuals(Logistic.Curve, m.x[i], m.y[i], at)
		for j, b := range at {
			subtract(w, -b, slopes[j])
		}
		columns = append(columns, [3][]float64(slopes))
		response = append(response, w)
	}
	return columns, response
}

// deviance is -2 log likelihood of the straight model for a given ratio.
func (m among) deviance(columns [][3][]float64, response [][]float64, ratio float64) float64 {
	white, y, logs := whitened(columns, response, ratio)
	l, err := LeastSquares(white[:], y)
	if err != nil {
		return math.Inf(1)
	}
	return m.n*(math.Log(2*math.Pi*l.RSS/m.n)+1) + logs
}

// whitened frees the rows of the correlation that a shared final size gives
// them; logs is the log determinant of that correlation.
func whitened(columns [][3][]float64, response [][]float64, ratio float64) (white [3][]float64, y []float64, logs float64) {
	for i := range columns {
		g := columns[i][0]
		size := dot(g, g)
		shrink := (1 - 1/math.Sqrt(1+ratio*ratio*size)) / size
		whiten := func(v []float64) []float64 {
			v = append([]float64{}, v...)
			subtract(v, shrink*dot(g, v), g)
			return v
		}
		for j := range white {
			white[j] = append(white[j], whiten(columns[i][j])...)
		}
		y = append(y, whiten(response[i])...)
		logs += math.Log1p(ratio * ratio * size)
	}
	return white, y, logs
}

// errors fills the standard errors from the straight model at the fit, with
// the residual variance brought to its degrees of freedom (as nlme does).
func (m among) errors(a *Among, ratio float64) {
	columns, response := m.straightened(*a)
	white, y, _ := whitened(columns, response, ratio)
	l, err := LeastSquares(white[:], y)
	if err != nil {
		return
	}
	sigma := a.Sigma * math.Sqrt(m.n/(m.n-3))
	a.AsymSE, a.XmidSE, a.ScalSE = sigma*math.Sqrt(l.spread[0][0]), sigma*math.Sqrt(l.spread[1][1]), sigma*math.Sqrt(l.spread[2][2])
}

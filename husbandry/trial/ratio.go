package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Ratio is how many times one mean is another.
type Ratio struct {
	Estimate  float64
	Low, High float64 // -Inf and +Inf when Bounded is false
	DF        float64
	P         float64 // two-sided, against a ratio of 1; NaN where the method gives none
	Bounded   bool
	G         float64    // Fieller: how unclear of zero the mean below is; unbounded from 1
	Roots     [2]float64 // Fieller: the two roots, the one with the minus sign first
}

// Fieller is the ratio of two means with its exact interval, Fieller 1954 (J.
// R. Stat. Soc. B 16:175), for groups that spread alike (pooled) or, with
// degrees of freedom after Welch taken at the estimate, that need not. When the
// mean of y is not clear of zero (G of 1 or more) no interval exists: the
// ratios that fit lie outside the Roots (or are all ratios, when the roots are
// NaN), and Bounded is false. Two values or more in each group; the mean of y
// must not be 0; confidence 0.5 to 0.9999.
func Fieller(x, y []float64, pooled bool, confidence quantity.Fraction) (Ratio, error) {
	a, b, err := twoSamples(x, y, confidence)
	if err != nil {
		return Ratio{}, err
	}
	if err := quantity.Within("size of the mean of y", math.Abs(b.Mean), 1e-150, math.MaxFloat64, "", "by definition: not 0"); err != nil {
		return Ratio{}, err
	}
	r := Ratio{Estimate: a.Mean / b.Mean, P: math.NaN()}
	v, w := a.square(), b.square()
	if pooled {
		sd := pooledSD(a, b)
		v, w = sd*sd/float64(a.N), sd*sd/float64(b.N)
		r.DF = float64(a.N + b.N - 2)
	} else {
		w2 := r.Estimate * r.Estimate * w
		r.DF = (v + w2) * (v + w2) / (v*v/float64(a.N-1) + w2*w2/float64(b.N-1))
	}
	if !(v+w > 0) {
		return Ratio{}, ErrNoSpread
	}
	r.solve(b.Mean, v, w, chance.TQuantile((1+float64(confidence))/2, r.DF))
	return r, nil
}

// solve finds the ratios r for which x - r*y is just t standard errors from 0.
func (r *Ratio) solve(y, v, w, t float64) {
	r.G = t * t * w / (y * y)
	reach := t / y * math.Sqrt(v*(1-r.G)+r.Estimate*r.Estimate*w)
	r.Roots = [2]float64{(r.Estimate - reach) / (1 - r.G), (r.Estimate + reach) / (1 - r.G)}
	r.Bounded = r.G < 1
	r.Low, r.High = math.Inf(-1), math.Inf(1)
	if r.Bounded {
		r.Low, r.High = min(r.Roots[0], r.Roots[1]), max(r.Roots[0], r.Roots[1])
	}
}

// LogRatio is the ratio of two means with an interval by the delta method on
// its logarithm and the normal curve. It is always finite, hence too sure where
// Fieller finds no bound. Two values or more in each group, both means above 0;
// confidence 0.5 to 0.9999.
func LogRatio(x, y []float64, confidence quantity.Fraction) (Ratio, error) {
	a, b, err := twoSamples(x, y, confidence)
	if err != nil {
		return Ratio{}, err
	}
	for _, m := range []float64{a.Mean, b.Mean} {
		if err := quantity.Within("mean", m, 1e-150, math.MaxFloat64, "", "by definition: above 0"); err != nil {
			return Ratio{}, err
		}
	}
	se := math.Sqrt(a.square()/(a.Mean*a.Mean) + b.square()/(b.Mean*b.Mean))
	if !(se > 0) {
		return Ratio{}, ErrNoSpread
	}
	log, z := math.Log(a.Mean/b.Mean), normalReach(confidence)
	return Ratio{Estimate: a.Mean / b.Mean, Low: math.Exp(log - z*se), High: math.Exp(log + z*se),
		DF: math.Inf(1), P: 2 * chance.NormalSurvival(math.Abs(log)/se), Bounded: true}, nil
}

// GeometricRatio is the ratio of two geometric means, by Welch's comparison of
// the logarithms: another quantity than the ratio of means, and undefined with
// a zero. Two values or more in each group, all above 0; confidence 0.5 to 0.9999.
func GeometricRatio(x, y []float64, confidence quantity.Fraction) (Ratio, error) {
	logX, err := logs("value of x", x)
	if err != nil {
		return Ratio{}, err
	}
	logY, err := logs("value of y", y)
	if err != nil {
		return Ratio{}, err
	}
	c, err := Welch(logX, logY, confidence)
	if err != nil {
		return Ratio{}, err
	}
	return Ratio{Estimate: math.Exp(c.Difference), Low: math.Exp(c.Low), High: math.Exp(c.High),
		DF: c.DF, P: c.P, Bounded: true}, nil
}

func logs(name string, values []float64) ([]float64, error) {
	l := make([]float64, len(values))
	for i, v := range values {
		if err := quantity.Within(name, v, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
			return nil, err
		}
		l[i] = math.Log(v)
	}
	return l, nil
}

package trial

import "math"

// CohenD is the difference of two means in pooled standard deviations. Two
// values or more in each group. (Cohen 1988)
func CohenD(x, y []float64) (float64, error) {
	a, b, err := twoSamples(x, y, 0.95)
	if err != nil {
		return 0, err
	}
	sd := pooledSD(a, b)
	if sd == 0 {
		return 0, ErrNoSpread
	}
	return (a.Mean - b.Mean) / sd, nil
}

// HedgesG is CohenD freed of its bias in few beds, which makes it too large.
// (Hedges 1981, J. Educ. Stat. 6:107)
func HedgesG(x, y []float64) (float64, error) {
	d, err := CohenD(x, y)
	df := float64(len(x) + len(y) - 2)
	top, _ := math.Lgamma(df / 2)
	bottom, _ := math.Lgamma((df - 1) / 2)
	return d * math.Exp(top-bottom) / math.Sqrt(df/2), err
}

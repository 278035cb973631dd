package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Comparison is the difference of two means: its interval first, for that is
// the answer, and the chance of so large a difference without cause second.
type Comparison struct {
	Difference float64 // mean of x less mean of y
	Low, High  float64 // interval at the confidence asked for
	Confidence quantity.Fraction
	SE         float64 // standard error of the difference
	T          float64 // Difference / SE
	DF         float64 // degrees of freedom; a fraction under Welch
	P          float64 // two-sided
}

// Welch compares the means of two groups without assuming that they spread
// alike; it is the default for two means. Two values or more in each group;
// confidence 0.5 to 0.9999. ErrNoSpread when neither group varies.
func Welch(x, y []float64, confidence quantity.Fraction) (Comparison, error) {
	a, b, err := twoSamples(x, y, confidence)
	if err != nil {
		return Comparison{}, err
	}
	v, w := a.square(), b.square()
	df := (v + w) * (v + w) / (v*v/float64(a.N-1) + w*w/float64(b.N-1)) // Welch 1947, Biometrika 34:28; Satterthwaite 1946
	return compared(a.Mean-b.Mean, math.Sqrt(v+w), df, confidence)
}

// Pooled compares the means of two groups taken to spread alike (Student's
// comparison). Two values or more in each group; confidence 0.5 to 0.9999.
func Pooled(x, y []float64, confidence quantity.Fraction) (Comparison, error) {
	a, b, err := twoSamples(x, y, confidence)
	if err != nil {
		return Comparison{}, err
	}
	n, m := float64(a.N), float64(b.N)
	sd := pooledSD(a, b)
	return compared(a.Mean-b.Mean, sd*math.Sqrt(1/n+1/m), n+m-2, confidence) // Student 1908; Fisher 1925
}

// Paired compares beds or tanks two by two, x[i] with y[i]. Two pairs or more;
// confidence 0.5 to 0.9999.
func Paired(x, y []float64, confidence quantity.Fraction) (Comparison, error) {
	d, err := Differences(x, y)
	if err != nil {
		return Comparison{}, err
	}
	return PairedDifferences(d, confidence)
}

// PairedDifferences is Paired for differences already taken.
func PairedDifferences(d []float64, confidence quantity.Fraction) (Comparison, error) {
	if err := enough("differences", d, 2); err != nil {
		return Comparison{}, err
	}
	s, _ := Summary(d)
	return compared(s.Mean, math.Sqrt(s.square()), float64(s.N-1), confidence) // Student 1908
}

func twoSamples(x, y []float64, confidence quantity.Fraction) (a, b Sample, err error) {
	if err = enough("values of x", x, 2); err != nil {
		return
	}
	if err = enough("values of y", y, 2); err != nil {
		return
	}
	if err = sensible(confidence); err != nil {
		return
	}
	a, _ = Summary(x)
	b, _ = Summary(y)
	return
}

func pooledSD(a, b Sample) float64 {
	n, m := float64(a.N-1), float64(b.N-1)
	return math.Sqrt((n*a.Variance + m*b.Variance) / (n + m))
}

// Differences takes y[i] from x[i], for pairs. One pair or more, as many of y
// as of x, all finite.
func Differences(x, y []float64) ([]float64, error) {
	if err := enough("values of x", x, 1); err != nil {
		return nil, err
	}
	if err := enough("values of y", y, 1); err != nil {
		return nil, err
	}
	if err := quantity.Within("number of values of y", float64(len(y)), float64(len(x)), float64(len(x)), "", "by definition: values come in pairs"); err != nil {
		return nil, err
	}
	d := make([]float64, len(x))
	for i := range x {
		d[i] = x[i] - y[i] //nolint:gosec // as many as of x, checked above
	}
	return d, nil
}

func compared(difference, se, df float64, confidence quantity.Fraction) (Comparison, error) {
	if err := sensible(confidence); err != nil {
		return Comparison{}, err
	}
	if !(se > 0 && se <= math.MaxFloat64) {
		return Comparison{}, ErrNoSpread
	}
	t := difference / se
	reach := se * chance.TQuantile((1+float64(confidence))/2, df)
	return Comparison{difference, difference - reach, difference + reach, confidence,
		se, t, df, chance.TTwoSided(t, df)}, nil
}

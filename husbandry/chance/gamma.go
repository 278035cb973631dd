package chance

import "math"

// The series and the continued fractions stop when a term no longer matters.
const (
	smallest = 1e-300 // stands for a zero denominator in a continued fraction
	enough   = 1e-16  // relative size of a term that no longer matters
	patience = 100000 // terms; far beyond what any argument used here needs
)

// GammaCDF is the chance that a gamma value of the given shape (above 0) and
// scale 1 is at most x (0 or more): the regularised incomplete gamma function P.
func GammaCDF(x, shape float64) float64 {
	switch {
	case !(x >= 0) || !(shape > 0):
		return math.NaN()
	case x < shape+1:
		return gammaSeries(x, shape)
	}
	return 1 - gammaFraction(x, shape)
}

// GammaSurvival is the chance that a gamma value of the given shape (above 0)
// and scale 1 exceeds x (0 or more): the regularised incomplete gamma function Q.
func GammaSurvival(x, shape float64) float64 {
	switch {
	case !(x >= 0) || !(shape > 0):
		return math.NaN()
	case x < shape+1:
		return 1 - gammaSeries(x, shape)
	}
	return gammaFraction(x, shape)
}

// GammaQuantile is the value that a gamma value of the given shape and scale 1
// stays below with chance p.
func GammaQuantile(p, shape float64) float64 {
	if !(shape > 0) {
		return math.NaN()
	}
	cdf := func(x float64) float64 { return GammaCDF(x, shape) }
	survival := func(x float64) float64 { return GammaSurvival(x, shape) }
	return positiveQuantile(p, cdf, survival)
}

// gammaSeries is P by Abramowitz & Stegun 6.5.29, quick for x below shape+1.
func gammaSeries(x, shape float64) float64 {
	term := 1 / shape
	sum := term
	for n := 1.0; term > enough*sum && n < patience; n++ {
		term *= x / (shape + n)
		sum += term
	}
	return sum * gammaFront(x, shape)
}

// gammaFraction is Q by Abramowitz & Stegun 6.5.31 with Lentz's method, quick
// for x above shape+1.
func gammaFraction(x, shape float64) float64 {
	if math.IsInf(x, 1) {
		return 0
	}
	b := x + 1 - shape
	c := math.MaxFloat64
	d := 1 / b
	h := d
	for n := 1.0; n < patience; n++ {
		a := -n * (n - shape)
		b += 2
		d = 1 / away(b+a*d)
		c = away(b + a/c)
		h *= c * d
		if math.Abs(c*d-1) < enough {
			break
		}
	}
	return h * gammaFront(x, shape)
}

func gammaFront(x, shape float64) float64 {
	if x == 0 {
		return 0
	}
	g, _ := math.Lgamma(shape)
	return math.Exp(shape*math.Log(x) - x - g)
}

func away(fromZero float64) float64 {
	if math.Abs(fromZero) < smallest {
		return smallest
	}
	return fromZero
}

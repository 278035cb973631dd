package chance

import "math"

// BetaCDF is the chance that a beta value with shapes a and b (above 0) is at
// most x (0 to 1): the regularised incomplete beta function.
func BetaCDF(x, a, b float64) float64 {
	if !isChance(x) || !(a > 0) || !(b > 0) {
		return math.NaN()
	}
	return betaBelow(x, 1-x, a, b)
}

// BetaQuantile is the value that a beta value with shapes a and b stays below
// with chance p.
func BetaQuantile(p, a, b float64) float64 {
	if !isChance(p) || !(a > 0) || !(b > 0) {
		return math.NaN()
	}
	return Root(0, 1, func(x float64) float64 { return betaBelow(x, 1-x, a, b) - p })
}

// betaBelow is BetaCDF with y = 1-x handed in, so that neither loses digits.
func betaBelow(x, y, a, b float64) float64 {
	switch {
	case x <= 0:
		return 0
	case y <= 0:
		return 1
	case x > (a+1)/(a+b+2): // the fraction is quick on the other side
		return 1 - betaFraction(y, x, b, a)
	}
	return betaFraction(x, y, a, b)
}

// betaFraction is Abramowitz & Stegun 26.5.8 with Lentz's method.
func betaFraction(x, y, a, b float64) float64 {
	c := 1.0
	d := 1 / away(1-(a+b)*x/(a+1))
	h := d
	for m := 1.0; m < patience; m++ {
		even := m * (b - m) * x / ((a + 2*m - 1) * (a + 2*m))
		d = 1 / away(1+even*d)
		c = away(1 + even/c)
		h *= c * d
		odd := -(a + m) * (a + b + m) * x / ((a + 2*m) * (a + 2*m + 1))
		d = 1 / away(1+odd*d)
		c = away(1 + odd/c)
		h *= c * d
		if math.Abs(c*d-1) < enough {
			break
		}
	}
	return h * math.Exp(a*math.Log(x)+b*math.Log(y)-logBeta(a, b)) / a
}

func logBeta(a, b float64) float64 {
	la, _ := math.Lgamma(a)
	lb, _ := math.Lgamma(b)
	lab, _ := math.Lgamma(a + b)
	return la + lb - lab
}

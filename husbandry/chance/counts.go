package chance

import "math"

// BinomialProbability is the chance of exactly x successes (a whole number) in
// n tries that each succeed with chance p. 0 for an x that cannot be.
func BinomialProbability(x, n, p float64) float64 {
	switch {
	case !whole(n) || math.IsNaN(x) || !isChance(p):
		return math.NaN()
	case !whole(x) || x > n:
		return 0
	}
	return math.Exp(logChoose(n, x) + times(x, math.Log(p)) + times(n-x, math.Log1p(-p)))
}

// BinomialCDF is the chance of x successes or fewer in n tries that each
// succeed with chance p. (Abramowitz & Stegun 1964, 26.5.24)
func BinomialCDF(x, n, p float64) float64 {
	switch {
	case !whole(n) || math.IsNaN(x) || !isChance(p):
		return math.NaN()
	case x < 0:
		return 0
	case x >= n:
		return 1
	}
	x = math.Floor(x)
	return betaBelow(1-p, p, n-x, x+1)
}

// PoissonProbability is the chance of exactly x events (a whole number) where
// mean (0 or more) are expected. 0 for an x that cannot be.
func PoissonProbability(x, mean float64) float64 {
	switch {
	case math.IsNaN(x) || !(mean >= 0 && mean <= math.MaxFloat64):
		return math.NaN()
	case !whole(x):
		return 0
	}
	g, _ := math.Lgamma(x + 1)
	return math.Exp(times(x, math.Log(mean)) - mean - g)
}

// PoissonCDF is the chance of x events or fewer where mean are expected.
// (Abramowitz & Stegun 1964, 26.4.21)
func PoissonCDF(x, mean float64) float64 {
	switch {
	case math.IsNaN(x) || !(mean >= 0 && mean <= math.MaxFloat64):
		return math.NaN()
	case x < 0:
		return 0
	case math.IsInf(x, 1):
		return 1
	}
	return GammaSurvival(mean, math.Floor(x)+1)
}

// HypergeometricProbability is the chance that a draw of n from a box of which
// marked are marked and plain are not holds exactly x marked ones. 0 for an x
// that cannot be.
func HypergeometricProbability(x, marked, plain, n float64) float64 {
	switch {
	case !whole(marked) || !whole(plain) || !whole(n) || n > marked+plain || math.IsNaN(x):
		return math.NaN()
	case !whole(x) || x > marked || x > n || n-x > plain:
		return 0
	}
	return math.Exp(logChoose(marked, x) + logChoose(plain, n-x) - logChoose(marked+plain, n))
}

// HypergeometricCDF is the chance that such a draw holds x marked ones or fewer:
// the chances up to x over all of them, each told from that of x itself, so that
// boxes of a thousand million cost neither digits nor time.
func HypergeometricCDF(x, marked, plain, n float64) float64 {
	x = math.Floor(x)
	switch {
	case math.IsNaN(HypergeometricProbability(x, marked, plain, n)):
		return math.NaN()
	case x < max(0, n-plain):
		return 0
	case x >= min(n, marked):
		return 1
	}
	fewer := fewerMarked(x, marked, plain, n)
	if math.IsInf(fewer, 1) {
		return 1
	}
	return (1 + fewer) / (1 + fewer + fewerMarked(n-x, plain, marked, n)) // more marked are fewer plain
}

// fewerMarked is how many times as likely fewer than x marked ones are as x.
func fewerMarked(x, marked, plain, n float64) float64 {
	term, sum := 1.0, 0.0
	for ; x > max(0, n-plain) && term > sum*enough; x-- { // ends where both are without end too
		term *= x * (plain - n + x) / ((marked - x + 1) * (n - x + 1))
		sum += term
	}
	return sum
}

// whole reports a whole number of 0 or more that a float holds exactly.
func whole(x float64) bool { return x >= 0 && x <= 1<<53 && x == math.Floor(x) }

// times is n*log where nothing times minus infinity is nothing.
func times(n, log float64) float64 {
	if n == 0 {
		return 0
	}
	return n * log
}

func logChoose(n, x float64) float64 {
	return -logBeta(n-x+1, x+1) - math.Log(n+1)
}

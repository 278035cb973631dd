package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// ClopperPearson is the interval for a share that holds with at least the
// confidence promised, whatever the share; wider than Wilson. With no events of
// n its upper end is 1-(alpha/2)^(1/n), not 3/n, which is one-sided and rough.
// Ranges as for Wilson. (Clopper & Pearson 1934, Biometrika 26:404)
func ClopperPearson(events, n int, confidence quantity.Fraction) (Interval, error) {
	return betaInterval(events, n, confidence, 0, 1)
}

// Jeffreys is the interval for a share from equal tails of the beta
// distribution with a half added to either count; 0 and 1 are its ends when no
// or all events were seen. (Brown, Cai & DasGupta 2001, Stat. Sci. 16:101)
func Jeffreys(events, n int, confidence quantity.Fraction) (Interval, error) {
	return betaInterval(events, n, confidence, 0.5, 0.5)
}

// betaInterval takes the lower end from shapes x+low, n-x+1-low and the upper
// from x+high, n-x+1-high.
func betaInterval(events, n int, confidence quantity.Fraction, low, high float64) (Interval, error) {
	if err := share(events, n, confidence); err != nil {
		return Interval{}, err
	}
	tail, x, rest := (1-float64(confidence))/2, float64(events), float64(n-events)
	i := Interval{0, 1}
	if events > 0 {
		i.Low = chance.BetaQuantile(tail, x+low, rest+1-low)
	}
	if events < n {
		i.High = chance.BetaQuantile(1-tail, x+high, rest+1-high)
	}
	return i, nil
}

// MidP is the interval for a share that counts the observed number half; near
// Clopper-Pearson but less wide. (Lancaster 1961; Berry & Armitage 1995, The
// Statistician 44:417)
func MidP(events, n int, confidence quantity.Fraction) (Interval, error) {
	if err := share(events, n, confidence); err != nil {
		return Interval{}, err
	}
	tail, x, all := (1-float64(confidence))/2, float64(events), float64(n)
	below := func(p float64) float64 { // falls as p rises
		return chance.BinomialCDF(x, all, p) - chance.BinomialProbability(x, all, p)/2
	}
	i := Interval{0, 1}
	if events > 0 {
		i.Low = shareWhere(func(p float64) float64 { return (1 - tail) - below(p) })
	}
	if events < n {
		i.High = shareWhere(func(p float64) float64 { return tail - below(p) })
	}
	return i, nil
}

// shareWhere is the share at which f, which rises, is 0.
func shareWhere(f func(p float64) float64) float64 { return chance.Root(0, 1, f) }

// WilsonCorrected is Wilson's interval with a correction for continuity of a
// half, or of the distance to n/2 where that is less (as R's prop.test has it).
// Ranges as for Wilson. (Newcombe 1998, Stat. Med. 17:857, method 4)
func WilsonCorrected(events, n int, confidence quantity.Fraction) (Interval, error) {
	if err := share(events, n, confidence); err != nil {
		return Interval{}, err
	}
	x, all, z := float64(events), float64(n), normalReach(confidence)
	half := min(0.5, math.Abs(x-all/2))
	return Interval{correctedEnd(x-half, all, -z), correctedEnd(x+half, all, z)}, nil
}

// correctedEnd is one end of Wilson's interval for a count moved by a half.
func correctedEnd(x, n, z float64) float64 {
	if x <= 0 || x >= n {
		return min(max(x/n, 0), 1)
	}
	p, part := x/n, z*z/(2*n)
	return (p + part + z*math.Sqrt(p*(1-p)/n+part/(2*n))) / (1 + 2*part)
}

package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// An Exposure is events over how long, or over how much, they could happen:
// deaths over fish-days, leaks over pump-hours.
type Exposure struct {
	Events int
	Over   float64
}

func (e Exposure) check() error {
	if err := quantity.Within("events", float64(e.Events), 0, 1e6, "", quantity.OwnBounds); err != nil {
		return err
	}
	return quantity.Within("exposure", e.Over, 1e-150, 1e150, "", "by definition: above 0")
}

// Rate is events over exposure with the exact interval for chance events
// (Garwood 1936, Biometrika 28:437). Exposure above 0; confidence 0.5 to 0.9999.
func Rate(e Exposure, confidence quantity.Fraction) (float64, Interval, error) {
	if err := e.check(); err != nil {
		return 0, Interval{}, err
	}
	if err := sensible(confidence); err != nil {
		return 0, Interval{}, err
	}
	tail, x := (1-float64(confidence))/2, float64(e.Events)
	i := Interval{High: chance.GammaQuantile(1-tail, x+1) / e.Over}
	if e.Events > 0 {
		i.Low = chance.GammaQuantile(tail, x) / e.Over
	}
	return x / e.Over, i, nil
}

// RateRatio is the rate of a over that of b, exact given how many events there
// were in all: a's share of them is a binomial count (Przyborowski & Wilenski
// 1940, Biometrika 31:313). P sums the outcomes no likelier than the one
// observed, so at the edge it need not agree with the interval. One event in
// all at least; the ratio and its upper end are +Inf when b had none.
func RateRatio(a, b Exposure, confidence quantity.Fraction) (Ratio, error) {
	if err := a.check(); err != nil {
		return Ratio{}, err
	}
	if err := b.check(); err != nil {
		return Ratio{}, err
	}
	all := a.Events + b.Events
	i, err := ClopperPearson(a.Events, all, confidence)
	if err != nil {
		return Ratio{}, err
	}
	odds := func(p float64) float64 { return p / (1 - p) * b.Over / a.Over }
	r := Ratio{Estimate: odds(float64(a.Events) / float64(all)), Low: odds(i.Low), High: odds(i.High), DF: math.NaN()}
	r.P = binomialP(float64(a.Events), float64(all), a.Over/(a.Over+b.Over))
	r.Bounded = !math.IsInf(r.High, 1)
	return r, nil
}

// binomialP sums the chances of numbers no likelier than x, with R's slack.
func binomialP(x, n, p float64) float64 {
	own := chance.BinomialProbability(x, n, p) * (1 + 1e-7)
	sum := 0.0
	for i := 0.0; i <= n; i++ {
		if one := chance.BinomialProbability(i, n, p); one <= own {
			sum += one
		}
	}
	return min(1, sum)
}

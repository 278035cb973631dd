package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Count is events among a number observed, such as deaths among fish.
type Count struct{ Events, N int }

func (c Count) share() float64 { return float64(c.Events) / float64(c.N) }

func counts(a, b Count, confidence quantity.Fraction) error {
	if err := share(a.Events, a.N, confidence); err != nil {
		return err
	}
	return share(b.Events, b.N, confidence)
}

// ShareDifference is the share in a less that in b with Newcombe's interval
// from two Wilson intervals. It assumes independent fish, as Wilson does.
// (Newcombe 1998, Stat. Med. 17:873, method 10)
func ShareDifference(a, b Count, confidence quantity.Fraction) (float64, Interval, error) {
	if err := counts(a, b, confidence); err != nil {
		return 0, Interval{}, err
	}
	p, q := a.share(), b.share()
	i, j := wilson(float64(a.Events), float64(a.N), normalReach(confidence)), wilson(float64(b.Events), float64(b.N), normalReach(confidence))
	d := p - q
	return d, Interval{d - math.Hypot(p-i.Low, j.High-q), d + math.Hypot(i.High-p, q-j.Low)}, nil
}

// RiskRatio is the share in a over that in b with an interval on the logarithm
// (Katz, Baptista, Azen & Pike 1978, Biometrics 34:469). Events of 1 or more in
// both, not all in both.
func RiskRatio(a, b Count, confidence quantity.Fraction) (float64, Interval, error) {
	if err := counts(a, b, confidence); err != nil {
		return 0, Interval{}, err
	}
	least := min(a.Events, b.Events)
	if err := quantity.Within("events in each group", float64(least), 1, math.MaxInt32, "", "Katz et al. 1978"); err != nil {
		return 0, Interval{}, err
	}
	ratio := a.share() / b.share()
	se := math.Sqrt((1-a.share())/float64(a.Events) + (1-b.share())/float64(b.Events))
	reach := math.Exp(normalReach(confidence) * se)
	return ratio, Interval{ratio / reach, ratio * reach}, nil
}

// ChiSquaredShares is the two-sided chance that two shares differ as much as
// these without cause, by Pearson's chi-squared without correction: for large
// counts. ErrNoSpread when no or all events happened.
func ChiSquaredShares(a, b Count) (float64, error) {
	if err := counts(a, b, 0.95); err != nil {
		return 0, err
	}
	n, m := float64(a.N), float64(b.N)
	p := float64(a.Events+b.Events) / (n + m)
	if p == 0 || p == 1 {
		return 0, ErrNoSpread
	}
	d := a.share() - b.share()
	return chance.ChiSquaredSurvival(d*d/(p*(1-p)*(1/n+1/m)), 1), nil
}

// A FisherExact is the exact comparison of two shares, given how many events
// there were in all.
type FisherExact struct {
	P         float64 // two-sided: all tables no likelier than the one observed
	OddsRatio float64 // the conditional maximum likelihood estimate, not ad/bc
	Low, High float64 // interval of the odds ratio; +Inf where there is no bound
}

// Fisher compares two shares exactly (Fisher 1935; two-sided by least
// likelihood, as in R; Mehta & Patel 1985). Ranges as for Wilson; up to 100,000
// events.
func Fisher(a, b Count, confidence quantity.Fraction) (FisherExact, error) {
	if err := counts(a, b, confidence); err != nil {
		return FisherExact{}, err
	}
	events := a.Events + b.Events
	if err := quantity.Within("events in all", float64(events), 0, 1e5, "", quantity.OwnBounds); err != nil {
		return FisherExact{}, err
	}
	t := newTables(a, b)
	tail := (1 - float64(confidence)) / 2
	f := FisherExact{P: t.noLikelier(a.Events), Low: 0, High: math.Inf(1)}
	f.OddsRatio = t.oddsOf(a.Events)
	if a.Events > t.fewest {
		f.Low = math.Exp(logOddsWhere(func(log float64) float64 { return t.atLeast(a.Events, log) - tail }))
	}
	if a.Events < t.fewest+len(t.logs)-1 {
		f.High = math.Exp(logOddsWhere(func(log float64) float64 { return tail - t.atMost(a.Events, log) }))
	}
	return f, nil
}

// tables are all the ways the events could fall, by the number in a.
type tables struct {
	fewest int
	logs   []float64 // log chance of each number, from fewest, when the odds are alike
}

func newTables(a, b Count) tables {
	events := a.Events + b.Events
	t := tables{fewest: max(0, events-b.N)}
	for x := t.fewest; x <= min(a.N, events); x++ {
		t.logs = append(t.logs, math.Log(chance.HypergeometricProbability(float64(x), float64(a.N), float64(b.N), float64(events))))
	}
	return t
}

// chances of each number in a when the odds in a are exp(log) times those in b.
func (t tables) chances(log float64) []float64 {
	p := make([]float64, len(t.logs))
	most, sum := math.Inf(-1), 0.0
	for i, l := range t.logs {
		p[i] = l + float64(i)*log
		most = max(most, p[i])
	}
	for i := range p {
		p[i] = math.Exp(p[i] - most)
		sum += p[i]
	}
	for i := range p {
		p[i] /= sum
	}
	return p
}

func (t tables) atMost(x int, log float64) float64 { return total(t.chances(log)[:x-t.fewest+1]) }

func (t tables) atLeast(x int, log float64) float64 { return total(t.chances(log)[x-t.fewest:]) }

// noLikelier sums the chances of tables no likelier than that with x in a,
// with R's slack of 1e-7 for rounding.
func (t tables) noLikelier(x int) float64 {
	p := t.chances(0)
	sum := 0.0
	for _, one := range p {
		if one <= p[x-t.fewest]*(1+1e-7) {
			sum += one
		}
	}
	return min(1, sum)
}

// logOddsWhere is the logarithm of odds at which f, which rises, is 0.
func logOddsWhere(f func(log float64) float64) float64 {
	const widest = 50
	return chance.Root(-widest, widest, f)
}

// oddsOf is the odds ratio under which x is the expected number in a.
func (t tables) oddsOf(x int) float64 {
	switch {
	case len(t.logs) == 1:
		return math.NaN()
	case x == t.fewest:
		return 0
	case x == t.fewest+len(t.logs)-1:
		return math.Inf(1)
	}
	return math.Exp(logOddsWhere(func(log float64) float64 {
		expected := 0.0
		for i, p := range t.chances(log) {
			expected += p * float64(t.fewest+i)
		}
		return expected - float64(x)
	}))
}

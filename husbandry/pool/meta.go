package pool

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Method names how the variance between sites is estimated. They differ a
// good deal when sites are few, so an answer says which was used.
type Method int

// The methods, each with its source.
const (
	REML             Method = iota // restricted maximum likelihood; with PM the advice for few sites
	PauleMandel                    // Paule & Mandel 1982, J. Res. NBS 87:377: spread just as large as the weights say
	DerSimonianLaird               // DerSimonian & Laird 1986, Control. Clin. Trials 7:177: one step, by moments
	EqualEffects                   // no variance between sites at all
)

// A Summary is what several sites, each with a mean and its standard error,
// say together.
type Summary struct {
	Method Method
	Tau2   float64          // variance between sites
	Mu     float64          // the mean of sites
	SE     float64          // standard error of Mu, Tau2 taken as known
	Q      float64          // weighted squares about the equal-effects mean (Cochran 1954)
	QP     float64          // the chance of so large a Q when sites do not differ
	I2     quantity.Percent // of the spread in Q that chance does not explain (Higgins & Thompson 2002)
	H2     float64          // Q over its degrees of freedom
	y, v   []float64
}

// Meta pools sites whose means have known standard errors. Two sites or more;
// standard errors above 0. A standard error from fewer than about five values
// is itself unreliable: then pool the values with RandomIntercept instead.
func Meta(means, ses []float64, by Method) (Summary, error) {
	if err := sites(means, ses); err != nil {
		return Summary{}, err
	}
	if err := quantity.Within("method", float64(by), float64(REML), float64(EqualEffects), "", quantity.OwnBounds); err != nil {
		return Summary{}, err
	}
	s := Summary{Method: by, y: means, v: squares(ses)}
	s.Tau2 = tau2(s.y, s.v, by)
	s.Mu, s.SE = weightedMean(s.y, s.v, s.Tau2)
	df := float64(len(means) - 1)
	s.Q = spread(s.y, s.v, 0)
	s.QP = chance.ChiSquaredSurvival(s.Q, df)
	s.H2 = s.Q / df
	s.I2 = quantity.Percent(100 * max(0, 1-df/s.Q))
	return s, nil
}

func sites(means, ses []float64) error {
	k := float64(len(means))
	if err := quantity.Within("number of sites", k, 2, 1e5, "", quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("number of standard errors", float64(len(ses)), k, k, "", "by definition: one a site"); err != nil {
		return err
	}
	for i := range means {
		if err := quantity.Within("site mean", means[i], -1e150, 1e150, "", quantity.OwnBounds); err != nil {
			return err
		}
		if err := quantity.Within("standard error", ses[i], 1e-150, 1e150, "", "by definition: above 0"); err != nil {
			return err
		}
	}
	return nil
}

func squares(ses []float64) []float64 {
	v := make([]float64, len(ses))
	for i, se := range ses {
		v[i] = se * se
	}
	return v
}

// weightedMean weighs each site by 1/(variance of its mean + variance between).
func weightedMean(y, v []float64, tau2 float64) (mu, se float64) {
	sum, weights := 0.0, 0.0
	for i := range y {
		w := 1 / (v[i] + tau2)
		sum += w * y[i]
		weights += w
	}
	return sum / weights, 1 / math.Sqrt(weights)
}

// spread is the weighted squares about the weighted mean.
func spread(y, v []float64, tau2 float64) float64 {
	mu, _ := weightedMean(y, v, tau2)
	q := 0.0
	for i := range y {
		q += (y[i] - mu) * (y[i] - mu) / (v[i] + tau2)
	}
	return q
}

package pool

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Site is one site's mean drawn towards the mean of all, as far as its own
// record leaves room.
type Site struct {
	Mean   float64 // the shrunken mean: what to show and to rank by
	Effect float64 // Mean less the mean of all (the BLUP)
	CondSE float64 // standard error of Effect as if the mean of all were known
	SE     float64 // standard error of Mean, the uncertain mean of all included: what to show
	Weight float64 // share that the site's own mean carries; 0 when sites do not differ
	Low    float64 // interval of the site's true mean
	High   float64
}

// Shrink draws the mean of every site towards the mean of all. The intervals
// take the variance between sites as known, as all such do; Student's t with
// one degree of freedom less than sites stands in for what that leaves out
// (common practice, no source). With Tau2 of 0 all sites equal the mean of
// all: say that no difference can be told. Confidence 0.5 to 0.9999.
func (s Summary) Shrink(confidence quantity.Fraction) ([]Site, error) {
	if err := sensible(confidence); err != nil {
		return nil, err
	}
	all, reach := make([]Site, len(s.y)), s.t(confidence, 1)
	for i := range all {
		all[i] = s.site(i, reach)
	}
	return all, nil
}

// site is the empirical Bayes estimate. (Raudenbush & Bryk 1985, J. Educ. Stat.
// 10:75; the standard error adds (1-B)^2 times the variance of the mean of all)
func (s Summary) site(i int, reach float64) Site {
	b := s.Tau2 / (s.Tau2 + s.v[i])
	mean := s.Mu + b*(s.y[i]-s.Mu)
	cond := b * s.v[i]
	se := math.Sqrt(cond + (1-b)*(1-b)*s.SE*s.SE)
	return Site{mean, mean - s.Mu, math.Sqrt(cond), se, b, mean - reach*se, mean + reach*se}
}

package pool

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// An Interval is the span that holds a true value with the confidence asked for.
type Interval struct{ Low, High float64 }

func about(centre, reach float64) Interval { return Interval{centre - reach, centre + reach} }

func z(confidence quantity.Fraction) float64 {
	return chance.NormalQuantile((1 + float64(confidence)) / 2)
}

func (s Summary) t(confidence quantity.Fraction, less int) float64 {
	return chance.TQuantile((1+float64(confidence))/2, float64(len(s.y)-less))
}

// NormalInterval is the interval of Mu by the normal distribution: too narrow
// when sites are few. Confidence 0.5 to 0.9999.
func (s Summary) NormalInterval(confidence quantity.Fraction) (Interval, error) {
	return about(s.Mu, z(confidence)*s.SE), sensible(confidence)
}

// HKSJ is the interval of Mu after Hartung & Knapp 2001 (Stat. Med. 20:3875)
// and Sidik & Jonkman 2002, by Student's t with one degree of freedom less
// than sites: the one to show. Confidence 0.5 to 0.9999.
func (s Summary) HKSJ(confidence quantity.Fraction) (Interval, error) {
	return about(s.Mu, s.t(confidence, 1)*s.HKSJSE()), sensible(confidence)
}

// HKSJSE is the standard error of Mu scaled by how far the sites really
// scatter. (Hartung & Knapp 2001)
func (s Summary) HKSJSE() float64 {
	return s.SE * math.Sqrt(spread(s.y, s.v, s.Tau2)/float64(len(s.y)-1))
}

// Prediction names how the interval for one more site is drawn.
type Prediction int

const (
	// NormalPrediction takes everything as known: too narrow below about eight sites.
	NormalPrediction Prediction = iota
	// HigginsPrediction is Student's t with k-2 (Higgins, Thompson & Spiegelhalter
	// 2009, J. R. Stat. Soc. A 172:137); it needs three sites.
	HigginsPrediction
	// HKSJPrediction is Student's t with k-1 and the standard error of HKSJ
	// (Partlett & Riley 2017, Stat. Med. 36:301).
	HKSJPrediction
)

// Predict is the interval in which the true mean of one more site lies.
// Confidence 0.5 to 0.9999.
func (s Summary) Predict(by Prediction, confidence quantity.Fraction) (Interval, error) {
	if err := sensible(confidence); err != nil {
		return Interval{}, err
	}
	switch by {
	case HigginsPrediction:
		if err := quantity.Within("number of sites", float64(len(s.y)), 3, 1e5, "", "Higgins et al. 2009"); err != nil {
			return Interval{}, err
		}
		return about(s.Mu, s.t(confidence, 2)*math.Hypot(s.SE, math.Sqrt(s.Tau2))), nil
	case HKSJPrediction:
		return about(s.Mu, s.t(confidence, 1)*math.Hypot(s.HKSJSE(), math.Sqrt(s.Tau2))), nil
	}
	return about(s.Mu, z(confidence)*math.Hypot(s.SE, math.Sqrt(s.Tau2))), nil
}

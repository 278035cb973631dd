package watch

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// CRPSNormal is how far a normal forecast was from what came, in the unit of
// the reading: the smaller the better, and for a forecast without doubt the
// plain distance. Spread sd above 0. (Gneiting & Raftery 2007, J. Am. Stat.
// Assoc. 102:359, equation 21's closed form)
func CRPSNormal(came, mean, sd float64) (float64, error) {
	if err := scored(came, mean, sd); err != nil {
		return 0, err
	}
	z := (came - mean) / sd
	return sd * (z*(2*chance.NormalCDF(z)-1) + 2*chance.NormalDensity(z) - 1/math.Sqrt(math.Pi)), nil
}

// CRPSNormalOfLog is CRPSNormal on the scale of the logarithm, for a forecast
// whose logarithm is normal with mean and sd; ranges as for CRPSLogNormal.
func CRPSNormalOfLog(came, mean, sd float64) (float64, error) {
	if err := logScored(came, mean, sd); err != nil {
		return 0, err
	}
	return CRPSNormal(math.Log(came), mean, sd)
}

// CRPSLogNormal is how far a forecast was, in the unit of the reading, whose
// logarithm is normal with mean and sd. The reading above 0; mean within 300 of
// 0, sd above 0 and at most 20. (Baran & Lerch 2015, Q. J. R. Meteorol. Soc.
// 141:2289)
func CRPSLogNormal(came, mean, sd float64) (float64, error) {
	if err := logScored(came, mean, sd); err != nil {
		return 0, err
	}
	z := (math.Log(came) - mean) / sd
	inner := chance.NormalCDF(z-sd) - chance.NormalSurvival(sd/math.Sqrt2)
	return came*(2*chance.NormalCDF(z)-1) - 2*math.Exp(mean+sd*sd/2)*inner, nil
}

// PinballLogNormal is Pinball of such a forecast's quantile p.
func PinballLogNormal(came, mean, sd, p float64) (float64, error) {
	if err := logScored(came, mean, sd); err != nil {
		return 0, err
	}
	return Pinball(came, chance.LogNormalQuantile(p, mean, sd), p)
}

// IntervalScoreLogNormal is IntervalScore of such a forecast's central
// interval; confidence 0.5 to 0.9999.
func IntervalScoreLogNormal(came, mean, sd float64, confidence quantity.Fraction) (float64, error) {
	if err := logScored(came, mean, sd); err != nil {
		return 0, err
	}
	if err := confident(confidence); err != nil {
		return 0, err
	}
	alpha := 1 - float64(confidence)
	low, high := chance.LogNormalQuantile(alpha/2, mean, sd), chance.LogNormalQuantile(1-alpha/2, mean, sd)
	return IntervalScore(came, low, high, alpha)
}

func logScored(came, mean, sd float64) error {
	if err := quantity.Within("reading", came, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
		return err
	}
	if err := quantity.Within("mean of the logarithm", mean, -300, 300, "", quantity.OwnBounds); err != nil {
		return err
	}
	return quantity.Within("standard deviation of the logarithm", sd, 1e-150, 20, "", "by definition: above 0")
}

func scored(came, mean, sd float64) error {
	if err := enough([]float64{came, mean}, 2); err != nil {
		return err
	}
	return quantity.Within("standard deviation", sd, 1e-150, 1e150, "", "by definition: above 0")
}

// Pinball is the loss of a forecast quantile: p of the distance when the
// reading came above it, 1-p when below. p above 0 and below 1. (Koenker &
// Bassett 1978, Econometrica 46:33)
func Pinball(came, quantile, p float64) (float64, error) {
	if err := quantity.Within("share p", p, 1e-9, 1-1e-9, "", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := enough([]float64{came, quantile}, 2); err != nil {
		return 0, err
	}
	if came >= quantile {
		return p * (came - quantile), nil
	}
	return (1 - p) * (quantile - came), nil
}

// IntervalScore is the width of a forecast interval, and 2/alpha times how far
// outside the reading came; alpha is 1 less the interval's confidence, 0.0001
// to 0.5 (rounding aside). (Winkler 1972, J. Am. Stat. Assoc. 67:187)
func IntervalScore(came, low, high, alpha float64) (float64, error) {
	if err := enough([]float64{came, low}, 2); err != nil {
		return 0, err
	}
	if err := quantity.Within("upper end", high, low, 1e150, "", "by definition: not below the lower end"); err != nil {
		return 0, err
	}
	if err := quantity.Within("alpha", alpha, 0.0001-1e-12, 0.5, "", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return high - low + 2/alpha*max(low-came, came-high, 0), nil
}

package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// What growth is taken to vary by before much of it was seen: the coefficient
// of one cohort from weighing to weighing, and of cohorts from each other, each
// worth two that were seen. Common practice, no source.
const (
	usualGrowthCV    = 0.15
	usualGrowthWorth = 4
	leastGrowthCV    = 0.08 // what twenty weighed fish leave open
)

// CohortGrowth is how a cohort will grow on: the median of its coefficient, and
// how far the truth may lie from it.
type CohortGrowth struct {
	Coefficient TGC1000
	CV          quantity.Fraction
	OwnShare    quantity.Fraction // how much its own weighings carry; the rest is its kin's
}

// GrowthWithKin weighs a cohort's own growth coefficients, one from each weighing
// to the next, against those of its kin: other cohorts of the species at the
// site, one each, over their whole lives. A cohort is taken for one of its kin
// until its own weighings say otherwise (the best linear unbiased predictor:
// Henderson 1975, Biometrics 31:423, with both variances drawn towards usual
// values). With no kin its own carry all, with none of its own the kin's.
// Coefficients -20 to 20, and at least one; their weighted mean 0.01 to 20.
func GrowthWithKin(own, kin []TGC1000) (CohortGrowth, error) {
	for _, c := range append(append([]TGC1000(nil), own...), kin...) {
		if err := quantity.Within("growth coefficient", float64(c), -20, 20, "", quantity.OwnBounds); err != nil {
			return CohortGrowth{}, err
		}
	}
	if err := quantity.Within("number of growth coefficients", float64(len(own)+len(kin)), 1, 1e6, "", "by definition: else nothing is known of growth"); err != nil {
		return CohortGrowth{}, err
	}
	n, k := float64(len(own)), float64(len(kin))
	mine, theirs := meanGrowth(own), meanGrowth(kin)
	all := (mine*math.Min(n, 1) + theirs*k) / (math.Min(n, 1) + k) // each cohort counts once
	ofMine, ofTheirs := growthVariance(own, mine, all), growthVariance(kin, theirs, all)
	g := CohortGrowth{OwnShare: 1, Coefficient: TGC1000(mine)}
	variance := ofMine + ofMine/n // of the next, the mean being unsure
	switch {
	case len(own) == 0:
		g.Coefficient, g.OwnShare = TGC1000(theirs), 0
		variance = ofTheirs + ofTheirs/k
	case len(kin) > 0:
		before := ofTheirs + ofTheirs/k // of what one of the kin may be
		share := before / (before + ofMine/n)
		g.Coefficient, g.OwnShare = TGC1000(share*mine+(1-share)*theirs), quantity.Fraction(share)
		variance = ofMine + share*ofMine/n
	}
	if err := coefficientBound.check(float64(g.Coefficient)); err != nil {
		return CohortGrowth{}, err
	}
	g.CV = quantity.Fraction(math.Max(leastGrowthCV, math.Sqrt(variance)/float64(g.Coefficient)))
	return g, nil
}

func meanGrowth(list []TGC1000) (mean float64) {
	for _, c := range list {
		mean += float64(c) / float64(len(list))
	}
	return mean
}

// growthVariance draws the variance towards the usual one about the mean of all.
func growthVariance(list []TGC1000, mean, all float64) float64 {
	squares := usualGrowthWorth * usualGrowthCV * usualGrowthCV * all * all
	for _, c := range list {
		squares += (float64(c) - mean) * (float64(c) - mean)
	}
	return squares / (usualGrowthWorth + math.Max(0, float64(len(list))-1))
}

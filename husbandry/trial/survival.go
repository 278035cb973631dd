package trial

import (
	"math"
	"slices"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Life is how long one fish, plant or pump was watched, and whether it was
// seen to end (Ended) or the watch stopped first.
type Life struct {
	Time  float64
	Ended bool
}

// A Step is the share still living after the ends at one time.
type Step struct {
	Time      float64
	AtRisk    int
	Ends      int
	Survival  float64
	SE        float64 // Greenwood 1926; NaN when none survive
	Low, High float64 // on the log-minus-log scale; NaN when none survive
}

// KaplanMeier is the share surviving after each time at which some ended, with
// Greenwood's standard error and the interval that is even on the
// log-minus-log scale (Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457;
// Kalbfleisch & Prentice 1980). Times of 0 or more; confidence 0.5 to 0.9999.
func KaplanMeier(lives []Life, confidence quantity.Fraction) ([]Step, error) {
	if err := living(lives); err != nil {
		return nil, err
	}
	if err := sensible(confidence); err != nil {
		return nil, err
	}
	var steps []Step
	share, sum := 1.0, 0.0
	for _, t := range ends(lives) {
		n, d := atRisk(lives, t)
		share *= 1 - d/n
		sum += d / (n * (n - d)) // infinite when all end
		steps = append(steps, step(t, n, d, share, sum, normalReach(confidence)))
	}
	return steps, nil
}

func step(t, n, d, share, sum, z float64) Step {
	s := Step{t, int(n), int(d), share, math.NaN(), math.NaN(), math.NaN()}
	if share > 0 {
		s.SE = share * math.Sqrt(sum)
		reach := math.Exp(z * math.Sqrt(sum) / math.Log(share)) // below 1
		s.Low, s.High = math.Pow(share, 1/reach), math.Pow(share, reach)
	}
	return s
}

func living(lives []Life) error {
	if err := quantity.Within("number of lives", float64(len(lives)), 1, 1e7, "", quantity.OwnBounds); err != nil {
		return err
	}
	for _, l := range lives {
		if err := quantity.Within("time", l.Time, 0, 1e150, "", quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

// ends lists the times at which some ended, rising.
func ends(lives []Life) []float64 {
	var times []float64
	for _, l := range lives {
		if l.Ended {
			times = append(times, l.Time)
		}
	}
	slices.Sort(times)
	return slices.Compact(times)
}

func atRisk(lives []Life, t float64) (n, d float64) {
	for _, l := range lives {
		if l.Time >= t {
			n++
		}
		if l.Ended && l.Time == t {
			d++
		}
	}
	return n, d
}

// At is the last step no later than t (0 or more); before the first all survive.
func At(steps []Step, t float64) (Step, error) {
	if err := quantity.Within("time", t, 0, 1e150, "", quantity.OwnBounds); err != nil {
		return Step{}, err
	}
	s := Step{Survival: 1, Low: 1, High: 1}
	for _, one := range steps {
		if one.Time <= t {
			s = one
		}
	}
	return s, nil
}

// MedianLife is the first time at which half or fewer survive; where exactly
// half survive over a stretch, the middle of that stretch (as in R). NaN when
// more than half survive to the end of the watch.
func MedianLife(steps []Step) float64 {
	const half = 0.5
	for i, s := range steps {
		switch {
		case s.Survival < half-tie:
			return s.Time
		case s.Survival <= half+tie && i+1 < len(steps):
			return (s.Time + steps[i+1].Time) / 2
		case s.Survival <= half+tie:
			return s.Time
		}
	}
	return math.NaN()
}

// RestrictedMeanLife is the mean time lived up to a horizon (0 or more): the
// area under the steps.
func RestrictedMeanLife(steps []Step, to float64) (float64, error) {
	if err := quantity.Within("horizon", to, 0, 1e150, "", quantity.OwnBounds); err != nil {
		return 0, err
	}
	area, from, share := 0.0, 0.0, 1.0
	for _, s := range steps {
		if s.Time > to {
			break
		}
		area += (s.Time - from) * share
		from, share = s.Time, s.Survival
	}
	return area + (to-from)*share, nil
}

// A ChiSquared is a test value with one degree of freedom and its chance.
type ChiSquared struct{ Value, P float64 }

// LogRank compares the survival of two groups over the whole watch (Mantel
// 1966, Cancer Chemother. Rep. 50:163; Peto & Peto 1972): one end in all at least.
func LogRank(a, b []Life) (ChiSquared, error) {
	if err := living(a); err != nil {
		return ChiSquared{}, err
	}
	if err := living(b); err != nil {
		return ChiSquared{}, err
	}
	gap, variance := 0.0, 0.0
	for _, t := range ends(slices.Concat(a, b)) {
		n, d := atRisk(a, t)
		m, e := atRisk(b, t)
		all, dead := n+m, d+e
		gap += d - dead*n/all
		if all > 1 {
			variance += dead * n / all * m / all * (all - dead) / (all - 1)
		}
	}
	if !(variance > 0) {
		return ChiSquared{}, ErrNoSpread
	}
	value := gap * gap / variance
	return ChiSquared{value, chance.ChiSquaredSurvival(value, 1)}, nil
}

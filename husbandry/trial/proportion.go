package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// An Interval is the span that holds a true value with the confidence asked for.
type Interval struct{ Low, High float64 }

// Wilson is the interval for a share, such as deaths among the fish of one
// tank, without correction for continuity. It assumes that the fish live and
// die independently, which fish in one water do not: when tanks are what was
// drawn by lot, compare tanks. Events 0 to n; n from 1; confidence 0.5 to 0.9999.
func Wilson(events, n int, confidence quantity.Fraction) (Interval, error) {
	if err := share(events, n, confidence); err != nil {
		return Interval{}, err
	}
	return wilson(float64(events), float64(n), normalReach(confidence)), nil
}

// wilson is Wilson 1927, J. Am. Stat. Assoc. 22:209.
func wilson(x, n, z float64) Interval {
	p := x / n
	centre := (p + z*z/(2*n)) / (1 + z*z/n)
	reach := z / (1 + z*z/n) * math.Sqrt(p*(1-p)/n+z*z/(4*n*n))
	low, high := centre-reach, centre+reach
	if x == 0 { // exactly, where rounding would leave a hair
		low = 0
	}
	if x == n {
		high = 1
	}
	return Interval{low, high}
}

func share(events, n int, confidence quantity.Fraction) error {
	if err := quantity.Within("number observed", float64(n), 1, 1e6, "", quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("events", float64(events), 0, float64(n), "", "by definition: no more than were observed"); err != nil {
		return err
	}
	return sensible(confidence)
}

func normalReach(confidence quantity.Fraction) float64 {
	return chance.NormalQuantile((1 + float64(confidence)) / 2)
}

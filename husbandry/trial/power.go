package trial

import (
	"math"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// A Design says how beds are set against each other.
type Design int

const (
	// TwoGroups puts each bed in one of two groups.
	TwoGroups Design = iota
	// Pairs sets each bed against a partner; the spread is that of the differences.
	Pairs
)

// Beds is how many beds (pairs, under Pairs) each group needs.
type Beds struct {
	Exact      float64 // before rounding up
	Each       int     // what to plant
	Power      float64 // the chance of noticing the difference with Each beds
	PowerUpper float64 // the same without the tail in the wrong direction
}

// BedsNeeded is how many beds each group needs for a two-sided t test at level
// alpha to notice the difference delta (above 0) with the given power, when
// beds treated alike spread with standard deviation sd (above 0). Delta from
// 0.02 to 30 sd; power 0.5 to 0.999; alpha 0.0001 to 0.5. Only the tail in the
// true direction counts towards Exact, as in the usual tables; see Power.
func BedsNeeded(delta, sd float64, power, alpha quantity.Fraction, how Design) (Beds, error) {
	if err := tested(delta, sd, alpha, how); err != nil {
		return Beds{}, err
	}
	if err := quantity.Within("power", float64(power), 0.5, 0.999, "", quantity.OwnBounds); err != nil {
		return Beds{}, err
	}
	const fewest = 2
	exact := chance.RootAbove(fewest, func(n float64) float64 {
		return onePower(n, delta/sd, float64(alpha), how) - float64(power)
	})
	each := math.Ceil(exact - 1e-9) // a whole number found by halving may end a hair above
	d, a := delta/sd, float64(alpha)
	return Beds{exact, int(each), bothPower(each, d, a, how), onePower(each, d, a, how)}, nil
}

// Power is the chance that a two-sided t test at level alpha notices the
// difference delta with n beds in each group (n pairs), counting both tails; a
// result in the wrong direction would count too, which matters only where the
// power is low. n from 2; the other ranges as for BedsNeeded.
func Power(n, delta, sd float64, alpha quantity.Fraction, how Design) (float64, error) {
	if err := tested(delta, sd, alpha, how); err != nil {
		return 0, err
	}
	if err := quantity.Within("beds in each group", n, 2, 1e6, "beds", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return bothPower(n, delta/sd, float64(alpha), how), nil
}

// tested checks what a power needs.
func tested(delta, sd float64, alpha quantity.Fraction, how Design) error {
	if err := quantity.Within("standard deviation", sd, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
		return err
	}
	if err := quantity.Within("difference in standard deviations", delta/sd, 0.02, 30, "", "bounds of this program: smaller ones need more beds than anyone has"); err != nil {
		return err
	}
	if err := quantity.Within("design", float64(how), float64(TwoGroups), float64(Pairs), "", quantity.OwnBounds); err != nil {
		return err
	}
	return quantity.Within("alpha", float64(alpha), 0.0001, 0.5, "", quantity.OwnBounds)
}

// shiftAndDF are the true difference in standard errors and the degrees of
// freedom, for n beds a group and effect d in standard deviations.
func shiftAndDF(n, d float64, how Design) (shift, df float64) {
	if how == Pairs {
		return d * math.Sqrt(n), n - 1
	}
	return d * math.Sqrt(n/2), 2 * (n - 1)
}

func onePower(n, d, alpha float64, how Design) float64 {
	shift, df := shiftAndDF(n, d, how)
	return tailPower(chance.TQuantile(1-alpha/2, df), df, shift)
}

func bothPower(n, d, alpha float64, how Design) float64 {
	shift, df := shiftAndDF(n, d, how)
	t := chance.TQuantile(1-alpha/2, df)
	return tailPower(t, df, shift) + tailPower(t, df, -shift)
}

// tailPower is the chance that a t value exceeds t when the true difference is
// shift standard errors.
func tailPower(t, df, shift float64) float64 {
	const certain = 37 // to more digits than a float has
	shift = min(max(shift, -certain), certain)
	return chance.NoncentralTCDF(-t, df, -shift)
}

// PowerUnequal is Power for groups of n and m beds, 2 or more each.
func PowerUnequal(n, m int, delta, sd float64, alpha quantity.Fraction) (float64, error) {
	if err := tested(delta, sd, alpha, TwoGroups); err != nil {
		return 0, err
	}
	for _, beds := range []int{n, m} {
		if err := quantity.Within("beds in a group", float64(beds), 2, 1e6, "beds", quantity.OwnBounds); err != nil {
			return 0, err
		}
	}
	df := float64(n + m - 2)
	shift := delta / sd / math.Sqrt(1/float64(n)+1/float64(m))
	t := chance.TQuantile(1-float64(alpha)/2, df)
	return tailPower(t, df, shift) + tailPower(t, df, -shift), nil
}

// Detectable is the smallest difference that n beds in each group (n pairs)
// notice with the given power; ranges as for BedsNeeded and Power.
func Detectable(n, sd float64, power, alpha quantity.Fraction, how Design) (float64, error) {
	if err := tested(sd, sd, alpha, how); err != nil {
		return 0, err
	}
	if err := quantity.Within("beds in each group", n, 2, 1e6, "beds", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := quantity.Within("power", float64(power), 0.5, 0.999, "", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return sd * chance.RootAbove(0, func(d float64) float64 {
		return onePower(n, d, float64(alpha), how) - float64(power)
	}), nil
}

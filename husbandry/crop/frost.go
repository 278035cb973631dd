package crop

import (
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// A frost date of a year is written as a number of days from one fixed date in
// every year, so that years can be compared: the day of the year in the north,
// days since 1 July in the south.

// DayOfSeason returns the days from the fixed date, month and day, at or before
// the day: 1 on the date itself.
func DayOfSeason(d Day, month, day int) (int, error) {
	year := d.Year()
	start, err := DayOf(year, month, day)
	if err == nil && start > d {
		start, err = DayOf(year-1, month, day)
	}
	return orNothing(int(d-start)+1, err)
}

// LastFrost returns the day after which, with that chance, no frost comes this
// spring, from the days of the last frost in past years. 0.9 is the day to wait
// for with tender plants.
func LastFrost(days []float64, chanceOver quantity.Fraction) (float64, error) {
	return quantile8(days, float64(chanceOver))
}

// FirstFrost returns the day before which, with that chance, no frost comes
// this autumn, from the days of the first frost in past years.
func FirstFrost(days []float64, chanceNotYet quantity.Fraction) (float64, error) {
	return quantile8(days, 1-float64(chanceNotYet))
}

// FrostFreeDays returns the days between the last and the first frost that are
// free of frost with about that chance at each end.
func FrostFreeDays(last, first []float64, chance quantity.Fraction) (quantity.Days, error) {
	from, err := LastFrost(last, chance)
	if err != nil {
		return 0, err
	}
	to, err := FirstFrost(first, chance)
	return orNothing(quantity.Days(math.Max(0, to-from)), err)
}

// FrostChanceAfter returns the chance that frost comes after that day, from the
// days of the last frost in past years: the share of years, moved a little to
// the middle so that a few years never make it nought or certain (Hyndman and
// Fan 1996, type 8 plotting positions).
func FrostChanceAfter(days []float64, day float64) (quantity.Fraction, error) {
	if err := firstError(frostDays(days), seasonDay(day)); err != nil {
		return 0, err
	}
	after := 0.0
	for _, d := range days {
		switch {
		case d > day:
			after++
		case d == day:
			after += 0.5
		}
	}
	n := float64(len(days))
	return quantity.Fraction((after + 1.0/6) / (n + 1.0/3)), nil
}

// quantile8 is the median-unbiased quantile (Hyndman and Fan 1996, The American
// Statistician 50:361, type 8). A chance that so few years cannot tell of is a
// RangeError: with five years 0.125 to 0.875.
func quantile8(days []float64, p float64) (float64, error) {
	if err := frostDays(days); err != nil {
		return 0, err
	}
	n := float64(len(days))
	least := 2.0 / 3 / (n + 1.0/3)
	const dust = 1e-12
	if err := quantity.Within("chance", p, least-dust, 1-least+dust, "", "by definition: the number of years on record"); err != nil {
		return 0, err
	}
	sorted := slices.Sorted(slices.Values(days))
	at := bounded((n+1.0/3)*p+1.0/3, 1, n)
	below := int(math.Floor(at))
	if below == len(sorted) {
		return sorted[below-1], nil
	}
	return sorted[below-1] + (at-math.Floor(at))*(sorted[below]-sorted[below-1]), nil
}

func frostDays(days []float64) error {
	if err := yearsBound.check(float64(len(days))); err != nil {
		return err
	}
	for _, d := range days {
		if err := seasonDay(d); err != nil {
			return err
		}
	}
	return nil
}

func seasonDay(d float64) error { return seasonDayBound.check(d) }

package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// YearsToBearing returns the years from planting a nursery plant to the first
// real crop. A crop that bears in its first season is a NotListedError.
func YearsToBearing(crop string) (Figure, error) {
	c, err := Find(crop)
	if err != nil {
		return Figure{}, err
	}
	return c.YearsToBearing, c.YearsToBearing.orNotKnown(c.Name, "years to bearing")
}

// FirstBearingYears returns the calendar years in which a perennial planted on
// that day may first bear.
func FirstBearingYears(crop string, planted Day) (first, last int, err error) {
	years, err := YearsToBearing(crop)
	if err != nil {
		return 0, 0, err
	}
	const daysInYear = 365.25
	first = (planted + Day(math.Round(years.Low*daysInYear))).Year()
	last = (planted + Day(math.Round(years.High*daysInYear))).Year()
	return first, last, nil
}

// PerennialYield returns the fresh harvest of a year from an area of a
// perennial: nothing before it bears, half of its range's middle in the first
// bearing year, all of it after. The half is common practice, without a source.
// Age 0 to 100 whole years since planting.
func PerennialYield(crop string, age int, area quantity.SquareMetres) (quantity.Kilograms, error) {
	years, errYears := YearsToBearing(crop)
	yield, errYield := ExpectedYield(crop)
	if err := firstError(errYears, ageBound.check(float64(age)), bedArea(area), errYield); err != nil {
		return 0, err
	}
	full := quantity.Kilograms(yield.Middle() * float64(area))
	bearing := int(math.Round(years.Middle()))
	switch {
	case age < bearing:
		return 0, nil
	case age == bearing:
		return full / 2, nil
	}
	return full, nil
}

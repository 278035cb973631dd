package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Span of days runs from First to Last, both included.
type Span struct {
	First, Last Day
}

// Days returns how many days the span has.
func (s Span) Days() int { return int(s.Last-s.First) + 1 }

// Sum adds up the degree days of a run of days by the rule.
func (r Rule[T]) Sum(days []Temperatures[T]) (DegreeDays[T], error) {
	sum := DegreeDays[T]{Rule: r}
	for _, t := range days {
		day, err := r.Day(t)
		if err != nil {
			return DegreeDays[T]{}, err
		}
		sum.Total += day.Total
	}
	return sum, nil
}

// DaysFor returns on which of the days, counted from 1, the degree days first
// reach the total, 0 to 20,000. Too few days to reach it is a RangeError.
func (d DegreeDays[T]) DaysFor(days []Temperatures[T]) (on int, err error) {
	if err := heatBound.check(float64(d.Total)); err != nil {
		return on, err
	}
	sum := T(0)
	for i, t := range days {
		day, err := d.Rule.Day(t)
		if err != nil {
			return on, err
		}
		sum += day.Total
		if sum >= d.Total {
			return i + 1, nil
		}
	}
	return on, &quantity.RangeError{Name: "degree days needed", Value: float64(d.Total), Low: 0, High: float64(sum),
		Unit: "degree day", Source: "the temperatures given"}
}

// DaysAt returns how many days of the same weather reach the total, rounded up
// to whole days. Weather that never adds a degree day is a RangeError.
func (d DegreeDays[T]) DaysAt(t Temperatures[T]) (quantity.Days, error) {
	day, err := d.Rule.Day(t)
	if err != nil {
		return 0, err
	}
	const least = 0.01 // a hundredth of a degree day a day would take years
	if err := quantity.Within("degree days in a day", float64(day.Total), least, math.MaxFloat64, "degree day", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := heatBound.check(float64(d.Total)); err != nil {
		return 0, err
	}
	return quantity.Days(math.Ceil(float64(d.Total / day.Total))), nil
}

// SowingInterval returns how many days to leave before the next sowing so that
// the two harvests fall apart by the run of days atHarvest: wait at sowing time
// until as many heat units have passed as those days will bring (Ottoson,
// ISHS; University of Connecticut). atSowing is the weather from the first
// sowing on.
func (r Rule[T]) SowingInterval(atHarvest, atSowing []Temperatures[T]) (days int, err error) {
	apart, err := r.Sum(atHarvest)
	if err != nil {
		return days, err
	}
	return apart.DaysFor(atSowing)
}

// A HeatNeed is a published total of degree days to harvest.
type HeatNeed struct {
	Crop   string
	Need   DegreeDays[quantity.Fahrenheit]
	Source string
}

// HeatNeeds holds the published totals. Each holds only for its own rule.
var HeatNeeds = []HeatNeed{
	{"sweet corn, Jubilee (fresh market)", DegreeDays[quantity.Fahrenheit]{1539, Rule[quantity.Fahrenheit]{SingleSineTo, 50, 86}},
		"Oregon State University Extension (Andrews, Coop and others), vegetable degree days"},
	{"corn, early", DegreeDays[quantity.Fahrenheit]{1750, Rule[quantity.Fahrenheit]{Modified, 50, 86}},
		"Peet (NCSU), appendix 2; its figure for late corn is a misprint and is left out"},
	{"corn, midseason", DegreeDays[quantity.Fahrenheit]{1890, Rule[quantity.Fahrenheit]{Modified, 50, 86}},
		"Peet (NCSU), appendix 2"},
	{"pea, earliest", DegreeDays[quantity.Fahrenheit]{1250, Rule[quantity.Fahrenheit]{SimpleMean, 40, 0}},
		"University of Delaware Weekly Crop Update 2025; method not stated, taken as simple mean"},
}

// HeatNeedOf returns the published total for the crop; a crop without one, or
// with several, is a NotListedError.
func HeatNeedOf(crop string) (HeatNeed, error) {
	return rowOf("the degree-day table", HeatNeeds, func(h HeatNeed) string { return h.Crop }, crop)
}

// A baseRow is the base temperature of a group of crops.
type baseRow struct {
	crops string
	base  quantity.Fahrenheit
}

// baseTemperatures holds Peet (NCSU), Sustainable Practices for Vegetable
// Production in the South, appendix 2.
var baseTemperatures = []baseRow{
	{"corn, bean", 50},
	{"turnip, cabbage, pea", 40},
	{"pepper", 65},
}

// BaseTemperature returns the temperature below which the crop does not grow,
// as used for its degree days (Peet, NCSU, appendix 2).
func BaseTemperature(crop string) (base quantity.Fahrenheit, err error) {
	row, err := rowOf("the table of base temperatures", baseTemperatures, func(b baseRow) string { return b.crops }, crop)
	return row.base, err
}

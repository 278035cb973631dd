package crop

import (
	"strconv"
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Day is a calendar day, counted from 1 January 1970 (day 0), so that
// records, plans and seasons can be added and compared without a clock.
type Day int

// beforeEpoch is the number of days from 1 January of year 1 to 1 January 1970
// in the Gregorian calendar carried backwards (ISO 8601).
const beforeEpoch = 719162

// daysBefore holds the days of a common year before each month.
var daysBefore = [...]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}

// DayOf returns the Day of a Gregorian date. Years 1 to 9999; a date that does
// not exist, such as 30 February, is a RangeError.
func DayOf(year, month, day int) (Day, error) {
	if err := quantity.Within("year", float64(year), 1, 9999, "", "ISO 8601"); err != nil {
		return 0, err
	}
	if err := quantity.Within("month", float64(month), 1, 12, "", "ISO 8601"); err != nil {
		return 0, err
	}
	last := monthStart(year, month+1) - monthStart(year, month)
	if err := quantity.Within("day of the month", float64(day), 1, float64(last), "", "ISO 8601"); err != nil {
		return 0, err
	}
	return newYear(year) + Day(monthStart(year, month)+day-1), nil
}

// Year returns the calendar year of the day.
func (d Day) Year() int {
	year, _, _ := d.Date()
	return year
}

// YearDay returns the day's number in its year: 1 on 1 January, 365 or 366 on
// 31 December. It is the J of FAO-56.
func (d Day) YearDay() int { return int(d-newYear(d.Year())) + 1 }

// Date returns the calendar date of the day, from year 1 on. It counts years
// from 1 March, so that the leap day is the last of its year, in cycles of 400
// years (Hinnant, chrono-compatible low-level date algorithms).
func (d Day) Date() (year, month, day int) {
	z := int(d) + 719468 // days since 1 March of year 0
	cycle := z / 146097
	inCycle := z % 146097
	inYear := (inCycle - inCycle/1460 + inCycle/36524 - inCycle/146096) / 365
	yearDay := inCycle - (365*inYear + inYear/4 - inYear/100)
	fromMarch := (5*yearDay + 2) / 153
	day = yearDay - (153*fromMarch+2)/5 + 1
	month = (fromMarch+2)%12 + 1
	year = cycle*400 + inYear
	if month <= 2 {
		year++
	}
	return year, month, day
}

// Monday returns the Monday that begins the day's week.
func (d Day) Monday() Day {
	// 1 January 1970 was a Thursday, three days after a Monday.
	past := (int(d) + 3) % 7
	if past < 0 {
		past += 7
	}
	return d - Day(past)
}

// String writes the day as an ISO 8601 date, 2026-05-01.
func (d Day) String() string {
	year, month, day := d.Date()
	return padded(year, 4) + "-" + padded(month, 2) + "-" + padded(day, 2)
}

// Words writes the day as a person says it within a year, 1 May.
func (d Day) Words() string {
	_, month, day := d.Date()
	return strconv.Itoa(day) + " " + monthNames[month-1]
}

var monthNames = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

func padded(n, width int) string {
	s := strconv.Itoa(n)
	for len(s) < width {
		s = "0" + s
	}
	return s
}

// newYear returns the day of 1 January of the year.
func newYear(year int) Day {
	y := year - 1
	return Day(365*y + y/4 - y/100 + y/400 - beforeEpoch)
}

// monthStart returns how many days of the year come before the month; month 13
// gives the length of the year.
func monthStart(year, month int) int {
	days := daysBefore[month-1]
	if month > 2 && leap(year) {
		days++
	}
	return days
}

func leap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// ParseDay reads an ISO 8601 date, 2026-05-01. Anything else is a
// NotListedError.
func ParseDay(text string) (Day, error) {
	parts := strings.Split(text, "-")
	numbers := [3]int{}
	if len(parts) != len(numbers) {
		return 0, &NotListedError{Table: "the calendar", Asked: text}
	}
	for i, part := range parts {
		n, err := strconv.Atoi(part)
		if err != nil {
			return 0, &NotListedError{Table: "the calendar", Asked: text}
		}
		numbers[i] = n
	}
	return DayOf(numbers[0], numbers[1], numbers[2])
}

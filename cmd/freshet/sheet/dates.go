package sheet

import (
	"strings"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Orders in which a sheet may write the parts of a day.
const (
	OrderUnknown = ""
	YearFirst    = "ymd"
	DayFirst     = "dmy"
	MonthFirst   = "mdy"
)

// dayLayouts are how days are written, by order. A layout's "2" and "1" also
// read two digits.
var dayLayouts = map[string][]string{
	YearFirst:  {"2006-1-2", "2006/1/2", "2006.1.2", "20060102"},
	DayFirst:   {"2/1/2006", "2.1.2006", "2-1-2006", "2/1/06", "2.1.06", "2 Jan 2006", "2 January 2006", "2-Jan-2006", "2-Jan-06"},
	MonthFirst: {"1/2/2006", "1-2-2006", "1.2.2006", "1/2/06", "Jan 2, 2006", "January 2, 2006", "Jan 2 2006"},
}

var clockLayouts = []string{"15:04", "15:04:05", "15:04:05.000", "3:04 PM", "3:04PM", "3:04:05 PM", "15.04", "15h04"}

// A calendar reads the times of a sheet. It remembers the layout that fitted
// last: a sheet rarely changes its mind.
type calendar struct {
	order string
	zone  *time.Location
	now   time.Time
	last  string
	clock string
}

// moment reads a day with or without a time, and a time of day beside it.
func (c *calendar) moment(day, clock string) (time.Time, error) {
	day, clock = strings.TrimSpace(day), strings.TrimSpace(clock)
	t, ok := c.parse(day)
	if name := zoneNamed(day); !ok && name != "" && c.isDay(day) {
		return time.Time{}, problem(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, name+" is no time of "+c.zone.String(),
			"say in which time zone the sheet was written: --zone Europe/Rome")
	}
	if !ok {
		return time.Time{}, problem(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, "\""+clipped(day)+"\" is no day or time",
			"write it like 2026-11-20 or 2026-11-20 07:12")
	}
	if clock != "" {
		at, ok := c.parseClock(clock)
		if !ok {
			return time.Time{}, problem(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, "\""+clipped(clock)+"\" is no time of day", "write it like 07:12")
		}
		y, m, d := t.Date()
		t = time.Date(y, m, d, at.Hour(), at.Minute(), at.Second(), 0, c.zone)
	}
	switch {
	case t.Year() < 1900 || t.Year() > 2200:
		return t, problem(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, "the day lies outside 1900 to 2200", "check the year")
	case t.After(c.now.Add(5 * time.Minute)):
		return t, problem(freshetv1.ErrorReason_ERROR_REASON_IN_THE_FUTURE, "the time lies in the future", "check the year, and the order of day and month")
	}
	return t, nil
}

func (c *calendar) parse(text string) (time.Time, bool) {
	if t, ok := sinceEpoch(text); ok {
		return t, true
	}
	text, zone := zoneOff(weekdayOff(text), c.zone)
	if zone == nil {
		return time.Time{}, false
	}
	return c.written(text, zone)
}

// isDay says whether a cell is a day or a time, also one of a zone that is not known.
func (c *calendar) isDay(text string) bool {
	text, _ = zoneOff(weekdayOff(strings.TrimSpace(text)), c.zone)
	_, ok := c.written(text, c.zone)
	return ok
}

// written reads a day, or a day and a time in a zone.
func (c *calendar) written(text string, zone *time.Location) (time.Time, bool) {
	for _, layout := range append([]string{c.last}, layouts(c.order)...) {
		if t, err := time.ParseInLocation(layout, text, zone); err == nil && layout != "" {
			c.last = layout
			return noon(t, layout), true
		}
	}
	return time.Time{}, false
}

// weekdayOff takes the name of a weekday off the front: it says nothing that the
// day does not.
func weekdayOff(text string) string {
	name, rest, found := strings.Cut(text, " ")
	name = strings.ToLower(strings.TrimRight(name, ",."))
	if !found || len(name) < 2 {
		return text
	}
	for d := time.Sunday; d <= time.Saturday; d++ {
		if strings.HasPrefix(strings.ToLower(d.String()), name) {
			return strings.TrimSpace(rest)
		}
	}
	return text
}

// noon stands for a day whose time is not told.
func noon(t time.Time, layout string) time.Time {
	if strings.Contains(layout, "04") {
		return t
	}
	y, m, d := t.Date()
	return time.Date(y, m, d, 12, 0, 0, 0, t.Location())
}

// layouts lists days alone and with times, in one order.
func layouts(order string) []string {
	var list []string
	for _, day := range dayLayouts[order] {
		list = append(list, day)
		for _, clock := range clockLayouts {
			list = append(list, day+" "+clock, day+"T"+clock)
		}
	}
	return list
}

func (c *calendar) parseClock(text string) (time.Time, bool) {
	for _, layout := range append([]string{c.clock}, clockLayouts...) {
		if layout == "" {
			continue
		}
		if t, err := time.Parse(layout, strings.ToUpper(text)); err == nil {
			c.clock = layout
			return t, true
		}
	}
	return time.Time{}, false
}

// orderOf finds the order that reads most of the days; OrderUnknown where day
// and month could be either.
func orderOf(days []string, zone *time.Location) string {
	fits := map[string]int{}
	for order := range dayLayouts {
		c := calendar{order: order, zone: zone}
		for _, d := range days {
			if _, ok := c.parse(strings.TrimSpace(d)); ok {
				fits[order]++
			}
		}
	}
	switch {
	case fits[YearFirst] >= fits[DayFirst] && fits[YearFirst] >= fits[MonthFirst]:
		return YearFirst
	case fits[DayFirst] > fits[MonthFirst]:
		return DayFirst
	case fits[MonthFirst] > fits[DayFirst]:
		return MonthFirst
	}
	return OrderUnknown
}

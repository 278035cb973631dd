package store

import (
	"sync"
	"time"
	_ "time/tzdata" // days must not depend on what the machine has installed
)

// zone is a time zone that remembers the day it was last asked about: events
// come mostly in order of time.
type zone struct {
	location   *time.Location
	start, end int64 // of the day, milliseconds since 1970
	day        day
}

// day is a calendar day, as days since 1970-01-01.
type day int32

func (d day) time() time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

var locations sync.Map // name -> *time.Location

// zoneNamed finds a time zone; UTC where the name is empty or unknown.
func zoneNamed(name string) *zone {
	if found, ok := locations.Load(name); ok {
		return &zone{location: found.(*time.Location)}
	}
	location, err := time.LoadLocation(name)
	if err != nil {
		location = time.UTC
	}
	locations.Store(name, location)
	return &zone{location: location}
}

// dayOf is the day of a moment in milliseconds since 1970.
func (z *zone) dayOf(ms int64) day {
	if ms >= z.start && ms < z.end {
		return z.day
	}
	z.day = day(dateOf(time.UnixMilli(ms).In(z.location)).Unix() / 86400)
	start, end := z.bounds(z.day)
	z.start, z.end = start.UnixMilli(), end.UnixMilli()
	return z.day
}

// bounds are the first moment of a day and of the next.
func (z *zone) bounds(d day) (start, end time.Time) {
	year, month, date := d.time().Date()
	return z.midnight(year, month, date), z.midnight(year, month, date+1)
}

// midnight is the first moment of a date. Where clocks change at midnight,
// that hour is missing or the one before comes twice: the moment found first
// may still belong to the date before.
func (z *zone) midnight(year int, month time.Month, date int) time.Time {
	t := time.Date(year, month, date, 0, 0, 0, 0, z.location)
	for want := time.Date(year, month, date, 0, 0, 0, 0, time.UTC); dateOf(t).Before(want); {
		t = t.Add(30 * time.Minute)
	}
	return t
}

func dateOf(t time.Time) time.Time {
	year, month, date := t.Date()
	return time.Date(year, month, date, 0, 0, 0, 0, time.UTC)
}

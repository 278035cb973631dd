package device

import (
	"context"
	"fmt"
	"time"
)

// Status is how a device stands towards its cooperative.
type Status struct {
	Joined      bool
	Address     string
	Pinned      bool // the server is known by its key, as the invitation's link told it
	MemberID    string
	Waiting     int       // entries only on this device
	Oldest      time.Time // when the oldest of them was noted; zero where none waits
	LastContact time.Time // zero: never
	LastTrouble string    // why the last contact failed; empty when it did not
	Refused     int
	Held        int
	Photos      int           // noted here, whose files the cooperative lacks
	ServerAhead time.Duration // server's clock less this device's, at the last contact
	now         time.Time
}

// Status reads how the device stands; it needs no network.
func (d *Device) Status(ctx context.Context) (Status, error) {
	s := Status{now: time.UnixMilli(d.clock().GetWallMs())}
	var err error
	text := func(name string) string {
		var v string
		if err == nil {
			v, err = fact(ctx, d.db, name)
		}
		return v
	}
	number := func(name string) int64 {
		var v int64
		if err == nil {
			v, err = factNumber(ctx, d.db, name)
		}
		return v
	}
	s.Address, s.MemberID, s.LastTrouble = text(factAddress), text(factMember), text(factRefusal)
	s.Joined, s.Pinned = s.MemberID != "", text(factPin) != ""
	s.ServerAhead = time.Duration(number(factServerAhead)) * time.Millisecond
	if ms := number(factLastContact); ms != 0 {
		s.LastContact = time.UnixMilli(ms)
	}
	through := number(factThrough)
	if err != nil {
		return s, err
	}
	return s, d.countWaiting(ctx, through, &s)
}

func (d *Device) countWaiting(ctx context.Context, through int64, s *Status) error {
	var oldest int64
	err := d.db.QueryRowContext(ctx, `SELECT COALESCE(sum(first_number + operations_count - 1 - max(first_number - 1, ?1)), 0),
		COALESCE(min(noted_ms), 0) FROM outbox WHERE first_number + operations_count > ?1 + 1`, through).Scan(&s.Waiting, &oldest)
	if err != nil {
		return err
	}
	if oldest != 0 {
		s.Oldest = time.UnixMilli(oldest)
	}
	if err := d.db.QueryRowContext(ctx, `SELECT count(*) FROM photo_files WHERE arrived = 0`).Scan(&s.Photos); err != nil {
		return err
	}
	return d.db.QueryRowContext(ctx, `SELECT COALESCE(sum(kind = 3), 0), COALESCE(sum(kind = 4), 0)
		FROM (SELECT kind FROM outcomes UNION ALL SELECT kind FROM former_outcomes)`).
		Scan(&s.Refused, &s.Held)
}

func (d *Device) waitingCount(ctx context.Context) (int, error) {
	s, err := d.Status(context.WithoutCancel(ctx))
	return s.Waiting, err
}

// String says it as one would: "14 entries wait, oldest 2 days; last heard
// from the co-op Monday 07:12".
func (s Status) String() string {
	waits := "nothing waits"
	if s.Waiting > 0 {
		waits = counted(s.Waiting, "entry waits", "entries wait")
		if age := s.now.Sub(s.Oldest); age >= time.Minute {
			waits += ", oldest " + Age(age)
		}
	}
	if s.Photos > 0 {
		photos := counted(s.Photos, "photo waits", "photos wait")
		if s.Waiting > 0 {
			photos = waits + ", " + photos
		}
		waits = photos
	}
	switch {
	case !s.Joined:
		return waits + "; this device has not joined a co-op"
	case s.LastContact.IsZero():
		return waits + "; never yet heard from the co-op"
	}
	return waits + "; last heard from the co-op " + Moment(s.LastContact, s.now)
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Age says how long something is: "2 days", "5 minutes", "a moment".
func Age(d time.Duration) string {
	switch {
	case d < time.Minute:
		return "a moment"
	case d < time.Hour:
		return counted(int(d/time.Minute), "minute", "minutes")
	case d < 48*time.Hour:
		return counted(int(d/time.Hour), "hour", "hours")
	}
	return counted(int(d/(24*time.Hour)), "day", "days")
}

// Moment says when something was, as one would on the day of now: "07:12",
// "Monday 07:12", "3 November 07:12". Both are read in now's time zone.
func Moment(t, now time.Time) string {
	t = t.In(now.Location())
	y, m, day := now.Date()
	midnight := time.Date(y, m, day, 0, 0, 0, 0, now.Location())
	switch {
	case t.After(midnight.AddDate(0, 0, 1)):
		return t.Format("2 January 2006 15:04")
	case !t.Before(midnight):
		return "today " + t.Format("15:04")
	case !t.Before(midnight.AddDate(0, 0, -1)):
		return "yesterday " + t.Format("15:04")
	case !t.Before(midnight.AddDate(0, 0, -6)):
		return t.Format("Monday 15:04")
	case t.Year() == y:
		return t.Format("2 January 15:04")
	}
	return t.Format("2 January 2006 15:04")
}

// In gives the same status with its moments told in a time zone.
func (s Status) In(zone *time.Location) Status {
	s.now = s.now.In(zone)
	return s
}

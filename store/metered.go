package store

import (
	"context"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// MeteredMonth is what energy a site used in one month of its time zone, as far
// as it was metered.
type MeteredMonth struct {
	SiteID uuid.UUID
	Month  time.Time // its first day
	KWh    float64   // in the part of the month that was metered
	Share  float64   // how much of the month that is; of several meters the one that ran longest
}

// MeteredMonths splits each amount of energy over the time in which it was used,
// which is seldom a month of the calendar. An amount that does not say when its
// time began, with none before it, is of no known time and left out. Months that
// begin between two days, in order of site and month.
func (s *Store) MeteredMonths(ctx context.Context, sites []uuid.UUID, from, to time.Time) ([]MeteredMonth, error) {
	found, err := s.query(ctx, `SELECT e.site_id, coalesce(s.time_zone, ''), coalesce(e.equipment_id, '00000000-0000-0000-0000-000000000000'), e.energy_kwh, e.began_at, e.occurred_at
		FROM (SELECT site_id, equipment_id, energy_kwh, occurred_at,
				coalesce(began_at, lag(occurred_at) OVER (PARTITION BY site_id, equipment_id ORDER BY occurred_at)) AS began_at
			FROM energy WHERE site_id = ANY ($1) AND corrected_by IS NULL) e JOIN sites s ON s.id = e.site_id
		WHERE e.began_at < e.occurred_at AND e.began_at < $3::date + interval '2 months' AND e.occurred_at > $2::date - interval '1 month'
		ORDER BY e.site_id, e.occurred_at`, sites, from, to)
	if err != nil {
		return nil, err
	}
	var list []MeteredMonth
	var m meters
	var site, meter uuid.UUID
	var name string
	var kWh float64
	var began, ended time.Time
	_, err = pgx.ForEachRow(found, []any{&site, &name, &meter, &kWh, &began, &ended}, func() error {
		if site != m.site {
			list = append(list, m.months(from, to)...)
			m = meters{site: site, zone: zoneNamed(name), kWh: map[day]float64{}, ran: map[day]map[uuid.UUID]time.Duration{}}
		}
		m.count(meter, kWh, began, ended)
		return nil
	})
	return append(list, m.months(from, to)...), err
}

// meters is one site's while its amounts are being split.
type meters struct {
	site uuid.UUID
	zone *zone
	kWh  map[day]float64                     // by month
	ran  map[day]map[uuid.UUID]time.Duration // by month and meter
}

func (m *meters) count(meter uuid.UUID, kWh float64, began, ended time.Time) {
	for month := m.zone.dayOf(began.UnixMilli()).month(); ; month = month.next() {
		starts, ends := m.bounds(month)
		if !starts.Before(ended) {
			return
		}
		part := earlier(ends, ended).Sub(later(starts, began))
		m.kWh[month] += kWh * part.Hours() / ended.Sub(began).Hours()
		if m.ran[month] == nil {
			m.ran[month] = map[uuid.UUID]time.Duration{}
		}
		m.ran[month][meter] += part
	}
}

func (m *meters) bounds(month day) (starts, ends time.Time) {
	starts, _ = m.zone.bounds(month)
	ends, _ = m.zone.bounds(month.next())
	return starts, ends
}

func (m *meters) months(from, to time.Time) (list []MeteredMonth) {
	for at := from; m.kWh != nil && !at.After(to); at = at.AddDate(0, 1, 0) {
		month := day(at.Unix() / 86400).month()
		longest := time.Duration(0)
		for _, ran := range m.ran[month] {
			longest = max(longest, ran)
		}
		if longest > 0 {
			starts, ends := m.bounds(month)
			list = append(list, MeteredMonth{m.site, month.time(), m.kWh[month], min(1, longest.Hours()/ends.Sub(starts).Hours())})
		}
	}
	return list
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

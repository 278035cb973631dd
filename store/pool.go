package store

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// SiteMonth is one site's sum over one month of its time zone.
type SiteMonth struct {
	SiteID uuid.UUID
	Month  time.Time // its first day
	Count  int64     // values that went in
	Micro  float64   // their sum in millionths, exact below 9e15
	Days   uint32    // days with a value, as bits: 1 for the first of the month
}

// Sum is the sum in the canonical unit.
func (m SiteMonth) Sum() float64 { return m.Micro / 1e6 }

// siteMonths gives a row a site with its months as arrays: 36,000 months come
// several times as fast as in rows of their own.
const siteMonths = `SELECT site_id, array_agg(month - '1970-01-01'::date), array_agg(n), array_agg(sum_micro::float8), array_agg(days), %s FROM (
	SELECT m.site_id, m.month, m.n, m.sum_micro, m.days, m.subject_id FROM monthly m %s ORDER BY m.site_id, m.month, m.subject_id) AS m GROUP BY site_id ORDER BY site_id`

// Months sums one noun (its table's name; quantity for readings, else 0 for the
// mass, volume, energy or time and 1 for the count) of many sites by month, in
// order of site and month, for the months that begin between two days.
func (s *Store) Months(ctx context.Context, sites []uuid.UUID, noun string, quantity int16, from, to time.Time) ([]SiteMonth, error) {
	return s.months(ctx, "WHERE m.noun = $2 AND m.quantity = $3 AND m.site_id = ANY ($1) AND m.month BETWEEN $4 AND $5", sites, noun, quantity, from, to)
}

// ProduceMonths sums harvests from beds in loops, or from soil beds only, in g.
// Which plantings stand in which is asked for by itself: joined in one statement,
// the database looked for each planting at every site, which at 300 sites took
// twenty seconds.
func (s *Store) ProduceMonths(ctx context.Context, sites []uuid.UUID, soil bool, from, to time.Time) ([]SiteMonth, error) {
	found, err := s.query(ctx, `SELECT p.id FROM plantings p JOIN beds b ON b.id = p.bed_id WHERE p.site_id = ANY ($1) AND (b.system_id IS NULL) = $2`, sites, soil)
	if err != nil {
		return nil, err
	}
	stands := map[uuid.UUID]bool{}
	var planting uuid.UUID
	if _, err := pgx.ForEachRow(found, []any{&planting}, func() error { stands[planting] = true; return nil }); err != nil {
		return nil, err
	}
	return s.someMonths(ctx, func(subject uuid.UUID) bool { return stands[subject] },
		"WHERE m.noun = 'bed_harvests' AND m.quantity = 0 AND m.site_id = ANY ($1) AND m.month BETWEEN $2 AND $3", sites, from, to)
}

// months adds up what a month's subjects say.
func (s *Store) months(ctx context.Context, which string, args ...any) ([]SiteMonth, error) {
	return s.someMonths(ctx, nil, which, args...)
}

// someMonths adds up what those of a month's subjects say that count; nil: all do.
func (s *Store) someMonths(ctx context.Context, counts func(uuid.UUID) bool, which string, args ...any) ([]SiteMonth, error) {
	subjects := "NULL::uuid[]"
	if counts != nil {
		subjects = "array_agg(subject_id)"
	}
	found, err := s.query(ctx, fmt.Sprintf(siteMonths, subjects, which), args...)
	if err != nil {
		return nil, err
	}
	var list []SiteMonth
	var site uuid.UUID
	var months, days []int32
	var numbers []int64
	var sums []float64
	var of []uuid.UUID
	_, err = pgx.ForEachRow(found, []any{&site, &months, &numbers, &sums, &days, &of}, func() error {
		first := len(list)
		for i := range months {
			if counts != nil && !counts(of[i]) {
				continue
			}
			row := SiteMonth{site, day(months[i]).time(), numbers[i], sums[i], uint32(days[i])}
			if last := len(list) - 1; last >= first && list[last].Month.Equal(row.Month) {
				list[last].add(row)
				continue
			}
			list = append(list, row)
		}
		return nil
	})
	return list, err
}

func (m *SiteMonth) add(other SiteMonth) {
	m.Count, m.Micro, m.Days = m.Count+other.Count, m.Micro+other.Micro, m.Days|other.Days
}

// Span is from one value to another of a quantity, in its canonical unit, as
// asked of one site. It is widened to whole bins.
type Span struct {
	SiteID    uuid.UUID
	Low, High float64
}

// MonthShare is how many of a month's readings lay within a span.
type MonthShare struct {
	SiteID uuid.UUID `db:"site_id"`
	Month  time.Time `db:"month"` // its first day
	Count  int64     `db:"count"`
	Within int64     `db:"within"`
}

// MonthsWithin counts each site's readings of a quantity that lie in its span,
// by month, in order of site and month.
func (s *Store) MonthsWithin(ctx context.Context, spans []Span, quantity int16, from, to time.Time) ([]MonthShare, error) {
	sites, lows, highs := make([]uuid.UUID, len(spans)), make([]int32, len(spans)), make([]int32, len(spans))
	for i, span := range spans {
		sites[i] = span.SiteID
		lows[i], highs[i] = binOf(quantity, micro(span.Low)), binOf(quantity, micro(span.High)-1)
	}
	return collect[MonthShare](ctx, s, `SELECT b.site_id, b.month, sum(b.n)::bigint AS count, coalesce(sum(b.n) FILTER (WHERE b.bin BETWEEN a.low AND a.high), 0)::bigint AS within
		FROM unnest($1::uuid[], $2::integer[], $3::integer[]) AS a (site_id, low, high) JOIN monthly_bins b ON b.site_id = a.site_id
		WHERE b.quantity = $4 AND b.month BETWEEN $5 AND $6 GROUP BY 1, 2 ORDER BY 1, 2`, sites, lows, highs, quantity, from, to)
}

func collect[T any](ctx context.Context, s *Store, sql string, args ...any) ([]T, error) {
	found, err := s.query(ctx, sql, args...)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[T])
}

// Ground is what a site is compared on.
type Ground struct {
	SiteID   uuid.UUID `db:"site_id"`
	Name     string    `db:"name"`
	Latitude *float64  `db:"latitude_degrees"`
	LoopM2   float64   `db:"loop_m2"` // beds in loops
	SoilM2   float64   `db:"soil_m2"`
}

// Grounds reads what sites are compared on.
func (s *Store) Grounds(ctx context.Context, sites []uuid.UUID) ([]Ground, error) {
	return collect[Ground](ctx, s, `SELECT s.id AS site_id, coalesce(s.name, '') AS name, s.latitude_degrees,
			coalesce(sum(b.area_m2) FILTER (WHERE b.system_id IS NOT NULL), 0) AS loop_m2,
			coalesce(sum(b.area_m2) FILTER (WHERE b.system_id IS NULL), 0) AS soil_m2
		FROM sites s LEFT JOIN beds b ON b.site_id = s.id AND b.removed_at IS NULL
		WHERE s.id = ANY ($1) AND s.removed_at IS NULL GROUP BY s.id ORDER BY s.id`, sites)
}

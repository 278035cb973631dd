package store

import (
	"context"
	"fmt"
	"slices"
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

// siteMonths adds up what a month's subjects say and gives a row a site with its
// months as arrays, in no order: 36,000 months come several times as fast as in rows
// of their own, and are put in order several times as fast here as there.
const siteMonths = `SELECT site_id, array_agg(month - '1970-01-01'::date), array_agg(n), array_agg(micro), array_agg(days) FROM (
	SELECT m.site_id, m.month, sum(m.n)::bigint AS n, sum(m.sum_micro)::float8 AS micro, bit_or(m.days) AS days FROM monthly m
	WHERE m.noun = $1 AND m.quantity = $2 AND m.site_id = ANY ($3) AND m.month BETWEEN $4 AND $5 %s GROUP BY m.site_id, m.month) m
	GROUP BY site_id ORDER BY site_id`

// Months sums one noun (its table's name; quantity for readings, else 0 for the
// mass, volume, energy or time and 1 for the count) of many sites by month, in
// order of site and month, for the months that begin between two days.
func (s *Store) Months(ctx context.Context, sites []uuid.UUID, noun string, quantity int16, from, to time.Time) ([]SiteMonth, error) {
	return s.months(ctx, "", noun, quantity, sites, from, to)
}

// ProduceMonths sums harvests from beds in loops, or from soil beds only, in g.
// Which plantings stand in which is asked for once: IS TRUE keeps the database from
// joining it, since joined it looked for each planting at every site, which at 300
// sites took twenty seconds.
func (s *Store) ProduceMonths(ctx context.Context, sites []uuid.UUID, soil bool, from, to time.Time) ([]SiteMonth, error) {
	const standing = `AND (m.subject_id IN (SELECT p.id FROM plantings p JOIN beds b ON b.id = p.bed_id WHERE p.site_id = ANY ($3) AND (b.system_id IS NULL) = $6)) IS TRUE`
	return s.months(ctx, standing, "bed_harvests", int16(0), sites, from, to, soil)
}

// months reads siteMonths for those that besides fulfil a condition.
func (s *Store) months(ctx context.Context, condition, noun string, arguments ...any) ([]SiteMonth, error) {
	found, err := s.query(asking(ctx, noun), fmt.Sprintf(siteMonths, condition), append([]any{noun}, arguments...)...)
	if err != nil {
		return nil, err
	}
	var list []SiteMonth
	var site uuid.UUID
	var months, days []int32
	var numbers []int64
	var sums []float64
	_, err = pgx.ForEachRow(found, []any{&site, &months, &numbers, &sums, &days}, func() error {
		first := len(list)
		for i, month := range months {
			list = append(list, SiteMonth{site, day(month).time(), numbers[i], sums[i], uint32(days[i])}) //nolint:gosec // bits
		}
		slices.SortFunc(list[first:], func(a, b SiteMonth) int { return a.Month.Compare(b.Month) })
		return nil
	})
	return list, err
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
	return collect[MonthShare](asking(ctx, "readings"), s, `SELECT b.site_id, b.month, sum(b.n)::bigint AS count, coalesce(sum(b.n) FILTER (WHERE b.bin BETWEEN a.low AND a.high), 0)::bigint AS within
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

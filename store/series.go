package store

import (
	"context"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Reading is a reading in its canonical unit.
type Reading struct {
	Header
	Quantity  int16     `db:"quantity"`
	PlaceID   uuid.UUID `db:"place_id"`
	Method    int16     `db:"method"`
	Censoring int16     `db:"censoring"`
	Micro     int64     `db:"value_micro"`
}

// Value is the canonical value.
func (r Reading) Value() float64 { return float64(r.Micro) / 1e6 }

// Latest reads the newest reading of each quantity at or before a moment, at
// any of the places (uuid.Nil stands for readings without one).
func (s *Store) Latest(ctx context.Context, site uuid.UUID, places []uuid.UUID, at time.Time) ([]Reading, error) {
	const newest = `generate_series(1, 64) AS q(wanted), LATERAL (
		SELECT * FROM readings WHERE site_id = $1 AND quantity = q.wanted AND occurred_at <= $3 AND corrected_by IS NULL
		AND coalesce(place_id, '00000000-0000-0000-0000-000000000000') = ANY ($2)
		ORDER BY occurred_at DESC LIMIT 1) AS newest`
	return rows[Reading](ctx, s, newest, site, places, at)
}

// Point is the mean of the readings in one step of time.
type Point struct {
	At    time.Time `db:"at"` // middle of the step
	Mean  float64   `db:"mean"`
	Low   float64   `db:"low"`
	High  float64   `db:"high"`
	Count int64     `db:"count"`
	Below bool      `db:"below"` // all of them say only that it lies below
}

// Series reads one quantity as means over equal steps, in order of time. Steps
// without readings are left out.
func (s *Store) Series(ctx context.Context, site uuid.UUID, quantity int16, places []uuid.UUID, from, to time.Time, step time.Duration) ([]Point, error) {
	const sql = `SELECT date_bin($6, occurred_at, $4) + $6 / 2 AS at, avg(value_micro)::float8 / 1e6 AS mean,
		min(value_micro) / 1e6::float8 AS low, max(value_micro) / 1e6::float8 AS high, count(*) AS count,
		bool_and(censoring = 1) AS below FROM readings WHERE site_id = $1 AND quantity = $2 AND occurred_at >= $4 AND occurred_at < $5 AND corrected_by IS NULL
		AND coalesce(place_id, '00000000-0000-0000-0000-000000000000') = ANY ($3)
		GROUP BY 1 ORDER BY 1`
	found, err := s.query(ctx, sql, site, quantity, places, from, to, step)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[Point])
}

// DaySum is a day's sum of one noun about one subject.
type DaySum struct {
	SiteID    uuid.UUID `db:"site_id"`
	SubjectID uuid.UUID `db:"subject_id"`
	Day       time.Time `db:"day"`
	N         int64     `db:"n"`
	Sum       float64   `db:"sum"`
	Low       float64   `db:"low"`
	High      float64   `db:"high"`
}

const daySums = `SELECT site_id, subject_id, day, n, (sum_micro / 1000000)::float8 AS sum,
	low_micro / 1e6::float8 AS low, high_micro / 1e6::float8 AS high FROM daily `

// DaySums reads a site's day sums of one noun (its table's name; quantity for
// readings, else 0) from one day to another, both inclusive.
func (s *Store) DaySums(ctx context.Context, site uuid.UUID, noun string, quantity int16, from, to time.Time) ([]DaySum, error) {
	found, err := s.query(ctx, daySums+"WHERE site_id = $1 AND noun = $2 AND quantity = $3 AND day BETWEEN $4 AND $5 ORDER BY day", site, noun, quantity, from, to)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[DaySum])
}

package store

import (
	"context"
	"time"

	"github.com/google/uuid"
)

// methodProbe is the contract's number of a probe that reads by itself.
const methodProbe = 4

// Probed is the mean of what a probe said at one place in one hour.
type Probed struct {
	Quantity int16     `db:"quantity"`
	PlaceID  uuid.UUID `db:"place_id"`
	At       time.Time `db:"at"` // its beginning
	Mean     float64   `db:"mean"`
}

// Probed reads what probes said at the places, hour by hour, in order of
// quantity, place and time. Hours are counted from the first moment.
func (s *Store) Probed(ctx context.Context, site uuid.UUID, places []uuid.UUID, from, to time.Time) ([]Probed, error) {
	const hours = `(SELECT quantity, place_id, date_bin('1 hour', occurred_at, $3) AS at, avg(value_micro)::float8 / 1e6 AS mean
		FROM readings WHERE site_id = $1 AND method = $5 AND occurred_at >= $3 AND occurred_at < $4 AND corrected_by IS NULL
		AND coalesce(place_id, '00000000-0000-0000-0000-000000000000') = ANY ($2)
		GROUP BY 1, 2, 3) AS hours ORDER BY quantity, place_id, at`
	return rows[Probed](ctx, s, hours, site, places, from, to, methodProbe)
}

// Test is a reading by hand, as it was typed.
type Test struct {
	Reading
	Digits   int64 `db:"digits"`
	Decimals int64 `db:"decimals"`
	Unit     int16 `db:"unit"`
	Basis    int16 `db:"basis"`
}

// Tests reads what was read by hand at the places, in order of time.
func (s *Store) Tests(ctx context.Context, site uuid.UUID, places []uuid.UUID, from, to time.Time) ([]Test, error) {
	const tests = `readings WHERE site_id = $1 AND method <> $5 AND occurred_at >= $3 AND occurred_at < $4 AND corrected_by IS NULL
		AND coalesce(place_id, '00000000-0000-0000-0000-000000000000') = ANY ($2) ORDER BY occurred_at, id`
	return rows[Test](ctx, s, tests, site, places, from, to, methodProbe)
}

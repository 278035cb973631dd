package store

import (
	"context"
	"time"

	"github.com/google/uuid"
)

// Likeness is what makes the figures of two sites comparable, as far as what
// they consented to have counted tells; nil where it does not.
type Likeness struct {
	SiteID   uuid.UUID `db:"site_id"`
	Celsius  *float64  `db:"celsius"` // mean of the months' mean water temperatures
	Latitude *float64  `db:"latitude_degrees"`
	Covered  *float64  `db:"covered"` // share of the area of beds in loops
	Litres   *float64  `db:"litres"`  // water in loops
	LoopM2   *float64  `db:"loop_m2"` // beds in loops
	Species  *string   `db:"species"` // of most cohorts but sentinels
}

// Likenesses reads what sites are like, over the months that begin between two
// days. The context is one made by ForPool.
func (s *Store) Likenesses(ctx context.Context, sites []uuid.UUID, from, to time.Time) ([]Likeness, error) {
	return collect[Likeness](ctx, s, `SELECT s.id AS site_id, s.latitude_degrees,
			(SELECT avg(m.mean) FROM (SELECT sum(sum_micro)::float8 / sum(n)::float8 / 1e6 AS mean FROM monthly
				WHERE noun = 'readings' AND quantity = 1 AND site_id = s.id AND month BETWEEN $2 AND $3 GROUP BY month) m) AS celsius,
			b.covered, b.loop_m2,
			(SELECT nullif(sum(v.volume_l), 0) FROM vessels v WHERE v.site_id = s.id AND v.removed_at IS NULL) AS litres,
			(SELECT mode() WITHIN GROUP (ORDER BY c.species) FROM cohorts c
				WHERE c.site_id = s.id AND c.removed_at IS NULL AND c.purpose IS DISTINCT FROM 2) AS species
		FROM sites s LEFT JOIN LATERAL (SELECT nullif(sum(area_m2), 0) AS loop_m2, coalesce(sum(area_m2) FILTER (WHERE covered), 0) / nullif(sum(area_m2), 0) AS covered
			FROM beds WHERE site_id = s.id AND system_id IS NOT NULL AND removed_at IS NULL) b ON true
		WHERE s.id = ANY ($1) ORDER BY s.id`, sites, from, to)
}

// Alike is which of the sites of a comparison are like each other.
type Alike struct {
	Groups  []int16    // of each site, in the order asked for; 0: none that can be told
	Reasons []string   // what the sites of group 1, 2, 3 ... have in common
	Since   *time.Time // when the groups were made; nil: there are none
}

// AlikeOf answers the groups that hold now. The context is one made by ForPool.
func (s *Store) AlikeOf(ctx context.Context, measure int16, sites []uuid.UUID, smallest int) (a Alike, err error) {
	err = s.queryRow(ctx, "SELECT groups, coalesce(reasons, '{}'), since FROM alike_of($1, $2, $3)", measure, sites, smallest).Scan(&a.Groups, &a.Reasons, &a.Since)
	return a, err
}

// SettleAlike keeps groups of all sites of a cast for a year, unless there are
// groups of less than a year or one is of fewer members than the smallest group.
func (s *Store) SettleAlike(ctx context.Context, measure int16, sites []uuid.UUID, groups []int16, reasons []string, smallest int) error {
	_, err := s.exec(ctx, "SELECT settle_alike($1, $2, $3, $4, $5)", measure, sites, groups, reasons, smallest)
	return err
}

// KeepersOf numbers the members whose sites these are, in the order asked for.
func (s *Store) KeepersOf(ctx context.Context, sites []uuid.UUID) (numbers []int32, err error) {
	err = s.queryRow(ctx, "SELECT keepers_of($1)", sites).Scan(&numbers)
	return numbers, err
}

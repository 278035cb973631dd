package store

import (
	"context"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// BlockDays is the length of the blocks in which sites are compared, days.
const BlockDays = 28

// Block is one site's sum over one block of days, counted from the first day asked for.
type Block struct {
	SiteID uuid.UUID `db:"site_id"`
	Block  int32     `db:"block"`
	Sum    float64   `db:"sum"`
}

// Blocks sums one noun of many sites by block, from day sums.
func (s *Store) Blocks(ctx context.Context, sites []uuid.UUID, noun string, from, to time.Time) ([]Block, error) {
	return s.blocks(ctx, `SELECT site_id, (day - $3::date) / 28 AS block, (sum(sum_micro) / 1000000)::float8 AS sum
		FROM daily WHERE site_id = ANY ($1) AND noun = $2 AND quantity = 0 AND day BETWEEN $3 AND $4 GROUP BY 1, 2 ORDER BY 1, 2`, sites, noun, from, to)
}

// ProduceBlocks sums harvests from beds in loops, or from soil beds only, in g.
func (s *Store) ProduceBlocks(ctx context.Context, sites []uuid.UUID, soil bool, from, to time.Time) ([]Block, error) {
	return s.blocks(ctx, `SELECT d.site_id, (d.day - $3::date) / 28 AS block, (sum(d.sum_micro) / 1000000)::float8 AS sum
		FROM daily d JOIN plantings p ON p.id = d.subject_id JOIN beds b ON b.id = p.bed_id
		WHERE d.site_id = ANY ($1) AND d.noun = 'bed_harvests' AND d.quantity = 0 AND d.day BETWEEN $3 AND $4 AND (b.system_id IS NULL) = $2
		GROUP BY 1, 2 ORDER BY 1, 2`, sites, soil, from, to)
}

func (s *Store) blocks(ctx context.Context, sql string, args ...any) ([]Block, error) {
	found, err := s.pool.Query(ctx, sql, args...)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[Block])
}

// Ground is what a site is compared on.
type Ground struct {
	SiteID    uuid.UUID `db:"site_id"`
	Name      string    `db:"name"`
	LoopM2    float64   `db:"loop_m2"` // beds in loops
	SoilM2    float64   `db:"soil_m2"`
	FirstDay  Moment    `db:"first_day"` // first day with feed noted in the time
	NotedDays int64     `db:"noted_days"`
}

// Grounds reads what sites are compared on: their beds, and on how many days of a time feed was noted.
func (s *Store) Grounds(ctx context.Context, sites []uuid.UUID, from, to time.Time) ([]Ground, error) {
	found, err := s.pool.Query(ctx, `SELECT s.id AS site_id, coalesce(s.name, '') AS name,
			coalesce((SELECT sum(area_m2) FROM beds b WHERE b.site_id = s.id AND b.system_id IS NOT NULL AND b.removed_at IS NULL), 0) AS loop_m2,
			coalesce((SELECT sum(area_m2) FROM beds b WHERE b.site_id = s.id AND b.system_id IS NULL AND b.removed_at IS NULL), 0) AS soil_m2,
			f.first_day, coalesce(f.noted_days, 0) AS noted_days
		FROM sites s LEFT JOIN (SELECT site_id, min(day) AS first_day, count(DISTINCT day) AS noted_days FROM daily
			WHERE site_id = ANY ($1) AND noun = 'feedings' AND day BETWEEN $2 AND $3 GROUP BY site_id) f ON f.site_id = s.id
		WHERE s.id = ANY ($1) AND s.removed_at IS NULL ORDER BY s.id`, sites, from, to)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(found, pgx.RowToStructByName[Ground])
}

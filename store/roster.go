package store

import (
	"context"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// RecordHead is what others refer to a record by.
type RecordHead struct {
	Noun    string // the contract's name: "vessel"
	ID      uuid.UUID
	SiteID  uuid.UUID // nil uuid: the cooperative's
	Removed bool
}

// siteNouns are the records that a site or the cooperative may hold.
var siteNouns = []string{"system", "vessel", "bed", "equipment", "cohort", "planting", "feed", "species", "crop", "remedy", "plan", "trial"}

// findRecords looks into every table of records that a site may hold.
func findRecords(where string) string {
	var selects []string
	for _, noun := range siteNouns {
		selects = append(selects, "SELECT '"+noun+"', id, site_id, removed_at IS NOT NULL FROM "+recordTables[noun]+" WHERE "+where)
	}
	return strings.Join(selects, " UNION ALL ")
}

var (
	findSiteRecords        = findRecords("site_id = $1")
	findCooperativeRecords = findRecords("site_id IS NULL AND $1::uuid IS NULL")
)

// Records lists the records of a site, or with the nil uuid the cooperative's,
// removed ones too: an entry made before it was known that they were may still
// name them.
func (p *Pushing) Records(ctx context.Context, site uuid.UUID) ([]RecordHead, error) {
	statement := findSiteRecords
	if site == uuid.Nil {
		statement = findCooperativeRecords
	}
	rows, err := p.conn.Query(ctx, statement, reference(site))
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[RecordHead])
}

// SitesKnown tells which of the sites have a record.
func (p *Pushing) SitesKnown(sites ...uuid.UUID) []uuid.UUID {
	return slices.DeleteFunc(slices.Clone(sites), func(site uuid.UUID) bool { return p.zones[site] == nil })
}

// DayOf is the day of a moment in a site's time zone, as days since 1970-01-01.
func (p *Pushing) DayOf(site uuid.UUID, at time.Time) int {
	if z := p.zones[site]; z != nil {
		return int(z.dayOf(at.UnixMilli()))
	}
	return int(zoneNamed("").dayOf(at.UnixMilli()))
}

// CohortEvent is one that changes how many fish of a cohort live.
type CohortEvent struct {
	CohortID   uuid.UUID
	ID         uuid.UUID
	OccurredAt time.Time
	// Noun is "stocking", "death", "fish_harvest", "count", or for either side
	// of a move "move" (they leave) and "move_in".
	Noun  string
	Count int64
}

// CohortEvents are the events of cohorts that change how many fish live,
// without those that a correction took the place of, in order of time.
func (p *Pushing) CohortEvents(ctx context.Context, cohorts []uuid.UUID) ([]CohortEvent, error) {
	rows, err := p.conn.Query(ctx, `SELECT cohort_id, id, occurred_at, noun, count FROM (
			SELECT cohort_id, id, occurred_at, 'stocking' AS noun, count, corrected_by, site_id FROM stockings
			UNION ALL SELECT cohort_id, id, occurred_at, 'count', count, corrected_by, site_id FROM counts
			UNION ALL SELECT cohort_id, id, occurred_at, 'death', count, corrected_by, site_id FROM deaths
			UNION ALL SELECT cohort_id, id, occurred_at, 'fish_harvest', count, corrected_by, site_id FROM fish_harvests
			UNION ALL SELECT cohort_id, id, occurred_at, 'move', count, corrected_by, site_id FROM moves
			UNION ALL SELECT to_cohort_id, id, occurred_at, 'move_in', count, corrected_by, site_id FROM moves
		) AS events WHERE cohort_id = ANY ($1) AND site_id = ANY ($2) AND corrected_by IS NULL ORDER BY occurred_at, id`, cohorts, p.who.Sites)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[CohortEvent])
}

// PlantingEvent is one that begins a planting ("sowing") or rests on its having
// begun ("transplanting", "bed_harvest", "pulling").
type PlantingEvent struct {
	PlantingID uuid.UUID
	ID         uuid.UUID
	OccurredAt time.Time
	Noun       string
}

// PlantingEvents are the earliest event of each kind of plantings, without
// those that a correction took the place of.
func (p *Pushing) PlantingEvents(ctx context.Context, plantings []uuid.UUID) ([]PlantingEvent, error) {
	rows, err := p.conn.Query(ctx, `SELECT DISTINCT ON (planting_id, noun) planting_id, id, occurred_at, noun FROM (
			SELECT planting_id, id, occurred_at, 'sowing' AS noun, corrected_by, site_id FROM sowings
			UNION ALL SELECT planting_id, id, occurred_at, 'transplanting', corrected_by, site_id FROM transplantings
			UNION ALL SELECT planting_id, id, occurred_at, 'bed_harvest', corrected_by, site_id FROM bed_harvests
			UNION ALL SELECT planting_id, id, occurred_at, 'pulling', corrected_by, site_id FROM pullings
		) AS events WHERE planting_id = ANY ($1) AND site_id = ANY ($2) AND corrected_by IS NULL ORDER BY planting_id, noun, occurred_at`, plantings, p.who.Sites)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[PlantingEvent])
}

package store

import (
	"context"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Sharing is how far a site's records of one kind go, in the contract's numbers.
type Sharing int16

// The steps of sharing; each includes those before it.
const (
	SharingPrivate Sharing = 1 // nobody else
	SharingFigures Sharing = 2 // counted in comparisons, never named
	SharingNamed   Sharing = 3 // named in comparisons
	SharingOpen    Sharing = 4 // records open to members
)

// SharingRule is how far one kind of a site's records goes, and since when.
type SharingRule struct {
	Kind    string // a kind of record ("reading"), or "all"
	Sharing Sharing
	Since   time.Time
}

// SharingRules lists what holds for a site now, by kind. Kinds that were never
// set are not listed, and private.
func (s *Store) SharingRules(ctx context.Context, site uuid.UUID) ([]SharingRule, error) {
	rows, err := s.query(ctx, `SELECT DISTINCT ON (kind) kind, sharing, since FROM sharings
		WHERE site_id = $1 AND since <= now() ORDER BY kind, since DESC`, site)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[SharingRule])
}

// SetSharing sets how far one kind goes from now on, as a dated row of its own,
// and answers what holds. Setting what holds already changes nothing.
func (s *Store) SetSharing(ctx context.Context, site uuid.UUID, kind string, sharing Sharing, by uuid.UUID) (SharingRule, error) {
	rule := SharingRule{Kind: kind}
	err := s.transact(ctx, func(tx pgx.Tx) error {
		if _, err := tx.Exec(ctx, "SELECT pg_advisory_xact_lock(hashtext('sharing'), hashtext($1))", site.String()); err != nil {
			return err
		}
		// clock_timestamp: the lock may have been waited for.
		_, err := tx.Exec(ctx, `INSERT INTO sharings (site_id, kind, sharing, since, changed_by)
			SELECT $1, $2, $3, clock_timestamp(), $4 WHERE $3 IS DISTINCT FROM (
				SELECT sharing FROM sharings WHERE site_id = $1 AND kind = $2 ORDER BY since DESC LIMIT 1)`,
			site, kind, sharing, by)
		if err != nil {
			return err
		}
		return tx.QueryRow(ctx, `SELECT sharing, since FROM sharings
			WHERE site_id = $1 AND kind = $2 ORDER BY since DESC LIMIT 1`, site, kind).Scan(&rule.Sharing, &rule.Since)
	})
	return rule, err
}

// SharedAs is how far each site shares one kind, as a comparison may know it:
// its own rule where it has one, else the rule for "all". Kinds of the house
// (labour, expense, note, photo) are never covered by "all". Sites that share
// nothing are left out.
func (s *Store) SharedAs(ctx context.Context, kind string) (map[uuid.UUID]Sharing, error) {
	rows, err := s.query(asking(ctx, kind), "SELECT site_id, sharing FROM kinds_counted() WHERE kind = $1", kind)
	if err != nil {
		return nil, err
	}
	shared := make(map[uuid.UUID]Sharing)
	var site uuid.UUID
	var sharing Sharing
	_, err = pgx.ForEachRow(rows, []any{&site, &sharing}, func() error {
		shared[site] = sharing
		return nil
	})
	return shared, err
}

// IsOpen tells whether a site opened all its records to members, but those of
// the house.
func (s *Store) IsOpen(ctx context.Context, site uuid.UUID) (open bool, err error) {
	err = s.queryRow(ctx, "SELECT $1 = ANY (sites_open('all'))", site).Scan(&open)
	return open, err
}

// OpenSites lists the sites that opened all their records to members.
func (s *Store) OpenSites(ctx context.Context) (open []uuid.UUID, err error) {
	err = s.queryRow(planned(ctx), "SELECT sites_open('all')").Scan(&open)
	return open, err
}

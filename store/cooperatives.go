package store

import (
	"context"
	"errors"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Cooperative is the group that a database is kept for.
type Cooperative struct {
	ID            uuid.UUID
	Epoch         uint64 // raised at every restore
	Name          string // empty until a steward gives it
	SmallestGroup int    // fewest sites in a comparison; 5 where none is set
	Currency      string // ISO 4217; empty until set
}

// defaultSmallestGroup is the contract's default.
const defaultSmallestGroup = 5

// Cooperative reads the group; ErrNotFounded before FoundCooperative.
func (s *Store) Cooperative(ctx context.Context) (Cooperative, error) {
	var c Cooperative
	err := s.queryRow(planned(ctx), `SELECT s.cooperative_id, s.epoch,
			coalesce(c.name, ''), coalesce(nullif(c.smallest_group, 0), $1), coalesce(c.currency, '')
		FROM server_state s LEFT JOIN cooperatives c ON c.id = s.cooperative_id`, defaultSmallestGroup).
		Scan(&c.ID, &c.Epoch, &c.Name, &c.SmallestGroup, &c.Currency)
	if errors.Is(err, pgx.ErrNoRows) {
		return c, ErrNotFounded
	}
	return c, err
}

// FoundCooperative makes the group and the invitation of its first steward, at
// once. The group has no name until its steward pushes one. ErrFounded.
func (s *Store) FoundCooperative(ctx context.Context, id uuid.UUID, first Invitation) error {
	var made bool
	err := s.queryRow(ctx, "SELECT found_cooperative($1, $2, $3)", id, first.CodeHash, first.ExpiresAt).Scan(&made)
	if err == nil && !made {
		err = ErrFounded
	}
	return err
}

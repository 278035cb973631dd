package store

import (
	"context"

	"github.com/google/uuid"
)

// Cast is which sites a comparison is made of.
type Cast struct {
	Sites   []uuid.UUID
	Members int // whose sites they are
	Gone    int // members whose sites went since the cast was made: figures are to be coarse
	Waiting int // members whose sites wait to be counted
}

// CastOf answers which of the sites that are ready to be compared on a measure
// are, by the rule that a cast changes only by as many members as the smallest
// group. The context is one made by ForPool.
func (s *Store) CastOf(ctx context.Context, measure int16, ready []uuid.UUID, smallest int) (c Cast, err error) {
	err = s.queryRow(ctx, "SELECT sites, members, gone, waiting FROM cast_of($1, $2, $3)", measure, ready, smallest).Scan(&c.Sites, &c.Members, &c.Gone, &c.Waiting)
	return c, err
}

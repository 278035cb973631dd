package store

import (
	"context"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Leaving is what becomes of a member's sites when they leave.
type Leaving struct {
	Erased  []uuid.UUID // only the member keeps them: erased whole
	Staying []uuid.UUID // others stay there: numbers stay, the name goes
}

// FreeWords are the fields of events that hold a person's own words. They are
// emptied in what stays of a member who left.
var FreeWords = []string{"words", "against", "went_to", "had_for_it"}

// A Rewrite makes a page of the feed into one that does not name a member, and
// counts its operations.
type Rewrite func(block []byte) (rewritten []byte, operations int, err error)

// Leaving tells what Leave would do to the context's member; ErrUnknown,
// ErrLastSteward.
func (s *Store) Leaving(ctx context.Context) (l Leaving, err error) {
	err = s.transact(ctx, func(tx pgx.Tx) error {
		l, err = leavingAs(ctx, tx, "SELECT * FROM leaving()")
		return err
	})
	return l, err
}

// Leave ends the membership of the context's member and erases what is theirs,
// all of it or nothing. Pages of the feed that stay are rewritten.
// ErrUnknown, ErrLastSteward.
func (s *Store) Leave(ctx context.Context, rewrite Rewrite) (l Leaving, err error) {
	err = s.transact(ctx, func(tx pgx.Tx) error {
		if l, err = leavingAs(ctx, tx, "SELECT * FROM begin_leaving()"); err != nil {
			return err
		}
		if err := rewritePages(ctx, tx, rewrite); err != nil {
			return err
		}
		var refused string
		if err := tx.QueryRow(ctx, "SELECT leave($1)", FreeWords).Scan(&refused); err != nil {
			return err
		}
		return leavingErrors[refused]
	})
	return l, err
}

var leavingErrors = map[string]error{"": nil, "unknown": ErrUnknown, "last": ErrLastSteward}

func leavingAs(ctx context.Context, tx pgx.Tx, sql string) (l Leaving, err error) {
	var refused string
	if err := tx.QueryRow(ctx, sql).Scan(&refused, &l.Erased, &l.Staying); err != nil {
		return l, err
	}
	return l, leavingErrors[refused]
}

// rewritePages takes the member out of the pages that stay, and follows the
// scopes they are in with the rolling hash.
func rewritePages(ctx context.Context, tx pgx.Tx, rewrite Rewrite) error {
	rows, err := tx.Query(ctx, "SELECT scope_id, sequence, block FROM pages_left()")
	if err != nil {
		return err
	}
	batch, scopes := &pgx.Batch{}, map[int32]bool{}
	var scope int32
	var sequence int64
	var block []byte
	_, err = pgx.ForEachRow(rows, []any{&scope, &sequence, &block}, func() error {
		rewritten, operations, err := rewrite(block)
		batch.Queue("SELECT rewrite_page($1, $2, $3, $4)", scope, sequence, rewritten, operations)
		scopes[scope] = true
		return err
	})
	if err != nil {
		return err
	}
	for scope := range scopes {
		batch.Queue("SELECT chain_again($1)", scope)
	}
	return tx.SendBatch(ctx, batch).Close()
}

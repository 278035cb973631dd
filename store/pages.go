package store

import (
	"context"
	"errors"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// Heads says where scopes stand, all as of one moment. A scope that nothing was
// ever written to stands at 0.
func (s *Store) Heads(ctx context.Context, scopes []string) ([]Head, error) {
	rows, err := s.query(planned(ctx), `SELECT asked.name, coalesce(sequence, 0), coalesce(chain, ''), coalesce(operations_count, 0), coalesce(id, 0)
		FROM unnest($1::text[]) WITH ORDINALITY AS asked(name, place) LEFT JOIN scopes USING (name) ORDER BY place`, scopes)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, func(row pgx.CollectableRow) (h Head, err error) {
		err = row.Scan(&h.Scope, &h.Sequence, &h.Chain, &h.Operations, &h.id)
		return h, err
	})
}

// ChainAt is a scope's rolling hash at a sequence; ErrUnknown where the scope
// has no such page.
func (s *Store) ChainAt(ctx context.Context, head Head, sequence uint64) ([]byte, error) {
	var chain []byte
	err := s.queryRow(planned(ctx), "SELECT chain FROM pages WHERE scope_id = $1 AND sequence = $2", head.id, sequence).Scan(&chain)
	return chain, known(err)
}

// Page is what one push changed in one scope.
type Page struct {
	Sequence uint64
	Chain    []byte
	Block    []byte
}

// errEnough ends a reading early.
var errEnough = errors.New("enough")

// PagesAfter reads the pages of a scope after a sequence and up to the head,
// in order, at most so many bytes of them but at least one page; none when
// there are none left. Pages never change, so that several calls read what one
// would.
func (s *Store) PagesAfter(ctx context.Context, head Head, after uint64, maxBytes int) ([]Page, error) {
	rows, err := s.query(planned(ctx), `SELECT sequence, chain, block FROM pages
		WHERE scope_id = $1 AND sequence > $2 AND sequence <= $3 ORDER BY sequence LIMIT $4`, head.id, after, head.Sequence, pagesAtOnce)
	if err != nil {
		return nil, err
	}
	var pages []Page
	var page Page
	size := 0
	_, err = pgx.ForEachRow(rows, []any{&page.Sequence, &page.Chain, &page.Block}, func() error {
		if size += len(page.Block); size > maxBytes && len(pages) > 0 {
			return errEnough
		}
		pages = append(pages, page)
		page = Page{}
		return nil
	})
	if errors.Is(err, errEnough) {
		err = nil
	}
	return pages, err
}

// The database sends rows ahead of what is read; this bounds what is lost of it.
const pagesAtOnce = 256

// InstallState is how an install stands: up to which number its operations have
// an outcome, up to which they are in a backup that was proved, and the mark of
// its last push.
type InstallState struct {
	Through, BackedUp uint64
	Mark              []byte
}

// InstallState reads how an install stands; zero before its first push.
// ErrInstallTaken where it is another member's.
func (s *Store) InstallState(ctx context.Context, who PushedBy) (state InstallState, err error) {
	var member uuid.UUID
	err = s.queryRow(planned(ctx), `SELECT h.member_id, coalesce(i.through_number, 0), coalesce(i.backed_up_number, 0), i.mark
		FROM install_holder($1) h LEFT JOIN installs i ON i.install = $1`, who.Install[:]).Scan(&member, &state.Through, &state.BackedUp, &state.Mark)
	if errors.Is(err, pgx.ErrNoRows) {
		return InstallState{}, nil
	}
	if err == nil && member != who.MemberID {
		return InstallState{}, ErrInstallTaken
	}
	return state, err
}

// OutcomesBetween are the outcomes, other than stored, of an install's
// operations first to last, by number.
func (p *Pushing) OutcomesBetween(ctx context.Context, first, last uint64) ([]Outcome, error) {
	rows, err := p.conn.Query(ctx, `SELECT number, kind, reason, field, hint, operation, scope FROM outcomes
		WHERE install = $1 AND number BETWEEN $2 AND $3 ORDER BY number`, p.who.Install[:], first, last)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowToStructByPos[Outcome])
}

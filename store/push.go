package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5"
)

// Postgres ends one of two transactions that wait for each other; the loser
// begins anew. More often than this it never should.
const pushTries = 4

// Push stores an upload. It locks the install's row, so that uploads of one
// install follow one another, and lets build say what comes to be stored, given
// up to which number this install's operations have an outcome. build may be
// called again where Postgres asks for it, and stores nothing by itself. An
// error of build ends the push and comes back as it is.
//
// An install of another member is ErrInstallTaken; a push of a copy of the
// device that made the last one is ErrInstallCopied.
func (s *Store) Push(ctx context.Context, who PushedBy, build func(context.Context, *Pushing) (Push, error)) (Pushed, error) {
	for try := 1; ; try++ {
		pushed, err := s.pushOnce(ctx, who, build)
		if !retryable(err) || try == pushTries {
			return pushed, err
		}
	}
}

func (s *Store) pushOnce(ctx context.Context, who PushedBy, build func(context.Context, *Pushing) (Push, error)) (Pushed, error) {
	conn, err := s.pool.Acquire(ctx)
	if err != nil {
		return Pushed{}, err
	}
	// A connection that is given back in the middle of a transaction is closed
	// by the pool, which ends the transaction.
	defer conn.Release()
	p := &Pushing{store: s, conn: conn.Conn(), who: who}
	moved, err := p.run(ctx, build)
	if err != nil && !p.conn.IsClosed() {
		_, rollback := p.conn.Exec(context.WithoutCancel(ctx), "ROLLBACK")
		return Pushed{}, errors.Join(err, rollback)
	}
	return Pushed{Moved: moved}, err
}

func (p *Pushing) run(ctx context.Context, build func(context.Context, *Pushing) (Push, error)) ([]Head, error) {
	if err := p.begin(ctx); err != nil {
		return nil, err
	}
	push, err := build(ctx, p)
	if err != nil {
		return nil, err
	}
	if push.Through <= p.Through { // all had an outcome before
		_, err := p.conn.Exec(ctx, "COMMIT")
		return nil, err
	}
	if err := p.write(ctx, &push); err != nil {
		return nil, err
	}
	return p.finish(ctx, &push)
}

// write stores records and events, and their sums by day.
func (p *Pushing) write(ctx context.Context, push *Push) error {
	if err := p.mergeRecords(ctx, push); err != nil {
		return err
	}
	if err := p.copyReadings(ctx, push.Readings); err != nil {
		return err
	}
	if err := p.queueEvents(push.Events); err != nil {
		return err
	}
	if err := p.queueSums(push); err != nil {
		return err
	}
	if len(push.Corrections) > 0 {
		if err := p.correct(ctx, push); err != nil {
			return err
		}
	}
	if len(p.stale) == 0 {
		return nil
	}
	if err := p.send(ctx); err != nil {
		return err
	}
	return p.sumSiteAgain(ctx)
}

// finish sends what is left as one batch whose last statements raise the
// scopes' counters and commit.
func (p *Pushing) finish(ctx context.Context, push *Push) ([]Head, error) {
	p.queueOutcomes(push)
	heads := p.queuePages(push)
	p.batch.Queue("COMMIT")
	if err := p.send(ctx); err != nil {
		return nil, err
	}
	for _, head := range heads {
		p.store.scopes.Store(head.Scope, true)
	}
	return heads, nil
}

// send runs what was queued.
func (p *Pushing) send(ctx context.Context) error {
	batch := p.batch
	p.batch = &pgx.Batch{}
	return p.conn.SendBatch(ctx, batch).Close()
}

func (p *Pushing) queueOutcomes(push *Push) {
	for _, o := range push.Outcomes {
		p.batch.Queue(`INSERT INTO outcomes (install, number, kind, reason, field, hint, operation, scope, received_at)
			VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
			p.who.Install[:], o.Number, o.Kind, o.Reason, o.Field, o.Hint, o.Operation, o.Scope, push.ReceivedAt)
	}
	p.batch.Queue("UPDATE installs SET through_number = $2, device_id = $3, mark = coalesce($4, mark) WHERE install = $1",
		p.who.Install[:], push.Through, p.who.DeviceID, p.who.Mark)
}

const raise = `WITH moved AS (
		UPDATE scopes SET sequence = sequence + 1, chain = substring(sha256(chain || $2::bytea) FOR 16),
			operations_count = operations_count + $3::int,
			records_sequence = CASE WHEN $4::bool THEN sequence + 1 ELSE records_sequence END
		WHERE name = $1 RETURNING id, owner, house, sequence, chain, operations_count)`

// A scope's first page makes its row. Later pages only update it: each try to
// insert would use up a number of the identity column.
const raiseNew = `WITH moved AS (
		INSERT INTO scopes (name, sequence, chain, operations_count, records_sequence)
		VALUES ($1, 1, substring(sha256($2::bytea) FOR 16), $3::int, CASE WHEN $4::bool THEN 1 ELSE 0 END)
		ON CONFLICT (name) DO UPDATE SET sequence = scopes.sequence + 1,
			chain = substring(sha256(scopes.chain || $2::bytea) FOR 16),
			operations_count = scopes.operations_count + $3::int,
			records_sequence = CASE WHEN $4::bool THEN scopes.sequence + 1 ELSE scopes.records_sequence END
		RETURNING id, owner, house, sequence, chain, operations_count)`

const insertPage = ` INSERT INTO pages (scope_id, owner, house, sequence, chain, operations_count, received_at, block)
	SELECT id, owner, house, sequence, chain, $3::int, $5, $2::bytea FROM moved RETURNING sequence, chain,
	(SELECT operations_count FROM moved)`

// queuePages raises the counters in the order of the scopes' names, so that two
// pushes never wait for each other. The heads are filled in when the batch runs.
func (p *Pushing) queuePages(push *Push) []Head {
	slices.SortFunc(push.Pages, func(a, b NewPage) int { return strings.Compare(a.Scope, b.Scope) })
	heads := make([]Head, len(push.Pages))
	for i, page := range push.Pages {
		heads[i].Scope = page.Scope
		statement := raiseNew
		if _, known := p.store.scopes.Load(page.Scope); known {
			statement = raise
		}
		p.batch.Queue(statement+insertPage, page.Scope, page.Block, page.Operations, page.Records, push.ReceivedAt).
			QueryRow(func(row pgx.Row) error {
				err := row.Scan(&heads[i].Sequence, &heads[i].Chain, &heads[i].Operations)
				if errors.Is(err, pgx.ErrNoRows) {
					p.store.scopes.Delete(page.Scope)
					return fmt.Errorf("scope %s is gone from the database", page.Scope)
				}
				return err
			})
	}
	return heads
}

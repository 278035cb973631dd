package store

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgxpool"
)

// A scope is on whose behalf the database is asked. The database decides by it
// which rows there are, whatever a statement asks for; without one there are none.
type scope struct {
	acting Account
	// pooled: only what sites consented to have counted in comparisons.
	pooled bool
	// noun: in a comparison, the only kind that is asked for, or its table.
	noun string
	// planned: statements keep the plan they have.
	planned bool
}

type scopeKey struct{}

// As returns a context in which the store acts for a member, with the role and
// sites they were found to have: it finds and changes what they may, and nothing
// else. A push asks anew what they have.
func As(ctx context.Context, member Account) context.Context {
	return context.WithValue(ctx, scopeKey{}, scope{acting: member})
}

// ForPool returns a context in which the store reads for a comparison that the
// context's member asked for: the records of all sites that consented to be
// counted on that kind, and nothing else, not even the member's own.
func ForPool(ctx context.Context) context.Context {
	s := scopeOf(ctx)
	s.pooled = true
	return context.WithValue(ctx, scopeKey{}, s)
}

// asking returns a context in which a comparison's statement asks for one kind of
// record alone, or its table: which sites count on each of the others then need not
// be looked up, which was most of what a comparison took.
func asking(ctx context.Context, noun string) context.Context {
	s := scopeOf(ctx)
	s.noun = noun
	return context.WithValue(ctx, scopeKey{}, s)
}

// planned returns a context in which a statement's plan is made once for a
// connection. Beside the policies Postgres takes each new plan for a better one,
// and planning was most of what the barrier cost a page of pull
// (server's BenchmarkBarrier). It is for statements that find rows by key,
// whatever they are asked.
func planned(ctx context.Context) context.Context {
	s := scopeOf(ctx)
	s.planned = true
	return context.WithValue(ctx, scopeKey{}, s)
}

func scopeOf(ctx context.Context) scope {
	s, _ := ctx.Value(scopeKey{}).(scope)
	return s
}

// queue puts before a transaction's statements what says who acts, and counts them.
func (s scope) queue(batch *pgx.Batch) int {
	if s.acting.MemberID == uuid.Nil {
		return 0
	}
	as := actAs
	if s.pooled {
		as += ", set_config('role', 'freshet_pool', true)"
	}
	if s.planned {
		as += ", set_config('plan_cache_mode', 'force_generic_plan', true)"
	}
	arguments := []any{s.acting.MemberID.String(), strconv.Itoa(int(s.acting.Role)), arrayText(s.acting.SiteIDs)}
	if s.noun != "" {
		as += ", set_config('freshet.noun', $4, true)"
		arguments = append(arguments, s.noun)
	}
	batch.Queue(as, arguments...)
	return 1
}

// The settings end with the transaction.
const actAs = `SELECT set_config('freshet.member', $1, true), set_config('freshet.role', $2, true),
	set_config('freshet.at', $3, true), set_config('freshet.made', '', true)`

// arrayText writes ids as Postgres reads an array.
func arrayText(ids []uuid.UUID) string {
	texts := make([]string, len(ids))
	for i, id := range ids {
		texts[i] = id.String()
	}
	return "{" + strings.Join(texts, ",") + "}"
}

// query runs one statement in the context's scope, in one message to the
// database and back: what is sent together is one transaction.
func (s *Store) query(ctx context.Context, sql string, arguments ...any) (pgx.Rows, error) {
	conn, err := s.pool.Acquire(ctx)
	if err != nil {
		return nil, err
	}
	batch := &pgx.Batch{}
	before := scopeOf(ctx).queue(batch)
	batch.Queue(sql, arguments...)
	results := conn.SendBatch(ctx, batch)
	for range before {
		if _, err = results.Exec(); err != nil {
			break
		}
	}
	found := &scopedRows{results: results, conn: conn}
	if err == nil {
		found.Rows, err = results.Query()
	}
	if err != nil {
		found.release()
		return nil, err
	}
	return found, nil
}

// scopedRows gives its connection back once it was read or closed.
type scopedRows struct {
	pgx.Rows
	results pgx.BatchResults
	conn    *pgxpool.Conn
	closing error
}

// Next goes to the next row.
func (r *scopedRows) Next() bool {
	more := r.Rows.Next()
	if !more {
		r.Close()
	}
	return more
}

// Close ends the reading.
func (r *scopedRows) Close() {
	r.Rows.Close()
	r.release()
}

// Err is what went wrong, after Close also in the transaction's end.
func (r *scopedRows) Err() error { return errors.Join(r.Rows.Err(), r.closing) }

func (r *scopedRows) release() {
	if r.conn == nil {
		return
	}
	if err := r.results.Close(); r.Rows != nil && r.Rows.Err() == nil {
		r.closing = err
	}
	r.conn.Release()
	r.conn = nil
}

// queryRow runs a statement for its first row.
func (s *Store) queryRow(ctx context.Context, sql string, arguments ...any) pgx.Row {
	rows, err := s.query(ctx, sql, arguments...)
	return firstRow{rows, err}
}

type firstRow struct {
	rows pgx.Rows
	err  error
}

// Scan reads the row; pgx.ErrNoRows where there is none.
func (r firstRow) Scan(into ...any) error {
	if r.err != nil {
		return r.err
	}
	defer r.rows.Close()
	if !r.rows.Next() {
		if err := r.rows.Err(); err != nil {
			return err
		}
		return pgx.ErrNoRows
	}
	if err := r.rows.Scan(into...); err != nil {
		return err
	}
	r.rows.Close()
	return r.rows.Err()
}

// exec runs a statement that gives no rows.
func (s *Store) exec(ctx context.Context, sql string, arguments ...any) (pgconn.CommandTag, error) {
	rows, err := s.query(ctx, sql, arguments...)
	if err != nil {
		return pgconn.CommandTag{}, err
	}
	rows.Close()
	return rows.CommandTag(), rows.Err()
}

// transact runs several statements in one transaction in the context's scope.
func (s *Store) transact(ctx context.Context, work func(pgx.Tx) error) error {
	return pgx.BeginFunc(ctx, s.pool, func(tx pgx.Tx) error {
		batch := &pgx.Batch{}
		if scopeOf(ctx).queue(batch) > 0 {
			if err := tx.SendBatch(ctx, batch).Close(); err != nil {
				return err
			}
		}
		return work(tx)
	})
}

package store

import (
	"context"
	"fmt"
	"sync"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgtype"
	"github.com/jackc/pgx/v5/pgxpool"
)

// Store is an open database with the schema of this release. It may be used by
// many goroutines.
type Store struct {
	pool *pgxpool.Pool
	// Names of scopes that have their row; see ensureScopes.
	scopes sync.Map
}

// Connections are few because a push holds one for milliseconds only; pulls and
// answers give theirs back before they send.
const defaultConnections = 20

// Open brings the schema up to date and opens a pool of connections. The URL is
// libpq's ("postgres://user@host/name?pool_max_conns=20"); several hosts and
// target_session_attrs=read-write are understood. A schema that this release
// must not touch is a *SchemaError.
func Open(ctx context.Context, url string) (*Store, error) {
	if err := migrateUp(ctx, url); err != nil {
		return nil, err
	}
	return open(ctx, url)
}

// open connects without looking at the schema.
func open(ctx context.Context, url string) (*Store, error) {
	config, err := pgxpool.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("database URL: %w", err)
	}
	if config.MaxConns < defaultConnections {
		config.MaxConns = defaultConnections
	}
	config.MaxConnIdleTime = 5 * time.Minute
	setDefault(config.ConnConfig.RuntimeParams, "application_name", "freshetd")
	setDefault(config.ConnConfig.RuntimeParams, "timezone", "UTC")
	setDefault(config.ConnConfig.RuntimeParams, "statement_timeout", "60s")
	setDefault(config.ConnConfig.RuntimeParams, "idle_in_transaction_session_timeout", "60s")
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return nil, fmt.Errorf("database: %w", err)
	}
	if err := pool.Ping(ctx); err != nil {
		pool.Close()
		return nil, fmt.Errorf("database does not answer: %w", err)
	}
	return &Store{pool: pool}, nil
}

// Close gives all connections back and waits for those in use.
func (s *Store) Close() { s.pool.Close() }

// Ping tells whether the database answers.
func (s *Store) Ping(ctx context.Context) error { return s.pool.Ping(ctx) }

func setDefault(params map[string]string, name, value string) {
	if params[name] == "" {
		params[name] = value
	}
}

// reference turns the nil uuid into NULL, as references are stored.
func reference(id uuid.UUID) pgtype.UUID {
	return pgtype.UUID{Bytes: id, Valid: id != uuid.Nil}
}

// execer is a pool, a connection or a transaction.
type execer interface {
	Exec(ctx context.Context, sql string, arguments ...any) (pgconn.CommandTag, error)
}

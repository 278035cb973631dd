package store

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
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

// Open opens a pool of connections for a server. The URL is libpq's
// ("postgres://user@host/name?pool_max_conns=20"); several hosts and
// target_session_attrs=read-write are understood.
//
// A role that may change the schema first brings it up to date; the server
// itself then connects as freshet_server, which owns nothing and is held by the
// database's own rules: every call needs a context made by As. A role that may
// not must find the schema up to date. A schema that this release must not
// touch is a *SchemaError, a role that the rules do not hold ErrPowerful.
func Open(ctx context.Context, url string) (*Store, error) {
	config, err := parse(url)
	if err != nil {
		return nil, err
	}
	mighty, err := prepare(ctx, config.ConnConfig)
	if err != nil {
		return nil, err
	}
	if mighty {
		config.ConnConfig.User, config.ConnConfig.Password = serverRole, ""
	}
	config.AfterConnect = makeBatchTable
	s, err := connect(ctx, config)
	if err != nil && mighty {
		return nil, fmt.Errorf("%w; the server connects as %s, for which the database must let it in: give --database the URL of that role", err, serverRole)
	}
	if err != nil {
		return nil, err
	}
	return s, s.bound(ctx)
}

// OpenKeeper opens the database for whoever keeps the machine: it sees all and
// belongs in no server. The URL's role must be one that may change the schema,
// which is brought up to date.
func OpenKeeper(ctx context.Context, url string) (*Store, error) {
	config, err := parse(url)
	if err != nil {
		return nil, err
	}
	mighty, err := prepare(ctx, config.ConnConfig)
	if err != nil {
		return nil, err
	}
	if !mighty {
		return nil, errors.New("this needs the URL of the role that owns the database, not the server's")
	}
	config.ConnConfig.RuntimeParams["role"] = keeperRole
	return connect(ctx, config)
}

// Answers tells whether a database answers at a URL, within some seconds.
func Answers(ctx context.Context, url string) bool {
	ctx, cancel := context.WithTimeout(ctx, 5*time.Second)
	defer cancel()
	conn, err := pgx.Connect(ctx, plainURL(url))
	return err == nil && conn.Close(ctx) == nil
}

// prepare brings the schema up to date where the role may, and tells whether it may.
func prepare(ctx context.Context, config *pgx.ConnConfig) (mighty bool, err error) {
	conn, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return false, fmt.Errorf("database does not answer: %w", err)
	}
	defer func() { err = errors.Join(err, conn.Close(ctx)) }()
	p, err := powerOf(ctx, conn)
	if err != nil {
		return false, fmt.Errorf("database: %w", err)
	}
	if !p.migrates {
		return false, checkStep(ctx, conn)
	}
	if err := makeRoles(ctx, conn); err != nil {
		return true, err
	}
	return true, migrateUp(ctx, config)
}

func parse(url string) (*pgxpool.Config, error) {
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
	return config, nil
}

func connect(ctx context.Context, config *pgxpool.Config) (*Store, error) {
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

// bound closes the store again where the rules would not hold it.
func (s *Store) bound(ctx context.Context) error {
	var p power
	err := s.pool.AcquireFunc(ctx, func(conn *pgxpool.Conn) (err error) {
		p, err = powerOf(ctx, conn.Conn())
		return err
	})
	if err == nil && p.unbound {
		err = ErrPowerful
	}
	if err != nil {
		s.Close()
	}
	return err
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

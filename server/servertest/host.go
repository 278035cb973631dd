package servertest

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strconv"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"

	"freshet.example/server"
	"freshet.example/store"
)

// A Host is the server of the histories in testdata/sync: its clock is the
// history's, it can be stopped and started, and its records can be kept and
// brought back as from a backup.
type Host struct {
	database string
	kept     map[string][]byte // rows of each table, as a backup would hold them

	store      *store.Store
	stop       context.CancelFunc
	ended      chan error
	grpc, http string

	mu  sync.Mutex
	now time.Time
}

// Began is when every history begins, by the server's clock.
var Began = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

// NewHost makes a host on a database, whose rows New deletes.
func NewHost(database string) *Host { return &Host{database: database} }

// New begins a history: a cooperative that nobody has joined. It returns the
// invitation of its first steward.
func (h *Host) New(ctx context.Context) (code string, err error) {
	h.grpc, h.http, h.now = "127.0.0.1:0", "127.0.0.1:0", Began
	if err := h.Close(); err != nil {
		return "", err
	}
	if err := h.start(ctx); err != nil { // which brings the schema up to date
		return "", err
	}
	if err := h.between(ctx, func(c *pgx.Conn, tables []string) error { return empty(ctx, c, tables) }); err != nil {
		return "", err
	}
	code, _, err = server.Found(ctx, h.store)
	return code, err
}

// Addresses are where the server listens: gRPC, and Connect over HTTP. They
// stay through stops and starts.
func (h *Host) Addresses() (grpc, http string) { return h.grpc, h.http }

// Now is the history's time.
func (h *Host) Now() time.Time {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.now
}

// A HostStep is a step of a history that the host takes.
type HostStep struct {
	// Server: "stop", "start", "keep" as a backup would, "restore" what was
	// kept, "restore unnoticed" without raising the epoch, "end tokens" of
	// devices with keys, as the hour does.
	Server string `json:"server,omitempty"`
	// Wait lets time pass: "90m", "3d".
	Wait string `json:"wait,omitempty"`
}

// Do takes a step.
func (h *Host) Do(ctx context.Context, step HostStep) error {
	switch {
	case step.Wait != "":
		span, err := Span(step.Wait)
		h.mu.Lock()
		defer h.mu.Unlock()
		h.now = h.now.Add(span)
		return err
	case step.Server == "stop":
		return h.halt()
	case step.Server == "start":
		return h.start(ctx)
	case step.Server == "keep":
		return h.keep(ctx)
	case step.Server == "restore":
		return h.restore(ctx, true)
	case step.Server == "restore unnoticed":
		return h.restore(ctx, false)
	case step.Server == "end tokens":
		return h.endTokens(ctx)
	}
	return fmt.Errorf("the host knows no step %+v", step)
}

// Span reads a whole number of days, hours, minutes or seconds, with a sign or
// without: "-1d", "90m".
func Span(text string) (time.Duration, error) {
	units := map[byte]time.Duration{'d': 24 * time.Hour, 'h': time.Hour, 'm': time.Minute, 's': time.Second}
	if text == "" || units[text[len(text)-1]] == 0 {
		return 0, fmt.Errorf("%q is no span of time", text)
	}
	n, err := strconv.Atoi(text[:len(text)-1])
	return time.Duration(n) * units[text[len(text)-1]], err
}

func (h *Host) start(ctx context.Context) (err error) {
	if h.store != nil {
		return nil
	}
	if h.store, err = store.Open(ctx, h.database); err != nil {
		return err
	}
	s, err := server.New(h.store, server.Options{GRPC: h.grpc, HTTP: h.http, Now: h.Now})
	if err != nil {
		return err
	}
	h.grpc, h.http = s.GRPCAddress().String(), s.HTTPAddress().String()
	var serving context.Context
	serving, h.stop = context.WithCancel(context.WithoutCancel(ctx))
	h.ended = make(chan error, 1)
	go func() { h.ended <- s.Serve(serving) }()
	return nil
}

// Close ends the server.
func (h *Host) Close() error { return h.halt() }

func (h *Host) halt() error {
	if h.store == nil {
		return nil
	}
	h.stop()
	err := <-h.ended
	h.store.Close()
	h.store = nil
	return err
}

// keep copies all rows while nobody writes.
func (h *Host) keep(ctx context.Context) error {
	return h.between(ctx, func(c *pgx.Conn, tables []string) error {
		h.kept = map[string][]byte{}
		for _, table := range tables {
			var rows bytes.Buffer
			if _, err := c.PgConn().CopyTo(ctx, &rows, "COPY "+table+" TO STDOUT BINARY"); err != nil {
				return err
			}
			h.kept[table] = rows.Bytes()
		}
		return nil
	})
}

func (h *Host) restore(ctx context.Context, raise bool) error {
	return h.between(ctx, func(c *pgx.Conn, tables []string) error {
		if err := empty(ctx, c, tables); err != nil {
			return err
		}
		for _, table := range tables {
			if _, err := c.PgConn().CopyFrom(ctx, bytes.NewReader(h.kept[table]), "COPY "+table+" FROM STDIN BINARY"); err != nil {
				return err
			}
		}
		if !raise {
			return nil
		}
		_, err := c.Exec(ctx, "UPDATE server_state SET epoch = epoch + 1")
		return err
	})
}

func (h *Host) endTokens(ctx context.Context) error {
	return h.between(ctx, func(c *pgx.Conn, _ []string) error {
		_, err := c.Exec(ctx, "UPDATE tokens SET ends_at = now() - interval '1 second'")
		return err
	})
}

// empty deletes all rows.
func empty(ctx context.Context, c *pgx.Conn, tables []string) error {
	for _, table := range tables {
		if _, err := c.Exec(ctx, "DELETE FROM "+table); err != nil {
			return err
		}
	}
	return nil
}

// between does work on all tables that hold a cooperative's rows, not on those
// that the schema fills, while the server is stopped; references between them
// are not looked at meanwhile.
func (h *Host) between(ctx context.Context, work func(c *pgx.Conn, tables []string) error) (err error) {
	running := h.store != nil
	if err := h.halt(); err != nil {
		return err
	}
	c, err := pgx.Connect(ctx, h.database)
	if err != nil {
		return err
	}
	defer func() {
		err = errors.Join(err, c.Close(ctx))
		if err == nil && running {
			err = h.start(ctx)
		}
	}()
	rows, err := c.Query(ctx, `SELECT quote_ident(tablename) FROM pg_tables WHERE schemaname = 'public' AND tablename NOT IN ('schema_migrations', 'kinds') ORDER BY 1`)
	if err != nil {
		return err
	}
	tables, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		return err
	}
	if _, err := c.Exec(ctx, "SET session_replication_role = replica"); err != nil {
		return err
	}
	return work(c, tables)
}

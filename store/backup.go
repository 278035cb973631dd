package store

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"filippo.io/age"
	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// A Backup says what a folder with a backup holds. The folder has two files:
// records.dump, which is pg_dump's own format, and backup.json, which is this;
// both end in .age where they are encrypted. Size and sum are of the dump
// before it was encrypted.
type Backup struct {
	Format        int              `json:"format"` // backupFormat
	TakenAt       time.Time        `json:"taken_at"`
	CooperativeID uuid.UUID        `json:"cooperative_id"`
	Epoch         uint64           `json:"epoch"`
	Step          uint             `json:"step"` // of the schema
	DumpBytes     int64            `json:"dump_bytes"`
	DumpSHA256    string           `json:"dump_sha256"`
	Tables        map[string]Table `json:"tables"`
}

// Table is what a table held, so that a copy can be proved equal to it.
type Table struct {
	Rows int64 `json:"rows"`
	// Digest is the same for the same rows in any order: the sum of 60 bits of
	// each row's MD5. It is no seal against malice; the dump's SHA-256 is.
	Digest string `json:"digest"`
}

// Rows counts all rows.
func (b Backup) Rows() (n int64) {
	for _, t := range b.Tables {
		n += t.Rows
	}
	return n
}

const (
	backupFormat = 1
	dumpFile     = "records.dump"
	sayFile      = "backup.json"
)

// TakeBackup copies a database as of one moment into a new folder while pushes
// go on, encrypted to all keys that are named. The role of the URL must be one
// that may act as the keeper. The folder has its name only once the backup is whole.
func TakeBackup(ctx context.Context, url, into string, to ...age.Recipient) (Backup, error) {
	if _, err := os.Lstat(into); !errors.Is(err, os.ErrNotExist) {
		return Backup{}, fmt.Errorf("%s is there already; a backup goes into a folder of its own", into)
	}
	unfinished := strings.TrimRight(into, "/") + ".unfinished"
	if err := os.RemoveAll(unfinished); err != nil {
		return Backup{}, err
	}
	if err := os.MkdirAll(unfinished, 0o700); err != nil {
		return Backup{}, fmt.Errorf("backup folder: %w", err)
	}
	b, err := copyInto(ctx, url, unfinished, to)
	if err == nil {
		err = os.Rename(unfinished, into)
	}
	if err != nil {
		return b, errors.Join(err, os.RemoveAll(unfinished))
	}
	return b, nil
}

// copyInto dumps and describes the same snapshot.
func copyInto(ctx context.Context, url, folder string, to locker) (b Backup, err error) {
	conn, err := keeperConn(ctx, url)
	if err != nil {
		return b, err
	}
	defer func() { err = errors.Join(err, conn.Close(context.WithoutCancel(ctx))) }()
	tx, err := conn.BeginTx(ctx, pgx.TxOptions{IsoLevel: pgx.RepeatableRead, AccessMode: pgx.ReadOnly})
	if err != nil {
		return b, err
	}
	defer tx.Rollback(context.WithoutCancel(ctx)) //nolint:errcheck // it only reads
	var snapshot string
	b.Format = backupFormat
	err = tx.QueryRow(ctx, `SELECT pg_export_snapshot(), now(), s.cooperative_id, s.epoch, m.version FROM server_state s, schema_migrations m`).
		Scan(&snapshot, &b.TakenAt, &b.CooperativeID, &b.Epoch, &b.Step)
	if errors.Is(err, pgx.ErrNoRows) {
		return b, ErrNotFounded
	}
	if err != nil {
		return b, err
	}
	if b.DumpBytes, b.DumpSHA256, err = dump(ctx, url, snapshot, folder, to); err != nil {
		return b, err
	}
	if b.Tables, err = tablesOf(ctx, tx); err != nil {
		return b, err
	}
	return b, to.write(folder, sayFile, func(to io.Writer) error {
		e := json.NewEncoder(to)
		e.SetIndent("", "  ")
		return e.Encode(b)
	})
}

// keeperConn connects as whoever keeps the machine.
func keeperConn(ctx context.Context, url string) (*pgx.Conn, error) {
	config, err := pgx.ParseConfig(plainURL(url))
	if err != nil {
		return nil, fmt.Errorf("database URL: %w", err)
	}
	config.RuntimeParams["role"], config.RuntimeParams["timezone"] = keeperRole, "UTC"
	conn, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return nil, fmt.Errorf("database does not answer: %w", err)
	}
	return conn, nil
}

// dump runs pg_dump on a snapshot and tells size and SHA-256 of what it wrote.
func dump(ctx context.Context, url, snapshot, folder string, to locker) (size int64, sum string, err error) {
	program, err := postgresProgram("pg_dump")
	if err != nil {
		return 0, "", err
	}
	hash, count := sha256.New(), &counter{}
	err = to.write(folder, dumpFile, func(to io.Writer) error {
		return runProgram(ctx, program, nil, io.MultiWriter(to, hash, count), "--format=custom", "--compress=1",
			"--role="+keeperRole, "--enable-row-security", "--snapshot="+snapshot, "--dbname="+plainURL(url))
	})
	return count.n, hex.EncodeToString(hash.Sum(nil)), err
}

type counter struct{ n int64 }

func (c *counter) Write(p []byte) (int, error) {
	c.n += int64(len(p))
	return len(p), nil
}

// runProgram runs one of Postgres's own programs; what it says is the error.
func runProgram(ctx context.Context, program string, in io.Reader, out io.Writer, arguments ...string) error {
	command := exec.CommandContext(ctx, program, arguments...) // #nosec G204 -- a program of the Postgres installed here
	var said strings.Builder
	command.Stdin, command.Stdout, command.Stderr = in, out, &said
	if err := command.Run(); err != nil {
		return fmt.Errorf("%s: %w: %s", filepath.Base(program), err, strings.TrimSpace(said.String()))
	}
	return nil
}

// postgresProgram finds a program of the newest Postgres installed: it reads
// databases of its own and earlier releases.
func postgresProgram(name string) (string, error) {
	found := installed()
	if len(found) == 0 {
		return "", ErrNoPostgres
	}
	return found[0].path(name), nil
}

// plainURL leaves out what only our own pool of connections understands.
func plainURL(url string) string {
	base, query, asked := strings.Cut(url, "?")
	if !asked {
		return url
	}
	var kept []string
	for part := range strings.SplitSeq(query, "&") {
		if !strings.HasPrefix(part, "pool_") {
			kept = append(kept, part)
		}
	}
	return base + "?" + strings.Join(kept, "&")
}

// writeWhole writes a file that only its owner reads, onto the disk.
func writeWhole(file string, write func(io.Writer) error) (err error) {
	f, err := os.OpenFile(file, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600) // #nosec G304 -- a folder that was asked for
	if err != nil {
		return fmt.Errorf("backup folder: %w", err)
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := write(f); err != nil {
		return err
	}
	return f.Sync()
}

// tablesOf counts and digests every table as the transaction sees it.
func tablesOf(ctx context.Context, tx pgx.Tx) (map[string]Table, error) {
	rows, err := tx.Query(ctx, "SELECT tablename FROM pg_tables WHERE schemaname = 'public'")
	if err != nil {
		return nil, err
	}
	names, err := pgx.CollectRows(rows, pgx.RowTo[string])
	if err != nil {
		return nil, err
	}
	tables := make(map[string]Table, len(names))
	for _, name := range names {
		var t Table
		err := tx.QueryRow(ctx, "SELECT count(*), coalesce(sum(('x' || left(md5(t::text), 15))::bit(60)::bigint), 0)::text FROM "+
			pgx.Identifier{name}.Sanitize()+" AS t").Scan(&t.Rows, &t.Digest)
		if err != nil {
			return nil, err
		}
		tables[name] = t
	}
	return tables, nil
}

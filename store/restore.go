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
	"slices"
	"strings"

	"filippo.io/age"
	"github.com/jackc/pgx/v5"
)

// BackupError says that a backup, or what was restored of it, is not what was
// backed up.
type BackupError struct{ What string }

// Error says what is wrong.
func (e *BackupError) Error() string { return "this backup cannot be relied on: " + e.What }

// ReadBackup reads what a folder holds and whether its dump is as it was
// written; *BackupError, ErrLocked, ErrWrongKey.
func ReadBackup(folder string, keys ...age.Identity) (b Backup, err error) {
	files := opener(keys)
	err = files.read(folder, sayFile, b.parse)
	if errors.Is(err, os.ErrNotExist) {
		return b, fmt.Errorf("%s holds no backup: %w", folder, err)
	}
	if err != nil {
		return b, err
	}
	hash := sha256.New()
	var size int64
	err = files.read(folder, dumpFile, func(text io.Reader) (err error) {
		size, err = io.Copy(hash, text)
		return err
	})
	if errors.Is(err, os.ErrNotExist) {
		return b, &BackupError{err.Error()}
	}
	if err == nil && (size != b.DumpBytes || hex.EncodeToString(hash.Sum(nil)) != b.DumpSHA256) {
		err = &BackupError{"its records are not those that were written"}
	}
	return b, err
}

// sayBytes bounds what a backup says of itself: a hundred tables take 10 kB.
const sayBytes = 1 << 20

// parse reads what a backup says of itself.
func (b *Backup) parse(from io.Reader) error {
	text, err := io.ReadAll(io.LimitReader(from, sayBytes))
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, b); err != nil {
		return &BackupError{"its " + sayFile + " cannot be read"}
	}
	if b.Format != backupFormat {
		return fmt.Errorf("this release reads backups of format %d, and this one is of format %d", backupFormat, b.Format)
	}
	return nil
}

// RestoreBackup brings a backup into an empty database, proves each table equal
// to what was backed up, and raises the epoch, so that devices send again what
// the backup lacks. The role of the URL must be a superuser. On an error the
// database is not to be used. The epoch that now holds is answered.
func RestoreBackup(ctx context.Context, folder, url string, keys ...age.Identity) (b Backup, epoch uint64, err error) {
	if b, err = ReadBackup(folder, keys...); err != nil {
		return b, 0, err
	}
	if err := readyForRestore(ctx, url); err != nil {
		return b, 0, err
	}
	if err := load(ctx, folder, url, keys); err != nil {
		return b, 0, err
	}
	conn, err := keeperConn(ctx, url)
	if err != nil {
		return b, 0, err
	}
	defer func() { err = errors.Join(err, conn.Close(context.WithoutCancel(ctx))) }()
	err = pgx.BeginFunc(ctx, conn, func(tx pgx.Tx) error {
		found, err := tablesOf(ctx, tx)
		if err != nil {
			return err
		}
		if err := b.same(found); err != nil {
			return err
		}
		// The clock keeps two restores of one backup apart.
		return tx.QueryRow(ctx, "UPDATE server_state SET epoch = greatest(epoch + 1, extract(epoch FROM clock_timestamp())::bigint) RETURNING epoch").Scan(&epoch)
	})
	return b, epoch, err
}

// readyForRestore looks whether the database is empty, and makes the roles.
func readyForRestore(ctx context.Context, url string) (err error) {
	conn, err := pgx.Connect(ctx, plainURL(url))
	if err != nil {
		return fmt.Errorf("database does not answer: %w", err)
	}
	defer func() { err = errors.Join(err, conn.Close(ctx)) }()
	var super bool
	var tables int
	err = conn.QueryRow(ctx, `SELECT (SELECT rolsuper FROM pg_roles WHERE rolname = current_user), (SELECT count(*) FROM pg_tables WHERE schemaname = 'public')`).Scan(&super, &tables)
	switch {
	case err != nil:
		return err
	case tables > 0:
		return errors.New("this database is not empty; a backup is restored into a new one")
	case !super:
		return errors.New("restoring needs a superuser of the database; or give --data with a new folder instead")
	}
	return makeRoles(ctx, conn)
}

// load runs pg_restore in one transaction: what turns out to be altered on the
// way leaves nothing behind.
func load(ctx context.Context, folder, url string, keys opener) error {
	program, err := postgresProgram("pg_restore")
	if err != nil {
		return err
	}
	return keys.read(folder, dumpFile, func(text io.Reader) error {
		return runProgram(ctx, program, text, io.Discard, "--exit-on-error", "--single-transaction", "--dbname="+plainURL(url))
	})
}

// same compares tables with those that were backed up.
func (b Backup) same(found map[string]Table) error {
	var wrong []string
	for name, table := range b.Tables {
		if found[name] != table {
			wrong = append(wrong, name)
		}
	}
	if len(wrong) == 0 && len(found) == len(b.Tables) {
		return nil
	}
	slices.Sort(wrong)
	return &BackupError{"after restoring it these tables are not as they were: " + strings.Join(wrong, ", ")}
}

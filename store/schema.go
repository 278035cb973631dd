package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"github.com/golang-migrate/migrate/v4"
	"github.com/golang-migrate/migrate/v4/database"
	migratepgx "github.com/golang-migrate/migrate/v4/database/pgx/v5"
	"github.com/golang-migrate/migrate/v4/source"
	"github.com/golang-migrate/migrate/v4/source/iofs"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"

	"freshet.example/migrations"
)

// SchemaError says that the database's schema is not one this release may use.
type SchemaError struct {
	// Found is the database's step, Known the newest step of this release.
	Found, Known uint
	// Dirty: the step Found was begun and not ended.
	Dirty bool
}

// Error says what was found and what to do.
func (e *SchemaError) Error() string {
	if e.Dirty {
		return fmt.Sprintf("the database was left in the middle of schema step %d; restore the backup taken before the upgrade, or finish or undo that step by hand and clear the mark with: UPDATE schema_migrations SET version = <the step that holds>, dirty = false", e.Found)
	}
	if e.Found < e.Known {
		return fmt.Sprintf("the database has schema step %d, this release needs %d, and this role may not change it; run: freshetd migrate --database URL-OF-THE-OWNER", e.Found, e.Known)
	}
	return fmt.Sprintf("the database has schema step %d, this release knows only up to %d; start the newer release that made it, or restore a backup from before the upgrade", e.Found, e.Known)
}

// migrateUp applies the steps that are missing. Servers that start at the same
// moment wait for each other by an advisory lock.
func migrateUp(ctx context.Context, config *pgx.ConnConfig) error {
	as := config.Copy()
	as.RuntimeParams["role"] = ownerRole
	as.RuntimeParams["statement_timeout"] = "0"
	db := stdlib.OpenDB(*as)
	defer db.Close()
	if err := db.PingContext(ctx); err != nil {
		return fmt.Errorf("database does not answer: %w", err)
	}
	steps, err := iofs.New(migrations.Files, ".")
	if err != nil {
		return fmt.Errorf("schema steps: %w", err)
	}
	driver, err := migratepgx.WithInstance(db, &migratepgx.Config{})
	if err != nil {
		return fmt.Errorf("schema: %w", err)
	}
	defer driver.Close()
	return applySteps(steps, driver)
}

// checkStep looks whether the schema is this release's.
func checkStep(ctx context.Context, conn *pgx.Conn) error {
	steps, err := iofs.New(migrations.Files, ".")
	if err != nil {
		return fmt.Errorf("schema steps: %w", err)
	}
	e := &SchemaError{}
	if e.Known, err = newestStep(steps); err != nil {
		return fmt.Errorf("schema steps: %w", err)
	}
	var made bool
	if err := conn.QueryRow(ctx, "SELECT to_regclass('public.schema_migrations') IS NOT NULL").Scan(&made); err != nil {
		return fmt.Errorf("schema: %w", err)
	}
	if made {
		if err := conn.QueryRow(ctx, "SELECT version, dirty FROM schema_migrations").Scan(&e.Found, &e.Dirty); err != nil {
			return fmt.Errorf("schema: %w", err)
		}
	}
	if e.Found != e.Known || e.Dirty {
		return e
	}
	return nil
}

func applySteps(steps source.Driver, driver database.Driver) error {
	known, err := newestStep(steps)
	if err != nil {
		return fmt.Errorf("schema steps: %w", err)
	}
	runner, err := migrate.NewWithInstance("iofs", steps, "pgx5", driver)
	if err != nil {
		return fmt.Errorf("schema: %w", err)
	}
	found, dirty, err := runner.Version()
	if err != nil && !errors.Is(err, migrate.ErrNilVersion) {
		return fmt.Errorf("schema: %w", err)
	}
	if dirty || found > known {
		return &SchemaError{Found: found, Known: known, Dirty: dirty}
	}
	if err := runner.Up(); err != nil && !errors.Is(err, migrate.ErrNoChange) {
		return fmt.Errorf("schema: %w", err)
	}
	return nil
}

func newestStep(steps source.Driver) (uint, error) {
	step, err := steps.First()
	for err == nil {
		var next uint
		if next, err = steps.Next(step); err == nil {
			step = next
		}
	}
	if errors.Is(err, fs.ErrNotExist) {
		return step, nil
	}
	return 0, err
}

package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"freshet.example/store"
)

// database is where the records are: a Postgres that somebody else keeps, or a
// private one in a folder.
type database struct {
	url string
	dir string

	private *store.Private
}

const databaseVariable = "FRESHET_DATABASE"

func (d *database) flags(c *cobra.Command) {
	c.Flags().StringVar(&d.url, "database", os.Getenv(databaseVariable),
		"URL of a Postgres, postgres://user@host/name (default $"+databaseVariable+"; without one a private Postgres is started)")
	d.folderFlag(c, defaultFolder())
}

func (d *database) folderFlag(c *cobra.Command, preset string) {
	c.Flags().StringVar(&d.dir, "data", preset, "folder of the private Postgres")
}

// defaultFolder is where programs of this user keep what must last.
func defaultFolder() string {
	if lasting := os.Getenv("XDG_DATA_HOME"); lasting != "" {
		return filepath.Join(lasting, "freshetd")
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return ""
	}
	return filepath.Join(home, ".local", "share", "freshetd")
}

// serve opens the store for a server, starting the private Postgres where one is
// meant. close must be called, whether or not there was an error.
func (d *database) serve(ctx context.Context) (*store.Store, error) {
	url := d.url
	if url == "" {
		if d.dir == "" {
			return nil, errors.New("there is no home folder to keep records in: give --data DIR or --database URL")
		}
		private, err := store.StartPrivate(ctx, d.dir)
		if err != nil {
			return nil, err
		}
		d.private, url = private, private.URL()
		if err := os.WriteFile(d.noteFile(), []byte(url), 0o600); err != nil {
			return nil, fmt.Errorf("data folder: %w", err)
		}
	}
	return store.Open(ctx, url)
}

// visit opens the store beside a server that may be running: its private
// Postgres where there is one, else as a server would.
func (d *database) visit(ctx context.Context) (*store.Store, error) {
	if d.url != "" || d.dir == "" {
		return d.serve(ctx)
	}
	note, err := os.ReadFile(d.noteFile())
	if err != nil {
		return d.serve(ctx)
	}
	patient, cancel := context.WithTimeout(ctx, 5*time.Second)
	defer cancel()
	st, err := store.Open(patient, strings.TrimSpace(string(note)))
	if _, unfit := errors.AsType[*store.SchemaError](err); err == nil || unfit {
		return st, err
	}
	return d.serve(ctx) // a server that was killed left its note behind
}

// noteFile holds the URL of the private Postgres for as long as it runs.
func (d *database) noteFile() string { return filepath.Join(d.dir, "database-url") }

// close ends the private Postgres, where one was started.
func (d *database) close() error {
	if d.private == nil {
		return nil
	}
	return errors.Join(os.Remove(d.noteFile()), d.private.Stop())
}

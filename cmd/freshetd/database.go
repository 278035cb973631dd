package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

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
	url, err := d.address(ctx)
	if err != nil {
		return nil, err
	}
	return store.Open(ctx, url)
}

// address is the URL that was given, or that of a private Postgres started now.
func (d *database) address(ctx context.Context) (string, error) {
	if d.url != "" {
		return d.url, nil
	}
	if d.dir == "" {
		return "", errors.New("there is no home folder to keep records in: give --data DIR or --database URL")
	}
	private, err := store.StartPrivate(ctx, d.dir)
	if err != nil {
		return "", err
	}
	d.private = private
	if err := os.WriteFile(d.noteFile(), []byte(private.URL()), 0o600); err != nil {
		return "", fmt.Errorf("data folder: %w", err)
	}
	return private.URL(), nil
}

// visit opens the store for whoever keeps the machine, beside a server that may
// be running.
func (d *database) visit(ctx context.Context) (*store.Store, error) {
	url, err := d.visited(ctx)
	if err != nil {
		return nil, err
	}
	return store.OpenKeeper(ctx, url)
}

// visited is the URL of the database beside a server that may be running: its
// private Postgres where there is one, else one started now.
func (d *database) visited(ctx context.Context) (string, error) {
	if url, found := d.running(ctx); found {
		return url, nil
	}
	return d.address(ctx)
}

// running is the URL of a database that need not be started for it.
func (d *database) running(ctx context.Context) (url string, found bool) {
	if d.url != "" || d.dir == "" {
		return d.url, d.url != ""
	}
	note, err := os.ReadFile(d.noteFile())
	url = strings.TrimSpace(string(note))
	return url, err == nil && store.Answers(ctx, url) // a server that was killed leaves its note behind
}

// noteLink keeps how invitations' links begin, for freshetd invite beside the
// server. A server without a folder keeps none.
func (d *database) noteLink(link string) error {
	if d.dir == "" {
		return nil
	}
	err := os.WriteFile(d.linkFile(), []byte(link+"\n"), 0o600)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}

// linkOf is an invitation's link; empty where no server said how it is reached.
func (d *database) linkOf(code string) string {
	text, err := os.ReadFile(d.linkFile())
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(text)) + code
}

func (d *database) linkFile() string { return filepath.Join(d.dir, "invitation-link") }

// noteFile holds the URL of the private Postgres for as long as it runs.
func (d *database) noteFile() string { return filepath.Join(d.dir, "database-url") }

// close ends the private Postgres, where one was started.
func (d *database) close() error {
	if d.private == nil {
		return nil
	}
	return errors.Join(os.Remove(d.noteFile()), d.private.Stop())
}

package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"freshet.example/server/auth"
	"freshet.example/store"
)

// database says where records are kept.
type database struct {
	url    string // of a Postgres that somebody else runs; empty: a private one
	folder string // of the private one
}

func (d *database) flags(command *cobra.Command) {
	command.Flags().StringVar(&d.url, "database", "", "URL of a Postgres server; without it freshetd runs a private one")
	command.Flags().StringVar(&d.folder, "data", defaultFolder(), "folder of the private Postgres")
}

func defaultFolder() string {
	if home, err := os.UserHomeDir(); err == nil && os.Geteuid() != 0 {
		return filepath.Join(home, ".local", "share", "freshet")
	}
	return "/var/lib/freshet"
}

// open opens the store, starting the private Postgres where it is wanted, and
// gives what closes both.
func (d *database) open(ctx context.Context) (*store.Store, func() error, error) {
	if d.url != "" {
		st, err := store.Open(ctx, d.url)
		return st, func() error { st.Close(); return nil }, err
	}
	private, err := store.StartPrivate(ctx, d.folder)
	if err != nil {
		return nil, nil, err
	}
	st, err := store.Open(ctx, private.URL())
	if err != nil {
		return nil, nil, errors.Join(err, private.Stop())
	}
	return st, func() error { st.Close(); return private.Stop() }, nil
}

// invitationTime is how long an invitation made here may be used.
const invitationTime = 72 * time.Hour

// found makes the cooperative where there is none, and gives the code of its
// first steward; empty where it was there before.
func found(ctx context.Context, st *store.Store) (string, error) {
	_, err := st.Cooperative(ctx)
	if !errors.Is(err, store.ErrNotFounded) {
		return "", err
	}
	code, hash := auth.NewCode()
	first := store.Invitation{CodeHash: hash, Role: store.RoleSteward, ExpiresAt: time.Now().Add(invitationTime)}
	return code, st.FoundCooperative(ctx, uuid.New(), first)
}

func migrateCommand() *cobra.Command {
	var d database
	command := &cobra.Command{
		Use: "migrate", Short: "bring the database's schema up to date, and end", Args: cobra.NoArgs,
		Example: "  freshetd migrate --database postgres://localhost/freshet",
		RunE: func(command *cobra.Command, _ []string) error {
			_, closeAll, err := d.open(command.Context())
			if err != nil {
				return err
			}
			fmt.Fprintln(command.OutOrStdout(), "The schema is up to date.")
			return closeAll()
		},
	}
	d.flags(command)
	return command
}

// roles are those that an invitation made at the server may give: helpers and
// sensors are invited by the grower whose site it is.
var roles = map[string]store.Role{"steward": store.RoleSteward, "grower": store.RoleGrower, "reader": store.RoleReader}

func inviteCommand() *cobra.Command {
	var d database
	var role string
	command := &cobra.Command{
		Use: "invite", Short: "make an invitation at the server itself", Args: cobra.NoArgs,
		Long:    "Makes an invitation at the server itself, for when no steward can reach it otherwise. A running private Postgres must be stopped first.",
		Example: "  freshetd invite --role grower",
		RunE: func(command *cobra.Command, _ []string) error {
			number, known := roles[role]
			if !known {
				return fmt.Errorf("%q is no role that is invited here; steward, grower or reader are", role)
			}
			return d.invite(command, number)
		},
	}
	d.flags(command)
	command.Flags().StringVar(&role, "role", "grower", "steward, grower or reader")
	return command
}

func (d *database) invite(command *cobra.Command, role store.Role) (err error) {
	st, closeAll, err := d.open(command.Context())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, closeAll()) }()
	code, hash := auth.NewCode()
	if err := st.CreateInvitation(command.Context(), store.Invitation{CodeHash: hash, Role: role, ExpiresAt: time.Now().Add(invitationTime)}); err != nil {
		return err
	}
	fmt.Fprintf(command.OutOrStdout(), "%s\nGood for one person, once, within three days.\n", code)
	return nil
}

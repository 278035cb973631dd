package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"runtime/debug"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	"freshet.example/cmd/freshetd/demo"
	"freshet.example/server"
	"freshet.example/store"
)

// showing is an invented cooperative to look around in.
type showing struct {
	serving
	freshet string // how the grower's command line is called here
}

func demoCommand() *cobra.Command {
	d := &showing{}
	c := &cobra.Command{
		Use:   "demo",
		Short: "Serve an invented cooperative, to look around",
		Long: "Serve an invented cooperative: six growers and fourteen months of records, made by a\n" +
			"simulator and pushed like anybody's. Nothing in it is real. It lives in --data, which\n" +
			"may be removed at any time.",
		Example: "  freshetd demo\n  freshetd demo --data /tmp/look-around",
		Args:    cobra.NoArgs,
		RunE:    func(c *cobra.Command, _ []string) error { return d.run(c, d.greet) },
	}
	d.database.folderFlag(c, ".demo")
	d.flags(c, slog.LevelWarn)
	c.Flags().StringVar(&d.freshet, "freshet", "freshet", "how freshet is called in the commands shown")
	return c
}

// greet fills a new cooperative and shows how to look at it.
func (d *showing) greet(ctx context.Context, out io.Writer, running *server.Server, code string) (string, error) {
	if err := d.fill(ctx, out, running, code); err != nil {
		return "", err
	}
	accounts, err := running.Store.Accounts(ctx)
	if err != nil {
		return "", err
	}
	for _, account := range accounts {
		if account.Role == store.RoleSteward {
			return d.commands(ctx, running, account)
		}
	}
	return "", errors.New("the demo has lost its steward: remove its folder and start it again")
}

// fill pushes the records. A mark in the folder says that all of them arrived.
func (d *showing) fill(ctx context.Context, out io.Writer, running *server.Server, code string) error {
	mark := filepath.Join(d.database.dir, "filled")
	if _, err := os.Stat(mark); err == nil {
		return nil
	}
	if code == "" {
		return fmt.Errorf("the demo in %s was interrupted while it was filled: remove the folder and start it again", d.database.dir)
	}
	fmt.Fprintln(out, "Making an invented cooperative. This takes a while the first time.")
	conn, err := grpc.NewClient(running.GRPCAddress().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		return err
	}
	defer conn.Close()
	loaded, err := demo.Load(ctx, conn, code, time.Now())
	if err != nil {
		return fmt.Errorf("the demo cannot be filled: %w", err)
	}
	fmt.Fprintf(out, "%d sites, %d events, made and pushed in %.1f s.\n", len(loaded.Sites), loaded.Events, loaded.Took.Seconds())
	debug.FreeOSMemory() // the months that were made are not needed again
	return os.WriteFile(mark, nil, 0o600)
}

// commands are three to try, on one more device of the steward's.
func (d *showing) commands(ctx context.Context, running *server.Server, steward store.Account) (string, error) {
	code, _, err := server.InviteDevice(ctx, running.Store, steward)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("\nTo look around as %s:\n\n"+
		"  %[2]s join %[3]s --server %[4]s\n"+
		"  %[2]s\n"+
		"  %[2]s limits\n\n"+
		"Ctrl-C stops it; the next start is quick.\n", steward.DisplayName, d.freshet, code, running.GRPCAddress()), nil
}

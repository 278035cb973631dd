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
	"strings"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/cmd/freshetd/demo"
	"freshet.example/server"
)

// showing is an invented cooperative to look around in.
type showing struct {
	serving
	freshet string // how the grower's command line is called here
	keep    string // a file for the app, instead of serving
	asOf    string
}

// moment is when the demo's records end.
func (d *showing) moment() (time.Time, error) {
	if d.asOf == "" {
		return time.Now(), nil
	}
	return time.Parse(time.RFC3339, d.asOf)
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
		RunE: func(c *cobra.Command, _ []string) error {
			err := d.run(c, d.greet)
			if errors.Is(err, errKept) {
				return nil
			}
			return err
		},
	}
	d.database.folderFlag(c, ".demo")
	d.flags(c, slog.LevelWarn)
	c.Flags().StringVar(&d.keep, "keep", "", "write the first grower's records to a file, for the app to show without a server, and end")
	c.Flags().StringVar(&d.asOf, "as-of", "", "when the records end, as 2006-01-02T15:04:05Z (default now)")
	c.Flags().StringVar(&d.freshet, "freshet", "freshet", "how freshet is called in the commands shown")
	return c
}

// greet fills a new cooperative and shows how to look at it.
func (d *showing) greet(ctx context.Context, out io.Writer, running *server.Server, code string) (string, error) {
	mark := filepath.Join(d.database.dir, "filled")
	if _, err := os.Stat(mark); err == nil {
		return d.tries(ctx, running), nil
	}
	if code == "" {
		return "", fmt.Errorf("the demo in %s was interrupted while it was filled: remove the folder and start it again", d.database.dir)
	}
	say(out, "Making an invented cooperative. This takes a while the first time.\n")
	if err := d.fill(ctx, out, running, code); err != nil {
		return "", fmt.Errorf("the demo cannot be filled: %w", err)
	}
	if d.keep != "" {
		return "", errKept
	}
	debug.FreeOSMemory() // the months that were made are not needed again
	return d.tries(ctx, running), os.WriteFile(mark, nil, 0o600)
}

// fill pushes the growers' records and makes a device to look at them with.
func (d *showing) fill(ctx context.Context, out io.Writer, running *server.Server, code string) (err error) {
	address := running.GRPCAddress().String()
	conn, err := grpc.NewClient(address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	moment, err := d.moment()
	if err != nil {
		return err
	}
	loaded, err := demo.Load(ctx, conn, code, moment)
	if err != nil {
		return err
	}
	say(out, "%d sites, %d events, made and pushed in %.1f s.\n", len(loaded.Sites), loaded.Events, loaded.Took.Seconds())
	if d.keep != "" {
		return keepFile(ctx, conn, loaded, moment, d.keep)
	}
	further, err := loaded.Invite(ctx, conn)
	if err != nil {
		return err
	}
	phone, err := device.Open(d.phone())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, phone.Close()) }()
	if err := phone.Join(ctx, device.Invitation{Code: further, Address: address, Device: "a phone to look around with"}); err != nil {
		return err
	}
	_, err = phone.Sync(ctx)
	return err
}

// errKept ends a demo that was made for its file only.
var errKept = errors.New("the records are kept")

// keepFile writes the records to invented.bin and how the sites compare beside it, to invented.together.bin.
func keepFile(ctx context.Context, conn *grpc.ClientConn, loaded *demo.Loaded, moment time.Time, name string) error {
	beside := strings.TrimSuffix(name, filepath.Ext(name)) + ".together" + filepath.Ext(name)
	return errors.Join(
		written(name, func(file io.Writer) error { return loaded.Keep(ctx, conn, moment, file) }),
		written(beside, func(file io.Writer) error { return loaded.KeepTogether(ctx, conn, file) }))
}

func written(name string, write func(io.Writer) error) error {
	file, err := os.Create(name) // #nosec G304 -- the caller's own choice
	if err != nil {
		return err
	}
	return errors.Join(write(file), file.Close())
}

// phone is the folder of a device of the steward's.
func (d *showing) phone() string { return filepath.Join(d.database.dir, "phone") }

// tries says how to look around: on a phone or in a browser, and by command.
func (d *showing) tries(ctx context.Context, running *server.Server) string {
	app := "http://" + reachable(running.HTTPAddress())
	text := "\nThe phone app, in a browser on this machine:\n\n  " + app + "\n"
	// Without a code one can still look around there.
	if code, err := d.invitation(ctx); err == nil {
		text = "\nThe phone app, in a browser on this machine; it joins as one more phone of Bracken Barn's:\n\n  " + app + "/#/join/" + code + "\n"
	}
	return text + fmt.Sprintf("\nTo try, in another terminal:\n\n"+
		"  %[1]s --home %[2]s\n"+
		"  %[1]s --home %[2]s why\n"+
		"  %[1]s --home %[2]s compare produce\n\n"+
		"Ctrl-C stops it; the next start is quick.\n", d.freshet, d.phone())
}

// invitation is for one more device of the steward's.
func (d *showing) invitation(ctx context.Context) (code string, err error) {
	phone, err := device.Open(d.phone())
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, phone.Close()) }()
	made, err := device.Ask(ctx, phone, freshetv1.NewAccountServiceClient, freshetv1.AccountServiceClient.CreateInvitation, &freshetv1.CreateInvitationRequest{ValidHours: 72})
	return made.GetCode(), err
}

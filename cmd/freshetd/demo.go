package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	"freshet.example/clients/device"
	"freshet.example/cmd/freshetd/demo"
	"freshet.example/server"
	"freshet.example/store"
)

func demoCommand() *cobra.Command {
	var folder string
	var s serving
	command := &cobra.Command{
		Use: "demo", Short: "an invented cooperative, ready to look at", Args: cobra.NoArgs,
		Long: "Starts a server with a private Postgres and lets six invented growers push fourteen months of their records into it. " +
			"The folder keeps them: remove it to begin anew.",
		RunE: func(command *cobra.Command, _ []string) error {
			began := time.Now()
			d := database{folder: filepath.Join(folder, "postgres")}
			return serve(command.Context(), command.OutOrStdout(), d, s, func(ctx context.Context, out io.Writer, st *store.Store, running *server.Server) error {
				return show(ctx, out, st, running, filepath.Join(folder, "phone"), began)
			})
		},
	}
	command.Flags().StringVar(&folder, "folder", ".demo", "where the demo keeps its records")
	s.flags(command, "warn")
	return command
}

// show fills the demo where it is new, and says what to try.
func show(ctx context.Context, out io.Writer, st *store.Store, running *server.Server, phone string, began time.Time) error {
	code, err := found(ctx, st)
	if err != nil {
		return err
	}
	if code != "" {
		if err := fill(ctx, out, running.GRPCAddress().String(), code, phone); err != nil {
			return err
		}
	} else if _, err := os.Stat(phone); err != nil {
		return fmt.Errorf("the demo was left half made; remove its folder %s and start again", filepath.Dir(phone))
	}
	fmt.Fprintf(out, "Freshet is ready: gRPC on %s, web on %s (%.1f s)\n\nTry, in another terminal:\n\n", running.GRPCAddress(), running.HTTPAddress(), time.Since(began).Seconds())
	for _, words := range []string{"", " why", " compare produce"} {
		fmt.Fprintf(out, "  .bin/freshet --home %s%s\n", phone, words)
	}
	fmt.Fprintln(out, "\nCtrl-C ends it; the records stay for the next time.")
	return nil
}

// fill lets the invented growers join and push, and makes one more device of
// the first of them for whoever looks.
func fill(ctx context.Context, out io.Writer, address, code, phone string) (err error) {
	conn, err := grpc.NewClient(address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	fmt.Fprintln(out, "Six invented growers join and push fourteen months of records ...")
	loaded, err := demo.Load(ctx, conn, code, time.Now())
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%d events stored in %.1f s, %.0f a second, each push on disk before its answer.\n", loaded.Events, loaded.Took.Seconds(), float64(loaded.Events)/loaded.Took.Seconds())
	invitation, err := loaded.Invite(ctx, conn)
	if err != nil {
		return err
	}
	own, err := device.Open(phone)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, own.Close()) }()
	if err := own.Join(ctx, device.Invitation{Code: invitation, Address: address, Device: "demo", Person: loaded.Steward.Name}); err != nil {
		return err
	}
	_, err = own.Sync(ctx)
	return err
}

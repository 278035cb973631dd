// Command freshetd is the cooperative's server: it keeps growers' records in
// Postgres, its own or one that it is given, and answers over gRPC, Connect,
// gRPC-Web and REST.
package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	"github.com/spf13/cobra"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := root().ExecuteContext(ctx); err != nil {
		fmt.Fprintln(os.Stderr, "freshetd:", err)
		os.Exit(1)
	}
}

func root() *cobra.Command {
	command := &cobra.Command{
		Use:           "freshetd",
		Short:         "the cooperative's server",
		SilenceUsage:  true,
		SilenceErrors: true,
	}
	command.AddCommand(serveCommand(), migrateCommand(), inviteCommand(), demoCommand())
	return command
}

package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"

	"github.com/spf13/cobra"

	"freshet.example/server"
	"freshet.example/store"
)

// serving is how the server listens and logs.
type serving struct {
	server.Options
	level string
}

func (s *serving) flags(command *cobra.Command, level string) {
	command.Flags().StringVar(&s.GRPC, "grpc", "127.0.0.1:7411", "address of gRPC")
	command.Flags().StringVar(&s.HTTP, "http", "127.0.0.1:7412", "address of Connect, gRPC-Web and REST")
	command.Flags().StringVar(&s.CertFile, "tls-cert", "", "certificate, PEM; needed on any address but this machine's own")
	command.Flags().StringVar(&s.KeyFile, "tls-key", "", "its key, PEM")
	command.Flags().StringVar(&s.level, "log-level", level, "debug, info, warn or error")
}

func (s *serving) logger() (*slog.Logger, error) {
	var level slog.Level
	if err := level.UnmarshalText([]byte(s.level)); err != nil {
		return nil, fmt.Errorf("%q is no log level; debug, info, warn and error are", s.level)
	}
	return slog.New(slog.NewJSONHandler(os.Stderr, &slog.HandlerOptions{Level: level})), nil
}

func serveCommand() *cobra.Command {
	var d database
	var s serving
	command := &cobra.Command{
		Use: "serve", Short: "keep records and answer", Args: cobra.NoArgs,
		Example: `  freshetd serve
  freshetd serve --database postgres://freshet@db/freshet --grpc 0.0.0.0:7411 --http 0.0.0.0:7412 --tls-cert fullchain.pem --tls-key key.pem`,
		RunE: func(command *cobra.Command, _ []string) error {
			return serve(command.Context(), command.OutOrStdout(), d, s, welcome)
		},
	}
	d.flags(command)
	s.flags(command, "info")
	return command
}

// serve runs until the context ends. Once calls are answered, ready is told.
func serve(ctx context.Context, out io.Writer, d database, s serving, ready func(context.Context, io.Writer, *store.Store, *server.Server) error) (err error) {
	if s.Log, err = s.logger(); err != nil {
		return err
	}
	st, closeAll, err := d.open(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, closeAll()) }()
	running, err := server.New(st, s.Options)
	if err != nil {
		return err
	}
	serving, stop := context.WithCancel(ctx)
	defer stop()
	ended := make(chan error, 1)
	go func() { ended <- running.Serve(serving) }()
	if err := ready(ctx, out, st, running); err != nil {
		stop()
		return errors.Join(err, <-ended)
	}
	return <-ended
}

// welcome says where the server is, and at its first start how to join.
func welcome(ctx context.Context, out io.Writer, st *store.Store, s *server.Server) error {
	code, err := found(ctx, st)
	if err != nil {
		return err
	}
	if code != "" {
		fmt.Fprintf(out, "This is a new cooperative. Its first steward joins with\n\n  freshet join %s --server %s --name \"Your name\"\n\n", code, s.GRPCAddress())
	}
	fmt.Fprintf(out, "Freshet is ready: gRPC on %s, web on %s\n", s.GRPCAddress(), s.HTTPAddress())
	return nil
}

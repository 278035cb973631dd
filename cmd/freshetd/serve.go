package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"time"

	"github.com/spf13/cobra"

	"freshet.example/clients/web"
	"freshet.example/server"
	"freshet.example/store"
)

// serving is what serve and demo are told.
type serving struct {
	database  database
	options   server.Options
	logLevel  slog.Level
	logFormat string
	// Megabytes that the pictures of a member, and at a site, may take up.
	memberPhotos, sitePhotos int64
}

func serveCommand() *cobra.Command {
	s := &serving{}
	c := &cobra.Command{
		Use:   "serve",
		Short: "Answer the cooperative's devices",
		Long: "Answer the cooperative's devices until a signal (SIGTERM, SIGINT) says to stop.\n\n" +
			"The first start makes the cooperative and prints the invitation of its first steward.\n" +
			"Plain text is spoken on this machine's own addresses only; any other needs a certificate.",
		Example: "  freshetd serve\n" +
			"  freshetd serve --database postgres://freshet@db.example/freshet\n" +
			"  freshetd serve --grpc :7411 --http :7412 --tls-cert cert.pem --tls-key key.pem",
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error { return s.run(c, s.greet) },
	}
	s.database.flags(c)
	s.flags(c, slog.LevelInfo)
	c.Flags().StringVar(&s.options.CertFile, "tls-cert", "", "certificate in PEM; for addresses that other machines reach")
	c.Flags().StringVar(&s.options.KeyFile, "tls-key", "", "its key in PEM")
	c.Flags().Int64Var(&s.memberPhotos, "member-photos", 1000, "megabytes that a member's pictures may take up")
	c.Flags().Int64Var(&s.sitePhotos, "site-photos", 4000, "megabytes that a site's pictures may take up")
	return c
}

func (s *serving) flags(c *cobra.Command, level slog.Level) {
	c.Flags().StringVar(&s.options.GRPC, "grpc", "127.0.0.1:7411", "address for gRPC")
	c.Flags().StringVar(&s.options.HTTP, "http", "127.0.0.1:7412", "address for the phone app, Connect, gRPC-Web and REST")
	c.Flags().TextVar(&s.logLevel, "log-level", level, "least level that is logged: debug, info, warn, error")
	c.Flags().StringVar(&s.logFormat, "log-format", "text", "text or json")
}

// A hello is what is done and said between the first call that can be answered
// and the line that the server is ready. Code is the first steward's, where the
// cooperative is new.
type hello func(ctx context.Context, out io.Writer, running *server.Server, code string) (afterwards string, err error)

// run serves from the first start to the last line of the log.
func (s *serving) run(c *cobra.Command, greet hello) (err error) {
	ctx, out := c.Context(), c.OutOrStdout()
	if s.options.Log, err = s.logger(c.ErrOrStderr()); err != nil {
		return err
	}
	if err := s.options.Check(); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.database.close()) }()
	st, err := s.database.serve(ctx)
	if err != nil {
		return err
	}
	defer st.Close()
	code, err := found(ctx, st)
	if err != nil {
		return err
	}
	s.options.App = web.App
	s.options.PhotoRoom = store.PhotoRoom{Member: s.memberPhotos * 1_000_000, Site: s.sitePhotos * 1_000_000}
	running, err := server.New(st, s.options)
	if err != nil {
		return err
	}
	return s.serve(ctx, out, running, code, greet)
}

// serve answers calls while it greets, because a greeting may call.
func (s *serving) serve(ctx context.Context, out io.Writer, running *server.Server, code string, greet hello) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	ended := make(chan error, 1)
	go func() { ended <- running.Serve(ctx) }()
	afterwards, err := greet(ctx, out, running, code)
	if err != nil {
		cancel()
		return errors.Join(err, <-ended)
	}
	scheme := "http"
	if s.options.CertFile != "" {
		scheme = "https"
	}
	say(out, "Freshet is ready: gRPC on %s, browsers and curl on %s://%s\n%s", reachable(running.GRPCAddress()), scheme, reachable(running.HTTPAddress()), afterwards)
	return <-ended
}

// greet shows the first steward's invitation, once.
func (s *serving) greet(_ context.Context, out io.Writer, running *server.Server, code string) (string, error) {
	if code != "" {
		say(out, "This cooperative is new. Its first steward joins within three days with\n\n"+
			"  freshet join %s --server %s --name \"YOUR NAME\"\n\n"+
			"The code is shown this once; freshetd invite --role steward makes another.\n\n", code, reachable(running.GRPCAddress()))
	}
	return "", nil
}

// found makes the cooperative where the database has none, and returns its
// first steward's code.
func found(ctx context.Context, st *store.Store) (code string, err error) {
	_, err = st.Cooperative(ctx)
	if !errors.Is(err, store.ErrNotFounded) {
		return "", err
	}
	code, _, err = server.Found(ctx, st)
	if errors.Is(err, store.ErrFounded) { // by another server, just now
		return "", nil
	}
	return code, err
}

// reachable names an address as a person on this machine would type it.
func reachable(address *net.TCPAddr) string {
	if address.IP.IsUnspecified() {
		return net.JoinHostPort("localhost", fmt.Sprint(address.Port))
	}
	return address.String()
}

func (s *serving) logger(to io.Writer) (*slog.Logger, error) {
	options := &slog.HandlerOptions{Level: s.logLevel}
	switch s.logFormat {
	case "text":
		return slog.New(slog.NewTextHandler(to, options)), nil
	case "json":
		return slog.New(slog.NewJSONHandler(to, options)), nil
	}
	return nil, fmt.Errorf("--log-format %s is neither text nor json", s.logFormat)
}

// until says when a code ends, in the server's own time zone.
func until(ends time.Time) string { return ends.Local().Format("Monday, 2 January 2006, 15:04") }

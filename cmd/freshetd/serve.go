package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"freshet.example/clients/web"
	"freshet.example/cmd/square"
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
	own                      bool // the server makes its certificate
}

func serveCommand() *cobra.Command {
	s := &serving{}
	c := &cobra.Command{
		Use:   "serve",
		Short: "Answer the cooperative's devices",
		Long: "Answer the cooperative's devices until a signal (SIGTERM, SIGINT) says to stop.\n\n" +
			"The first start makes the cooperative and prints the invitation of its first steward.\n" +
			"Plain text is spoken on this machine's own addresses only; any other needs a certificate:\n" +
			"from files, which are read again when they change or at SIGHUP, or --own-certificate,\n" +
			"made here, for a network where nobody else vouches for the server. Invitations then hold\n" +
			"the key that freshet trusts, exactly that one. A browser does not know such a certificate:\n" +
			"it warns, and keeps no app for use without signal, until its owner has put certificate.pem\n" +
			"from the data folder among the authorities that the phone trusts.",
		Example: "  freshetd serve\n" +
			"  freshetd serve --database postgres://freshet@db.example/freshet\n" +
			"  freshetd serve --grpc :7411 --http :7412 --tls-cert cert.pem --tls-key key.pem\n" +
			"  freshetd serve --grpc :7411 --http :7412 --own-certificate",
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error { return s.run(c, s.greet) },
	}
	s.database.flags(c)
	s.flags(c, slog.LevelInfo)
	c.Flags().StringVar(&s.options.CertFile, "tls-cert", "", "certificate in PEM; for addresses that other machines reach")
	c.Flags().StringVar(&s.options.KeyFile, "tls-key", "", "its key in PEM")
	c.Flags().Int64Var(&s.memberPhotos, "member-photos", 1000, "megabytes that a member's pictures may take up")
	c.Flags().Int64Var(&s.sitePhotos, "site-photos", 4000, "megabytes that a site's pictures may take up")
	c.Flags().BoolVar(&s.own, "own-certificate", false, "make a certificate in the data folder, for the names and addresses of this machine")
	c.Flags().StringVar(&s.options.ReachedAs, "reached-as", "", "name or address of this machine in invitations (default: what the certificate is for)")
	c.MarkFlagsMutuallyExclusive("own-certificate", "tls-cert")
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
	if s.own {
		if err := s.makeCertificate(); err != nil {
			return err
		}
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

// makeCertificate makes what is missing of the server's own certificate, or what
// no longer fits this machine's names and addresses.
func (s *serving) makeCertificate() (err error) {
	if err := os.MkdirAll(s.database.dir, 0o700); err != nil {
		return err
	}
	s.options.CertFile, s.options.KeyFile, err = server.OwnCertificate(s.database.dir, s.options.ReachedAs, time.Now())
	return err
}

// follow reads the certificate again at each SIGHUP, until the context ends.
func (s *serving) follow(ctx context.Context, running *server.Server) {
	hangUps := make(chan os.Signal, 1)
	signal.Notify(hangUps, syscall.SIGHUP)
	defer signal.Stop(hangUps)
	for {
		select {
		case <-ctx.Done():
			return
		case <-hangUps:
			err := running.Reload()
			if s.own {
				err = errors.Join(s.makeCertificate(), running.Reload())
			}
			if err != nil {
				s.options.Log.Error("the certificate from before goes on", "error", err.Error())
			}
		}
	}
}

// serve answers calls while it greets, because a greeting may call.
func (s *serving) serve(ctx context.Context, out io.Writer, running *server.Server, code string, greet hello) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	ended := make(chan error, 1)
	go func() { ended <- running.Serve(ctx) }()
	go s.follow(ctx, running)
	afterwards, err := greet(ctx, out, running, code)
	if err != nil {
		cancel()
		return errors.Join(err, <-ended)
	}
	if err := s.database.noteLink(running.InvitationLink("")); err != nil {
		s.options.Log.Warn("freshetd invite will draw no square", "error", err.Error())
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
	if code == "" {
		return "", nil
	}
	link := running.InvitationLink(code)
	how := fmt.Sprintf("%s --server %s", code, reachable(running.GRPCAddress()))
	if s.own {
		how = "'" + link + "'"
	}
	say(out, "This cooperative is new. Its first steward joins within three days with\n\n"+
		"  freshet join %s --name \"YOUR NAME\"\n\n"+
		"or scans this with a phone:\n\n", how)
	if err := drawSquare(out, link); err != nil {
		return "", err
	}
	say(out, "\nThe code is shown this once; freshetd invite --role steward makes another.\n\n")
	return "", nil
}

// drawSquare draws a link, black on white where it goes to a screen.
func drawSquare(out io.Writer, link string) error {
	file, ok := out.(*os.File)
	lines, err := square.Lines(link, ok && term.IsTerminal(int(file.Fd()))) // #nosec G115 -- descriptors are small
	say(out, "%s\n", strings.Join(lines, "\n"))
	return err
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

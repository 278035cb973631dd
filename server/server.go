package server

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/netip"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/health"
	healthv1 "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/keepalive"
	"google.golang.org/grpc/reflection"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/analysis"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// Options says where a server listens and how it talks.
type Options struct {
	// GRPC and HTTP are addresses, "127.0.0.1:7411". Port 0 takes a free one.
	GRPC, HTTP string
	// CertFile and KeyFile hold the certificate and its key in PEM. Both empty:
	// plain text, which is allowed on this machine's own addresses only.
	// The files may change while the server runs; see Reload.
	CertFile, KeyFile string
	// ReachedAs is the name or address of the machine in invitations. Empty: the
	// name that the certificate is made for, else an address of this machine.
	ReachedAs string
	// Now is the clock by which questions mean today and entries are settled.
	// Nil: this machine's.
	Now func() time.Time
	// Log gets a line a call, without personal data. Nil: nothing is logged.
	Log *slog.Logger
	// App answers what is no call on the HTTP port, or leaves it to next, which
	// refuses. Nil: all of it is refused.
	App func(next http.Handler) http.Handler
	// PhotoRoom is how many bytes files of photos may take up, of one member and
	// at one site. 0: a gigabyte and four.
	PhotoRoom store.PhotoRoom
	// Crowd bounds what one caller may ask for. The zero value: UsualCrowd.
	Crowd Crowd
}

// A Server answers calls over a store. Its fields are for the services of this
// package, each of which has a constructor that takes what it needs of them.
type Server struct {
	Store *store.Store

	now    func() time.Time
	log    *slog.Logger
	gate   *auth.Gate
	calls  *grpc.Server
	web    *http.Server
	health *health.Server
	// admission bounds what callers ask for.
	admission *admission
	stopping  context.Context
	stop      context.CancelCauseFunc

	certificates *certificates // nil: plain text
	reachedAs    string

	grpcListener, webListener *doors
}

// New makes a server over an open store and opens its addresses, so that a
// caller knows at once whether they are free; Serve answers calls. The store
// stays the caller's to close, after Serve has returned.
func New(st *store.Store, options Options) (*Server, error) {
	shown, err := readCertificates(options.CertFile, options.KeyFile)
	if err != nil {
		return nil, err
	}
	secured := shown.config()
	s := &Server{Store: st, now: options.Now, log: options.Log, health: health.NewServer(), certificates: shown, reachedAs: options.ReachedAs}
	if s.now == nil {
		s.now = time.Now
	}
	if s.log == nil {
		s.log = slog.New(slog.DiscardHandler)
	}
	if options.Crowd == (Crowd{}) {
		options.Crowd = UsualCrowd
	}
	s.admission = newAdmission(options.Crowd)
	s.stopping, s.stop = context.WithCancelCause(context.Background())
	if err := s.listen(options, secured); err != nil {
		return nil, err
	}
	s.admission.shut = func(at netip.AddrPort) { s.grpcListener.shut(at); s.webListener.shut(at) }
	s.gate = newGate(st, s.GRPCAddress().IP.IsLoopback())
	s.calls = grpc.NewServer(s.serverOptions(secured)...)
	s.register(options)
	s.web, err = newWeb(s.calls, secured, options.App, s.log)
	if err != nil {
		return nil, errors.Join(err, s.grpcListener.Close(), s.webListener.Close())
	}
	return s, nil
}

func (s *Server) listen(options Options, secured *tls.Config) (err error) {
	if s.grpcListener, err = listen(options.GRPC, secured, options.Crowd); err != nil {
		return err
	}
	if s.webListener, err = listen(options.HTTP, secured, options.Crowd); err != nil {
		return errors.Join(err, s.grpcListener.Close())
	}
	return nil
}

// Reload reads the certificate's files again. New handshakes also look for
// themselves whether they have changed. On an error the certificate from before
// goes on.
func (s *Server) Reload() error {
	if s.certificates == nil {
		return nil
	}
	return s.certificates.reload()
}

// GRPCAddress is where gRPC listens.
func (s *Server) GRPCAddress() *net.TCPAddr { return s.grpcListener.Addr().(*net.TCPAddr) }

// HTTPAddress is where Connect, gRPC-Web and REST listen.
func (s *Server) HTTPAddress() *net.TCPAddr { return s.webListener.Addr().(*net.TCPAddr) }

func (s *Server) serverOptions(secured *tls.Config) []grpc.ServerOption {
	options := []grpc.ServerOption{
		grpc.ChainUnaryInterceptor(s.unary()...),
		grpc.ChainStreamInterceptor(s.stream()...),
		grpc.MaxRecvMsgSize(maxReadBytes),
		grpc.ForceServerCodecV2(newLetterCodec()),
		grpc.MaxHeaderListSize(maxHeaderBytes),
		grpc.MaxConcurrentStreams(maxStreams),
		grpc.ConnectionTimeout(headerTime),
		grpc.KeepaliveParams(keepalive.ServerParameters{Time: aliveAsked, Timeout: aliveAnswer, MaxConnectionIdle: idleTime}),
		grpc.KeepaliveEnforcementPolicy(keepalive.EnforcementPolicy{MinTime: aliveSpacing, PermitWithoutStream: true}),
	}
	if secured != nil {
		options = append(options, grpc.Creds(credentials.NewTLS(inTurns(secured, "h2"))))
	}
	return options
}

// register is the list of services: one line and one file each.
func (s *Server) register(options Options) {
	calls, hints := registrar{s.calls, s.admission.inTurn(s.gate.Permit)}, newHints()
	freshetv1.RegisterAccountServiceServer(calls, newAccounts(s.Store, s.now, hints, s.InvitationLink))
	freshetv1.RegisterSyncServiceServer(calls, newSync(s.Store, s.now, hints, s.identifyAgain, s.admission.turn))
	freshetv1.RegisterPhotoServiceServer(calls, newPhotos(s.Store, options.PhotoRoom))
	freshetv1.RegisterHusbandryServiceServer(calls, newHusbandry())
	freshetv1.RegisterAnalysisServiceServer(calls, analysis.New(s.Store, s.now))
	freshetv1.RegisterPoolServiceServer(calls, analysis.NewPool(s.Store, s.now))
	healthv1.RegisterHealthServer(calls, s.health)
	reflection.Register(calls)
}

// Serve answers calls until the context ends, then stops: streams are told to
// end, calls that run may finish, and what has not ended after ten seconds is
// cut. It returns nil after such a stop, and else why it could not go on.
func (s *Server) Serve(ctx context.Context) error {
	ended := make(chan error, 2)
	go func() { ended <- s.serveCalls() }()
	go func() { ended <- s.serveWeb() }()
	select {
	case <-ctx.Done():
		s.halt()
		return errors.Join(<-ended, <-ended)
	case err := <-ended:
		s.halt()
		return errors.Join(err, <-ended)
	}
}

func (s *Server) serveCalls() error {
	if err := s.calls.Serve(s.grpcListener); err != nil && !errors.Is(err, grpc.ErrServerStopped) {
		return fmt.Errorf("gRPC port: %w", err)
	}
	return nil
}

func (s *Server) serveWeb() (err error) {
	if s.web.TLSConfig != nil {
		err = s.web.ServeTLS(s.webListener, "", "")
	} else {
		err = s.web.Serve(s.webListener)
	}
	if err != nil && !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("HTTP port: %w", err)
	}
	return nil
}

// halt stops in the order in which nothing is cut short: the streams of both
// ports end first, then the second port drains into the gRPC server, which
// stops last.
func (s *Server) halt() {
	s.health.Shutdown()
	s.stop(errStopping)
	ctx, cancel := context.WithTimeout(context.Background(), stopTime)
	defer cancel()
	if err := s.web.Shutdown(ctx); err != nil {
		s.log.Warn("calls of the HTTP port were cut", "error", err.Error())
	}
	defer context.AfterFunc(ctx, s.calls.Stop)()
	s.calls.GracefulStop()
}

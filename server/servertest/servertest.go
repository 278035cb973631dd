// Package servertest runs a whole server on a fresh database, and joins people
// to it as they join in life: by invitation.
//
// A package that uses it has
//
//	func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }
package servertest

import (
	"bytes"
	"context"
	"log/slog"
	"sync"
	"testing"
	"time"

	"freshet.example/server"
	"freshet.example/store"
	"freshet.example/store/storetest"
)

// A Server is a running server on a database of its own. Both end with the test.
type Server struct {
	*server.Server
	// DatabaseURL is where its records are, for what a test has to see behind
	// the server's back.
	DatabaseURL string
	// Log is what it logged.
	Log *Log

	t       testing.TB
	steward *Person
	stop    context.CancelFunc
	ended   chan error
}

// New starts a server in plain text on free ports of this machine.
func New(t testing.TB) *Server {
	t.Helper()
	return Start(t, server.Options{})
}

// Start is New with options; addresses and log are chosen where they are empty, and
// a benchmark measures a server that holds nobody back.
func Start(t testing.TB, options server.Options) *Server {
	t.Helper()
	s := &Server{DatabaseURL: storetest.URL(t), Log: &Log{}, t: t, ended: make(chan error, 1)}
	st, err := store.Open(context.Background(), s.DatabaseURL)
	if err != nil {
		t.Fatalf("servertest: %v", err)
	}
	t.Cleanup(st.Close)
	s.fillIn(&options)
	if s.Server, err = server.New(st, options); err != nil {
		t.Fatalf("servertest: %v", err)
	}
	var ctx context.Context
	ctx, s.stop = context.WithCancel(context.Background())
	go func() { s.ended <- s.Serve(ctx) }()
	t.Cleanup(s.Stop)
	return s
}

func (s *Server) fillIn(options *server.Options) {
	if options.GRPC == "" {
		options.GRPC = "127.0.0.1:0"
	}
	if options.HTTP == "" {
		options.HTTP = "127.0.0.1:0"
	}
	if _, measuring := s.t.(*testing.B); measuring && options.Crowd == (server.Crowd{}) {
		options.Crowd = server.Boundless
	}
	if options.Log == nil {
		options.Log = slog.New(slog.NewJSONHandler(s.Log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	}
}

// Stop ends the server as a signal would, and waits until it has ended. It may
// be called again.
func (s *Server) Stop() {
	s.t.Helper()
	s.stop()
	select {
	case err, running := <-s.ended:
		if running && err != nil {
			s.t.Errorf("servertest: the server ended with %v", err)
		}
		if running {
			close(s.ended)
		}
	case <-time.After(time.Minute):
		s.t.Error("servertest: the server does not stop")
	}
}

// Steward is the first member, who founded the cooperative.
func (s *Server) Steward() *Person {
	s.t.Helper()
	if s.steward == nil {
		code, _, err := server.Found(s.t.Context(), s.Store)
		if err != nil {
			s.t.Fatalf("servertest: %v", err)
		}
		s.steward = s.Enter(code, "Ines Vaart")
	}
	return s.steward
}

// A Log keeps what a server logs, for many goroutines.
type Log struct {
	mu   sync.Mutex
	text bytes.Buffer
}

// Write keeps a line.
func (l *Log) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

// String is all lines so far.
func (l *Log) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/metadata"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store/storetest"
)

// freshetd is the program, built once.
var freshetd string

func TestMain(m *testing.M) {
	if described := os.Getenv(attackVariable); described != "" {
		os.Exit(attackMain(described))
	}
	dir, err := os.MkdirTemp("", "freshetd-test-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	freshetd = filepath.Join(dir, "freshetd")
	if said, err := exec.Command("go", "build", "-o", freshetd, ".").CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "%v: %s\n", err, said)
		os.Exit(1)
	}
	code := storetest.Run(m)
	if err := os.RemoveAll(dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	os.Exit(code)
}

// A process is freshetd serving, with what it said.
type process struct {
	t       testing.TB
	command *exec.Cmd
	ended   chan error
	said    string // up to and with the line that it is ready
	grpc    string
	http    string
	log     *tail
}

var readyLine = regexp.MustCompile(`Freshet is ready: gRPC on (\S+), browsers and curl on (\S+)`)

// start runs freshetd until it is ready, at free addresses where args name none.
func start(t testing.TB, args ...string) *process {
	t.Helper()
	p := &process{t: t, ended: make(chan error, 1), log: &tail{}}
	p.command = exec.Command(freshetd, slices.Concat(args[:1], []string{"--grpc", "127.0.0.1:0", "--http", "127.0.0.1:0", "--log-level", "debug"}, args[1:])...)
	p.command.Stderr = p.log
	out, err := p.command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := p.command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = p.end(syscall.SIGKILL) })
	p.awaitReady(bufio.NewReader(out))
	return p
}

func (p *process) awaitReady(out *bufio.Reader) {
	p.t.Helper()
	for {
		line, err := out.ReadString('\n')
		p.said += line
		if found := readyLine.FindStringSubmatch(line); found != nil {
			p.grpc, p.http = found[1], found[2]
			break
		}
		if err != nil {
			p.ended = nil // nobody waits for it but here
			p.t.Fatalf("freshetd is not ready: %v\n%s%s", p.command.Wait(), p.said, p.log)
		}
	}
	go func() {
		_, _ = io.Copy(io.Discard, out)
		p.ended <- p.command.Wait()
	}()
}

// end sends a signal and waits for the process.
func (p *process) end(signal syscall.Signal) error {
	if p.ended == nil {
		return nil
	}
	_ = p.command.Process.Signal(signal) // it may have ended by itself
	err := <-p.ended
	p.ended = nil
	return err
}

func (p *process) accounts() freshetv1.AccountServiceClient {
	p.t.Helper()
	return freshetv1.NewAccountServiceClient(p.connection())
}

func (p *process) sync() freshetv1.SyncServiceClient {
	p.t.Helper()
	return freshetv1.NewSyncServiceClient(p.connection())
}

func (p *process) connection() *grpc.ClientConn {
	p.t.Helper()
	conn, err := grpc.NewClient(p.grpc, grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		p.t.Fatal(err)
	}
	p.t.Cleanup(func() { _ = conn.Close() })
	return conn
}

func (p *process) join(code, name string) *freshetv1.JoinResponse {
	p.t.Helper()
	joined, err := p.accounts().Join(p.t.Context(), &freshetv1.JoinRequest{Code: code, DeviceName: "phone", DisplayName: name})
	if err != nil {
		p.t.Fatalf("joining as %s: %v", name, err)
	}
	return joined
}

func as(ctx context.Context, token string) context.Context {
	return metadata.AppendToOutgoingContext(ctx, "authorization", "Bearer "+token)
}

var codeShape = regexp.MustCompile(`[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}`)

// command runs freshetd to its end in this process.
func command(t *testing.T, args ...string) (status int, out, errs string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	status = run(ctx, args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

// A tail keeps what a process wrote.
type tail struct {
	mu   sync.Mutex
	text strings.Builder
}

func (l *tail) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *tail) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

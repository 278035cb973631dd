package main

import (
	"bytes"
	"context"
	"crypto/rand"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/mem"
	"google.golang.org/protobuf/encoding/protowire"

	freshetv1 "freshet.example/api/freshet/v1"
)

// An attack is what strangers, and a member who means harm, may send. It comes
// from addresses of its own: 127.0.0.2 to 127.0.0.21; and from a process of its
// own, so that it can be given less of the machine than others, as if it had
// machines of its own.
type attack struct {
	Kind                   string // a name of attackKinds
	GRPC, HTTP             string // where the server listens
	Expired, Member        string // tokens: one that ended, one that holds
	Seconds, Opened, Lower int    // how long, connections, and by how much it steps back for others (nice)

	opened atomic.Int64
	mu     sync.Mutex
	wrong  []string
}

var attackKinds = map[string]func(*attack, context.Context){
	"greedy-member": func(a *attack, ctx context.Context) { a.flood(ctx, 32) },
	"attack":        (*attack).run,
}

// attackVariable has the test's program be an attack instead.
const attackVariable = "FRESHET_ATTACK"

// attackMain is an attack that begins when it is told to, and says what came of it.
func attackMain(described string) (exit int) {
	a := &attack{}
	if err := json.Unmarshal([]byte(described), a); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	ctx, stop := context.WithTimeout(context.Background(), time.Duration(a.Seconds)*time.Second)
	defer stop()
	attackKinds[a.Kind](a, ctx)
	fmt.Println(a.opened.Load())
	for _, wrong := range a.wrong {
		fmt.Fprintln(os.Stderr, wrong)
	}
	return min(len(a.wrong), 1)
}

// start begins the attack; end waits for it, and tells what processor time it
// took and how many connections it opened.
func (a *attack) start(b *testing.B) (end func() (took time.Duration, opened int)) {
	b.Helper()
	described, err := json.Marshal(a)
	if err != nil {
		b.Fatal(err)
	}
	program := exec.Command("nice", "-n", fmt.Sprint(a.Lower), os.Args[0]) // #nosec G204 -- this test's own program
	program.Env = append(os.Environ(), attackVariable+"="+string(described))
	var said, errs bytes.Buffer
	program.Stdout, program.Stderr = &said, &errs
	if err := program.Start(); err != nil {
		b.Fatal(err)
	}
	return func() (took time.Duration, opened int) {
		if err := program.Wait(); err != nil {
			b.Errorf("%s: %v: %.2000s", a.Kind, err, errs.String())
			return 0, 0
		}
		_, _ = fmt.Sscan(said.String(), &opened)
		return program.ProcessState.UserTime() + program.ProcessState.SystemTime(), opened
	}
}

// error notes what should not have happened.
func (a *attack) error(words string) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if len(a.wrong) < 10 {
		a.wrong = append(a.wrong, words)
	}
}

// heldOpen is how many connections are kept open of those that are opened.
const heldOpen = 6000

func (a *attack) run(ctx context.Context) {
	var all sync.WaitGroup
	for n := range 4 {
		all.Go(func() { a.garbage(ctx, n) })
		all.Go(func() { a.tokens(ctx, n) })
	}
	for n := range 50 {
		all.Go(func() { a.slow(ctx, n) })
	}
	all.Go(func() { a.large(ctx) })
	all.Go(func() { a.largeMessage(ctx) })
	all.Go(func() { a.opens(ctx) })
	all.Wait()
}

// dial connects from the nth of the attack's addresses.
func (a *attack) dial(ctx context.Context, address string, n int) (net.Conn, error) {
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.IPv4(127, 0, 0, byte(2+n%20))}, Timeout: 5 * time.Second}
	return d.DialContext(ctx, "tcp", address)
}

// garbage sends frames that nobody meant, with and without HTTP/2's greeting.
func (a *attack) garbage(ctx context.Context, n int) {
	letters := make([]byte, 64<<10)
	for k := 0; ctx.Err() == nil; k++ {
		conn, err := a.dial(ctx, []string{a.GRPC, a.HTTP}[k%2], n)
		if err != nil {
			pause(ctx, 100*time.Millisecond)
			continue
		}
		_ = conn.SetDeadline(time.Now().Add(time.Second))
		_, _ = rand.Read(letters)
		if k%4 < 2 {
			_, _ = conn.Write([]byte("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\x00\x00\x00\x04\x00\x00\x00\x00\x00"))
		}
		_, _ = conn.Write(letters)
		_, _ = io.Copy(io.Discard, conn)
		_ = conn.Close()
	}
}

// slow sends a byte a second of a greeting, of a header, or of a body.
func (a *attack) slow(ctx context.Context, n int) {
	address, text := a.HTTP, "POST /freshet.v1.SyncService/Push HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n"+strings.Repeat(" ", 1000)
	at := []int{0, len(text) - 1000, 0}[n%3]
	if n%3 == 2 {
		address, text = a.GRPC, "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"
	}
	for ctx.Err() == nil {
		conn, err := a.dial(ctx, address, n)
		if err != nil {
			pause(ctx, time.Second)
			continue
		}
		_, err = conn.Write([]byte(text[:at]))
		for _, letter := range []byte(text[at:]) {
			if err != nil || ctx.Err() != nil {
				break
			}
			_, err = conn.Write([]byte{letter})
			pause(ctx, time.Second)
		}
		_ = conn.Close()
	}
}

// nothing is zeros without an end.
type nothing struct{}

func (nothing) Read(into []byte) (int, error) {
	clear(into)
	return len(into), nil
}

const hundredMB = 100 << 20

// large posts bodies of 100 MB, as nobody and as a member.
func (a *attack) large(ctx context.Context) {
	from := &http.Client{Transport: &http.Transport{DialContext: func(ctx context.Context, _, address string) (net.Conn, error) { return a.dial(ctx, address, 5) }}}
	defer from.CloseIdleConnections()
	for n := 0; ctx.Err() == nil; n++ {
		request, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+a.HTTP+"/freshet.v1.SyncService/Push", io.LimitReader(nothing{}, hundredMB))
		if err != nil {
			a.error(err.Error())
			return
		}
		request.ContentLength = hundredMB
		request.Header.Set("Content-Type", "application/json")
		if n%2 == 1 {
			request.Header.Set("Authorization", "Bearer "+a.Member)
		}
		if answer, err := from.Do(request); err == nil {
			if answer.StatusCode == http.StatusOK {
				a.error("100 MB were taken")
			}
			_ = answer.Body.Close()
		}
		pause(ctx, 50*time.Millisecond)
	}
}

func (a *attack) connection(n int) *grpc.ClientConn {
	conn, err := grpc.NewClient("passthrough:///"+a.GRPC, grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, address string) (net.Conn, error) { return a.dial(ctx, address, n) }))
	if err != nil {
		panic(err) // of the options alone
	}
	return conn
}

// zeros is a message of a hundred megabytes of nothing, which is never held in
// memory whole: who attacks takes no part of the machine that others need for it.
type zeros struct{}

func (zeros) Marshal(any) (mem.BufferSlice, error) {
	field := (&freshetv1.PushRequest{}).ProtoReflect().Descriptor().Fields().ByName("after_mark").Number()
	head := protowire.AppendVarint(protowire.AppendTag(nil, field, protowire.BytesType), hundredMB)
	message, megabyte := mem.BufferSlice{mem.SliceBuffer(head)}, mem.SliceBuffer(make([]byte, 1<<20))
	for range hundredMB >> 20 {
		message = append(message, megabyte)
	}
	return message, nil
}
func (zeros) Unmarshal(mem.BufferSlice, any) error { return nil }
func (zeros) Name() string                         { return "proto" }

// largeMessage pushes 100 MB in one message, as a member.
func (a *attack) largeMessage(ctx context.Context) {
	conn := a.connection(6)
	defer conn.Close() //nolint:errcheck // the attack is over
	for ctx.Err() == nil {
		if _, err := freshetv1.NewSyncServiceClient(conn).Push(as(ctx, a.Member), nil, grpc.ForceCodecV2(zeros{})); err == nil {
			a.error("100 MB were taken")
		}
		pause(ctx, 50*time.Millisecond)
	}
}

// tokens asks with tokens that ended, and with such as never were.
func (a *attack) tokens(ctx context.Context, n int) {
	conn := a.connection(7 + n)
	defer conn.Close() //nolint:errcheck // the attack is over
	for k := 0; ctx.Err() == nil; k++ {
		token := a.Expired
		if k%2 == 1 {
			token = fmt.Sprint("never was ", n, " ", k)
		}
		if _, err := freshetv1.NewAccountServiceClient(conn).WhoAmI(as(ctx, token), &freshetv1.WhoAmIRequest{}); err == nil {
			a.error("a token that ended is let in")
		}
		pause(ctx, time.Millisecond)
	}
}

// opens opens connections, spread over the time of the attack, and keeps many.
func (a *attack) opens(ctx context.Context) {
	every := time.Duration(a.Seconds) * time.Second / time.Duration(a.Opened+1)
	var held []net.Conn
	opened := 0
	for began := time.Now(); opened < a.Opened && ctx.Err() == nil; {
		if time.Since(began) < every*time.Duration(opened) {
			pause(ctx, time.Millisecond)
			continue
		}
		conn, err := a.dial(ctx, []string{a.GRPC, a.HTTP}[opened%2], opened)
		opened++
		if err != nil {
			continue
		}
		if held = append(held, conn); len(held) > heldOpen {
			_ = held[0].Close()
			held = held[1:]
		}
	}
	a.opened.Store(int64(opened))
	<-ctx.Done()
	for _, conn := range held {
		_ = conn.Close()
	}
}

// flood calls as fast as it is answered, as one member, many at a time.
func (a *attack) flood(ctx context.Context, many int) {
	conn := a.connection(15)
	defer conn.Close() //nolint:errcheck // the attack is over
	var all sync.WaitGroup
	for range many {
		all.Go(func() {
			for ctx.Err() == nil {
				_, _ = freshetv1.NewSyncServiceClient(conn).Hello(as(ctx, a.Member), &freshetv1.HelloRequest{Install: make([]byte, 8)}) // most are refused
			}
		})
	}
	all.Wait()
}

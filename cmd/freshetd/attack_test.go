package main

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	freshetv1 "freshet.example/api/freshet/v1"
)

// An attack is what strangers, and a member who means harm, may send. It comes
// from addresses of its own: 127.0.0.2 to 127.0.0.21.
type attack struct {
	b       *testing.B
	p       *process
	expired string // token
	member  string // token that holds
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

func (a *attack) httpAddress() string { return strings.TrimPrefix(a.p.http, "http://") }

// garbage sends frames that nobody meant, with and without HTTP/2's greeting.
func (a *attack) garbage(ctx context.Context, n int) {
	bytes := make([]byte, 64<<10)
	for k := 0; ctx.Err() == nil; k++ {
		conn, err := a.dial(ctx, []string{a.p.grpc, a.httpAddress()}[k%2], n)
		if err != nil {
			pause(ctx, 100*time.Millisecond)
			continue
		}
		_ = conn.SetDeadline(time.Now().Add(time.Second))
		_, _ = rand.Read(bytes)
		if k%4 < 2 {
			_, _ = conn.Write([]byte("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\x00\x00\x00\x04\x00\x00\x00\x00\x00"))
		}
		_, _ = conn.Write(bytes)
		_, _ = io.Copy(io.Discard, conn)
		_ = conn.Close()
	}
}

// slow sends a byte a second of a greeting, of a header, or of a body.
func (a *attack) slow(ctx context.Context, n int) {
	address, text := a.httpAddress(), "POST /freshet.v1.SyncService/Push HTTP/1.1\r\nHost: a\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n"+strings.Repeat(" ", 1000)
	at := []int{0, len(text) - 1000, 0}[n%3]
	if n%3 == 2 {
		address, text = a.p.grpc, "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"
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
		request, err := http.NewRequestWithContext(ctx, http.MethodPost, a.p.http+"/freshet.v1.SyncService/Push", io.LimitReader(nothing{}, hundredMB))
		if err != nil {
			a.b.Error(err)
			return
		}
		request.ContentLength = hundredMB
		request.Header.Set("Content-Type", "application/json")
		if n%2 == 1 {
			request.Header.Set("Authorization", "Bearer "+a.member)
		}
		if answer, err := from.Do(request); err == nil {
			if answer.StatusCode == http.StatusOK {
				a.b.Error("100 MB were taken")
			}
			_ = answer.Body.Close()
		}
		pause(ctx, 50*time.Millisecond)
	}
}

func (a *attack) connection(n int) *grpc.ClientConn {
	conn, err := grpc.NewClient("passthrough:///"+a.p.grpc, grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, address string) (net.Conn, error) { return a.dial(ctx, address, n) }))
	if err != nil {
		a.b.Fatal(err)
	}
	return conn
}

// largeMessage pushes 100 MB in one message, as a member.
func (a *attack) largeMessage(ctx context.Context) {
	conn := a.connection(6)
	defer conn.Close() //nolint:errcheck // the attack is over
	message := &freshetv1.PushRequest{AfterMark: make([]byte, hundredMB)}
	for ctx.Err() == nil {
		if _, err := freshetv1.NewSyncServiceClient(conn).Push(as(ctx, a.member), message); err == nil {
			a.b.Error("100 MB were taken")
		}
		pause(ctx, 50*time.Millisecond)
	}
}

// tokens asks with tokens that ended, and with such as never were.
func (a *attack) tokens(ctx context.Context, n int) {
	conn := a.connection(7 + n)
	defer conn.Close() //nolint:errcheck // the attack is over
	for k := 0; ctx.Err() == nil; k++ {
		token := a.expired
		if k%2 == 1 {
			token = fmt.Sprint("never was ", n, " ", k)
		}
		if _, err := freshetv1.NewAccountServiceClient(conn).WhoAmI(as(ctx, token), &freshetv1.WhoAmIRequest{}); err == nil {
			a.b.Error("a token that ended is let in")
		}
		pause(ctx, time.Millisecond)
	}
}

// opens opens connections, spread over the time of the attack, and keeps many.
func (a *attack) opens(ctx context.Context) {
	every := time.Duration(*hostileSeconds) * time.Second / time.Duration(*hostileOpened+1)
	var held []net.Conn
	opened := 0
	for began := time.Now(); opened < *hostileOpened && ctx.Err() == nil; {
		if time.Since(began) < every*time.Duration(opened) {
			pause(ctx, time.Millisecond)
			continue
		}
		conn, err := a.dial(ctx, []string{a.p.grpc, a.httpAddress()}[opened%2], opened)
		opened++
		if err != nil {
			continue
		}
		if held = append(held, conn); len(held) > heldOpen {
			_ = held[0].Close()
			held = held[1:]
		}
	}
	a.b.ReportMetric(float64(opened), "connections")
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
				_, _ = freshetv1.NewSyncServiceClient(conn).Hello(as(ctx, a.member), &freshetv1.HelloRequest{Install: make([]byte, 8)}) // most are refused
			}
		})
	}
	all.Wait()
}

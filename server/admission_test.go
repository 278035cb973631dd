package server_test

import (
	"crypto/rand"
	"encoding/base64"
	"testing"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server"
	"freshet.example/server/servertest"
)

// narrow is a crowd in which a test soon meets its bounds.
func narrow() server.Crowd {
	c := server.UsualCrowd
	c.Address = server.Bounds{Often: 0.1, AtOnce: 20, Running: 4, Streams: 4}
	c.Device = server.Bounds{Often: 0.1, AtOnce: 20, Running: 4, Streams: 2}
	c.Member = server.Bounds{Often: 0.1, AtOnce: 30, Running: 6, Streams: 3}
	c.Unknown = server.Bounds{Often: 0.1, AtOnce: 20}
	c.Late = 0
	return c
}

// calls makes as many calls and counts those that were refused for now.
func calls(t *testing.T, p *servertest.Person, n int) (refused int, wait time.Duration) {
	t.Helper()
	for range n {
		_, err := p.Accounts.WhoAmI(t.Context(), &freshetv1.WhoAmIRequest{})
		if status.Code(err) != codes.ResourceExhausted {
			continue
		}
		refused++
		wantReason(t, "a flood", err, "TOO_MANY_CALLS", "")
		for _, detail := range status.Convert(err).Details() {
			if again, ok := detail.(*errdetails.RetryInfo); ok {
				wait = again.GetRetryDelay().AsDuration()
			}
		}
	}
	return refused, wait
}

func TestAFloodIsHeldAndOthersAreNot(t *testing.T) {
	s := servertest.Start(t, server.Options{Crowd: narrow()})
	flood, honest := s.Join(grower, "Ada"), s.Join(grower, "Ben")
	if refused, wait := calls(t, flood, 40); refused < 18 || wait < time.Second || wait > time.Minute {
		t.Errorf("%d of 40 calls were refused, for %v", refused, wait)
	}
	if refused, _ := calls(t, honest, 10); refused > 0 {
		t.Errorf("%d calls of another were refused", refused)
	}
	// Another device of hers has the rest of what a member has.
	second := s.Invited(honest, again, "Ben")
	if refused, _ := calls(t, second, 30); refused < 8 {
		t.Errorf("two devices of a member went %d calls beyond the member's bounds", 8-refused)
	}
}

func TestCredentialsThatNobodyKnowsMeetALimit(t *testing.T) {
	s := servertest.Start(t, server.Options{Crowd: narrow()})
	honest := s.Join(grower, "Ben")
	if refused, _ := calls(t, honest, 1); refused > 0 {
		t.Fatal("refused at once")
	}
	refused := 0
	for range 60 {
		secret := make([]byte, 32)
		_, _ = rand.Read(secret)
		n, _ := calls(t, s.WithToken(base64.RawURLEncoding.EncodeToString(secret)), 1)
		refused += n
	}
	if refused < 35 {
		t.Errorf("%d of 60 tokens that nobody knows were refused before they were looked up", refused)
	}
	if n, _ := calls(t, honest, 5); n > 0 {
		t.Errorf("%d calls of a known device from the same address were refused", n)
	}
}

func TestStreamsAreBounded(t *testing.T) {
	s := servertest.Start(t, server.Options{Crowd: narrow()})
	p := s.Join(grower, "Ada")
	opened := 0
	for range 5 {
		stream, err := p.Sync.Watch(t.Context(), &freshetv1.WatchRequest{})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := stream.Header(); err != nil {
			t.Fatal(err)
		}
		p.NewSite(t, "Barn") // a hint comes where it was let in
		if _, err := stream.Recv(); err == nil {
			opened++
		} else {
			wantReason(t, "one stream too many", err, "TOO_MANY_CALLS", "")
		}
	}
	if opened != 2 {
		t.Errorf("%d streams of a device, want 2", opened)
	}
}

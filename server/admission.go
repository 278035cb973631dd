package server

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"math"
	"net/netip"
	"strings"
	"time"

	"github.com/google/uuid"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
)

// An admission keeps anybody from taking what is everybody's. What is cheap
// comes first: the address, before the token is looked up; the device and its
// member, before the request is read; a turn to work, once it was.
type admission struct {
	strangers *crowd[netip.Prefix]
	devices   *crowd[uuid.UUID]
	members   *crowd[uuid.UUID]
	turns     *turns
	recent    *recent
}

func newAdmission(c Crowd) *admission {
	all, share := workingAtOnce, workingOfOne
	if c == Boundless {
		all, share = math.MaxInt32, math.MaxInt32
	}
	return &admission{strangers: newCrowd[netip.Prefix](c.Address, "your network"), devices: newCrowd[uuid.UUID](c.Device, "this device"),
		members: newCrowd[uuid.UUID](c.Member, "your devices together"), turns: newTurns(all, share), recent: &recent{}}
}

// tooMany refuses for now and says when to try again.
func tooMany(words string, after time.Duration) error {
	after = min(max(after, time.Second), time.Minute)
	seconds := int(math.Ceil(after.Seconds()))
	hint := fmt.Sprintf("try again in %d seconds", seconds)
	if seconds == 1 {
		hint = "try again in a second"
	}
	return &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_TOO_MANY_CALLS, words: words, hint: hint, after: after}
}

// stranger comes before it is known who calls.
func (a *admission) stranger(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (answer any, err error) {
	return answer, a.fromAddress(ctx, info.FullMethod, false, func() error {
		answer, err = next(ctx, request)
		return err
	})
}

func (a *admission) strangerStream(server any, stream grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) error {
	return a.fromAddress(stream.Context(), info.FullMethod, true, func() error { return next(server, stream) })
}

// fromAddress refuses an address that brought too many credentials nobody knows,
// before another is looked up, and bounds calls that need none. Whoever was let
// in lately goes past: a neighbour in the same network does them no harm.
func (a *admission) fromAddress(ctx context.Context, method string, stream bool, next func() error) error {
	if a.recent.has(credentialOf(ctx)) {
		return next()
	}
	address := auth.Network(callerAddress(ctx))
	if row, _ := auth.Policy(method); row.Anyone {
		leave, err := a.strangers.enter(address, stream)
		if err != nil {
			return err
		}
		defer leave()
		return next()
	}
	if wait := a.strangers.spent(address); wait > 0 {
		return tooMany("too many calls that nobody knows came from your network", wait)
	}
	err := next()
	if errors.Is(err, auth.ErrNoToken) {
		a.strangers.count(address)
	}
	return err
}

// member comes once it is known who calls, and before the request is read.
func (a *admission) member(ctx context.Context, request any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (answer any, err error) {
	leave, err := a.fromMember(ctx, false)
	if err != nil {
		return nil, err
	}
	defer leave()
	return next(ctx, request)
}

func (a *admission) memberStream(server any, stream grpc.ServerStream, _ *grpc.StreamServerInfo, next grpc.StreamHandler) error {
	leave, err := a.fromMember(stream.Context(), true)
	if err != nil {
		return err
	}
	defer leave()
	return next(server, stream)
}

func (a *admission) fromMember(ctx context.Context, stream bool) (leave func(), err error) {
	caller, known := auth.CallerFrom(ctx)
	if !known {
		return func() {}, nil
	}
	a.recent.note(credentialOf(ctx))
	ofDevice, err := a.devices.enter(caller.DeviceID, stream)
	if err != nil {
		return nil, err
	}
	ofMember, err := a.members.enter(caller.MemberID, stream)
	if err != nil {
		ofDevice()
		return nil, err
	}
	return func() { ofDevice(); ofMember() }, nil
}

// inTurn waits for a turn once the request was read; strangers share one.
func (a *admission) inTurn(then grpc.UnaryServerInterceptor) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		caller, _ := auth.CallerFrom(ctx)
		done, err := a.turns.take(ctx, caller.MemberID)
		if err != nil {
			return nil, err
		}
		defer done()
		return then(ctx, request, info, next)
	}
}

// A credential is the hash of what a caller showed; zero where it was nothing.
type credential [sha256.Size]byte

func credentialOf(ctx context.Context) credential {
	shown := metadata.ValueFromIncomingContext(ctx, "authorization")
	if len(shown) == 0 {
		return credential{}
	}
	return sha256.Sum256([]byte(strings.Join(shown, "\n")))
}

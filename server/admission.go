package server

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"math"
	"net/netip"
	"strings"
	"sync"
	"time"

	"github.com/google/uuid"
	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
)

// An admission keeps anybody from taking what is everybody's. What is cheap
// comes first: the address, or the device and member that a credential was known
// by lately, before it is looked up; the device and its member, before the
// request is read; a turn to work, once it was.
type admission struct {
	strangers *crowd[netip.Prefix]
	unknown   *crowd[netip.Prefix] // credentials that nobody knows
	devices   *crowd[uuid.UUID]
	members   *crowd[uuid.UUID]
	lookups   *turns
	turns     *turns
	known     *acquainted
	refused   *antechamber
	// shut ends the connection from an address and port.
	shut func(netip.AddrPort)
}

func newAdmission(c Crowd) *admission {
	all, share := workingAtOnce, workingOfOne
	if c == Boundless {
		all, share = math.MaxInt32, math.MaxInt32
	}
	return &admission{
		strangers: newCrowd[netip.Prefix](c.Address, "your network"), unknown: newCrowd[netip.Prefix](c.Unknown, "your network"),
		devices: newCrowd[uuid.UUID](c.Device, "this device"), members: newCrowd[uuid.UUID](c.Member, "your devices together"),
		lookups: newTurns(all, share), turns: newTurns(all, share), known: &acquainted{}, refused: newAntechamber(c.Late), shut: func(netip.AddrPort) {},
	}
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
	return answer, a.arrive(ctx, info.FullMethod, false, func(ctx context.Context) error {
		answer, err = next(ctx, request)
		return err
	})
}

func (a *admission) strangerStream(server any, stream grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) error {
	return a.arrive(stream.Context(), info.FullMethod, true, func(ctx context.Context) error { return next(server, &arrived{stream, ctx}) })
}

// An arrived stream's context tells whose bounds it was counted against.
type arrived struct {
	grpc.ServerStream
	ctx context.Context
}

func (s *arrived) Context() context.Context { return s.ctx }

// arrive counts a call against its device and member where they are known by the
// credential, so that a neighbour in the same network does them no harm; else
// against the address it comes from.
func (a *admission) arrive(ctx context.Context, method string, stream bool, next func(context.Context) error) error {
	if who, ok := a.known.with(credentialOf(ctx)); ok {
		leave, err := a.enter(who, stream)
		if err != nil {
			return a.late(ctx, party{member: who.member}, err)
		}
		defer leave()
		return next(context.WithValue(ctx, countedKey{}, who))
	}
	return a.fromAddress(ctx, method, stream, next)
}

// fromAddress refuses an address that brought too many credentials nobody knows,
// before another is looked up, and bounds calls that need none.
func (a *admission) fromAddress(ctx context.Context, method string, stream bool, next func(context.Context) error) error {
	address := auth.Network(callerAddress(ctx))
	if row, _ := auth.Policy(method); row.Anyone {
		leave, err := a.strangers.enter(address, stream)
		if err != nil {
			return a.late(ctx, party{network: address}, err)
		}
		defer leave()
		return next(ctx)
	}
	if wait := a.unknown.spent(address); wait > 0 {
		return a.late(ctx, party{network: address}, tooMany("too many calls that nobody knows came from your network", wait))
	}
	err := next(ctx)
	if errors.Is(err, auth.ErrNoToken) {
		a.unknown.count(address)
	}
	return err
}

// late gives a refusal after a while. Who has as many refusals waiting as nobody
// who waits for any would have is cut off.
func (a *admission) late(ctx context.Context, who party, refused error) error {
	if !a.refused.wait(ctx, who) {
		a.shut(callerPort(ctx))
	}
	return refused
}

type countedKey struct{}

// counted is against whom a call was counted when it arrived.
func counted(ctx context.Context) acquaintance {
	who, _ := ctx.Value(countedKey{}).(acquaintance)
	return who
}

func (a *admission) enter(who acquaintance, stream bool) (leave func(), err error) {
	ofDevice, err := a.devices.enter(who.device, stream)
	if err != nil {
		return nil, err
	}
	ofMember, err := a.members.enter(who.member, stream)
	if err != nil {
		ofDevice()
		return nil, err
	}
	return func() { ofDevice(); ofMember() }, nil
}

// lookedUp waits for a turn to be looked up, which costs the database something
// before it is known who calls.
func (a *admission) lookedUp(identify grpc.UnaryServerInterceptor) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		done, err := a.lookup(ctx)
		if err != nil {
			return nil, err
		}
		defer done()
		return identify(ctx, request, info, func(ctx context.Context, request any) (any, error) {
			done()
			return next(ctx, request)
		})
	}
}

func (a *admission) lookedUpStream(identify grpc.StreamServerInterceptor) grpc.StreamServerInterceptor {
	return func(server any, stream grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) error {
		done, err := a.lookup(stream.Context())
		if err != nil {
			return err
		}
		defer done()
		return identify(server, stream, info, func(server any, stream grpc.ServerStream) error {
			done()
			return next(server, stream)
		})
	}
}

func (a *admission) lookup(ctx context.Context) (done func(), err error) {
	who := party{member: counted(ctx).member}
	if who.member == uuid.Nil {
		who.network = auth.Network(callerAddress(ctx))
	}
	done, err = a.lookups.take(ctx, who)
	if err != nil {
		return nil, a.late(ctx, who, err)
	}
	return sync.OnceFunc(done), nil
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

// fromMember counts a call where it was not when it arrived.
func (a *admission) fromMember(ctx context.Context, stream bool) (leave func(), err error) {
	caller, known := auth.CallerFrom(ctx)
	if !known {
		return func() {}, nil
	}
	a.known.note(credentialOf(ctx), caller.DeviceID, caller.MemberID)
	if was := counted(ctx); was.device == caller.DeviceID && was.member == caller.MemberID {
		return func() {}, nil
	}
	leave, err = a.enter(acquaintance{device: caller.DeviceID, member: caller.MemberID}, stream)
	if err != nil {
		return nil, a.late(ctx, party{member: caller.MemberID}, err)
	}
	return leave, nil
}

// inTurn waits for a turn once the request was read; strangers of a network
// share theirs.
func (a *admission) inTurn(then grpc.UnaryServerInterceptor) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		done, err := a.turn(ctx)
		if err != nil {
			return nil, err
		}
		defer done()
		return then(ctx, request, info, next)
	}
}

// turn waits for one of the caller's turns, which a stream takes for each piece
// of its work.
func (a *admission) turn(ctx context.Context) (done func(), err error) {
	caller, known := auth.CallerFrom(ctx)
	who := party{member: caller.MemberID}
	if !known {
		who.network = auth.Network(callerAddress(ctx))
	}
	return a.turns.take(ctx, who)
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

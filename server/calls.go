package server

import (
	"context"
	"crypto/rand"
	"errors"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"

	"freshet.example/server/auth"
	"freshet.example/store"
)

// errStopping ends streams when the server was told to stop.
var errStopping = errors.New("the server is stopping")

// A call is what is known of one call while it runs.
type call struct {
	id     string // request id: in the log, the answer's header and INTERNAL errors
	method string
	began  time.Time
	device string // short hash of the caller's device; empty before it is known
}

type callKey struct{}

func newCall(ctx context.Context, method string) (context.Context, *call) {
	c := &call{id: rand.Text()[:16], method: method, began: time.Now()}
	return context.WithValue(ctx, callKey{}, c), c
}

// unary lists what surrounds each unary call, outermost first. All of it comes
// before the request is read; what the request names is looked at after.
func (s *Server) unary() []grpc.UnaryServerInterceptor {
	return []grpc.UnaryServerInterceptor{s.observe, limitTime, s.admission.stranger, s.admission.lookedUp(s.gate.Identify), s.admission.member, noteCaller}
}

// stream is the same for streams.
func (s *Server) stream() []grpc.StreamServerInterceptor {
	return []grpc.StreamServerInterceptor{s.observeStream, s.admission.strangerStream, s.admission.lookedUpStream(s.gate.IdentifyStream), s.admission.memberStream, noteStreamCaller}
}

// observe gives the call an id, turns its error into the contract's words,
// survives its panic and logs how it went.
func (s *Server) observe(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (answer any, err error) {
	ctx, c := newCall(ctx, info.FullMethod)
	defer func() { err = s.ended(ctx, c, recover(), err) }()
	// The header is lost where the connection is; the call goes on all the same.
	_ = grpc.SetHeader(ctx, metadata.Pairs(requestIDHeader, c.id))
	return next(ctx, request)
}

func (s *Server) observeStream(srv any, stream grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) (err error) {
	ctx, c := newCall(stream.Context(), info.FullMethod)
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	defer context.AfterFunc(s.stopping, func() { cancel(errStopping) })()
	defer func() { err = s.ended(ctx, c, recover(), endedBy(ctx, err)) }()
	// At once: whoever opens a stream that stays silent learns that it stands.
	if err := stream.SendHeader(metadata.Pairs(requestIDHeader, c.id)); err != nil {
		return err
	}
	return next(srv, &observed{stream, ctx})
}

// endedBy names the server's stop as the reason where it ended the stream.
func endedBy(ctx context.Context, err error) error {
	if err != nil && errors.Is(context.Cause(ctx), errStopping) {
		return errStopping
	}
	return err
}

// An observed stream has a context of its own, and reads letters.
type observed struct {
	grpc.ServerStream
	ctx context.Context
}

func (o *observed) Context() context.Context { return o.ctx }

func (o *observed) RecvMsg(message any) error { return readLetter(o.ServerStream.RecvMsg, message) }

func limitTime(ctx context.Context, request any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	ctx, cancel := context.WithTimeout(ctx, unaryTime)
	defer cancel()
	return next(ctx, request)
}

// noteCaller keeps for the log which device calls, and has the store act for
// its member: the second barrier, behind the policy.
func noteCaller(ctx context.Context, request any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	return next(onBehalf(ctx), request)
}

func noteStreamCaller(srv any, stream grpc.ServerStream, _ *grpc.StreamServerInfo, next grpc.StreamHandler) error {
	return next(srv, &acting{stream, onBehalf(stream.Context())})
}

// acting is a stream that the store acts on behalf of its caller in.
type acting struct {
	grpc.ServerStream
	ctx context.Context
}

func (a *acting) Context() context.Context { return a.ctx }

// identifyAgain finds out as at the beginning of a stream who calls, what they
// may do now, and has the store act for them.
func (s *Server) identifyAgain(ctx context.Context, method string) (context.Context, error) {
	ctx, err := s.gate.Again(ctx, method)
	if err != nil {
		return nil, err
	}
	return onBehalf(ctx), nil
}

func onBehalf(ctx context.Context) context.Context {
	caller, known := auth.CallerFrom(ctx)
	if !known {
		return ctx
	}
	if c, ok := ctx.Value(callKey{}).(*call); ok {
		c.device = shortHash(caller.DeviceID)
	}
	return store.As(ctx, accountOf(caller))
}

package auth

import (
	"context"

	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"
)

// Identify is the interceptor that finds out who calls. It needs no request and
// comes before anything that costs more than one look-up.
func (g *Gate) Identify(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	ctx, err := g.identify(ctx, info.FullMethod)
	if err != nil {
		return nil, err
	}
	return next(ctx, request)
}

// Permit is the interceptor that checks what the request names. It comes after
// Identify, once the request could be read.
func (g *Gate) Permit(ctx context.Context, request any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	message, ok := request.(proto.Message)
	if !ok {
		return nil, ErrRole
	}
	if err := g.permit(ctx, info.FullMethod, message); err != nil {
		return nil, err
	}
	return next(ctx, request)
}

// IdentifyStream is Identify for streams. A stream names nothing in its
// policy row: its requests come later than its beginning.
func (g *Gate) IdentifyStream(server any, stream grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) error {
	ctx, err := g.identify(stream.Context(), info.FullMethod)
	if err != nil {
		return err
	}
	return next(server, &identified{stream, ctx})
}

// Again is what Identify finds out, for a stream that goes on for long: who was
// let in when it began may be let in no more.
func (g *Gate) Again(ctx context.Context, method string) (context.Context, error) {
	return g.identify(ctx, method)
}

type identified struct {
	grpc.ServerStream
	ctx context.Context
}

// Context carries the caller.
func (s *identified) Context() context.Context { return s.ctx }

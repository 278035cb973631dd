package server

import (
	"context"

	"google.golang.org/grpc"
)

// A registrar registers services so that a unary call is surrounded before its
// request is read. By itself grpc reads first: it would take megabytes from
// anybody, and answer what it cannot read in its own words and without a line
// in the log.
type registrar struct {
	*grpc.Server
	inner grpc.UnaryServerInterceptor // what comes after reading
}

// RegisterService registers a service with its unary methods wrapped.
func (r registrar) RegisterService(description *grpc.ServiceDesc, service any) {
	wrapped := *description
	wrapped.Methods = make([]grpc.MethodDesc, len(description.Methods))
	for i, method := range description.Methods {
		name := "/" + description.ServiceName + "/" + method.MethodName
		wrapped.Methods[i] = grpc.MethodDesc{MethodName: method.MethodName, Handler: r.surround(name, method.Handler)}
	}
	r.Server.RegisterService(&wrapped, service)
}

func (r registrar) surround(name string, handle grpc.MethodHandler) grpc.MethodHandler {
	return func(service any, ctx context.Context, decode func(any) error, outer grpc.UnaryServerInterceptor) (any, error) {
		info := &grpc.UnaryServerInfo{Server: service, FullMethod: name}
		return outer(ctx, nil, info, func(ctx context.Context, _ any) (any, error) {
			return handle(service, ctx, func(message any) error { return readInTime(ctx, decode, message) }, r.inner)
		})
	}
}

// readInTime reads the request while the call's time lasts. A sender who is too
// slow is left alone with it: the reading ends with the call.
func readInTime(ctx context.Context, decode func(any) error, message any) error {
	read := make(chan error, 1)
	go func() { read <- readLetter(decode, message) }()
	select {
	case err := <-read:
		return err
	case <-ctx.Done():
		return ctx.Err()
	}
}

package server

import (
	"context"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A registrar registers services so that a request which cannot be read is
// refused like any other: after the caller was identified, with a reason, and
// in the log. grpc by itself answers it before any interceptor has run.
type registrar struct{ *grpc.Server }

// RegisterService registers a service with its unary methods wrapped.
func (r registrar) RegisterService(description *grpc.ServiceDesc, service any) {
	wrapped := *description
	wrapped.Methods = make([]grpc.MethodDesc, len(description.Methods))
	for i, method := range description.Methods {
		name := "/" + description.ServiceName + "/" + method.MethodName
		wrapped.Methods[i] = grpc.MethodDesc{MethodName: method.MethodName, Handler: observable(name, method.Handler)}
	}
	r.Server.RegisterService(&wrapped, service)
}

func observable(name string, handle grpc.MethodHandler) grpc.MethodHandler {
	return func(service any, ctx context.Context, decode func(any) error, around grpc.UnaryServerInterceptor) (any, error) {
		ctx, c := newCall(ctx, name)
		decodeLater := func(message any) error {
			if err := decode(message); err != nil {
				c.unreadable = unreadable(err)
			}
			return nil
		}
		return handle(service, ctx, decodeLater, around)
	}
}

// unreadable says why the transport could not hand over a request.
func unreadable(err error) error {
	switch status.Code(err) {
	case codes.ResourceExhausted:
		return refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, "", "the message is larger than 4 MiB", "")
	case codes.Canceled, codes.DeadlineExceeded:
		return err
	}
	return refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "", "the message cannot be read", "")
}

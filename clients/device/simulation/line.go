package simulation

import (
	"context"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A line is a device's way to the authority, with its faults by the names of
// calls. Nothing goes over a network: calls are answered where gRPC would send them.
type line struct {
	cut        []string // requests do not arrive
	lose       []string // answers do not come back
	late       []string // requests arrive after the device has given up on them
	double     bool     // requests arrive twice
	breakAfter int      // streams break after so many messages; 0: never
}

func (l line) cuts(call string) bool { return slices.Contains(l.cut, call) }

// lines are the states that a line can be in.
var lines = []line{
	{}, {}, {}, {cut: []string{"Hello", "Push", "Pull"}}, {cut: []string{"Push"}}, {cut: []string{"Pull"}}, {lose: []string{"Push"}},
	{lose: []string{"Hello"}}, {double: true}, {breakAfter: 1}, {breakAfter: 2}, {breakAfter: 5}, {late: []string{"Push"}},
}

var (
	errLine   = status.Error(codes.Unavailable, "the line broke")
	errCopied = copied()
)

func copied() error {
	s, err := status.New(codes.FailedPrecondition, "another device pushes as this install").
		WithDetails(&errdetails.ErrorInfo{Reason: "ERROR_REASON_INSTALL_COPIED"})
	if err != nil {
		return err
	}
	return s.Err()
}

func (p *party) dialling() []grpc.DialOption {
	return []grpc.DialOption{grpc.WithUnaryInterceptor(p.unary), grpc.WithStreamInterceptor(p.stream)}
}

func callName(method string) string { return method[strings.LastIndex(method, "/")+1:] }

func (p *party) unary(ctx context.Context, method string, in, out any, _ *grpc.ClientConn, _ grpc.UnaryInvoker, _ ...grpc.CallOption) error {
	call := callName(method)
	if ctx.Err() != nil || p.line.cuts(call) {
		return errLine
	}
	if slices.Contains(p.line.late, call) {
		p.late = append(p.late, func() { _, _ = p.answered(call, in) }) // nobody hears the answer
		return errLine
	}
	answer, err := p.answered(call, in)
	if p.line.double && err == nil {
		answer, err = p.again(call, in, answer)
	}
	if err == nil && slices.Contains(p.line.lose, call) {
		err = errLine
	}
	if err != nil {
		return err
	}
	proto.Merge(out.(proto.Message), answer) //nolint:forcetypeassert // gRPC's own
	return nil
}

// again makes a request a second time: its outcomes must be the same.
func (p *party) again(call string, in any, first proto.Message) (proto.Message, error) {
	second, err := p.answered(call, in)
	if err != nil {
		p.world.broken("I14", "device %d: %s made again fails: %v", p.index, call, err)
		return nil, err
	}
	a, pushed := first.(*freshetv1.PushResponse)
	b, _ := second.(*freshetv1.PushResponse)
	if pushed && !proto.Equal(&freshetv1.PushResponse{ThroughNumber: a.GetThroughNumber(), Outcomes: a.GetOutcomes()},
		&freshetv1.PushResponse{ThroughNumber: b.GetThroughNumber(), Outcomes: b.GetOutcomes()}) {
		p.world.broken("I14", "device %d: a push made again is answered through %d with %d outcomes, at first through %d with %d that were others", p.index,
			b.GetThroughNumber(), len(b.GetOutcomes()), a.GetThroughNumber(), len(a.GetOutcomes()))
	}
	return second, nil
}

// answered is the authority's answer.
func (p *party) answered(call string, in any) (proto.Message, error) {
	auth := p.world.auth
	switch call {
	case "Join":
		return &freshetv1.JoinResponse{Token: "t", MemberId: p.member, DeviceId: fmt.Sprint(p.index), CooperativeId: "c", TokenEndsMs: p.world.now}, nil
	case "Hello":
		out, err := auth.hello(p.member, in.(*freshetv1.HelloRequest)) //nolint:forcetypeassert // as the contract says
		if p.old && err == nil {
			out = heardByOld(out)
		}
		return out, err
	case "Push":
		request := &freshetv1.PushRequest{}
		// The device joins encoded bytes: the type is its own, the bytes are the contract's.
		if err := proto.Unmarshal(reflect.ValueOf(in).Bytes(), request); err != nil {
			return nil, status.Error(codes.InvalidArgument, err.Error())
		}
		if p.old {
			request = asOld(request)
		}
		p.marked = p.marked || !p.old
		return auth.push(p.member, request)
	}
	return nil, status.Error(codes.Unimplemented, call)
}

// arrive lets requests in that were held up.
func (p *party) arrive() {
	for _, request := range p.late {
		request()
	}
	p.late = nil
}

func (p *party) stream(ctx context.Context, _ *grpc.StreamDesc, _ *grpc.ClientConn, method string, _ grpc.Streamer, _ ...grpc.CallOption) (grpc.ClientStream, error) {
	if ctx.Err() != nil || p.line.cuts(callName(method)) || p.world.fault("I10") && p.line.cuts("Push") {
		return nil, errLine
	}
	return &pullStream{party: p, ctx: ctx}, nil
}

// A pullStream says what the authority has for one Pull.
type pullStream struct {
	party *party
	ctx   context.Context
	steps []*freshetv1.PullResponse
	said  int
}

func (s *pullStream) Header() (metadata.MD, error) { return nil, nil }
func (s *pullStream) Trailer() metadata.MD         { return nil }
func (s *pullStream) CloseSend() error             { return nil }
func (s *pullStream) Context() context.Context     { return s.ctx }

// SendMsg takes the request; its cursors say what the device has.
func (s *pullStream) SendMsg(m any) error {
	in, _ := m.(*freshetv1.PullRequest)
	if s.party.old {
		in.Schema = 0 // release 1 does not say what it reads
	}
	s.party.tookCursors(s.ctx, in)
	s.steps = s.party.world.auth.pull(s.party.member, in)
	return nil
}

// RecvMsg gives the next step, or breaks.
func (s *pullStream) RecvMsg(m any) error {
	switch after := s.party.line.breakAfter; {
	case s.ctx.Err() != nil, after > 0 && s.said >= after:
		return errLine
	case s.said == len(s.steps):
		return io.EOF
	}
	step := s.steps[s.said]
	s.said++
	s.party.told(step)
	proto.Merge(m.(proto.Message), step) //nolint:forcetypeassert // gRPC's own
	return nil
}

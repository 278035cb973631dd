package server

import (
	"bytes"
	"context"
	"errors"
	"log/slog"
	"net"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/auth"
)

// brittle panics with what a grower typed.
type brittle struct {
	freshetv1.UnimplementedHusbandryServiceServer
	freshetv1.UnimplementedSyncServiceServer
}

func (brittle) Compute(_ context.Context, in *freshetv1.ComputeRequest) (*freshetv1.ComputeResponse, error) {
	panic("cannot do " + in.GetName())
}

func (brittle) Pull(*freshetv1.PullRequest, grpc.ServerStreamingServer[freshetv1.PullResponse]) error {
	panic("pulled too hard")
}

// ComputeBatch answers nothing where its time is bounded as it should be.
func (brittle) ComputeBatch(ctx context.Context, _ *freshetv1.ComputeBatchRequest) (*freshetv1.ComputeBatchResponse, error) {
	if ends, bounded := ctx.Deadline(); !bounded || time.Until(ends) > unaryTime {
		return nil, errors.New("no bound")
	}
	return &freshetv1.ComputeBatchResponse{}, nil
}

func (brittle) ListFormulas(context.Context, *freshetv1.ListFormulasRequest) (*freshetv1.ListFormulasResponse, error) {
	return &freshetv1.ListFormulasResponse{}, nil
}

// serveBrittle runs the calls' surroundings without a database.
func serveBrittle(t *testing.T) (*grpc.ClientConn, context.Context, *bytes.Buffer) {
	t.Helper()
	var log bytes.Buffer
	token, hash := auth.NewToken()
	s := &Server{log: slog.New(slog.NewJSONHandler(&log, nil)), stopping: t.Context(), admission: newAdmission(UsualCrowd)}
	s.gate = &auth.Gate{Find: func(_ context.Context, h []byte) (auth.Caller, error) {
		if !bytes.Equal(h, hash) {
			return auth.Caller{}, auth.ErrNoToken
		}
		return auth.Caller{MemberID: uuid.New(), DeviceID: uuid.New(), Role: freshetv1.Role_ROLE_GROWER}, nil
	}}
	s.calls = grpc.NewServer(s.serverOptions(nil)...)
	freshetv1.RegisterHusbandryServiceServer(registrar{s.calls, s.gate.Permit}, brittle{})
	freshetv1.RegisterSyncServiceServer(registrar{s.calls, s.gate.Permit}, brittle{})
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	go func() { _ = s.calls.Serve(listener) }()
	t.Cleanup(s.calls.Stop)
	conn, err := grpc.NewClient(listener.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = conn.Close() })
	return conn, metadata.AppendToOutgoingContext(t.Context(), "authorization", "Bearer "+token), &log
}

func TestAPanicIsSurvived(t *testing.T) {
	conn, ctx, log := serveBrittle(t)
	client := freshetv1.NewHusbandryServiceClient(conn)
	var header metadata.MD
	_, err := client.Compute(ctx, &freshetv1.ComputeRequest{Name: "vaart's secret"}, grpc.Header(&header))
	info, _ := details(status.Convert(err))
	id := info.GetMetadata()["request_id"]
	if status.Code(err) != codes.Internal || info.GetReason() != "INTERNAL" || id == "" || id != header.Get(requestIDHeader)[0] {
		t.Errorf("%v, info %v, header %v", err, info, header)
	}
	stream, err := freshetv1.NewSyncServiceClient(conn).Pull(ctx, &freshetv1.PullRequest{})
	if err == nil {
		_, err = stream.Recv()
	}
	if status.Code(err) != codes.Internal {
		t.Errorf("the stream: %v", err)
	}
	if _, err := client.ListFormulas(ctx, &freshetv1.ListFormulasRequest{}); err != nil {
		t.Errorf("after the panics: %v", err)
	}
	for _, want := range []string{id, "calls_test.go", `"code":"Internal"`} {
		if !strings.Contains(log.String(), want) {
			t.Errorf("the log lacks %s", want)
		}
	}
	if strings.Contains(log.String(), "secret") {
		t.Error("the log holds what was typed")
	}
}

func TestUnaryCallsHaveABoundWhateverTheCallerAllows(t *testing.T) {
	conn, ctx, _ := serveBrittle(t)
	client := freshetv1.NewHusbandryServiceClient(conn)
	patient, cancel := context.WithTimeout(ctx, time.Hour)
	defer cancel()
	for what, ctx := range map[string]context.Context{"none": ctx, "an hour": patient} {
		if _, err := client.ComputeBatch(ctx, &freshetv1.ComputeBatchRequest{}); err != nil {
			t.Errorf("allowed %s: %v", what, err)
		}
	}
}

func TestWhatCannotBeReadIsRefusedInOurWords(t *testing.T) {
	conn, ctx, log := serveBrittle(t)
	compute := func(ctx context.Context, message any, options ...grpc.CallOption) *status.Status {
		return status.Convert(conn.Invoke(ctx, freshetv1.HusbandryService_Compute_FullMethodName, message, &freshetv1.ComputeResponse{}, options...))
	}
	text := func(n int) *freshetv1.ComputeRequest {
		return &freshetv1.ComputeRequest{Inputs: map[string]string{"x": strings.Repeat("1", n)}}
	}
	large := text(maxRequestBytes)
	asBytes := grpc.ForceCodec(rawCodec{})
	for what, c := range map[string]struct {
		got    *status.Status
		reason string
	}{
		"too large":                {compute(ctx, large), "TOO_LARGE"},
		"a text of 10 MB":          {compute(ctx, text(10_000_000)), "TOO_LARGE"},
		"no message":               {compute(ctx, []byte{0xff, 0xff, 0xff}, asBytes), "MALFORMED"},
		"not UTF-8":                {compute(ctx, []byte{0x0a, 0x01, 0xff}, asBytes), "BAD_TEXT"},
		"no message, and no token": {compute(t.Context(), []byte{0xff, 0xff, 0xff}, asBytes), "UNAUTHENTICATED"},
		"too large, and no token":  {compute(t.Context(), large), "UNAUTHENTICATED"},
	} {
		info, _ := details(c.got)
		if info.GetReason() != c.reason || info.GetMetadata()["hint"] == "" {
			t.Errorf("%s: %v", what, c.got)
		}
	}
	if n := strings.Count(log.String(), "\n"); n != 6 {
		t.Errorf("%d lines in the log, want 6:\n%s", n, log)
	}
	stream, err := conn.NewStream(ctx, &grpc.StreamDesc{ServerStreams: true}, freshetv1.SyncService_Pull_FullMethodName, asBytes)
	if err != nil {
		t.Fatal(err)
	}
	if err := stream.SendMsg([]byte{0xff, 0xff}); err != nil {
		t.Fatal(err)
	}
	if err := stream.CloseSend(); err != nil {
		t.Fatal(err)
	}
	info, _ := details(status.Convert(stream.RecvMsg(new([]byte))))
	if info.GetReason() != "MALFORMED" {
		t.Errorf("the stream: %v", info)
	}
}

// Bytes of a push whose second operation holds a note of half a letter.
func TestTextThatIsNotUTF8IsNamedByItsPath(t *testing.T) {
	note := func(text string) *freshetv1.Operation {
		return &freshetv1.Operation{Number: 1, Change: &freshetv1.Operation_Event{Event: &freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: text}}}}}
	}
	data, err := proto.Marshal(&freshetv1.PushRequest{Install: []byte{0xff}, Operations: []*freshetv1.Operation{note("fine"), note("ab")}})
	if err != nil {
		t.Fatal(err)
	}
	data = bytes.Replace(data, []byte("ab"), []byte{0xc3, 'b'}, 1)
	push := (&freshetv1.PushRequest{}).ProtoReflect().Descriptor()
	if path, _ := badText(push, data); path != "operations[1].event.note.text" {
		t.Errorf("said to be in %q", path)
	}
	for cut := range len(data) - 1 {
		if path, found := badText(push, data[:cut]); found {
			t.Errorf("cut after %d bytes, %q is said to be bad", cut, path)
		}
	}
}

// rawCodec sends bytes as they are.
type rawCodec struct{}

func (rawCodec) Marshal(v any) ([]byte, error) { return v.([]byte), nil }
func (rawCodec) Unmarshal([]byte, any) error   { return nil }
func (rawCodec) Name() string                  { return "proto" }

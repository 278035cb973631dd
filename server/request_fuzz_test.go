package server

import (
	"bytes"
	"context"
	stdjson "encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"google.golang.org/grpc"
	"google.golang.org/grpc/health"
	healthv1 "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Whatever is asked of the second port, by REST or as browsers call, in a path,
// a query or JSON, reaches the call as a message or is refused as the caller's
// mistake, in JSON with a reason: never as a fault of the server.
func FuzzRequest(f *testing.F) {
	for i, body := range []string{`{}`, `{"code":"7QK2-M9XR-04TB","displayName":"Ada"}`, `{"afterMs":"-1","limit":1e3}`, `[`, "{\"name\":\"\xff\"}", `{"data":"AA=="}`, `{"inputs":{"x":"1"}}`} {
		for which := range paths {
			f.Add(uint8(which), i%2 == 0, "site-1", "as_of=2026-05-20&limit=9", []byte(body)) // #nosec G115 -- some forty
		}
	}
	f.Add(uint8(2), false, "", "", []byte{})
	f.Add(uint8(2), true, "", "", []byte{})
	handler := answering(f)
	f.Fuzz(func(t *testing.T, which uint8, rest bool, named, query string, body []byte) {
		p := paths[int(which)%len(paths)]
		at, method := p.call, http.MethodPost
		if rest {
			at, method = fill(p.template, named), p.method
		}
		request := httptest.NewRequest(method, "/", io.NopCloser(bytes.NewReader(body)))
		request.ContentLength = int64(len(body))
		request.URL.Path, request.URL.RawQuery = at, query
		if named == "" {
			request.ContentLength = -1 // as who does not say how much comes
		}
		request.Header.Set("Content-Type", "application/json")
		if !rest {
			request.Header.Set("Connect-Protocol-Version", "1")
		}
		answer := httptest.NewRecorder()
		handler.ServeHTTP(answer, request)
		if answer.Code >= http.StatusInternalServerError {
			t.Fatalf("%s %s?%s: %d %s", method, at, query, answer.Code, answer.Body)
		}
		if answer.Code != http.StatusOK && answer.Code != http.StatusNotFound && answer.Code != http.StatusMethodNotAllowed {
			if !stdjson.Valid(answer.Body.Bytes()) || !strings.Contains(answer.Body.String(), "reason") {
				t.Fatalf("%s %s?%s: %d without a reason: %s", method, at, query, answer.Code, answer.Body)
			}
		}
	})
}

// fill puts a name where a template wants one.
func fill(template, name string) string {
	before, rest, found := strings.Cut(template, "{")
	if !found {
		return template
	}
	_, after, _ := strings.Cut(rest, "}")
	return before + name + fill(after, name)
}

// answering is the second port of a server whose calls all answer nothing, once
// their request was read.
func answering(f *testing.F) http.Handler {
	f.Helper()
	s := &Server{log: slog.New(slog.DiscardHandler), stopping: f.Context()}
	s.calls = grpc.NewServer(grpc.ChainUnaryInterceptor(s.observe, limitTime), grpc.ForceServerCodecV2(newLetterCodec()))
	calls := registrar{s.calls, nothingDone}
	freshetv1.RegisterAccountServiceServer(calls, freshetv1.UnimplementedAccountServiceServer{})
	freshetv1.RegisterSyncServiceServer(calls, freshetv1.UnimplementedSyncServiceServer{})
	freshetv1.RegisterPhotoServiceServer(calls, freshetv1.UnimplementedPhotoServiceServer{})
	freshetv1.RegisterHusbandryServiceServer(calls, freshetv1.UnimplementedHusbandryServiceServer{})
	freshetv1.RegisterAnalysisServiceServer(calls, freshetv1.UnimplementedAnalysisServiceServer{})
	freshetv1.RegisterPoolServiceServer(calls, freshetv1.UnimplementedPoolServiceServer{})
	healthv1.RegisterHealthServer(calls, health.NewServer())
	web, err := newWeb(s.calls, nil, nil, s.log)
	if err != nil {
		f.Fatal(err)
	}
	return web.Handler
}

// nothingDone answers a call with an empty message of its kind.
func nothingDone(_ context.Context, _ any, info *grpc.UnaryServerInfo, _ grpc.UnaryHandler) (any, error) {
	found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(strings.ReplaceAll(info.FullMethod[1:], "/", ".")))
	if err != nil {
		return nil, err
	}
	answer, err := protoregistry.GlobalTypes.FindMessageByName(found.(protoreflect.MethodDescriptor).Output().FullName())
	if err != nil {
		return nil, err
	}
	return answer.New().Interface(), nil
}

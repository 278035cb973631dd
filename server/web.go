package server

import (
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"connectrpc.com/vanguard"

	"google.golang.org/grpc"
	_ "google.golang.org/grpc/encoding/gzip" // the transcoder asks the server for it
	"google.golang.org/protobuf/encoding/protojson"

	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	freshetv1 "freshet.example/api/freshet/v1"
)

// newWeb puts Connect, gRPC-Web, REST and the app before the gRPC server.
func newWeb(calls *grpc.Server, secured *tls.Config, app func(http.Handler) http.Handler, log *slog.Logger) (*http.Server, error) {
	services, err := pathed(calls)
	if err != nil {
		return nil, err
	}
	var other http.Handler = http.HandlerFunc(notFound)
	if app != nil {
		other = app(other)
	}
	transcoder, err := vanguard.NewTranscoder(services,
		vanguard.WithCodec(func(types vanguard.TypeResolver) vanguard.Codec { return readJSON{vanguard.NewJSONCodec(types)} }),
		vanguard.WithCodec(func(types vanguard.TypeResolver) vanguard.Codec { return writeProto{vanguard.NewProtoCodec(types)} }),
		vanguard.WithCompression(vanguard.CompressionGzip, newPacker, newUnpacker),
		vanguard.WithDefaultServiceOptions(
			vanguard.WithTargetProtocols(vanguard.ProtocolGRPC),
			vanguard.WithTargetCodecs(vanguard.CodecProto),
			vanguard.WithTypeResolver(protoregistry.GlobalTypes),
			vanguard.WithMaxMessageBufferBytes(maxJSONBytes+1), // the one that tells a cut body
			vanguard.WithRESTUnmarshalOptions(vanguard.RESTUnmarshalOptions{DiscardUnknownQueryParams: true}),
		),
		vanguard.WithUnknownHandler(other),
	)
	if err != nil {
		return nil, fmt.Errorf("paths of the second port: %w", err)
	}
	handler := http.NewCrossOriginProtection().Handler(inOwnWords(bounded(transcoder)))
	web := &http.Server{
		Handler:           withHeaders(handler, secured != nil),
		ReadHeaderTimeout: headerTime,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    maxHeaderBytes,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelDebug),
		Protocols:         new(http.Protocols),
	}
	if secured != nil {
		web.TLSConfig = inTurns(secured, "h2", "http/1.1")
	}
	web.Protocols.SetHTTP1(true)
	web.Protocols.SetHTTP2(secured != nil)
	web.Protocols.SetUnencryptedHTTP2(secured == nil)
	return web, nil
}

// pathed lists the services of the gRPC server with their paths.
func pathed(calls *grpc.Server) ([]*vanguard.Service, error) {
	var services []*vanguard.Service
	for name := range calls.GetServiceInfo() {
		found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(name))
		if err != nil {
			return nil, fmt.Errorf("service %s: %w", name, err)
		}
		service, ok := found.(protoreflect.ServiceDescriptor)
		if !ok {
			return nil, fmt.Errorf("%s is no service", name)
		}
		services = append(services, vanguard.NewServiceWithSchema(pathedService{service}, calls))
	}
	return services, nil
}

// withHeaders keeps browsers from guessing, framing, storing and telling on.
// No other origin is ever allowed in: there is no Access-Control header at all.
func withHeaders(next http.Handler, secured bool) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Cache-Control", "no-store")
		h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("X-Content-Type-Options", "nosniff")
		if secured {
			h.Set("Strict-Transport-Security", "max-age=31536000")
		}
		next.ServeHTTP(w, r)
	})
}

// bounded refuses bodies that are too large before they are read, where they
// say so; cuts those that do not, for the codecs to refuse; and ends those that
// come too slowly. A server's ReadTimeout would end long answers too. A body
// where none belongs means nothing, and no JSON is an empty message; the
// transcoder would call either the server's fault.
func bounded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.Method == http.MethodGet || r.Method == http.MethodHead || r.Method == http.MethodDelete:
			r.Body = http.NoBody
		case r.ContentLength == 0 && isJSON(r):
			r.Body, r.ContentLength = io.NopCloser(strings.NewReader("{}")), 2
			r.Header.Set("Content-Length", "2")
		case r.ContentLength > maxJSONBytes && strings.HasPrefix(r.URL.Path, "/v1/"):
			writeRefusal(w, http.StatusRequestEntityTooLarge, &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE})
			return
		case r.ContentLength != 0:
			control := http.NewResponseController(w)
			if control.SetReadDeadline(time.Now().Add(bodyTime)) == nil {
				r.Body = &timedBody{r.Body, control}
			}
			if r.ContentLength > maxJSONBytes {
				r.ContentLength = -1
				r.Header.Del("Content-Length")
			}
			r.Body = &cutBody{r.Body, maxJSONBytes + 1}
			if isJSON(r) {
				r.Body = &filledBody{ReadCloser: r.Body}
			}
		}
		next.ServeHTTP(w, r)
	})
}

// A cutBody ends after one byte more than a body may have. The transcoder's own
// limit would be answered in its words rather than in the contract's.
type cutBody struct {
	io.ReadCloser
	left int
}

func (b *cutBody) Read(p []byte) (int, error) {
	if b.left == 0 {
		return 0, io.EOF
	}
	n, err := b.ReadCloser.Read(p[:min(len(p), b.left)])
	b.left -= n
	return n, err
}

func isJSON(r *http.Request) bool {
	return strings.HasPrefix(r.Header.Get("Content-Type"), "application/json") && r.Header.Get("Content-Encoding") == ""
}

// A filledBody is an empty message where nothing comes.
type filledBody struct {
	io.ReadCloser
	came bool
}

func (b *filledBody) Read(p []byte) (int, error) {
	n, err := b.ReadCloser.Read(p)
	if n == 0 && errors.Is(err, io.EOF) && !b.came && len(p) >= 2 {
		b.came = true
		return copy(p, "{}"), err
	}
	b.came = b.came || n > 0
	return n, err
}

// A timedBody has a deadline until it was read to its end.
type timedBody struct {
	io.ReadCloser
	control *http.ResponseController
}

func (b *timedBody) Read(p []byte) (int, error) {
	n, err := b.ReadCloser.Read(p)
	if errors.Is(err, io.EOF) {
		// Where the deadline cannot be lifted the connection is gone already.
		_ = b.control.SetReadDeadline(time.Time{})
	}
	return n, err
}

func notFound(w http.ResponseWriter, r *http.Request) {
	writeRefusal(w, http.StatusNotFound, &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME,
		words: "nothing is served at this path", hint: "look at the path once more; GET /v1/health tells whether the server is up"})
}

// writeRefusal answers as the transcoder does for REST: a google.rpc.Status.
func writeRefusal(w http.ResponseWriter, httpCode int, r *refusal) {
	text, err := protojson.Marshal(r.status(meanings[r.reason].code, "").Proto())
	if err != nil {
		http.Error(w, r.Error(), httpCode)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(httpCode)
	// Who has gone away does not need the rest.
	_, _ = w.Write(text)
}

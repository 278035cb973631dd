package server

import (
	"bytes"
	stdjson "encoding/json"
	"net/http"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
)

// inOwnWords puts what the transcoder itself refuses of a REST request, a value
// or a name in its query or path, into the contract's words: it gives no reason,
// and takes some of it for the server's fault. Our own refusals all have one.
func inOwnWords(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.HasPrefix(r.URL.Path, "/v1/") {
			next.ServeHTTP(w, r)
			return
		}
		held := &heldAnswer{ResponseWriter: w}
		next.ServeHTTP(held, r)
		held.release()
	})
}

// A heldAnswer keeps a refusal until all of it is there, and passes on the rest.
type heldAnswer struct {
	http.ResponseWriter
	code int // of a refusal; else 0
	said bytes.Buffer
}

func (h *heldAnswer) WriteHeader(code int) {
	if code == http.StatusBadRequest || code == http.StatusInternalServerError {
		h.code = code
		return
	}
	h.ResponseWriter.WriteHeader(code)
}

func (h *heldAnswer) Write(p []byte) (int, error) {
	if h.code != 0 {
		return h.said.Write(p)
	}
	return h.ResponseWriter.Write(p)
}

// Unwrap lets deadlines be set.
func (h *heldAnswer) Unwrap() http.ResponseWriter { return h.ResponseWriter }

// Flush sends what there is.
func (h *heldAnswer) Flush() {
	if f, ok := h.ResponseWriter.(http.Flusher); ok && h.code == 0 {
		f.Flush()
	}
}

func (h *heldAnswer) release() {
	if h.code == 0 {
		return
	}
	var said struct {
		Message string
		Details []any
	}
	if err := stdjson.Unmarshal(h.said.Bytes(), &said); err == nil && len(said.Details) == 0 {
		h.Header().Del("Content-Length")
		writeRefusal(h.ResponseWriter, http.StatusBadRequest, &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_MALFORMED, words: "the request cannot be read: " + said.Message})
		return
	}
	h.ResponseWriter.WriteHeader(h.code)
	_, _ = h.ResponseWriter.Write(h.said.Bytes()) // who has gone away does not need it
}

package probes

import (
	"crypto/subtle"
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"strings"
	"time"

	"golang.org/x/time/rate"

	"freshet.example/clients/device/senml"
)

const (
	maxListBytes = 1 << 20
	// Lists a second that all probes together may send, and how many at once. A
	// probe that sends more often wears the disk out and tells nothing new.
	listsPerSecond, listsAtOnce = 20, 40
)

// mediaTypes are how a list may be sent.
var mediaTypes = map[string]func([]byte, time.Time) ([]senml.Measurement, error){
	"application/senml+json": senml.JSON, "application/json": senml.JSON, "application/senml+cbor": senml.CBOR,
}

// Handler answers probes. A list comes by POST, at any path; the answer, as
// JSON, says what was noted once it is on disk. Key, where there is one, is what
// probes must send as bearer token. Heed is told of names that are not known.
//
// 200: noted, as far as the answer says. 400: no SenML. 401: the key is missing.
// 413, 415: too long, or another media type. 422: nothing of it could be noted.
// 429: too often. 503: it could not be kept; send it again.
func (g *Gateway) Handler(key string, heed func(unknown []string)) http.Handler {
	limit := rate.NewLimiter(listsPerSecond, listsAtOnce)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case r.Method != http.MethodPost:
			w.Header().Set("Allow", http.MethodPost)
			refuse(w, http.StatusMethodNotAllowed, "send a SenML list by POST")
		case !hasKey(r, key):
			w.Header().Set("WWW-Authenticate", "Bearer")
			refuse(w, http.StatusUnauthorized, "the gateway's key is missing or wrong")
		case !limit.Allow():
			w.Header().Set("Retry-After", "1")
			refuse(w, http.StatusTooManyRequests, "too many lists; send several measurements in one")
		default:
			g.answer(w, r, heed)
		}
	})
}

func hasKey(r *http.Request, key string) bool {
	sent, _ := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer ")
	return key == "" || subtle.ConstantTimeCompare([]byte(sent), []byte(key)) == 1
}

func (g *Gateway) answer(w http.ResponseWriter, r *http.Request, heed func([]string)) {
	media, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")) // one that cannot be read is no media type known
	read := mediaTypes[media]
	if read == nil {
		refuse(w, http.StatusUnsupportedMediaType, "send application/senml+json or application/senml+cbor")
		return
	}
	raw, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxListBytes))
	var long *http.MaxBytesError
	if errors.As(err, &long) {
		refuse(w, http.StatusRequestEntityTooLarge, "a list may have a mebibyte")
		return
	}
	if err != nil {
		return // nobody is there to be answered
	}
	list, err := read(raw, g.now())
	if err != nil {
		refuse(w, http.StatusBadRequest, err.Error())
		return
	}
	told, err := g.Take(r.Context(), list)
	if err != nil {
		refuse(w, http.StatusServiceUnavailable, "it could not be kept; send it again")
		return
	}
	if len(told.Unknown) > 0 {
		heed(told.Unknown)
	}
	status := http.StatusOK
	if len(list) > 0 && told.Noted+told.Again == 0 {
		status = http.StatusUnprocessableEntity
	}
	write(w, status, told)
}

func refuse(w http.ResponseWriter, status int, words string) {
	write(w, status, map[string]string{"error": words})
}

func write(w http.ResponseWriter, status int, answer any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(answer) // a probe that has gone away asks again
}

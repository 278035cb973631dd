package device

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
)

// Trouble is why the cooperative did not do what was asked, in words a person
// can follow.
type Trouble struct {
	Words    string        // what happened
	Reason   string        // a name of ErrorReason without its prefix; empty where none was given
	Field    string        // the field it is about; empty where none is
	Hint     string        // what to do
	NoSignal bool          // the server was not reached, or could not answer now: try again later
	After    time.Duration // when to try again, as the server said; 0: it did not
	serverMs int64         // the server's clock, where the reason is about clocks; else 0
	cause    error
}

// Error gives what happened and what to do.
func (t *Trouble) Error() string {
	if t.Hint == "" {
		return t.Words
	}
	return t.Words + " (" + t.Hint + ")"
}

// Unwrap gives the error of the call.
func (t *Trouble) Unwrap() error { return t.cause }

// hintField is where the server puts its hint in ErrorInfo's metadata.
const hintField = "hint"

// serverTimeField is where it puts its time, milliseconds since 1970 UTC.
const serverTimeField = "server_ms"

// understand turns the error of a call into Trouble; nil stays nil.
func understand(err error) error {
	var already *Trouble
	if err == nil || errors.As(err, &already) {
		return err
	}
	s := status.Convert(err)
	t := &Trouble{Words: s.Message(), cause: err}
	for _, detail := range s.Details() {
		t.take(detail)
	}
	t.Words = t.named()
	switch {
	case errors.Is(err, context.DeadlineExceeded), s.Code() == codes.DeadlineExceeded:
		t.Words, t.Hint, t.NoSignal = "the co-op's server did not answer in time", "try again later", true
	case strings.Contains(s.Message(), ErrPin.Error()): // said within gRPC's own words on the connection
		t.Words, t.Hint, _ = strings.Cut(ErrPin.Error(), "; ")
	case s.Code() == codes.Unavailable && t.Reason == "":
		t.Words, t.Hint, t.NoSignal = "no word from the co-op's server", "check the network, or that the server runs", true
	case s.Code() == codes.Unavailable, s.Code() == codes.ResourceExhausted:
		t.NoSignal = true
	case s.Code() == codes.Unimplemented:
		t.Words, t.Hint = "the co-op's server cannot answer this yet", "it is older than this program"
	case s.Code() == codes.Unknown && t.Reason == "":
		t.Words = err.Error()
	}
	return t
}

// named says the field as a person does: "site_id: it is another member's" is
// "the site is another member's".
func (t *Trouble) named() string {
	words, about := strings.CutPrefix(t.Words, t.Field+": ")
	if t.Field == "" || !about {
		return t.Words
	}
	name := t.Field[strings.LastIndex(t.Field, ".")+1:]
	name = "the " + strings.ReplaceAll(strings.TrimSuffix(strings.TrimSuffix(name, "_id"), "_ids"), "_", " ")
	if rest, it := strings.CutPrefix(words, "it "); it {
		return name + " " + rest
	}
	return name + ": " + words
}

func (t *Trouble) take(detail any) {
	switch detail := detail.(type) {
	case *errdetails.ErrorInfo:
		t.Reason = strings.TrimPrefix(detail.GetReason(), "ERROR_REASON_")
		if hint := detail.GetMetadata()[hintField]; hint != "" {
			t.Hint = hint
		}
		t.serverMs, _ = strconv.ParseInt(detail.GetMetadata()[serverTimeField], 10, 64) // 0 where it tells none
	case *errdetails.RetryInfo:
		t.After = detail.GetRetryDelay().AsDuration()
	case *errdetails.BadRequest:
		for _, v := range detail.GetFieldViolations() {
			t.Field = v.GetField()
		}
	}
}

package server

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/jackc/pgx/v5/pgconn"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/server/auth"
	"freshet.example/store"
)

func TestEveryReasonHasAMeaning(t *testing.T) {
	for number := range freshetv1.ErrorReason_name {
		reason := freshetv1.ErrorReason(number)
		if reason == freshetv1.ErrorReason_ERROR_REASON_UNSPECIFIED {
			continue
		}
		m, ok := meanings[reason]
		if !ok || m.code == codes.OK || m.code == codes.Unknown || m.words == "" || m.hint == "" {
			t.Errorf("%s: %+v", reason, m)
		}
		if m.words != strings.TrimRight(m.words, ".") || strings.Contains(m.words, "error") {
			t.Errorf("%s: %q is no half sentence that a person would say", reason, m.words)
		}
	}
}

func TestErrorsBecomeTheContractsWords(t *testing.T) {
	for _, c := range []struct {
		err    error
		code   codes.Code
		reason string
		field  string
	}{
		{auth.ErrNoToken, codes.Unauthenticated, "UNAUTHENTICATED", ""},
		{fmt.Errorf("deep: %w", store.ErrRevoked), codes.Unauthenticated, "DEVICE_REVOKED", ""},
		{&auth.FieldError{Field: "site_id", Err: auth.ErrNotYours}, codes.PermissionDenied, "SITE_NOT_YOURS", "site_id"},
		{store.ErrLastSteward, codes.FailedPrecondition, "LAST_STEWARD", ""},
		{store.ErrInvitation, codes.PermissionDenied, "INVITATION_INVALID", ""},
		{quantity.Within("pH", 15, 0, 14, "", ""), codes.InvalidArgument, "OUT_OF_RANGE", ""},
		{refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LONG, "event.note.text", "", ""), codes.InvalidArgument, "TOO_LONG", "event.note.text"},
		{errStopping, codes.Unavailable, "UNAVAILABLE", ""},
		{&pgconn.PgError{Code: "57P01"}, codes.Unavailable, "UNAVAILABLE", ""},
		{context.DeadlineExceeded, codes.DeadlineExceeded, "UNAVAILABLE", ""},
		{io.ErrUnexpectedEOF, codes.Internal, "INTERNAL", ""},
		{errors.New(`syntax error near "Vaart"`), codes.Internal, "INTERNAL", ""},
	} {
		s := statusOf(c.err, "R1")
		info, violation := details(s)
		if s.Code() != c.code || info.GetReason() != c.reason || violation.GetField() != c.field {
			t.Errorf("%v: %s %s %q, want %s %s %q", c.err, s.Code(), info.GetReason(), violation.GetField(), c.code, c.reason, c.field)
		}
		if info.GetDomain() != "freshet" || info.GetMetadata()["hint"] == "" || info.GetMetadata()["request_id"] != "R1" {
			t.Errorf("%v: info %v", c.err, info)
		}
		if c.code == codes.Internal && strings.Contains(s.String(), c.err.Error()) {
			t.Errorf("what broke is told to the caller: %s", s)
		}
	}
}

func TestStatusesStayAsTheyAre(t *testing.T) {
	if got := statusOf(status.Error(codes.Unimplemented, "later"), "R1"); got.Code() != codes.Unimplemented || got.Message() != "later" {
		t.Errorf("%v", got)
	}
	if got := statusOf(fmt.Errorf("away: %w", context.Canceled), "R1"); got.Code() != codes.Canceled {
		t.Errorf("%v", got)
	}
}

func details(s *status.Status) (*errdetails.ErrorInfo, *errdetails.BadRequest_FieldViolation) {
	var info *errdetails.ErrorInfo
	var violation *errdetails.BadRequest_FieldViolation
	for _, detail := range s.Details() {
		switch d := detail.(type) {
		case *errdetails.ErrorInfo:
			info = d
		case *errdetails.BadRequest:
			violation = d.GetFieldViolations()[0]
		}
	}
	return info, violation
}

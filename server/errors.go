package server

import (
	"context"
	"errors"
	"strconv"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/durationpb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
	"freshet.example/server/analysis"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// errorDomain is the domain of ErrorInfo: reasons are the contract's.
const errorDomain = "freshet"

// A refusal says why a request cannot be done, in the contract's words.
type refusal struct {
	reason freshetv1.ErrorReason
	field  string // path of the field at fault: "event.reading.digits"; may be empty
	words  string // what is wrong; empty: what the reason says
	hint   string // what to do about it; empty: what the reason says
	held   bool   // an operation at fault is kept for review, not refused
	// Refused for now: when to try again; else 0.
	after time.Duration
	// The server's clock, where the device is to set itself by it; else 0.
	serverMs int64
}

// Error reads as one sentence.
func (r *refusal) Error() string {
	words := r.words
	if words == "" {
		words = meanings[r.reason].words
	}
	if r.field != "" {
		words = r.field + ": " + words
	}
	return words
}

// refuse makes a refusal; field, words and hint may be empty.
func refuse(reason freshetv1.ErrorReason, field, words, hint string) error {
	return &refusal{reason: reason, field: field, words: words, hint: hint}
}

// causes is the one table from the errors of the packages below to the
// contract's reasons.
var causes = []struct {
	err    error
	reason freshetv1.ErrorReason
}{
	{auth.ErrNoToken, freshetv1.ErrorReason_ERROR_REASON_UNAUTHENTICATED},
	{auth.ErrRevoked, freshetv1.ErrorReason_ERROR_REASON_DEVICE_REVOKED},
	{auth.ErrSignature, freshetv1.ErrorReason_ERROR_REASON_SIGNATURE_INVALID},
	{store.ErrReplayed, freshetv1.ErrorReason_ERROR_REASON_SIGNATURE_INVALID},
	{store.ErrOtherKey, freshetv1.ErrorReason_ERROR_REASON_SIGNATURE_INVALID},
	{auth.ErrRole, freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS},
	{auth.ErrNotYours, freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS},
	{auth.ErrMissing, freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING},
	{auth.ErrBadID, freshetv1.ErrorReason_ERROR_REASON_BAD_ID},
	{auth.ErrUnknown, freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD},
	{store.ErrUnknown, freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD},
	{store.ErrRevoked, freshetv1.ErrorReason_ERROR_REASON_DEVICE_REVOKED},
	{store.ErrLeft, freshetv1.ErrorReason_ERROR_REASON_MEMBER_LEFT},
	{store.ErrInvitation, freshetv1.ErrorReason_ERROR_REASON_INVITATION_INVALID},
	{store.ErrLastSteward, freshetv1.ErrorReason_ERROR_REASON_LAST_STEWARD},
	{store.ErrInstallTaken, freshetv1.ErrorReason_ERROR_REASON_INSTALL_COPIED},
	{store.ErrInstallCopied, freshetv1.ErrorReason_ERROR_REASON_INSTALL_COPIED},
	{store.ErrNotFounded, freshetv1.ErrorReason_ERROR_REASON_UNAVAILABLE},
	{errStopping, freshetv1.ErrorReason_ERROR_REASON_UNAVAILABLE},
}

// refusalOf finds the contract's words for an error; nil where it has none and
// something broke.
func refusalOf(err error) *refusal {
	if r, ok := errors.AsType[*refusal](err); ok {
		return r
	}
	for _, cause := range causes {
		if errors.Is(err, cause.err) {
			r := &refusal{reason: cause.reason}
			if about, ok := errors.AsType[*auth.FieldError](err); ok {
				r.field = about.Field
			}
			return r
		}
	}
	if store.IsForbidden(err) {
		return &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS}
	}
	if r := analysisRefusal(err); r != nil {
		return r
	}
	if outside, ok := errors.AsType[*quantity.RangeError](err); ok {
		return &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, words: outside.Error()}
	}
	if input, ok := errors.AsType[*formula.InputError](err); ok {
		return inputRefusal(input)
	}
	return nil
}

// analysisRefusal finds the contract's words for what package analysis says.
func analysisRefusal(err error) *refusal {
	if little, ok := errors.AsType[*analysis.TooLittleError](err); ok {
		return &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_TOO_LITTLE_RECORDED, words: little.What, hint: little.Hint}
	}
	if few, ok := errors.AsType[*analysis.TooFewError](err); ok {
		return &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_GROUP_TOO_SMALL, words: few.Error()}
	}
	if field, ok := errors.AsType[*analysis.FieldError](err); ok {
		return &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, field: field.Field, words: field.What}
	}
	return nil
}

// statusOf turns what a service returned into what the caller gets. A status
// stays as it is; an error without words of the contract is INTERNAL, and tells
// the caller no more than the request id under which the log has the rest.
func statusOf(err error, requestID string) *status.Status {
	if r := refusalOf(err); r != nil {
		return r.status(meanings[r.reason].code, requestID)
	}
	if errors.Is(err, context.Canceled) {
		return status.New(codes.Canceled, "the caller went away")
	}
	if errors.Is(err, context.DeadlineExceeded) {
		r := &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_UNAVAILABLE, words: "the answer took too long"}
		return r.status(codes.DeadlineExceeded, requestID)
	}
	if store.IsUnavailable(err) {
		r := &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_UNAVAILABLE}
		return r.status(codes.Unavailable, requestID)
	}
	if s, ok := status.FromError(err); ok {
		return s
	}
	r := &refusal{reason: freshetv1.ErrorReason_ERROR_REASON_INTERNAL}
	return r.status(codes.Internal, requestID)
}

func (r *refusal) status(code codes.Code, requestID string) *status.Status {
	s := status.New(code, r.Error())
	info := &errdetails.ErrorInfo{Reason: reasonName(r.reason), Domain: errorDomain,
		Metadata: map[string]string{"hint": r.hintOrDefault(), "request_id": requestID}}
	if r.serverMs != 0 {
		info.Metadata["server_ms"] = strconv.FormatInt(r.serverMs, 10)
	}
	if r.after > 0 {
		info.Metadata["retry_after_ms"] = strconv.FormatInt(r.after.Milliseconds(), 10)
		detailed, err := s.WithDetails(info, &errdetails.RetryInfo{RetryDelay: durationpb.New(r.after)})
		return orPlain(s, detailed, err)
	}
	if r.field == "" {
		detailed, err := s.WithDetails(info)
		return orPlain(s, detailed, err)
	}
	violation := &errdetails.BadRequest_FieldViolation{Field: r.field, Description: r.descriptionOnly(), Reason: info.Reason}
	detailed, err := s.WithDetails(info, &errdetails.BadRequest{FieldViolations: []*errdetails.BadRequest_FieldViolation{violation}})
	return orPlain(s, detailed, err)
}

func (r *refusal) hintOrDefault() string {
	if r.hint != "" {
		return r.hint
	}
	return meanings[r.reason].hint
}

func (r *refusal) descriptionOnly() string {
	without := *r
	without.field = ""
	return without.Error()
}

func orPlain(plain, detailed *status.Status, err error) *status.Status {
	if err != nil { // details that cannot be encoded; the code and the sentence still stand
		return plain
	}
	return detailed
}

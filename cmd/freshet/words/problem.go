// Package words turns what a person types into the contract's messages, and
// messages back into sentences: names into ids, "850g" into grams, "<0.25 ppm"
// into digits with a unit, "yesterday 18:00" into a moment.
package words

import (
	"errors"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
)

// A Problem says what cannot be understood and what to type instead. Reason is
// one of the contract's, so that the server's refusals and these read alike.
type Problem struct {
	Field  string // as typed or as in the contract; empty where it is about all of it
	Reason freshetv1.ErrorReason
	Words  string
	Hint   string
}

// Error gives what is wrong and what to do.
func (p *Problem) Error() string {
	s := p.Words
	if p.Field != "" {
		s = p.Field + ": " + s
	}
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	return s
}

// ReasonName is the reason without the enum's prefix: "OUT_OF_RANGE".
func (p *Problem) ReasonName() string {
	return strings.TrimPrefix(p.Reason.String(), "ERROR_REASON_")
}

func problem(field string, reason freshetv1.ErrorReason, words, hint string) error {
	return &Problem{field, reason, words, hint}
}

// The reasons that typing can have.
const (
	missing      = freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING
	outOfRange   = freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE
	tooLong      = freshetv1.ErrorReason_ERROR_REASON_TOO_LONG
	badText      = freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT
	badDate      = freshetv1.ErrorReason_ERROR_REASON_BAD_DATE
	unknownValue = freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE
	unitMismatch = freshetv1.ErrorReason_ERROR_REASON_UNIT_MISMATCH
	basisWrong   = freshetv1.ErrorReason_ERROR_REASON_BASIS_MISMATCH
	unknownName  = freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME
	unknownOne   = freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD
	malformed    = freshetv1.ErrorReason_ERROR_REASON_MALFORMED
	inTheFuture  = freshetv1.ErrorReason_ERROR_REASON_IN_THE_FUTURE
)

// some lists choices for a hint, the first few of many.
func some(choices []string) string {
	const most = 12
	if len(choices) > most {
		return strings.Join(choices[:most], ", ") + ", ..."
	}
	return strings.Join(choices, ", ")
}

// FieldOf is the field that an error is about; empty where it is none of ours.
func FieldOf(err error) string {
	var p *Problem
	if errors.As(err, &p) {
		return p.Field
	}
	return ""
}

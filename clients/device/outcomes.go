package device

import (
	"context"
	"errors"

	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

// errShort says that a push's answer does not cover all that was sent.
var errShort = errors.New("the answer is too short")

// Left is an entry that the cooperative did not store, for ever, with why.
type Left struct {
	Number    uint64
	Held      bool   // kept for a steward to settle; else refused
	Reason    string // a name of ErrorReason without its prefix
	Field     string // the field it is about, as a path
	Hint      string // what to do, in words
	Operation *freshetv1.Operation
}

// lasting tells whether an outcome says that the operation was not stored.
func lasting(o *freshetv1.Outcome) bool {
	return o.GetKind() == freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED ||
		o.GetKind() == freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW
}

func keepOutcome(ctx context.Context, q queryer, o *freshetv1.Outcome, op *freshetv1.Operation) error {
	if !lasting(o) {
		return nil
	}
	raw, err := proto.Marshal(op)
	if err != nil {
		return err
	}
	_, err = q.ExecContext(ctx, `INSERT OR REPLACE INTO outcomes VALUES (?,?,?,?,?,?)`,
		int64(o.GetNumber()), int(o.GetKind()), o.GetReason(), o.GetField(), o.GetHint(), raw)
	return err
}

// Left lists the entries that were refused or are held, oldest first.
func (d *Device) Left(ctx context.Context) ([]Left, error) {
	var list []Left
	err := each(ctx, d.db, `SELECT number, kind, reason, field, hint, operation, 1 AS later FROM outcomes
		UNION ALL SELECT number, kind, reason, field, hint, operation, 0 FROM former_outcomes ORDER BY later, number`, nil,
		func(scan func(...any) error) error {
			l, kind, raw, later := Left{Operation: &freshetv1.Operation{}}, int32(0), []byte(nil), false
			if err := scan(&l.Number, &kind, &l.Reason, &l.Field, &l.Hint, &raw, &later); err != nil {
				return err
			}
			l.Held = freshetv1.OutcomeKind(kind) == freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW
			if err := proto.Unmarshal(raw, l.Operation); err != nil {
				return err
			}
			list = append(list, l)
			return nil
		})
	return list, err
}

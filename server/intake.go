package server

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// An intake turns an upload into what the store keeps, one operation after the
// other; an operation at fault gets its lasting outcome and blocks no other.
type intake struct {
	*upload
	ctx      context.Context
	pushing  *store.Pushing
	caller   auth.Caller
	coop     uuid.UUID
	received time.Time
	rosters  *rosters
	records  map[uuid.UUID]roster     // by site; the nil uuid for the cooperative's
	made     map[uuid.UUID]madeRecord // by this push
	ledger   ledger
	push     store.Push
	pages    map[string]*freshetv1.Block
	changes  map[string]bool // scopes whose records are changed
	group    *group
}

// madeRecord is a record that this push makes.
type madeRecord struct {
	noun string
	site uuid.UUID
}

// group is operations that are stored whole or not at all.
type group struct {
	number  uint64
	members []member
	effects []func()
	undo    []func() // what looking at them has noted, should it not hold
	// fault is the gravest, of operation at: what is refused cannot be settled
	// by a steward, whatever else of its group could.
	fault *refusal
	at    uint64
}

type member struct {
	op    *freshetv1.Operation // as it came
	fault *refusal
}

// undoable keeps what takes back a note of an operation that was looked at. One
// that stands alone is stored once it was found good.
func (in *intake) undoable(undo func()) {
	if in.group != nil {
		in.group.undo = append(in.group.undo, undo)
	}
}

// run looks at every operation that has no outcome yet.
func (in *intake) run() (store.Push, error) {
	if len(in.parts) > 0 && in.first > in.pushing.Through+1 {
		return in.push, refuse(freshetv1.ErrorReason_ERROR_REASON_NUMBER_GAP, "operations",
			fmt.Sprintf("operation %d was expected, %d came", in.pushing.Through+1, in.first), "")
	}
	for _, p := range in.parts {
		if p.first+p.count-1 <= in.pushing.Through {
			continue
		}
		if err := in.part(p); err != nil {
			return in.push, err
		}
	}
	if err := in.closeGroup(); err != nil {
		return in.push, err
	}
	in.push.Through, in.push.ReceivedAt = in.last, in.received
	return in.push, in.closePages()
}

func (in *intake) part(p part) error {
	switch {
	case p.readings != nil:
		return in.readingColumns(p.readings)
	case p.feedings != nil:
		return in.feedingColumns(p.feedings)
	}
	return in.operation(p)
}

// operation looks at one operation, alone or in its group.
func (in *intake) operation(p part) error {
	op := p.operation
	if in.group != nil && in.group.number != op.GetGroup() {
		if err := in.closeGroup(); err != nil {
			return err
		}
	}
	if op.GetGroup() != 0 && in.group == nil {
		if op.GetGroup() != op.GetNumber() {
			return in.refuse(op, fault(freshetv1.ErrorReason_ERROR_REASON_GROUP_REFUSED, "group", "a group is sent in one push, its operations one after the other"))
		}
		in.group = &group{number: op.GetGroup()}
	}
	effect, wrong, err := in.look(settledAt(op, p.enteredMs))
	if err != nil {
		return err
	}
	if in.group == nil {
		return in.decide(op, effect, wrong)
	}
	in.group.take(op, effect, wrong)
	return nil
}

func (g *group) take(op *freshetv1.Operation, effect func(), wrong *refusal) {
	g.members = append(g.members, member{op, wrong})
	if wrong == nil {
		g.effects = append(g.effects, effect)
	} else if g.fault == nil || kindFor(g.fault) != kindFor(wrong) && kindFor(wrong) == freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED {
		g.fault, g.at = wrong, op.GetNumber()
	}
}

func (in *intake) decide(op *freshetv1.Operation, effect func(), wrong *refusal) error {
	if wrong != nil {
		return in.refuse(op, wrong)
	}
	effect()
	return nil
}

// closeGroup stores a group whole, or none of it.
func (in *intake) closeGroup() error {
	g := in.group
	in.group = nil
	if g == nil {
		return nil
	}
	if g.fault == nil {
		for _, effect := range g.effects {
			effect()
		}
		return nil
	}
	for _, undo := range slices.Backward(g.undo) {
		undo()
	}
	for _, m := range g.members {
		wrong := m.fault
		if wrong == nil {
			wrong = fault(freshetv1.ErrorReason_ERROR_REASON_GROUP_REFUSED, "", fmt.Sprintf("operation %d of its group was refused", g.at))
		}
		if err := in.outcome(m.op, wrong, kindFor(g.fault)); err != nil {
			return err
		}
	}
	return nil
}

// heldReasons are faults that a record still on another phone may mend: such
// operations wait for a steward.
var heldReasons = []freshetv1.ErrorReason{
	freshetv1.ErrorReason_ERROR_REASON_MORE_THAN_LIVED, freshetv1.ErrorReason_ERROR_REASON_BEFORE_ITS_CAUSE,
}

func kindFor(wrong *refusal) freshetv1.OutcomeKind {
	if wrong.held || slices.Contains(heldReasons, wrong.reason) {
		return freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW
	}
	return freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED
}

// refuse gives an operation its lasting outcome.
func (in *intake) refuse(op *freshetv1.Operation, wrong *refusal) error {
	return in.outcome(op, wrong, kindFor(wrong))
}

func (in *intake) outcome(op *freshetv1.Operation, wrong *refusal, kind freshetv1.OutcomeKind) error {
	as, err := proto.Marshal(op)
	if err != nil {
		return err
	}
	in.push.Outcomes = append(in.push.Outcomes, store.Outcome{
		Number: op.GetNumber(), Kind: int16(kind), Reason: reasonName(wrong.reason), Field: wrong.field,
		Hint: clipped(wrong.descriptionOnly() + "; " + wrong.hintOrDefault()), Operation: as, Scope: in.scopeOf(op),
	})
	return nil
}

// clipped keeps hints that quote what was sent from growing with it.
func clipped(text string) string {
	const most = 500
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "")
}

// scopeOf is where an operation would have gone.
func (in *intake) scopeOf(op *freshetv1.Operation) string {
	for _, text := range []string{op.GetEvent().GetSiteId(), op.GetEdit().GetSiteId(), op.GetRemoval().GetSiteId()} {
		if id, err := uuid.Parse(text); err == nil {
			return siteScope(id)
		}
	}
	return memberScope(in.caller.MemberID)
}

// page is the block of a scope that this push fills.
func (in *intake) page(scope string) *freshetv1.Block {
	if in.pages[scope] == nil {
		in.pages[scope] = &freshetv1.Block{Install: in.install[:], MemberId: in.caller.MemberID.String(), ReceivedMs: in.received.UnixMilli()}
	}
	return in.pages[scope]
}

func (in *intake) closePages() error {
	for scope, block := range in.pages {
		bytes, err := proto.Marshal(block)
		if err != nil {
			return err
		}
		n := len(block.Operations)
		for _, c := range block.Readings {
			n += int(c.GetCount())
		}
		for _, c := range block.Feedings {
			n += int(c.GetCount())
		}
		in.push.Pages = append(in.push.Pages, store.NewPage{Scope: scope, Block: bytes, Operations: n, Records: in.changes[scope]})
	}
	return nil
}

// id is what this operation makes.
func (in *intake) id(number uint64) uuid.UUID { return wire.ID(in.install, number) }

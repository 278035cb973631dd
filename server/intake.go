package server

import (
	"context"
	"fmt"
	"slices"
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
	pasts    map[uuid.UUID]*cohortPast
	begun    map[uuid.UUID]time.Time
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
	members []*freshetv1.Operation
	effects []func()
	fault   *refusal
	at      uint64 // the operation at fault
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
	return in.operation(p.operation)
}

// operation looks at one operation, alone or in its group.
func (in *intake) operation(op *freshetv1.Operation) error {
	if in.group != nil && in.group.number != op.GetGroup() {
		if err := in.closeGroup(); err != nil {
			return err
		}
	}
	if op.GetGroup() != 0 && in.group == nil {
		in.group = &group{number: op.GetGroup()}
	}
	in.settle(op)
	effect, wrong, err := in.look(op)
	if err != nil {
		return err
	}
	if in.group == nil {
		return in.decide(op, effect, wrong)
	}
	in.group.members = append(in.group.members, op)
	if wrong != nil && in.group.fault == nil {
		in.group.fault, in.group.at = wrong, op.GetNumber()
	}
	if effect != nil {
		in.group.effects = append(in.group.effects, effect)
	}
	return nil
}

func (in *intake) decide(op *freshetv1.Operation, effect func(), wrong *refusal) error {
	if wrong != nil {
		return in.refuse(op, wrong)
	}
	effect()
	return nil
}

// closeGroup stores a group whole, or refuses all of it.
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
	for _, op := range g.members {
		wrong := g.fault
		if op.GetNumber() != g.at {
			wrong = fault(freshetv1.ErrorReason_ERROR_REASON_GROUP_REFUSED, "", fmt.Sprintf("operation %d of its group was refused", g.at))
		}
		if err := in.refuse(op, wrong); err != nil {
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

// refuse gives an operation its lasting outcome.
func (in *intake) refuse(op *freshetv1.Operation, wrong *refusal) error {
	kind := freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED
	if slices.Contains(heldReasons, wrong.reason) {
		kind = freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW
	}
	bytes, err := proto.Marshal(op)
	if err != nil { // text that is not UTF-8 cannot be encoded again; the outcome still lasts
		bytes = nil
	}
	in.push.Outcomes = append(in.push.Outcomes, store.Outcome{
		Number: op.GetNumber(), Kind: int16(kind), Reason: reasonName(wrong.reason), Field: wrong.field,
		Hint: clipped(wrong.descriptionOnly() + "; " + wrong.hintOrDefault()), Operation: bytes, Scope: in.scopeOf(op),
	})
	return nil
}

// clipped keeps hints that quote what was sent from growing with it.
func clipped(text string) string {
	if len(text) > 500 {
		return text[:500]
	}
	return text
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

// settle replaces the device's wall clock by the time the server settles on:
// counted back from now by the monotonic clock within one boot, else by the
// wall clock as far as it goes wrong now, and never more than two minutes ahead.
func (in *intake) settle(op *freshetv1.Operation) {
	if op.Noted == nil {
		op.Noted = &freshetv1.Noted{WallMs: in.received.UnixMilli()}
		return
	}
	op.Noted.WallMs = in.settled(op.Noted)
}

func (in *intake) settled(noted *freshetv1.Noted) int64 {
	received, wall := in.received.UnixMilli(), noted.GetWallMs()
	if in.now != nil {
		if noted.GetBootId() != 0 && noted.GetBootId() == in.now.GetBootId() && noted.GetMonotonicMs() <= in.now.GetMonotonicMs() {
			return received - (in.now.GetMonotonicMs() - noted.GetMonotonicMs())
		}
		wall += received - in.now.GetWallMs()
	}
	return min(wall, received+2*time.Minute.Milliseconds())
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

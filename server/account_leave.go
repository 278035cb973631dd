package server

import (
	"context"
	"slices"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// Leave ends the caller's membership and erases what is theirs. What stays is
// what others need: measured numbers at sites that others keep, without a name.
func (a *accountService) Leave(ctx context.Context, in *freshetv1.LeaveRequest) (*freshetv1.LeaveResponse, error) {
	caller, err := callerOf(ctx)
	if err != nil {
		return nil, err
	}
	if in.GetOnlyAsk() {
		l, err := a.store.Leaving(ctx)
		return leaveResponse(l), err
	}
	account, err := a.store.Account(ctx, caller.MemberID)
	if err != nil {
		return nil, err
	}
	switch in.GetDisplayName() {
	case account.DisplayName:
	case "":
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "display_name", "", "type your name as the co-op knows it")
	default:
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_NAME, "display_name", "it is not your name in this co-op", "type it as the co-op knows it, or leave nothing erased")
	}
	l, err := a.store.Leave(ctx, func(block []byte) ([]byte, int, error) { return withoutMember(block, caller.MemberID) })
	a.hints.allowed()
	return leaveResponse(l), err
}

func leaveResponse(l store.Leaving) *freshetv1.LeaveResponse {
	return &freshetv1.LeaveResponse{ErasedSiteIds: texts(l.Erased), StayingSiteIds: texts(l.Staying)}
}

func texts(ids []uuid.UUID) []string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = id.String()
	}
	return list
}

// withoutMember makes a block of the feed into one that names nobody: entries
// of the house go, free words are emptied, numbers stay.
func withoutMember(raw []byte, member uuid.UUID) (rewritten []byte, operations int, err error) {
	block := &freshetv1.Block{}
	if err := proto.Unmarshal(raw, block); err != nil {
		return nil, 0, err
	}
	if block.GetMemberId() == member.String() {
		block.MemberId = uuid.Nil.String()
		block.Operations = slices.DeleteFunc(block.Operations, func(op *freshetv1.Operation) bool { return ofHouse(op.GetEvent()) })
		for _, op := range block.GetOperations() {
			silence(op.GetEvent())
		}
	}
	operations = len(block.GetOperations())
	for _, c := range block.GetReadings() {
		operations += int(c.GetCount())
	}
	for _, c := range block.GetFeedings() {
		operations += int(c.GetCount())
	}
	rewritten, err = proto.Marshal(block)
	return rewritten, operations, err
}

func ofHouse(e *freshetv1.Event) bool {
	noun, _, _ := kindOf(e)
	return store.IsHouse(noun)
}

// silence empties the free words of an event, and of what a correction put in
// the place of another; a replacement of the house goes, so that it voids.
func silence(e *freshetv1.Event) {
	_, body, ok := kindOf(e)
	if !ok {
		return
	}
	for _, name := range store.FreeWords {
		if field := body.Descriptor().Fields().ByName(protoreflect.Name(name)); field != nil {
			body.Clear(field)
		}
	}
	c := e.GetCorrection()
	if ofHouse(c.GetReplacement()) {
		c.Replacement = nil
	}
	if c.GetReplacement() != nil {
		silence(c.Replacement)
	}
}

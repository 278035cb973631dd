package server

import (
	"context"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/auth"
	"freshet.example/store"
)

// schemaRelease is the newest schema this server knows.
const schemaRelease = 2

// syncService is the only way growers' records change.
type syncService struct {
	freshetv1.UnimplementedSyncServiceServer
	store   *store.Store
	now     func() time.Time
	rosters *rosters
	hints   *hints
	// again asks whether the caller of a context may still make a call.
	again func(ctx context.Context, method string) (context.Context, error)
	// turn is the caller's to work, for streams; unary calls have one.
	turn func(ctx context.Context) (done func(), err error)
}

func newSync(st *store.Store, now func() time.Time, hints *hints, again func(context.Context, string) (context.Context, error),
	turn func(context.Context) (func(), error)) *syncService {
	return &syncService{store: st, now: now, rosters: newRosters(), hints: hints, again: again, turn: turn}
}

// caller is set by the interceptors before any call arrives here.
func caller(ctx context.Context) auth.Caller {
	c, _ := auth.CallerFrom(ctx)
	return c
}

// scopes are those the caller may read.
func (s *syncService) scopes(ctx context.Context, who auth.Caller) ([]string, error) {
	list := []string{coopScope, memberScope(who.MemberID)}
	for _, site := range who.SiteIDs {
		list = append(list, siteScope(site), houseScope(site))
	}
	open, err := s.store.OpenSites(ctx)
	for _, site := range open {
		if !who.At(site) {
			list = append(list, siteScope(site))
		}
	}
	return list, err
}

// Hello opens a device's contact.
func (s *syncService) Hello(ctx context.Context, in *freshetv1.HelloRequest) (*freshetv1.HelloResponse, error) {
	install, err := wire.ParseInstall(in.GetInstall())
	if err != nil {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "install", err.Error(), "")
	}
	who := caller(ctx)
	cooperative, err := s.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	state, err := s.store.InstallState(ctx, store.PushedBy{Install: store.Install(install), MemberID: who.MemberID, DeviceID: who.DeviceID})
	if err != nil {
		return nil, err
	}
	out := &freshetv1.HelloResponse{
		CooperativeId: cooperative.ID.String(), MemberId: who.MemberID.String(), ServerMs: s.now().UnixMilli(),
		ThroughNumber: state.Through, BackedUpNumber: state.BackedUp, Epoch: cooperative.Epoch, Schema: schemaRelease, Mark: state.Mark,
	}
	if in.GetBrief() {
		return out, nil
	}
	scopes, err := s.scopes(ctx, who)
	if err != nil {
		return nil, err
	}
	heads, err := s.store.Heads(ctx, scopes)
	for _, h := range heads {
		out.Scopes = append(out.Scopes, cursorOf(h, cooperative.Epoch))
	}
	return out, err
}

// Push stores operations and gives each its lasting outcome.
func (s *syncService) Push(ctx context.Context, in *freshetv1.PushRequest) (*freshetv1.PushResponse, error) {
	if proto.Size(in) > maxPushBytes {
		return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_TOO_LARGE, "", "a push holds at most 1 MiB", "")
	}
	u, err := readUpload(in)
	if err != nil {
		return nil, err
	}
	cooperative, err := s.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	who, received := caller(ctx), s.now()
	u.settle(received)
	out := &freshetv1.PushResponse{ServerMs: received.UnixMilli()}
	pushed, err := s.store.Push(ctx, u.pushedBy(who), func(ctx context.Context, p *store.Pushing) (store.Push, error) {
		took := &intake{
			upload: u, ctx: ctx, pushing: p, caller: current(who, p), coop: cooperative.ID, received: received, rosters: s.rosters,
			records: map[uuid.UUID]roster{}, made: map[uuid.UUID]madeRecord{}, ledger: newLedger(),
			pages: map[string]*freshetv1.Block{}, changes: map[string]bool{},
		}
		push, err := took.run()
		if err != nil {
			return push, err
		}
		return push, took.answer(out)
	})
	if err != nil {
		return nil, err
	}
	s.hints.moved(pushed.Moved, cooperative.Epoch)
	return out, nil
}

// answer fills in what became of every operation of the upload, those with an
// outcome of an earlier push too.
func (in *intake) answer(out *freshetv1.PushResponse) error {
	out.ThroughNumber, out.Outcomes = max(in.pushing.Through, in.last), nil
	if len(in.parts) == 0 {
		return nil
	}
	earlier, err := in.pushing.OutcomesBetween(in.ctx, in.first, in.last)
	for _, o := range append(earlier, in.push.Outcomes...) {
		out.Outcomes = append(out.Outcomes, &freshetv1.Outcome{
			Number: o.Number, Kind: freshetv1.OutcomeKind(o.Kind), Reason: o.Reason, Field: o.Field, Hint: o.Hint,
		})
	}
	out.SameAsBeforeCount = uint32(min(max(in.pushing.Through+1, in.first), in.last+1) - in.first)       // #nosec G115 -- at most 5000
	out.StoredCount = uint32(in.last-in.first+1) - out.SameAsBeforeCount - uint32(len(in.push.Outcomes)) // #nosec G115 -- at most 5000
	return err
}

// current is the caller with role and sites as they are within the transaction.
func current(who auth.Caller, p *store.Pushing) auth.Caller {
	who.Role, who.SiteIDs = freshetv1.Role(p.Role), p.Sites
	return who
}

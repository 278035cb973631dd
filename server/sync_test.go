package server_test

import (
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/server/servertest"
)

// hand is a grower with one device at one small site, who pushes by hand.
type hand struct {
	t       testing.TB
	p       *servertest.Person
	install wire.Install
	next    uint64

	site, system, tank, bed, cohort, planting string
}

func newHand(t testing.TB, p *servertest.Person) *hand {
	return &hand{t: t, p: p, install: wire.NewInstall(), next: 1}
}

// settled is a grower whose site has one of each thing that events name.
func settled(t testing.TB, s *servertest.Server) *hand {
	t.Helper()
	h := newHand(t, s.Join(freshetv1.Role_ROLE_GROWER, "Tomas"))
	h.settleIn()
	return h
}

func (h *hand) settleIn() {
	h.t.Helper()
	h.site = h.makes(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: "Barn", TimeZone: "Europe/Lisbon"}}})
	h.system = h.makes(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Loop"}}})
	h.tank = h.makes(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{
		SystemId: h.system, Name: "Tank", Kind: freshetv1.VesselKind_VESSEL_KIND_FISH_TANK, VolumeL: 800}}})
	h.bed = h.makes(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Bed{Bed: &freshetv1.Bed{Name: "East", Kind: freshetv1.BedKind_BED_KIND_MEDIA}}})
	h.cohort = h.makes(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Cohort{Cohort: &freshetv1.Cohort{
		Name: "Spring", Species: "nile_tilapia", SystemId: h.system}}})
	h.planting = h.makes(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Planting{Planting: &freshetv1.Planting{Crop: "tomato", BedId: h.bed}}})
}

// another is a second device of the same person, at the same site.
func (h *hand) another(s *servertest.Server) *hand {
	other := *h
	other.p = s.Invited(h.p, freshetv1.Role_ROLE_UNSPECIFIED, "Tomas")
	other.install, other.next = wire.NewInstall(), 1
	return &other
}

func (h *hand) id(number uint64) string { return wire.ID(h.install, number).String() }

// edit is the next operation; without a record id it makes one.
func (h *hand) edit(e *freshetv1.Edit) *freshetv1.Operation {
	op := h.operation()
	if e.RecordId == "" {
		e.RecordId = h.id(op.Number)
	}
	if e.Fields == nil {
		e.Fields = &fieldmaskpb.FieldMask{}
		m := e.ProtoReflect()
		record := m.Get(m.WhichOneof(m.Descriptor().Oneofs().ByName("record"))).Message()
		for i := range record.Descriptor().Fields().Len() {
			if f := record.Descriptor().Fields().Get(i); record.Has(f) {
				e.Fields.Paths = append(e.Fields.Paths, string(f.Name()))
			}
		}
	}
	op.Change = &freshetv1.Operation_Edit{Edit: e}
	return op
}

func (h *hand) makes(e *freshetv1.Edit) string {
	h.t.Helper()
	op := h.edit(e)
	h.stores(op)
	return h.id(op.Number)
}

func (h *hand) operation() *freshetv1.Operation {
	op := &freshetv1.Operation{Number: h.next, Noted: &freshetv1.Noted{WallMs: time.Now().UnixMilli()}}
	h.next++
	return op
}

// event is the next operation, an hour ago at the own site where e does not say.
func (h *hand) event(e *freshetv1.Event) *freshetv1.Operation {
	op := h.operation()
	if e.SiteId == "" {
		e.SiteId = h.site
	}
	if e.OccurredAt == nil {
		e.OccurredAt = timestamppb.New(time.Now().Add(-time.Hour))
	}
	op.Change = &freshetv1.Operation_Event{Event: e}
	return op
}

func (h *hand) ph(digits int64) *freshetv1.Operation {
	return h.event(&freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{Quantity: freshetv1.Quantity_QUANTITY_PH,
		Digits: digits, Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE, PlaceId: h.tank}}})
}

func (h *hand) stocking(count uint32) *freshetv1.Operation {
	return h.event(&freshetv1.Event{Kind: &freshetv1.Event_Stocking{Stocking: &freshetv1.Stocking{CohortId: h.cohort, Count: count}}})
}

func (h *hand) death(count uint32) *freshetv1.Operation {
	return h.event(&freshetv1.Event{Kind: &freshetv1.Event_Death{Death: &freshetv1.Death{CohortId: h.cohort, Count: count}}})
}

func (h *hand) try(ops ...*freshetv1.Operation) (*freshetv1.PushResponse, error) {
	return h.p.Sync.Push(context.Background(), &freshetv1.PushRequest{Install: h.install[:], Operations: ops,
		Noted: &freshetv1.Noted{WallMs: time.Now().UnixMilli()}})
}

func (h *hand) push(ops ...*freshetv1.Operation) *freshetv1.PushResponse {
	h.t.Helper()
	out, err := h.try(ops...)
	if err != nil {
		h.t.Fatalf("push: %v", err)
	}
	return out
}

// stores pushes operations that are all to be stored.
func (h *hand) stores(ops ...*freshetv1.Operation) {
	h.t.Helper()
	out := h.push(ops...)
	if len(out.GetOutcomes()) > 0 || int(out.GetStoredCount()) != len(ops) {
		h.t.Fatalf("push of %d stored %d: %v", len(ops), out.GetStoredCount(), out.GetOutcomes())
	}
}

// pulled is all that a person can read, by scope.
type pulled struct {
	blocks  map[string][]*freshetv1.Block
	heads   map[string]*freshetv1.Cursor
	count   map[string]uint64 // as the server says
	gone    []string
	reset   []string
	ordered bool
}

func pull(t testing.TB, p *servertest.Person, in *freshetv1.PullRequest) *pulled {
	t.Helper()
	stream, err := p.Sync.Pull(context.Background(), in)
	if err != nil {
		t.Fatal(err)
	}
	got := &pulled{blocks: map[string][]*freshetv1.Block{}, heads: map[string]*freshetv1.Cursor{}, count: map[string]uint64{}, ordered: true}
	caughtUp := false
	for {
		step, err := stream.Recv()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if caughtUp {
			t.Error("a step after caught_up")
		}
		caughtUp = got.take(t, step)
	}
	if !caughtUp {
		t.Error("the pull ended without caught_up")
	}
	return got
}

func (g *pulled) take(t testing.TB, step *freshetv1.PullResponse) (caughtUp bool) {
	t.Helper()
	g.gone = append(g.gone, step.GetScopeGone().GetScope())
	g.reset = append(g.reset, step.GetScopeReset().GetScope())
	if page := step.GetPage(); page != nil {
		g.pages(t, page.GetCursor(), [][]byte{page.GetBlock()})
	}
	if pages := step.GetPages(); pages != nil {
		g.pages(t, pages.GetCursor(), unpacked(t, pages))
	}
	for _, d := range step.GetCaughtUp().GetDigests() {
		g.heads[d.GetCursor().GetScope()] = d.GetCursor()
		g.count[d.GetCursor().GetScope()] = d.GetOperationsCount()
	}
	return step.GetCaughtUp() != nil
}

func (g *pulled) pages(t testing.TB, to *freshetv1.Cursor, encoded [][]byte) {
	t.Helper()
	for _, raw := range encoded {
		block := &freshetv1.Block{}
		if err := proto.Unmarshal(raw, block); err != nil {
			t.Fatal(err)
		}
		g.blocks[to.GetScope()] = append(g.blocks[to.GetScope()], block)
	}
	before := g.heads[to.GetScope()]
	g.ordered = g.ordered && (before == nil || to.GetSequence() == before.GetSequence()+uint64(len(encoded)))
	g.heads[to.GetScope()] = to
}

// operations of a scope, rows only.
func (g *pulled) operations(scope string) (ops []*freshetv1.Operation) {
	for _, block := range g.blocks[scope] {
		ops = append(ops, block.GetOperations()...)
	}
	return ops
}

func TestHelloTellsWhereADeviceStands(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	hello := func(h *hand) *freshetv1.HelloResponse {
		out, err := h.p.Sync.Hello(context.Background(), &freshetv1.HelloRequest{Install: h.install[:], Schema: 1})
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	out := hello(h)
	if out.GetThroughNumber() != h.next-1 || out.GetMemberId() != h.p.MemberID || out.GetEpoch() != 1 || out.GetSchema() == 0 {
		t.Errorf("hello: %v", out)
	}
	if d := time.Since(time.UnixMilli(out.GetServerMs())); d < -time.Minute || d > time.Minute {
		t.Errorf("the server's clock is off by %v", d)
	}
	scopes := map[string]uint64{}
	for _, c := range out.GetScopes() {
		scopes[c.GetScope()] = c.GetSequence()
	}
	if len(scopes) != 4 || scopes["site:"+h.site] != 6 {
		t.Errorf("scopes: %v", scopes)
	}
	if fresh := hello(newHand(t, h.p)); fresh.GetThroughNumber() != 0 {
		t.Errorf("an install never heard of is through %d", fresh.GetThroughNumber())
	}
	stolen := newHand(t, s.Join(freshetv1.Role_ROLE_GROWER, "Rui"))
	stolen.install = h.install
	if _, err := stolen.p.Sync.Hello(context.Background(), &freshetv1.HelloRequest{Install: h.install[:]}); reasonOf(err) != "INSTALL_COPIED" {
		t.Errorf("hello of another's install: %v", err)
	}
	if _, err := stolen.try(stolen.operation()); reasonOf(err) != "INSTALL_COPIED" {
		t.Errorf("push of another's install: %v", err)
	}
}

func TestARepeatedPushHasTheSameOutcome(t *testing.T) {
	h := settled(t, servertest.New(t))
	ops := []*freshetv1.Operation{h.ph(70), h.ph(150), h.ph(71)}
	first := h.push(ops...)
	again := h.push(append(ops, h.ph(72))...)
	if first.GetStoredCount() != 2 || first.GetSameAsBeforeCount() != 0 || len(first.GetOutcomes()) != 1 {
		t.Errorf("first: %v", first)
	}
	if again.GetStoredCount() != 1 || again.GetSameAsBeforeCount() != 3 || again.GetThroughNumber() != h.next-1 {
		t.Errorf("again: %v", again)
	}
	if len(again.GetOutcomes()) != 1 || !proto.Equal(first.GetOutcomes()[0], again.GetOutcomes()[0]) {
		t.Errorf("outcomes %v and again %v", first.GetOutcomes(), again.GetOutcomes())
	}
	if n := len(pull(t, h.p, &freshetv1.PullRequest{}).operations("site:" + h.site)); n != 6+3 {
		t.Errorf("%d operations in the feed, want 9", n)
	}
}

func TestNumbersRunOnWithoutGaps(t *testing.T) {
	h := settled(t, servertest.New(t))
	for name, ops := range map[string][]*freshetv1.Operation{
		"gap to what is there": {numbered(h.ph(70), h.next+1)},
		"gap within":           {numbered(h.ph(70), h.next), numbered(h.ph(70), h.next+2)},
		"one twice":            {numbered(h.ph(70), h.next), numbered(h.ph(70), h.next)},
		"nought":               {numbered(h.ph(70), 0)},
		"no room left":         {numbered(h.ph(70), 1<<63)},
	} {
		if _, err := h.try(ops...); reasonOf(err) != "NUMBER_GAP" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if n := len(pull(t, h.p, &freshetv1.PullRequest{}).operations("site:" + h.site)); n != 6 {
		t.Errorf("%d operations in the feed, want 6", n)
	}
}

func numbered(op *freshetv1.Operation, number uint64) *freshetv1.Operation {
	op.Number = number
	return op
}

func TestAPushIsBounded(t *testing.T) {
	h := settled(t, servertest.New(t))
	var many []*freshetv1.Operation
	for range 5001 {
		many = append(many, &freshetv1.Operation{Number: h.next})
		h.next++
	}
	if _, err := h.try(many...); reasonOf(err) != "TOO_LARGE" {
		t.Errorf("5001 operations: %v", err)
	}
	h.next -= 5001
	for _, size := range []int{1 << 20, 10 << 20} {
		long := h.event(&freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: strings.Repeat("a", size)}}})
		if _, err := h.try(long); reasonOf(err) != "TOO_LARGE" {
			t.Errorf("a text of %d bytes: %v", size, err)
		}
		h.next--
	}
	h.stores(h.ph(70))
}

func TestGroupsAreStoredWholeOrNotAtAll(t *testing.T) {
	h := settled(t, servertest.New(t))
	group := func(ops ...*freshetv1.Operation) []*freshetv1.Operation {
		for _, op := range ops {
			op.Group = ops[0].GetNumber()
		}
		return ops
	}
	h.stores(group(h.ph(70), h.ph(71))...)

	// A vessel is made in the group that fails, and named after it.
	vessel := h.edit(&freshetv1.Edit{SiteId: h.site, Record: &freshetv1.Edit_Vessel{Vessel: &freshetv1.Vessel{
		SystemId: h.system, Name: "Gone", Kind: freshetv1.VesselKind_VESSEL_KIND_SETTLER}}})
	ops := group(vessel, h.stocking(10), h.death(11), h.ph(150))
	naming := h.ph(72)
	naming.GetEvent().GetReading().PlaceId = h.id(vessel.GetNumber())
	out := h.push(append(ops, naming, h.death(1), h.ph(73))...)
	if out.GetStoredCount() != 1 {
		t.Errorf("stored %d, want the last alone", out.GetStoredCount())
	}
	want := []string{"GROUP_REFUSED", "GROUP_REFUSED", "MORE_THAN_LIVED", "OUT_OF_RANGE", "UNKNOWN_RECORD", "MORE_THAN_LIVED"}
	for i, o := range out.GetOutcomes() {
		held := i == 5
		if o.GetNumber() != ops[0].GetNumber()+uint64(i) || o.GetReason() != want[i] || (o.GetKind() == freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW) != held {
			t.Errorf("outcome %v, want %s, held: %v", o, want[i], held)
		}
	}
	if len(out.GetOutcomes()) != len(want) {
		t.Errorf("%d outcomes, want %d", len(out.GetOutcomes()), len(want))
	}
}

func TestAGroupIsNotSplitOverPushes(t *testing.T) {
	h := settled(t, servertest.New(t))
	first, second := h.ph(70), h.ph(71)
	first.Group, second.Group = first.GetNumber(), first.GetNumber()
	h.stores(first)
	out := h.push(second)
	if len(out.GetOutcomes()) != 1 || out.GetOutcomes()[0].GetReason() != "GROUP_REFUSED" {
		t.Errorf("the later half: %v", out.GetOutcomes())
	}
}

func TestPullGoesOnFromACursorAndBeginsAnewFromAForeignOne(t *testing.T) {
	h := settled(t, servertest.New(t))
	scope := "site:" + h.site
	all := pull(t, h.p, &freshetv1.PullRequest{})
	if len(all.operations(scope)) != 6 || all.count[scope] != 6 || !all.ordered {
		t.Fatalf("first pull: %d operations, %d by the digest", len(all.operations(scope)), all.count[scope])
	}
	h.stores(h.ph(70))
	rest := pull(t, h.p, &freshetv1.PullRequest{Cursors: []*freshetv1.Cursor{all.heads[scope]}})
	if got := rest.operations(scope); len(got) != 1 || got[0].GetNumber() != h.next-1 {
		t.Errorf("after the cursor: %v", got)
	}
	for name, change := range map[string]func(*freshetv1.Cursor){
		"another history": func(c *freshetv1.Cursor) { c.Chain[0]++ },
		"the future":      func(c *freshetv1.Cursor) { c.Sequence += 100 },
	} {
		c := proto.CloneOf(all.heads[scope])
		change(c)
		anew := pull(t, h.p, &freshetv1.PullRequest{Cursors: []*freshetv1.Cursor{c}})
		if len(anew.operations(scope)) != 7 || strings.Join(anew.reset, "") != scope {
			t.Errorf("cursor of %s: %d operations, reset %q", name, len(anew.operations(scope)), anew.reset)
		}
	}
	gone := pull(t, h.p, &freshetv1.PullRequest{Cursors: []*freshetv1.Cursor{{Scope: "site:" + wire.ID(h.install, 99).String(), Sequence: 3}}})
	if len(strings.Join(gone.gone, "")) != 41 {
		t.Errorf("a scope that may not be read: gone %q", gone.gone)
	}
}

func TestWhoReadsWhat(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	h.stores(h.event(&freshetv1.Event{Kind: &freshetv1.Event_Labour{Labour: &freshetv1.Labour{Minutes: 30}}}),
		h.edit(&freshetv1.Edit{RecordId: h.p.MemberID, Record: &freshetv1.Edit_Member{Member: &freshetv1.Member{DisplayName: "Tomas"}}}))
	reader := s.Join(freshetv1.Role_ROLE_READER, "Ana")
	readable := func(p *servertest.Person) (scopes []string) {
		for scope := range pull(t, p, &freshetv1.PullRequest{}).blocks {
			kind, _, _ := strings.Cut(scope, ":")
			scopes = append(scopes, kind)
		}
		return scopes
	}
	if got := readable(h.p); len(got) != 3 {
		t.Errorf("the grower reads %v", got)
	}
	for _, p := range []*servertest.Person{reader, s.Steward()} {
		if got := readable(p); len(got) != 0 {
			t.Errorf("%s reads %v", p.Role, got)
		}
	}
	_, err := h.p.Accounts.SetSharing(context.Background(), &freshetv1.SetSharingRequest{SiteId: h.site, Kind: "all", Sharing: freshetv1.Sharing_SHARING_OPEN})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []*servertest.Person{reader, s.Steward()} {
		if got := readable(p); len(got) != 1 || got[0] != "site" {
			t.Errorf("%s reads %v of an open site", p.Role, got)
		}
	}
}

func TestWatchHintsThatAScopeMoved(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	stream, err := h.p.Sync.Watch(ctx, &freshetv1.WatchRequest{Scopes: []string{"site:" + h.site}})
	if err != nil {
		t.Fatal(err)
	}
	first, err := stream.Recv()
	if err != nil || first.GetCursor().GetSequence() != 6 {
		t.Fatalf("where it stands: %v, %v", first, err)
	}
	other := h.another(s)
	other.stores(other.ph(70))
	hint, err := stream.Recv()
	if err != nil || hint.GetCursor().GetScope() != "site:"+h.site || hint.GetCursor().GetSequence() != 7 {
		t.Errorf("hint %v, %v", hint, err)
	}
}

func TestWatchAsksAgainWhatTheCallerMaySee(t *testing.T) {
	s := servertest.New(t)
	h := settled(t, s)
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	theo := s.Join(freshetv1.Role_ROLE_GROWER, "Theo")
	stream, err := theo.Sync.Watch(ctx, &freshetv1.WatchRequest{Scopes: []string{"site:" + h.site, "coop", "member:" + theo.MemberID}})
	if err != nil {
		t.Fatal(err)
	}
	next := newHand(t, theo)
	heard := func(what, scope string) {
		t.Helper()
		if hint, err := stream.Recv(); err != nil || hint.GetCursor().GetScope() != scope {
			t.Fatalf("%s: %v, %v", what, hint, err)
		}
	}
	mine := func(name string) {
		t.Helper()
		next.stores(next.edit(&freshetv1.Edit{RecordId: theo.MemberID, Record: &freshetv1.Edit_Member{Member: &freshetv1.Member{DisplayName: name}}}))
	}
	mine("Theo Lind")
	heard("his own settings", "member:"+theo.MemberID)
	share := func(as freshetv1.Sharing) {
		t.Helper()
		if _, err := h.p.Accounts.SetSharing(ctx, &freshetv1.SetSharingRequest{SiteId: h.site, Kind: "all", Sharing: as}); err != nil {
			t.Fatal(err)
		}
	}
	share(freshetv1.Sharing_SHARING_OPEN)
	heard("a site that was opened", "site:"+h.site)
	share(freshetv1.Sharing_SHARING_PRIVATE)
	h.stores(h.ph(71))
	mine("Theo L")
	heard("nothing more of a site that was closed", "member:"+theo.MemberID)
	if _, err := s.Steward().Accounts.RevokeDevice(ctx, &freshetv1.RevokeDeviceRequest{DeviceId: theo.DeviceID}); err != nil {
		t.Fatal(err)
	}
	if hint, err := stream.Recv(); reasonOf(err) != "DEVICE_REVOKED" {
		t.Errorf("after the device was ended: %v, %v", hint, err)
	}
}

// reasonOf is the contract's reason that an error carries.
func reasonOf(err error) string {
	for _, detail := range status.Convert(err).Details() {
		if info, ok := detail.(*errdetails.ErrorInfo); ok {
			return info.GetReason()
		}
	}
	return ""
}

// peek reads one value behind the server's back.
func peek[T any](t testing.TB, s *servertest.Server, sql string, arguments ...any) (value T) {
	t.Helper()
	conn, err := pgx.Connect(context.Background(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(context.Background())
	if err := conn.QueryRow(context.Background(), sql, arguments...).Scan(&value); err != nil {
		t.Fatal(err)
	}
	return value
}

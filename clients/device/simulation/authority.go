package simulation

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"maps"
	"slices"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/clients/device"
)

// An authority is the cooperative's server as the contract has it, in memory.
type authority struct {
	world    *world
	epoch    uint64
	feeds    map[string]*feed
	installs map[wire.Install]*install
	rights   map[string]map[string]bool // member, site: lives there
	open     map[string]bool            // sites that let all members read, but for what is of the house
	kept     *authority
}

// A feed is one scope's pages.
type feed struct {
	pages  []*freshetv1.Page
	blocks []*freshetv1.Block
	count  uint64
}

func (f *feed) head(scope string, epoch uint64) *freshetv1.Cursor {
	c := &freshetv1.Cursor{Scope: scope, Epoch: epoch}
	if n := len(f.pages); n > 0 {
		c.Sequence, c.Chain = f.pages[n-1].GetCursor().GetSequence(), f.pages[n-1].GetCursor().GetChain()
	}
	return c
}

type install struct {
	member   string
	through  uint64
	backedUp uint64
	mark     []byte
	outcomes []*freshetv1.Outcome
}

func newAuthority(w *world) *authority {
	return &authority{world: w, epoch: 1, feeds: map[string]*feed{}, installs: map[wire.Install]*install{}, rights: map[string]map[string]bool{}, open: map[string]bool{}}
}

// keep is a backup: what has an outcome now need not be kept by devices.
func (a *authority) keep() {
	a.kept = a.copied()
	for _, i := range a.installs {
		i.backedUp = i.through
	}
}

// copied shares pages, which never change.
func (a *authority) copied() *authority {
	c := newAuthority(a.world)
	c.epoch = a.epoch
	for scope, f := range a.feeds {
		c.feeds[scope] = &feed{pages: slices.Clone(f.pages), blocks: slices.Clone(f.blocks), count: f.count}
	}
	for id, i := range a.installs {
		own := *i
		own.outcomes = slices.Clone(i.outcomes)
		c.installs[id] = &own
	}
	for member, sites := range a.rights {
		c.rights[member] = maps.Clone(sites)
	}
	c.open = maps.Clone(a.open)
	return c
}

// restored is the authority as it was kept; unnoticed where nobody raises the epoch.
func (a *authority) restored(unnoticed bool) *authority {
	if a.kept == nil {
		return a
	}
	back := a.kept.copied()
	back.kept = a.kept
	for id, i := range back.installs {
		if now := a.installs[id]; now != nil { // the backup exists, whoever was told so
			i.backedUp = min(now.backedUp, i.through)
		}
	}
	if !unnoticed {
		back.epoch = a.epoch + 1
	}
	return back
}

// scopes are those that a member may read.
func (a *authority) scopes(member string) []string {
	scopes := []string{}
	for _, site := range a.world.sites {
		if a.rights[member][site] {
			scopes = append(scopes, houseOf(site))
		}
		if a.rights[member][site] || a.open[site] {
			scopes = append(scopes, scopeOf(site))
		}
	}
	slices.Sort(scopes)
	return scopes
}

func (a *authority) may(member, scope string) bool { return slices.Contains(a.scopes(member), scope) }

func scopeOf(site string) string { return "site:" + site }
func houseOf(site string) string { return "house:" + site }

// scopeOfEvent is where an event is filed: what is private goes to the house.
func scopeOfEvent(e *freshetv1.Event) string {
	if isPrivate(e) {
		return houseOf(e.GetSiteId())
	}
	return scopeOf(e.GetSiteId())
}

func isPrivate(e *freshetv1.Event) bool {
	switch e.GetKind().(type) {
	case *freshetv1.Event_Note, *freshetv1.Event_Labour, *freshetv1.Event_Expense:
		return true
	}
	return false
}

func (a *authority) hello(member string, in *freshetv1.HelloRequest) (*freshetv1.HelloResponse, error) {
	out := &freshetv1.HelloResponse{CooperativeId: "c", MemberId: member, ServerMs: a.world.now, Epoch: a.epoch, Schema: device.Schema}
	if i := a.installs[wire.Install(in.GetInstall())]; i != nil {
		out.ThroughNumber, out.BackedUpNumber, out.Mark = i.through, i.backedUp, i.mark
	}
	return out, nil
}

// pushing is a push being judged.
type pushing struct {
	*authority
	member   string
	received int64
	ahead    int64 // of the device's wall clock
	install  *install
	blocks   map[string]*freshetv1.Block
	counts   map[string]uint64
	stored   uint32
}

func (a *authority) push(member string, in *freshetv1.PushRequest) (*freshetv1.PushResponse, error) {
	id := wire.Install(in.GetInstall())
	i := a.installs[id]
	if i == nil {
		i = &install{member: member}
		a.installs[id] = i
	}
	if len(i.mark) > 0 && !bytes.Equal(i.mark, in.GetAfterMark()) && !bytes.Equal(i.mark, in.GetMark()) {
		return nil, errCopied
	}
	ops, err := operationsOf(in)
	if err != nil || len(ops) == 0 {
		return nil, status.Error(codes.InvalidArgument, "a push without operations")
	}
	p := &pushing{authority: a, member: member, received: a.world.now, ahead: in.GetNoted().GetWallMs() - a.world.now,
		install: i, blocks: map[string]*freshetv1.Block{}, counts: map[string]uint64{}}
	first, last := ops[0].GetNumber(), ops[len(ops)-1].GetNumber()
	if first > i.through+1 {
		return nil, status.Error(codes.InvalidArgument, "numbers are missing")
	}
	ops = slices.DeleteFunc(ops, func(op *freshetv1.Operation) bool {
		return op.GetNumber() <= i.through && (!a.world.fault("I2") || a.world.judged[keyOf(op.GetEvent())])
	})
	p.judge(ops)
	for _, scope := range slices.Sorted(maps.Keys(p.blocks)) {
		p.blocks[scope].Install, p.blocks[scope].MemberId, p.blocks[scope].ReceivedMs = in.GetInstall(), member, p.received
		a.append(scope, p.blocks[scope], p.counts[scope])
	}
	if last > i.through {
		i.through, i.mark = last, in.GetMark()
	}
	out := &freshetv1.PushResponse{ThroughNumber: max(i.through, last), StoredCount: p.stored, ServerMs: p.received}
	for _, o := range i.outcomes {
		if o.GetNumber() >= first && o.GetNumber() <= last {
			out.Outcomes = append(out.Outcomes, o)
		}
	}
	if a.world.fault("I14") && len(ops) == 0 {
		out.Outcomes = nil
	}
	return out, nil
}

// operationsOf are a push's operations as rows, by number.
func operationsOf(in *freshetv1.PushRequest) ([]*freshetv1.Operation, error) {
	ops, columns := slices.Clone(in.GetOperations()), slices.Clone(in.GetReadings())
	for _, dense := range in.GetDenseReadings() {
		c, err := wire.Plain(dense)
		if err != nil {
			return nil, err
		}
		columns = append(columns, c)
	}
	for _, c := range columns {
		err := wire.EachReading(c, func(r *wire.ReadingRow) error {
			ops = append(ops, &freshetv1.Operation{
				Number: r.Number, Noted: &freshetv1.Noted{WallMs: r.EnteredMs}, Change: &freshetv1.Operation_Event{Event: readingOf(r)},
			})
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	slices.SortFunc(ops, func(a, b *freshetv1.Operation) int { return cmp.Compare(a.GetNumber(), b.GetNumber()) })
	return ops, nil
}

// judge takes operations in turn, groups whole.
func (p *pushing) judge(ops []*freshetv1.Operation) {
	for len(ops) > 0 {
		end := 1
		for group := ops[0].GetGroup(); group != 0 && end < len(ops) && ops[end].GetGroup() == group; {
			end++
		}
		together := ops[:end]
		ops = ops[end:]
		var wrong *freshetv1.Outcome
		for _, op := range together {
			wrong = cmp.Or(wrong, p.wrong(op))
		}
		for _, op := range together {
			own := wrong
			if p.world.fault("I13") {
				own = p.wrong(op)
			}
			p.take(op, own)
		}
	}
}

// wrong says what keeps an operation from being stored: values out of range
// are refused, and what is about a site that the member has lost is held.
func (p *pushing) wrong(op *freshetv1.Operation) *freshetv1.Outcome {
	if !p.rights[p.member][siteOf(op)] {
		return &freshetv1.Outcome{Kind: freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW, Reason: "SITE_NOT_YOURS"}
	}
	if op.GetEvent().GetReading().GetDigits() > 140 {
		return &freshetv1.Outcome{Kind: freshetv1.OutcomeKind_OUTCOME_KIND_REFUSED, Reason: "OUT_OF_RANGE"}
	}
	return nil
}

func siteOf(op *freshetv1.Operation) string {
	if e := op.GetEvent(); e != nil {
		return e.GetSiteId()
	}
	return op.GetEdit().GetSiteId()
}

// take stores an operation, or keeps what is wrong with it.
func (p *pushing) take(op *freshetv1.Operation, wrong *freshetv1.Outcome) {
	if wrong != nil {
		outcome := proto.CloneOf(wrong)
		outcome.Number = op.GetNumber()
		if !p.world.fault("I1") {
			p.install.outcomes = append(p.install.outcomes, outcome)
			p.world.judged[keyOf(op.GetEvent())] = true
		}
		return
	}
	stored := proto.CloneOf(op)
	entered := min(op.GetNoted().GetWallMs()-p.ahead, p.received+ahead.Milliseconds())
	if p.world.fault("I12") {
		entered = op.GetNoted().GetWallMs()
	}
	stored.Noted = &freshetv1.Noted{WallMs: entered}
	if p.world.fault("I11") && stored.GetEvent() != nil {
		stored.GetEvent().ProtoReflect().SetUnknown(nil)
	}
	scope := scopeOf(siteOf(op))
	if e := op.GetEvent(); e != nil && !p.world.fault("I15") {
		scope = scopeOfEvent(e)
	}
	if p.blocks[scope] == nil {
		p.blocks[scope] = &freshetv1.Block{}
	}
	p.blocks[scope].Operations = append(p.blocks[scope].Operations, stored)
	p.counts[scope]++
	p.stored++
}

// ahead is how far a settled time may lie in the future.
const ahead = 2 * time.Minute

// append adds a page to a feed. Runs of readings are sent on as columns.
func (a *authority) append(scope string, block *freshetv1.Block, count uint64) {
	f := a.feeds[scope]
	if f == nil {
		f = &feed{}
		a.feeds[scope] = f
	}
	raw, err := proto.MarshalOptions{Deterministic: true}.Marshal(inColumns(block))
	if err != nil {
		a.world.broken("", "a block cannot be encoded: %v", err)
	}
	var before []byte
	sequence := uint64(len(f.pages)) + 1
	if n := len(f.pages); n > 0 {
		before = f.pages[n-1].GetCursor().GetChain()
	}
	if a.world.fault("I4") {
		sequence += uint64(len(f.pages)) % 2 // a number is given twice or left out
	}
	sum := sha256.Sum256(append(bytes.Clone(before), raw...))
	f.pages = append(f.pages, &freshetv1.Page{Block: raw, Cursor: &freshetv1.Cursor{Scope: scope, Epoch: a.epoch, Sequence: sequence, Chain: sum[:16]}})
	f.blocks = append(f.blocks, block)
	f.count += count
	a.world.checkFeed(scope, f)
}

// inColumns packs a block's readings, where they are many and nothing else, as
// the real server passes them on.
func inColumns(block *freshetv1.Block) *freshetv1.Block {
	rows := make([]wire.ReadingRow, 0, len(block.GetOperations()))
	for i, op := range block.GetOperations() {
		r := op.GetEvent().GetReading()
		if r == nil || op.GetGroup() != 0 || op.GetNumber() != block.GetOperations()[0].GetNumber()+uint64(i) {
			return block
		}
		rows = append(rows, rowOf(op))
	}
	if len(rows) < 8 {
		return block
	}
	return &freshetv1.Block{Install: block.GetInstall(), MemberId: block.GetMemberId(), ReceivedMs: block.GetReceivedMs(),
		Readings: []*freshetv1.ReadingColumns{wire.EncodeReadings(rows, &freshetv1.Noted{})}}
}

// pull is what a stream says from the caller's cursors on.
func (a *authority) pull(member string, in *freshetv1.PullRequest) []*freshetv1.PullResponse {
	var steps []*freshetv1.PullResponse
	may := a.scopes(member)
	from := map[string]uint64{}
	for _, c := range in.GetCursors() {
		f := a.feeds[c.GetScope()]
		switch {
		case !slices.Contains(may, c.GetScope()):
			steps = append(steps, &freshetv1.PullResponse{Step: &freshetv1.PullResponse_ScopeGone{ScopeGone: &freshetv1.ScopeGone{Scope: c.GetScope()}}})
		case c.GetSequence() == 0:
		case f == nil || c.GetSequence() > uint64(len(f.pages)) || !named(f.pages[c.GetSequence()-1].GetCursor(), c):
			steps = append(steps, &freshetv1.PullResponse{Step: &freshetv1.PullResponse_ScopeReset{ScopeReset: &freshetv1.ScopeReset{Scope: c.GetScope()}}})
		default:
			from[c.GetScope()] = c.GetSequence()
		}
	}
	done := &freshetv1.CaughtUp{}
	for _, scope := range may {
		f := a.feeds[scope]
		if f == nil {
			continue
		}
		pages, count := f.pages, f.count
		if n := len(pages); a.world.fault("I3") && n > 1 {
			pages, count = pages[:n-1], count-uint64(len(f.blocks[n-1].GetOperations()))
		}
		pages, moved := pages[min(int(from[scope]), len(pages)):], (&feed{pages: pages}).head(scope, a.epoch)
		if in.GetSchema() > 1 {
			steps = append(steps, a.inPages(pages)...)
		} else {
			steps = append(steps, a.oneByOne(pages)...)
		}
		if len(pages) > 0 || in.GetSchema() < 2 {
			done.Digests = append(done.Digests, &freshetv1.ScopeDigest{Cursor: moved, OperationsCount: count})
		}
	}
	return append(steps, &freshetv1.PullResponse{Step: &freshetv1.PullResponse_CaughtUp{CaughtUp: done}})
}

// named tells whether a question's cursor is ours.
func named(ours, asked *freshetv1.Cursor) bool {
	return len(asked.GetChain()) >= 8 && bytes.HasPrefix(ours.GetChain(), asked.GetChain())
}

// at is a page's cursor as it is now: a restore raises the epoch of all.
func (a *authority) at(page *freshetv1.Page) *freshetv1.Cursor {
	at := proto.CloneOf(page.GetCursor())
	at.Epoch = a.epoch
	return at
}

func (a *authority) oneByOne(pages []*freshetv1.Page) (steps []*freshetv1.PullResponse) {
	for _, page := range pages {
		steps = append(steps, &freshetv1.PullResponse{Step: &freshetv1.PullResponse_Page{Page: &freshetv1.Page{Cursor: a.at(page), Block: page.GetBlock()}}})
	}
	return steps
}

// inPages are steps of three pages each, so that lines break between and after them.
func (a *authority) inPages(pages []*freshetv1.Page) (steps []*freshetv1.PullResponse) {
	for some := range slices.Chunk(pages, 3) {
		step := &freshetv1.Pages{Cursor: a.at(some[len(some)-1])}
		for _, page := range some {
			step.Blocks = append(step.Blocks, page.GetBlock())
		}
		steps = append(steps, &freshetv1.PullResponse{Step: &freshetv1.PullResponse_Pages{Pages: step}})
	}
	return steps
}

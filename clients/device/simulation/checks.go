package simulation

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/clients/device"
	"freshet.example/husbandry/fish"
)

// name says which entry a time stands for.
func (w *world) name(key int64) string {
	e := w.entries[key]
	if e == nil {
		return fmt.Sprintf("of %d, which nobody noted", key)
	}
	return fmt.Sprintf("%d (%s)", key, device.EventKind(e.event))
}

// tookCursors looks at what a device says it has: rows up to a cursor must be there.
func (p *party) tookCursors(ctx context.Context, in *freshetv1.PullRequest) {
	p.cursor = map[string]uint64{}
	for _, c := range in.GetCursors() {
		f := p.world.auth.feeds[c.GetScope()]
		if f != nil && c.GetSequence() <= uint64(len(f.pages)) && c.GetSequence() > 0 && named(f.pages[c.GetSequence()-1].GetCursor(), c) {
			p.cursor[c.GetScope()] = c.GetSequence()
		}
	}
	_ = p.look(ctx) // a device that cannot be read fails at its next step
}

// told notes what a stream says.
func (p *party) told(step *freshetv1.PullResponse) {
	switch s := step.GetStep().(type) {
	case *freshetv1.PullResponse_Page:
		p.came(s.Page.GetCursor())
	case *freshetv1.PullResponse_Pages:
		p.came(s.Pages.GetCursor())
	case *freshetv1.PullResponse_ScopeGone:
		p.gone[s.ScopeGone.GetScope()] = true
		delete(p.cursor, s.ScopeGone.GetScope())
	case *freshetv1.PullResponse_ScopeReset:
		p.reset = true
		delete(p.cursor, s.ScopeReset.GetScope())
	}
}

func (p *party) came(to *freshetv1.Cursor) {
	p.cursor[to.GetScope()] = to.GetSequence()
	p.sure[to.GetScope()] = false // it has come back
}

// rows are the entries up to the device's cursors: they must be there.
func (p *party) rows() map[int64]bool {
	found := map[int64]bool{}
	for scope, sequence := range p.cursor {
		f := p.world.auth.feeds[scope]
		read := &feed{blocks: f.blocks[:min(int(sequence), len(f.blocks))]} //nolint:gosec // small
		for _, e := range read.inOrder() {
			found[keyOf(e)] = true
		}
	}
	return found
}

// missing says which promise an entry breaks that is not shown.
func (p *party) missing(key int64, isRow bool) {
	name := p.world.name(key)
	switch {
	case isRow && p.seen[key]:
		p.world.broken("I7", "device %d showed entry %s before, and does no more", p.index, name)
	case isRow:
		p.world.broken("I5", "the cursors of device %d are beyond entry %s, which it lacks", p.index, name)
	case p.reset:
	case p.gone[scopeOfEvent(p.world.entries[key].event)]: // out of sight; that it is not lost is seen at the end
	case p.own[key] && !p.world.auth.has(key) && !p.world.judged[key]:
		p.world.broken("I1", "entry %s of device %d is nowhere", name, p.index)
	case p.own[key]:
		p.world.broken("I6", "device %d noted entry %s and shows it no more", p.index, name)
	default:
		p.world.broken("I7", "device %d showed entry %s before, and does no more", p.index, name)
	}
}

// look is what must hold whenever somebody looks at the device.
func (p *party) look(ctx context.Context) error {
	visible, err := p.visible(ctx)
	if err != nil {
		return err
	}
	left, err := p.left(ctx)
	if err != nil {
		return err
	}
	rows := p.rows()
	for _, keys := range []map[int64]bool{rows, p.own, p.seen} {
		for _, key := range slices.Sorted(maps.Keys(keys)) {
			if visible[key].Event == nil && left[key] == "" {
				p.missing(key, rows[key])
			}
		}
	}
	p.seen = map[int64]bool{}
	for _, key := range slices.Sorted(maps.Keys(visible)) {
		e := visible[key]
		p.seen[key] = true
		p.lookPrivate(key, e)
		if scope := scopeOfEvent(e.Event); p.sure[scope] && !p.world.auth.may(p.member, scope) && !e.Pending {
			p.world.broken("I9", "device %d still shows entry %s of a site that is gone", p.index, p.world.name(key))
		}
	}
	return nil
}

// lookPrivate is I15: what is of a house is read by those alone who live there,
// or did when they last heard.
func (p *party) lookPrivate(key int64, e device.Entry) {
	house := houseOf(e.Event.GetSiteId())
	if isPrivate(e.Event) && !e.Pending && p.sure[house] && p.world.auth.feeds[house].events()[key] == nil {
		p.world.broken("I15", "device %d reads entry %s of a house that is not its own", p.index, p.world.name(key))
	}
}

// left are the entries that the device shows as not stored.
func (p *party) left(ctx context.Context) (map[int64]string, error) {
	list, err := p.dev.Left(ctx)
	found := map[int64]string{}
	for _, l := range list {
		found[keyOf(l.Operation.GetEvent())] = l.Reason
	}
	return found, err
}

// checkCaughtUp is what must hold when a device says that nothing is new.
func (p *party) checkCaughtUp(ctx context.Context, progress device.Progress) error {
	p.reset = false
	for _, site := range p.world.sites {
		for _, scope := range []string{scopeOf(site), houseOf(site)} {
			gone := !p.world.auth.may(p.member, scope)
			p.gone[scope], p.sure[scope] = gone, gone
		}
	}
	if err := p.look(ctx); err != nil {
		return err
	}
	visible, err := p.visible(ctx)
	if err != nil {
		return err
	}
	for _, scope := range p.world.auth.scopes(p.member) {
		if p.world.found == nil {
			p.checkScope(scope, visible, progress.Waiting)
		}
	}
	if progress.Waiting == 0 && p.world.found == nil {
		return p.checkRecords(ctx)
	}
	return nil
}

// checkScope is I3, I8 and I11 for one scope.
func (p *party) checkScope(scope string, visible map[int64]device.Entry, waiting int) {
	truth := p.world.auth.feeds[scope].events()
	for _, key := range slices.Sorted(maps.Keys(truth)) {
		e, got := truth[key], visible[key].Event
		switch {
		case got == nil:
			p.world.broken("I3", "device %d is caught up and lacks entry %s", p.index, p.world.name(key))
		case !proto.Equal(got, p.world.entries[key].event) && !proto.Equal(got, known(p.world.entries[key].event)):
			p.world.broken("I3", "device %d reads entry %s as %v, not as %v", p.index, p.world.name(key), got, e)
		case !proto.Equal(got, p.world.entries[key].event):
			p.world.broken("I11", "device %d has lost what a later release added to entry %s", p.index, p.world.name(key))
		}
	}
	var here []*freshetv1.Event
	for _, key := range slices.Sorted(maps.Keys(visible)) {
		e := visible[key]
		if scopeOfEvent(e.Event) != scope {
			continue
		}
		if truth[key] == nil && !e.Pending {
			p.world.broken("I3", "device %d reads entry %s as stored, which it is not", p.index, p.world.name(key))
		}
		here = append(here, e.Event)
	}
	if waiting > 0 || p.world.found != nil {
		return
	}
	if got, want := p.world.alive(here), p.world.alive(p.world.auth.feeds[scope].inOrder()); got != want {
		p.world.broken("I8", "device %d counts %s fish, the authority %s", p.index, got, want)
	}
}

// known is an event without the fields of a later release.
func known(e *freshetv1.Event) *freshetv1.Event {
	c := proto.CloneOf(e)
	c.ProtoReflect().SetUnknown(nil)
	return c
}

// has tells whether an entry is stored.
func (a *authority) has(key int64) bool {
	for _, f := range a.feeds {
		if f.events()[key] != nil {
			return true
		}
	}
	return false
}

func (f *feed) events() map[int64]*freshetv1.Event {
	found := map[int64]*freshetv1.Event{}
	for _, e := range f.inOrder() {
		found[keyOf(e)] = e
	}
	return found
}

// inOrder are events in the order in which they came.
func (f *feed) inOrder() []*freshetv1.Event {
	if f == nil {
		return nil
	}
	var list []*freshetv1.Event
	for _, block := range f.blocks {
		for _, op := range block.GetOperations() {
			if e := op.GetEvent(); e != nil {
				list = append(list, e)
			}
		}
	}
	return list
}

// alive derives the fish of a site. The planted fault keeps the number as a
// field instead, changed in the order in which events come to hand.
func (w *world) alive(events []*freshetv1.Event) string {
	var list []fish.Event
	field := 0
	for _, e := range events {
		one := fish.Event{At: e.GetOccurredAt().GetSeconds()}
		switch k := e.GetKind().(type) {
		case *freshetv1.Event_Stocking:
			one.Kind, one.Fish = fish.Stocked, int(k.Stocking.GetCount())
			field += one.Fish
		case *freshetv1.Event_Death:
			one.Kind, one.Fish = fish.Died, int(k.Death.GetCount())
			field -= one.Fish
		case *freshetv1.Event_Count:
			one.Kind, one.Fish = fish.Counted, int(k.Count.GetCount())
			field = one.Fish
		default:
			continue
		}
		list = append(list, one)
	}
	if w.fault("I8") {
		return fmt.Sprint(field)
	}
	tally, err := fish.Alive(list, began+1)
	return fmt.Sprint(tally.Alive, " and ", tally.Unexplained, " unexplained ", err)
}

// checkRecords compares each site's vessel with what the feed's edits come to:
// field by field the later one wins, between equal times the greater install.
func (p *party) checkRecords(ctx context.Context) error {
	records, err := p.dev.Records(ctx)
	if err != nil {
		return err
	}
	got := map[string]protoreflect.Message{}
	for _, r := range records {
		got[r.ID] = r.Message
	}
	for _, site := range p.world.sites {
		want := p.world.auth.feeds[scopeOf(site)].vessel()
		have := &freshetv1.Vessel{}
		if m := got[vesselAt(site)]; m != nil {
			have, _ = m.Interface().(*freshetv1.Vessel)
		}
		if p.world.auth.may(p.member, scopeOf(site)) && !proto.Equal(want, have) {
			p.world.broken("I3", "device %d has the vessel as %v, the authority as %v", p.index, have, want)
		}
	}
	return nil
}

func (f *feed) vessel() *freshetv1.Vessel {
	v := &freshetv1.Vessel{}
	if f == nil {
		return v
	}
	type stamp struct {
		ms      int64
		install []byte
	}
	set := map[string]stamp{}
	for _, block := range f.blocks {
		for _, op := range block.GetOperations() {
			e := op.GetEdit()
			if e == nil {
				continue
			}
			path, at := e.GetFields().GetPaths()[0], stamp{op.GetNoted().GetWallMs(), block.GetInstall()}
			if before, there := set[path]; there && (before.ms > at.ms || before.ms == at.ms && bytes.Compare(before.install, at.install) > 0) {
				continue
			}
			set[path] = at
			field := v.ProtoReflect().Descriptor().Fields().ByName(protoreflect.Name(path))
			v.ProtoReflect().Set(field, e.GetVessel().ProtoReflect().Get(field))
		}
	}
	return v
}

// checkFeed is what must hold of a feed when its last page was added: I2, I4,
// I12 and I13.
func (w *world) checkFeed(scope string, f *feed) {
	for i, page := range f.pages {
		if page.GetCursor().GetSequence() != uint64(i)+1 {
			w.broken("I4", "page %d of %s has the number %d", i+1, scope, page.GetCursor().GetSequence())
		}
	}
	stored := map[int64]bool{}
	for _, e := range f.inOrder() {
		if stored[keyOf(e)] {
			w.broken("I2", "entry %s is stored twice", w.name(keyOf(e)))
		}
		stored[keyOf(e)] = true
	}
	last := f.blocks[len(f.blocks)-1]
	members := map[int]int{}
	for _, op := range last.GetOperations() {
		if op.GetEdit() != nil && op.GetNoted().GetWallMs() > last.GetReceivedMs()+ahead.Milliseconds() {
			w.broken("I12", "an edit is dated %d s after it came", (op.GetNoted().GetWallMs()-last.GetReceivedMs())/1000)
		}
		if made := w.entries[keyOf(op.GetEvent())]; op.GetEvent() != nil && made.group != 0 {
			members[made.group]++
			if members[made.group] == made.size {
				delete(members, made.group)
			}
		}
	}
	for group := range members {
		w.broken("I13", "group %d is stored in part", group)
	}
}

// checkEnd is I1: every entry that was shown as noted is stored, or shown as
// refused or held by a device that noted it.
func (w *world) checkEnd(ctx context.Context) error {
	accounted := map[int64]bool{}
	for _, f := range w.auth.feeds {
		for key := range f.events() {
			accounted[key] = true
		}
	}
	for _, p := range w.parties {
		left, err := p.left(ctx)
		if err != nil {
			return err
		}
		for key := range left {
			accounted[key] = true
		}
	}
	for _, p := range w.parties {
		for _, key := range slices.Sorted(maps.Keys(p.own)) {
			if !accounted[key] {
				w.broken("I1", "entry %s of device %d is nowhere", w.name(key), p.index)
			}
		}
	}
	return nil
}

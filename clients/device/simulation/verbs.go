package simulation

import (
	"context"
	"fmt"
	"os"

	"google.golang.org/protobuf/encoding/protowire"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/clients/device"
)

// verbs are what can happen.
var verbs map[string]func(context.Context, *world, *party, Step) error

func init() {
	verbs = map[string]func(context.Context, *world, *party, Step) error{
		"note": note, "later": later, "poison": poison, "stock": stock, "die": die, "count": count, "edit": edit,
		"group": group, "badgroup": badGroup, "sync": syncOnce, "line": setLine, "clock": setClock, "crash": crash,
		"crashnote": crashNote, "wait": wait, "role": role, "keep": keep, "restore": restore, "copy": copyPhone,
		"full": full, "app": app, "private": private, "open": openSite,
	}
}

func (w *world) site(n int) string { return w.sites[n%len(w.sites)] }

// enter notes events at a site; what is noted must be read from then on.
func (p *party) enter(ctx context.Context, site string, events ...*freshetv1.Event) error {
	for _, e := range events {
		p.world.noted(site, e)
	}
	_, err := p.dev.Note(ctx, events...)
	return p.keepOwn(ctx, err, events)
}

func (p *party) keepOwn(ctx context.Context, err error, events []*freshetv1.Event) error {
	if p.noRoom(err) {
		return p.keptNone(ctx, events)
	}
	if err != nil {
		return err
	}
	for _, e := range events {
		p.own[keyOf(e)] = true
	}
	return p.look(ctx)
}

func reading(digits int64) *freshetv1.Event {
	return &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: freshetv1.Quantity_QUANTITY_PH, Digits: digits, Decimals: 1, Unit: freshetv1.Unit_UNIT_NONE,
	}}}
}

func note(ctx context.Context, w *world, p *party, s Step) error {
	events := make([]*freshetv1.Event, 1+s.B%12)
	for i := range events {
		events[i] = reading(int64(60 + (s.B+i)%20))
	}
	return p.enter(ctx, w.site(s.A), events...)
}

// later notes what carries a field of a later release.
func later(ctx context.Context, w *world, p *party, s Step) error {
	e := dead(w.site(s.A), 1)
	e.ProtoReflect().SetUnknown(protowire.AppendVarint(protowire.AppendTag(nil, 9999, protowire.VarintType), uint64(s.B)+1))
	return p.enter(ctx, w.site(s.A), e)
}

func poison(ctx context.Context, w *world, p *party, s Step) error {
	return p.enter(ctx, w.site(s.A), reading(70), reading(999), reading(71))
}

// cohortAt is the one cohort of a site.
func cohortAt(site string) string { return "c" + site[1:] }

func dead(site string, n int) *freshetv1.Event {
	return &freshetv1.Event{Kind: &freshetv1.Event_Death{Death: &freshetv1.Death{CohortId: cohortAt(site), Count: uint32(n)}}} //nolint:gosec // small
}

func stock(ctx context.Context, w *world, p *party, s Step) error {
	site := w.site(s.A)
	return p.enter(ctx, site, &freshetv1.Event{Kind: &freshetv1.Event_Stocking{Stocking: &freshetv1.Stocking{CohortId: cohortAt(site), Count: uint32(100 + s.B)}}}) //nolint:gosec // small
}

func die(ctx context.Context, w *world, p *party, s Step) error {
	return p.enter(ctx, w.site(s.A), dead(w.site(s.A), 1+s.B%5))
}

func count(ctx context.Context, w *world, p *party, s Step) error {
	site := w.site(s.A)
	return p.enter(ctx, site, &freshetv1.Event{Kind: &freshetv1.Event_Count{Count: &freshetv1.Count{CohortId: cohortAt(site), Count: uint32(80 + s.B)}}}) //nolint:gosec // small
}

// vesselAt is the one vessel of a site.
func vesselAt(site string) string { return "d" + site[1:] }

func edit(ctx context.Context, w *world, p *party, s Step) error {
	site, field := w.site(s.A), []string{"name", "volume_l", "media"}[s.B%3]
	v := &freshetv1.Vessel{Name: fmt.Sprint("tank ", w.now, p.index), VolumeL: float64(w.now % 1_000_000), Media: fmt.Sprint("gravel ", w.now, p.index)}
	_, err := p.dev.Set(ctx, &freshetv1.Edit{RecordId: vesselAt(site), SiteId: site, Fields: &fieldmaskpb.FieldMask{Paths: []string{field}},
		Record: &freshetv1.Edit_Vessel{Vessel: v}})
	if p.noRoom(err) {
		return nil
	}
	return err
}

func group(ctx context.Context, w *world, p *party, s Step) error {
	return p.together(ctx, w.site(s.A), reading(70), dead(w.site(s.A), 1), reading(71))
}

func badGroup(ctx context.Context, w *world, p *party, s Step) error {
	return p.together(ctx, w.site(s.A), reading(70), reading(999), dead(w.site(s.A), 1))
}

func (p *party) together(ctx context.Context, site string, events ...*freshetv1.Event) error {
	p.world.groups++
	parts := map[bool]int{} // one in each scope
	for _, e := range events {
		parts[isPrivate(e)]++
	}
	for _, e := range events {
		p.world.noted(site, e)
		made := p.world.entries[keyOf(e)]
		made.group, made.size = p.world.groups, parts[isPrivate(e)]
	}
	_, err := p.dev.Group(ctx, events...)
	return p.keepOwn(ctx, err, events)
}

func syncOnce(ctx context.Context, w *world, p *party, _ Step) error {
	_, _ = p.sync(ctx) // that the line is bad is no broken promise
	p.arrive()
	return nil
}

// private notes what is of the house: alone, or in one group with what is not.
func private(ctx context.Context, w *world, p *party, s Step) error {
	note := &freshetv1.Event{Kind: &freshetv1.Event_Note{Note: &freshetv1.Note{Text: fmt.Sprint("ring ", s.B)}}}
	labour := &freshetv1.Event{Kind: &freshetv1.Event_Labour{Labour: &freshetv1.Labour{Minutes: float64(1 + s.B), Task: "weeding"}}}
	if s.B%3 == 0 {
		return p.together(ctx, w.site(s.A), note, reading(70), dead(w.site(s.A), 1))
	}
	return p.enter(ctx, w.site(s.A), note, labour)
}

// openSite lets all members read a site, or ends that.
func openSite(_ context.Context, w *world, _ *party, s Step) error {
	w.auth.open[w.site(s.A)] = !w.auth.open[w.site(s.A)]
	return nil
}

func setLine(_ context.Context, _ *world, p *party, s Step) error {
	p.line = lines[s.A%len(lines)]
	return nil
}

// setClock jumps: years ahead, a day back, anything between; at times the
// phone starts anew.
func setClock(_ context.Context, w *world, p *party, s Step) error {
	p.ahead = []int64{0, 5 * 365 * 86_400_000, -86_400_000, 3_600_000, -40_000, 150_000}[s.A%6]
	if s.B%3 == 0 {
		p.boot, p.booted = p.boot+1, w.now-60_000
	}
	return nil
}

// crash kills the app somewhere in a sync.
func crash(ctx context.Context, w *world, p *party, s Step) error {
	_, _ = p.dev.Sync(killedAfter(ctx, 1+s.A*2+s.B%2))
	if err := p.restart(ctx); err != nil {
		return err
	}
	return p.look(ctx)
}

// crashNote kills the app while something is noted: nobody was shown "noted",
// and it is there whole or not at all.
func crashNote(ctx context.Context, w *world, p *party, s Step) error {
	events := []*freshetv1.Event{reading(70), reading(71)}
	for _, e := range events {
		w.noted(w.site(s.A), e)
	}
	_, err := p.dev.Note(killedAfter(ctx, 1+s.B%12), events...)
	if err := p.restart(ctx); err != nil {
		return err
	}
	if err == nil {
		return p.keepOwn(ctx, nil, events)
	}
	visible, err := p.visible(ctx)
	if err != nil {
		return err
	}
	if visible[keyOf(events[0])].Event != nil != (visible[keyOf(events[1])].Event != nil) {
		w.broken("I13", "device %d kept half of what was noted together", p.index)
	}
	if visible[keyOf(events[0])].Event != nil {
		return p.keepOwn(ctx, nil, events)
	}
	return nil
}

func wait(_ context.Context, w *world, _ *party, s Step) error {
	w.now += int64(1+s.A) * 600_000
	return nil
}

// role takes a site from a member, or gives it back.
func role(_ context.Context, w *world, p *party, s Step) error {
	rights := w.auth.rights[p.member]
	rights[w.site(s.A)] = !rights[w.site(s.A)]
	return nil
}

func keep(_ context.Context, w *world, _ *party, _ Step) error {
	w.auth.keep()
	return nil
}

func restore(_ context.Context, w *world, _ *party, s Step) error {
	w.auth = w.auth.restored(s.A%2 == 0)
	for _, p := range w.parties {
		p.cursor = map[string]uint64{} // they are of another record now
	}
	return nil
}

func copyPhone(ctx context.Context, w *world, p *party, _ Step) error {
	if err := p.dev.Close(); err != nil {
		return err
	}
	c := p.copyOf()
	if err := os.CopyFS(w.folder(c.index), os.DirFS(w.folder(p.index))); err != nil {
		return err
	}
	if err := p.open(ctx); err != nil {
		return err
	}
	return c.open(ctx)
}

func timestamp(ms int64) *timestamppb.Timestamp { return &timestamppb.Timestamp{Seconds: ms / 1000} }

func readingOf(r *wire.ReadingRow) *freshetv1.Event {
	return &freshetv1.Event{SiteId: r.Site, OccurredAt: timestamp(r.OccurredMs), Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: r.Quantity, Digits: r.Digits, Decimals: r.Decimals, Unit: r.Unit,
	}}}
}

func rowOf(op *freshetv1.Operation) wire.ReadingRow {
	e, r := op.GetEvent(), op.GetEvent().GetReading()
	return wire.ReadingRow{Number: op.GetNumber(), Site: e.GetSiteId(), OccurredMs: keyOf(e), EnteredMs: op.GetNoted().GetWallMs(),
		Quantity: r.GetQuantity(), Digits: r.GetDigits(), Decimals: r.GetDecimals(), Unit: r.GetUnit()}
}

// visible is what a person reads on the device now, by when it happened.
func (p *party) visible(ctx context.Context) (map[int64]device.Entry, error) {
	entries, err := p.dev.Entries(ctx, device.Want{})
	if err != nil {
		return nil, err
	}
	found := make(map[int64]device.Entry, len(entries))
	for _, e := range entries {
		key := keyOf(e.Event)
		if _, twice := found[key]; twice {
			p.world.broken("I2", "device %d reads entry %s twice", p.index, p.world.name(key))
		}
		found[key] = e
	}
	return found, nil
}

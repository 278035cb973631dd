package device

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// ErrUnknownEntry says that no entry with that id is on this device.
var ErrUnknownEntry = errors.New("no such entry on this device")

// Entry is one event as this device sees it: corrected where it was corrected.
type Entry struct {
	ID        string
	Event     *freshetv1.Event
	MemberID  string // who entered it; empty for own entries that were not yet sent
	Own       bool   // entered on this device
	Pending   bool   // the cooperative has not said what became of it
	Corrected bool   // another event stands in its place
	entered   stamp
	number    uint64
}

// Want narrows what is read. Zero fields do not narrow.
type Want struct {
	Kinds  []string  // names in the contract: "reading"
	SiteID string    // only this site
	From   time.Time // inclusive
	To     time.Time // exclusive
}

func (w Want) kind(name string) bool { return len(w.Kinds) == 0 || slices.Contains(w.Kinds, name) }

// span is the time wanted, in milliseconds; both ends inclusive.
func (w Want) span() span {
	s := span{from: -1 << 62, to: 1 << 62}
	if !w.From.IsZero() {
		s.from = w.From.UnixMilli()
	}
	if !w.To.IsZero() {
		s.to = w.To.UnixMilli() - 1
	}
	return s
}

func (w Want) matches(e *freshetv1.Event) bool {
	at, s := e.GetOccurredAt().AsTime().UnixMilli(), w.span()
	return w.kind(EventKind(e)) && (w.SiteID == "" || e.GetSiteId() == w.SiteID) && at >= s.from && at <= s.to
}

// Entries gives events in the order they happened, own ones laid over, voided
// ones left out, and corrected ones as they were corrected. Corrections
// themselves are given only where they are asked for by kind.
func (d *Device) Entries(ctx context.Context, want Want) ([]Entry, error) {
	g := gatherer{want: want, found: map[string]Entry{}, corrections: map[string]Entry{}}
	err := d.inReading(ctx, func(tx *sql.Tx) error {
		if err := g.events(ctx, tx, d.Install()); err != nil {
			return err
		}
		if err := g.columns(ctx, tx, d.Install()); err != nil {
			return err
		}
		copied, err := fact(ctx, tx, factCopied)
		if err != nil {
			return err
		}
		g.copied = copied != ""
		return d.laidOver(ctx, tx, func(w waiting) error { g.overlay(w, d.Install()); return nil })
	})
	if err != nil {
		return nil, err
	}
	return g.corrected(), nil
}

// inReading gives work one unchanging view of the database.
func (d *Device) inReading(ctx context.Context, work func(*sql.Tx) error) error {
	tx, err := d.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return err
	}
	return errors.Join(work(tx), tx.Rollback())
}

// gatherer collects entries and the corrections that change them.
type gatherer struct {
	want        Want
	found       map[string]Entry
	copied      bool             // the device has the install of another, whose entries these may be
	corrections map[string]Entry // by their own ids
}

func (g *gatherer) add(e Entry) {
	if e.Event.GetCorrection() != nil {
		g.corrections[e.ID] = e
		if !slices.Contains(g.want.Kinds, "correction") {
			return
		}
	}
	if g.want.matches(e.Event) {
		g.found[e.ID] = e
	}
}

func (g *gatherer) events(ctx context.Context, q queryer, own wire.Install) error {
	s := g.want.span()
	return each(ctx, q, `SELECT id, entered_ms, install, member_id, body FROM events
		WHERE occurred_ms BETWEEN ? AND ? OR kind = ?`,
		[]any{s.from, s.to, eventOneof.Fields().ByName("correction").Number()},
		func(scan func(...any) error) error {
			e, err := scanEvent(scan, own)
			if err == nil {
				g.add(e)
			}
			return err
		})
}

// scanEvent reads id, entered_ms, install, member_id, body.
func scanEvent(scan func(...any) error, own wire.Install) (Entry, error) {
	e, install, raw := Entry{Event: &freshetv1.Event{}}, []byte(nil), []byte(nil)
	if err := scan(&e.ID, &e.entered.ms, &install, &e.MemberID, &raw); err != nil {
		return Entry{}, err
	}
	from, err := wire.ParseInstall(install)
	if err != nil {
		return Entry{}, err
	}
	e.entered.install, e.Own = from, from == own
	if id, err := uuid.Parse(e.ID); err == nil {
		_, e.number, _ = wire.Split(id)
	}
	return e, proto.Unmarshal(raw, e.Event)
}

func (g *gatherer) columns(ctx context.Context, q queryer, own wire.Install) error {
	s := g.want.span()
	return each(ctx, q, `SELECT lane, install, member_id, body FROM columns WHERE to_ms >= ? AND from_ms <= ?`,
		[]any{s.from, s.to}, func(scan func(...any) error) error {
			return g.column(scan, own)
		})
}

func (g *gatherer) column(scan func(...any) error, own wire.Install) error {
	var l lane
	var raw, member = []byte(nil), ""
	var install []byte
	if err := scan(&l, &install, &member, &raw); err != nil {
		return err
	}
	if l == laneReadingColumns && !g.want.kind("reading") || l == laneFeedingColumns && !g.want.kind("feeding") {
		return nil
	}
	from, err := wire.ParseInstall(install)
	if err != nil {
		return err
	}
	return eachRow(l, raw, func(number uint64, enteredMs int64, e *freshetv1.Event) error {
		if g.want.matches(e) {
			id := wire.ID(from, number).String()
			g.found[id] = Entry{
				ID: id, Event: e, MemberID: member, Own: from == own, entered: stamp{enteredMs, from}, number: number,
			}
		}
		return nil
	})
}

// eachRow reads a column message of the replica row by row, as events.
func eachRow(l lane, raw []byte, each func(number uint64, enteredMs int64, e *freshetv1.Event) error) error {
	if l == laneReadingColumns {
		c := &freshetv1.ReadingColumns{}
		if err := proto.Unmarshal(raw, c); err != nil {
			return err
		}
		return wire.EachReading(c, func(r *wire.ReadingRow) error { return each(r.Number, r.EnteredMs, readingEvent(r)) })
	}
	c := &freshetv1.FeedingColumns{}
	if err := proto.Unmarshal(raw, c); err != nil {
		return err
	}
	return wire.EachFeeding(c, func(r *wire.FeedingRow) error { return each(r.Number, r.EnteredMs, feedingEvent(r)) })
}

func (g *gatherer) overlay(w waiting, own wire.Install) {
	e := w.op.GetEvent()
	if e == nil {
		return
	}
	number := w.op.GetNumber()
	id := wire.ID(own, number).String()
	if other, there := g.found[id]; there {
		if !g.copied || proto.Equal(other.Event, e) {
			return
		}
		id += "'" // it gets an id of its own when this device gets an install of its own
	}
	g.add(Entry{
		ID: id, Event: e, Own: true, Pending: w.pending,
		entered: stamp{w.op.GetNoted().GetWallMs(), own}, number: number,
	})
}

// inForce gives, for each event that was corrected, the correction that holds.
// A correction may itself be corrected, and two phones may correct one event
// without knowing of each other: all that go back to one event compete, the one
// entered last holds, and between equal times the one with the greater id.
func (g *gatherer) inForce() map[string]Entry {
	holds := map[string]Entry{}
	for _, c := range g.corrections {
		root := c.Event.GetCorrection().GetEventId()
		for range len(g.corrections) { // bounded: ids from elsewhere could run in a ring
			above, ok := g.corrections[root]
			if !ok {
				break
			}
			root = above.Event.GetCorrection().GetEventId()
		}
		before, ok := holds[root]
		if !ok || c.entered.ms > before.entered.ms || c.entered.ms == before.entered.ms && c.ID > before.ID {
			holds[root] = c
		}
	}
	return holds
}

// corrected puts the corrections in force and sorts.
func (g *gatherer) corrected() []Entry {
	for id, c := range g.inForce() {
		g.correct(id, c)
	}
	list := make([]Entry, 0, len(g.found))
	for _, e := range g.found {
		list = append(list, e)
	}
	slices.SortFunc(list, func(a, b Entry) int {
		if c := a.Event.GetOccurredAt().AsTime().Compare(b.Event.GetOccurredAt().AsTime()); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	return list
}

// correct puts what stands in an event's place where the event was; it may be
// wanted where the event itself was not.
func (g *gatherer) correct(id string, c Entry) {
	e, there := g.found[id]
	delete(g.found, id)
	replacement := c.Event.GetCorrection().GetReplacement()
	if replacement == nil || !g.want.matches(replacement) {
		return
	}
	if !there {
		e = Entry{ID: id, MemberID: c.MemberID, Own: c.Own}
	}
	e.Event, e.Corrected, e.Pending = replacement, true, c.Pending
	g.found[id] = e
}

// Find gives one event by its id, as it was entered. ErrUnknownEntry where
// there is none.
func (d *Device) Find(ctx context.Context, id string) (Entry, error) { return d.find(ctx, d.db, id) }

func (d *Device) find(ctx context.Context, q queryer, id string) (Entry, error) {
	e, err := d.findStored(ctx, q, id)
	if install, number, ok := split(id); errors.Is(err, ErrUnknownEntry) && ok && install == d.Install() {
		return d.findInOutbox(ctx, q, number)
	}
	return e, err
}

// findStored finds what came from the cooperative only.
func (d *Device) findStored(ctx context.Context, q queryer, id string) (Entry, error) {
	install, number, ok := split(id)
	if !ok {
		return Entry{}, ErrUnknownEntry
	}
	e, err := scanEvent(q.QueryRowContext(ctx,
		`SELECT id, entered_ms, install, member_id, body FROM events WHERE id = ?`, wire.ID(install, number).String()).Scan, d.Install())
	if errors.Is(err, sql.ErrNoRows) {
		return d.findInColumns(ctx, q, install, number)
	}
	return e, err
}

func split(id string) (install wire.Install, number uint64, ok bool) {
	parsed, err := uuid.Parse(id)
	if err != nil {
		return install, 0, false
	}
	return wire.Split(parsed)
}

func (d *Device) findInColumns(ctx context.Context, q queryer, install wire.Install, number uint64) (Entry, error) {
	found, err := Entry{}, ErrUnknownEntry
	var l lane
	var raw []byte
	var member string
	scanned := q.QueryRowContext(ctx, `SELECT lane, member_id, body FROM columns
		WHERE install = ? AND first_number <= ? ORDER BY first_number DESC LIMIT 1`, install[:], int64(number)).
		Scan(&l, &member, &raw)
	if errors.Is(scanned, sql.ErrNoRows) {
		return found, err
	}
	if scanned != nil {
		return found, scanned
	}
	broken := eachRow(l, raw, func(n uint64, enteredMs int64, e *freshetv1.Event) error {
		if n == number {
			found = Entry{
				ID: wire.ID(install, n).String(), Event: e, MemberID: member, Own: install == d.Install(),
				entered: stamp{enteredMs, install}, number: n,
			}
			err = nil
		}
		return nil
	})
	return found, errors.Join(err, broken)
}

func (d *Device) findInOutbox(ctx context.Context, q queryer, number uint64) (Entry, error) {
	var p packet
	err := q.QueryRowContext(ctx, `SELECT lane, body FROM outbox WHERE first_number <= ? ORDER BY first_number DESC LIMIT 1`,
		int64(number)).Scan(&p.lane, &p.body)
	if errors.Is(err, sql.ErrNoRows) {
		return Entry{}, ErrUnknownEntry
	}
	if err != nil {
		return Entry{}, err
	}
	ops, err := unpack(p)
	if err != nil {
		return Entry{}, err
	}
	for _, op := range ops {
		if op.GetNumber() == number && op.GetEvent() != nil {
			return Entry{
				ID: wire.ID(d.Install(), number).String(), Event: op.GetEvent(), Own: true, Pending: true, number: number,
				entered: stamp{op.GetNoted().GetWallMs(), d.Install()},
			}, nil
		}
	}
	return Entry{}, ErrUnknownEntry
}

// Number is the running number of the entry on the device it was entered on.
func (e Entry) Number() uint64 { return e.number }

// Entered is when it was entered: as the cooperative settled it, or of own
// entries on their way by this device's clock. Of a corrected event it is when
// the event was entered first.
func (e Entry) Entered() time.Time { return time.UnixMilli(e.entered.ms) }

package device

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// Errors of entering.
var (
	ErrNoKind      = errors.New("an entry needs a kind this release knows")
	ErrNoSite      = errors.New("an event needs the site it happened at")
	ErrNoTime      = errors.New("an event needs the time it happened")
	ErrNoFields    = errors.New("an edit names the fields it sets")
	ErrNestedGroup = errors.New("a group cannot hold another group")
	ErrGroupLong   = errors.New("a group holds at most 1000 entries")
)

// maxGroup keeps a group within one push.
const maxGroup = 1000

// A Draft takes entries that are committed together: after a crash all of
// them are there or none. It is valid only within Enter.
type Draft struct {
	ctx     context.Context
	tx      *sql.Tx
	device  *Device
	install wire.Install
	member  string
	next    uint64
	group   uint64
	run     run
	hashes  []byte
}

// Enter commits what fill drafts, as operations of the outbox. When it returns
// nil the entries outlive a crash. An error of fill, or of the disk, enters
// nothing.
func (d *Device) Enter(ctx context.Context, fill func(*Draft) error) error {
	err := d.inTransaction(ctx, func(tx *sql.Tx) error {
		next, err := factNumber(ctx, tx, factNextNumber)
		if err != nil {
			return err
		}
		member, err := fact(ctx, tx, factMember)
		if err != nil {
			return err
		}
		install, err := d.readInstall(ctx, tx)
		if err != nil {
			return err
		}
		t := &Draft{ctx: ctx, tx: tx, device: d, install: install, member: member, next: max(uint64(next), 1)}
		if err := fill(t); err != nil {
			return err
		}
		return t.finish()
	})
	if err == nil {
		d.tell()
	}
	return err
}

func (t *Draft) finish() error {
	if err := t.flush(); err != nil {
		return err
	}
	if len(t.hashes) > 0 {
		if _, err := t.tx.ExecContext(t.ctx, `INSERT INTO imported (hashes) VALUES (?)`, t.hashes); err != nil {
			return err
		}
	}
	return keepNumber(t.ctx, t.tx, factNextNumber, int64(t.next))
}

// Note drafts an event and returns its id. The event must name a site, a time
// and a kind; it must not be changed afterwards.
func (t *Draft) Note(e *freshetv1.Event) (string, error) {
	switch {
	case EventKind(e) == "":
		return "", ErrNoKind
	case e.GetSiteId() == "":
		return "", ErrNoSite
	case e.GetOccurredAt() == nil:
		return "", ErrNoTime
	}
	corrects, err := t.correctedKind(e.GetCorrection().GetEventId())
	if err != nil {
		return "", err
	}
	op := &freshetv1.Operation{Change: &freshetv1.Operation_Event{Event: e}}
	return t.id(), t.add(op, laneOf(e), scopeOfEvent(e, corrects))
}

// correctedKind finds the kind of the event that is corrected; a reading where
// it is not known here, since those stand in columns.
func (t *Draft) correctedKind(id string) (string, error) {
	if id == "" {
		return "", nil
	}
	entry, err := t.device.find(t.ctx, t.tx, id)
	if errors.Is(err, ErrUnknownEntry) {
		return "reading", nil
	}
	if err != nil {
		return "", err
	}
	return EventKind(entry.Event), nil
}

// Set drafts an edit of a record and returns the record's id. An edit without
// record_id makes a new record; of a site it also stands as the site.
func (t *Draft) Set(e *freshetv1.Edit) (string, error) {
	kind := RecordKind(e)
	switch {
	case kind == "":
		return "", ErrNoKind
	case len(e.GetFields().GetPaths()) == 0:
		return "", ErrNoFields
	}
	if e.GetRecordId() == "" {
		e.RecordId = t.id()
	}
	if kind == "site" {
		e.SiteId = e.GetRecordId()
	}
	op := &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: e}}
	return e.GetRecordId(), t.add(op, laneOther, scopeOfRecord(kind, e.GetSiteId(), t.member))
}

// Remove drafts the removal of a record.
func (t *Draft) Remove(r Record) error {
	op := &freshetv1.Operation{Change: &freshetv1.Operation_Removal{
		Removal: &freshetv1.Removal{RecordId: r.ID, SiteId: r.SiteID},
	}}
	return t.add(op, laneOther, scopeOfRecord(r.Kind, r.SiteID, t.member))
}

// Together drafts entries that the server stores whole or not at all. At most
// 1000 of them; groups do not nest.
func (t *Draft) Together(fill func() error) error {
	if t.group != 0 {
		return ErrNestedGroup
	}
	t.group = t.next
	err := fill()
	if err == nil && t.next-t.group > maxGroup {
		err = ErrGroupLong
	}
	t.group = 0
	return err
}

// Remember keeps the hash of an imported row beside the entries made of it.
func (t *Draft) Remember(hash [16]byte) { t.hashes = append(t.hashes, hash[:]...) }

// id is the id of the operation that is drafted next.
func (t *Draft) id() string { return wire.ID(t.install, t.next).String() }

func (t *Draft) add(op *freshetv1.Operation, l lane, scope string) error {
	op.Group, op.Noted = t.group, t.device.clock()
	return t.put(op, l, scope)
}

// put gives an operation the next number.
func (t *Draft) put(op *freshetv1.Operation, l lane, scope string) error {
	op.Number = t.next
	if op.Group != 0 {
		l = laneOther // columns have no room for groups
	}
	if !t.run.takes(op, l, scope) {
		if err := t.flush(); err != nil {
			return err
		}
		t.run = run{lane: l, scope: scope, group: op.Group}
	}
	t.run.add(op)
	t.next++
	return t.oweFile(op)
}

func (t *Draft) flush() error {
	p, err := t.run.pack()
	if err != nil || p.count == 0 {
		return err
	}
	t.run = run{}
	_, err = t.tx.ExecContext(t.ctx,
		`INSERT INTO outbox (first_number, operations_count, group_number, lane, scope, noted_ms, body) VALUES (?,?,?,?,?,?,?)`,
		p.first, p.count, p.group, p.lane, p.scope, p.notedMs, p.body)
	if err != nil {
		return fmt.Errorf("keep entry %d: %w", p.first, err)
	}
	return nil
}

// Note enters events and returns their ids.
func (d *Device) Note(ctx context.Context, events ...*freshetv1.Event) ([]string, error) {
	ids := make([]string, 0, len(events))
	err := d.Enter(ctx, func(t *Draft) error {
		for _, e := range events {
			id, err := t.Note(e)
			if err != nil {
				return err
			}
			ids = append(ids, id)
		}
		return nil
	})
	return ids, err
}

// Set enters one edit and returns the record's id.
func (d *Device) Set(ctx context.Context, e *freshetv1.Edit) (id string, err error) {
	err = d.Enter(ctx, func(t *Draft) error {
		id, err = t.Set(e)
		return err
	})
	return id, err
}

// Remove enters the removal of a record.
func (d *Device) Remove(ctx context.Context, r Record) error {
	return d.Enter(ctx, func(t *Draft) error { return t.Remove(r) })
}

// Group enters events that the server stores whole or not at all.
func (d *Device) Group(ctx context.Context, events ...*freshetv1.Event) ([]string, error) {
	ids := make([]string, 0, len(events))
	err := d.Enter(ctx, func(t *Draft) error {
		return t.Together(func() error {
			for _, e := range events {
				id, err := t.Note(e)
				if err != nil {
					return err
				}
				ids = append(ids, id)
			}
			return nil
		})
	})
	return ids, err
}

// Void enters a correction that makes an earlier event void; words say why.
func (d *Device) Void(ctx context.Context, e Entry, words string) (string, error) {
	ids, err := d.Note(ctx, &freshetv1.Event{
		SiteId: e.Event.GetSiteId(), OccurredAt: timestamppb.Now(),
		Kind: &freshetv1.Event_Correction{Correction: &freshetv1.Correction{EventId: e.ID, Words: words}},
	})
	if err != nil {
		return "", err
	}
	return ids[0], nil
}

package store

import (
	"bytes"
	"cmp"
	"context"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// RecordEdit sets fields of a record, and makes it where it is new.
type RecordEdit struct {
	Noun   string // the contract's name: "vessel"
	ID     uuid.UUID
	SiteID uuid.UUID // nil uuid: the cooperative's or a member's
	New    bool      // made by this edit; a new site is its maker's to keep
	Fields []Field
	// EnteredMs is when it was entered, as settled: the later edit of a field wins.
	EnteredMs int64
}

// Field is one column of a record.
type Field struct {
	Column string
	Value  any // nil: none
}

// RecordRemoval takes a record away; its row stays as a tombstone.
type RecordRemoval struct {
	Noun      string
	ID        uuid.UUID
	EnteredMs int64 // as settled
}

// stamp says when and by which install a field was last set. The later one
// wins, between equal times the greater install; the same install's later
// operation follows its earlier one and wins too.
type stamp struct {
	ms      int64
	install Install
}

func (s stamp) beats(other stamp) bool {
	if s.ms != other.ms {
		return s.ms > other.ms
	}
	return bytes.Compare(s.install[:], other.install[:]) >= 0
}

// MarshalJSON writes [milliseconds, "install"].
func (s stamp) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{s.ms, hex.EncodeToString(s.install[:])})
}

// UnmarshalJSON reads what MarshalJSON writes.
func (s *stamp) UnmarshalJSON(b []byte) error {
	var install string
	if err := json.Unmarshal(b, &[]any{&s.ms, &install}); err != nil {
		return err
	}
	raw, err := hex.DecodeString(install)
	if err == nil && len(raw) == len(s.install) {
		s.install = Install(raw)
	}
	return err
}

// merging is one record that a push touches.
type merging struct {
	noun, table string
	id, site    uuid.UUID
	created     bool
	edited      bool
	stamps      map[string]stamp
	set         map[string]any // columns whose new value won
	removedAt   *time.Time     // as stored
	remove      *time.Time     // to be stored
}

// mergeRecords merges all edits and removals of a push into their rows, which
// stay locked. Rows are taken in one order, so that two pushes never wait for
// each other.
func (p *Pushing) mergeRecords(ctx context.Context, push *Push) error {
	records, err := touched(push)
	if err != nil || len(records) == 0 {
		return err
	}
	for _, m := range records {
		p.queueLock(m)
	}
	if err := p.send(ctx); err != nil {
		return err
	}
	byID := make(map[uuid.UUID]*merging, len(records))
	for _, m := range records {
		byID[m.id] = m
	}
	for i := range push.Edits {
		e := &push.Edits[i]
		byID[e.ID].edit(e, stamp{e.EnteredMs, p.who.Install})
	}
	for _, r := range push.Removals {
		byID[r.ID].removeAt(millis(r.EnteredMs))
	}
	for _, m := range records {
		if err := p.queueMerged(m); err != nil {
			return err
		}
	}
	return nil
}

func touched(push *Push) ([]*merging, error) {
	found := make(map[uuid.UUID]*merging)
	add := func(noun string, id, site uuid.UUID, created bool) error {
		table, ok := recordTables[noun]
		if !ok {
			return fmt.Errorf("store: no record is called %q", noun)
		}
		if found[id] == nil {
			found[id] = &merging{noun: noun, table: table, id: id, site: site, stamps: map[string]stamp{}, set: map[string]any{}}
		}
		found[id].created = found[id].created || created
		return nil
	}
	for i := range push.Edits {
		e := &push.Edits[i]
		if err := add(e.Noun, e.ID, e.SiteID, e.New); err != nil {
			return nil, err
		}
		found[e.ID].edited = true
	}
	for _, r := range push.Removals {
		if err := add(r.Noun, r.ID, uuid.Nil, false); err != nil {
			return nil, err
		}
	}
	return inOrder(found), nil
}

func inOrder(found map[uuid.UUID]*merging) []*merging {
	records := make([]*merging, 0, len(found))
	for _, m := range found {
		records = append(records, m)
	}
	slices.SortFunc(records, func(a, b *merging) int {
		return cmp.Or(strings.Compare(a.table, b.table), bytes.Compare(a.id[:], b.id[:]))
	})
	return records
}

// queueLock makes the row of a record that may be new: a removal finds one, and
// whoever edits a site or the cooperative that is there may not make another.
func (p *Pushing) queueLock(m *merging) {
	if m.created || m.edited && m.noun != "site" && m.noun != "cooperative" {
		p.batch.Queue("INSERT INTO "+m.table+" (id, site_id) VALUES ($1, $2) ON CONFLICT DO NOTHING", m.id, reference(m.site))
	}
	p.batch.Queue("SELECT stamps, removed_at FROM "+m.table+" WHERE id = $1 FOR UPDATE", m.id).
		QueryRow(func(row pgx.Row) error { return row.Scan(&m.stamps, &m.removedAt) })
}

func (m *merging) edit(e *RecordEdit, at stamp) {
	for _, field := range e.Fields {
		if before, ok := m.stamps[field.Column]; !ok || at.beats(before) {
			m.stamps[field.Column], m.set[field.Column] = at, field.Value
		}
	}
}

// removeAt keeps the earliest of several removals, in whatever order they come.
func (m *merging) removeAt(at time.Time) {
	if m.removedAt == nil || at.Before(*m.removedAt) {
		m.removedAt, m.remove = &at, &at
	}
}

func (p *Pushing) queueMerged(m *merging) error {
	columns := make([]string, 0, len(m.set))
	for column := range m.set {
		columns = append(columns, column)
	}
	slices.Sort(columns)
	assignments, values := []string{"stamps = $2", "removed_at = coalesce($3, removed_at)"}, []any{m.id, m.stamps, m.remove}
	for _, column := range columns {
		values = append(values, m.set[column])
		assignments = append(assignments, pgx.Identifier{column}.Sanitize()+" = $"+strconv.Itoa(len(values)))
	}
	p.batch.Queue("UPDATE "+m.table+" SET "+strings.Join(assignments, ", ")+" WHERE id = $1", values...)
	if m.noun != "site" {
		return nil
	}
	return p.siteMerged(m)
}

// siteMerged lets a new site's maker in, and follows a change of its time zone.
func (p *Pushing) siteMerged(m *merging) error {
	if m.created {
		p.batch.Queue("INSERT INTO account_sites (member_id, site_id) VALUES ($1, $2) ON CONFLICT DO NOTHING", p.who.MemberID, m.id)
	}
	value, changed := m.set["time_zone"]
	if !changed {
		return nil
	}
	name, ok := value.(string)
	if !ok {
		return fmt.Errorf("store: a time zone is a text, not %T", value)
	}
	p.zones[m.id] = zoneNamed(name)
	if m.created { // no day of it was summed before
		return nil
	}
	p.stale = append(p.stale, m.id)
	return p.alone(m.id)
}

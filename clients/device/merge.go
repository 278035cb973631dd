package device

import (
	"bytes"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
)

// A stamp says when and by which install a field was set. The later one wins,
// between equal times the greater install; an install's own later operation
// follows its earlier one in the feed and wins too.
type stamp struct {
	ms      int64
	install wire.Install
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
	if err == nil {
		s.install, err = wire.ParseInstall(raw)
	}
	return err
}

// merged is a record as its edits leave it.
type merged struct {
	kind    int
	scope   string
	siteID  string
	removed bool
	message protoreflect.Message
	stamps  map[string]stamp
}

// set merges an edit field by field; whole is false where it names a field
// that this release does not know.
func (m *merged) set(e *freshetv1.Edit, at stamp) (whole bool) {
	given := body(e.ProtoReflect(), recordOneof)
	if given == nil || given.Descriptor() != m.message.Descriptor() {
		return false
	}
	whole = true
	for _, path := range e.GetFields().GetPaths() {
		field := given.Descriptor().Fields().ByName(protoreflect.Name(path))
		if field == nil {
			whole = false
			continue
		}
		if before, ok := m.stamps[path]; ok && !at.beats(before) {
			continue
		}
		m.stamps[path] = at
		if given.Has(field) {
			m.message.Set(field, given.Get(field))
		} else {
			m.message.Clear(field)
		}
	}
	return whole
}

// newMerged is a record before its first edit; nil for kinds of a later release.
func newMerged(e *freshetv1.Edit, scope string) *merged {
	given := body(e.ProtoReflect(), recordOneof)
	if given == nil {
		return nil
	}
	return &merged{
		kind: kindNumber(e.ProtoReflect(), recordOneof), scope: scope, siteID: e.GetSiteId(),
		message: given.New(), stamps: map[string]stamp{},
	}
}

// edit merges an edit into the replica; whole is false where part of it is of
// a later release.
func (a *applier) edit(scope string, e *freshetv1.Edit, at stamp) (whole bool, err error) {
	m, err := a.record(e.GetRecordId())
	if err != nil {
		return false, err
	}
	if m == nil {
		if m = newMerged(e, scope); m == nil {
			return false, nil
		}
	}
	whole = m.set(e, at)
	return whole, a.keepRecord(e.GetRecordId(), m)
}

// removal leaves a tombstone: a later edit changes fields, and the record
// stays removed.
func (a *applier) removal(scope string, r *freshetv1.Removal) error {
	_, err := a.tx.ExecContext(a.ctx, `UPDATE records SET removed = 1 WHERE id = ? AND scope = ?`, r.GetRecordId(), scope)
	return err
}

// record reads a record of the replica; nil where there is none.
func (a *applier) record(id string) (*merged, error) {
	m, raw, stamps := &merged{}, []byte(nil), ""
	err := a.tx.QueryRowContext(a.ctx, `SELECT scope, site_id, kind, removed, body, stamps FROM records WHERE id = ?`, id).
		Scan(&m.scope, &m.siteID, &m.kind, &m.removed, &raw, &stamps)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return m, m.read(raw, stamps)
}

func (m *merged) read(raw []byte, stamps string) error {
	field := recordOneof.Fields().ByNumber(protoreflect.FieldNumber(m.kind))
	if field == nil {
		return fmt.Errorf("record of kind %d: %w", m.kind, ErrNoKind)
	}
	m.message = (&freshetv1.Edit{}).ProtoReflect().NewField(field).Message()
	if err := proto.Unmarshal(raw, m.message.Interface()); err != nil {
		return err
	}
	return json.Unmarshal([]byte(stamps), &m.stamps)
}

func (a *applier) keepRecord(id string, m *merged) error {
	raw, err := proto.Marshal(m.message.Interface())
	if err != nil {
		return err
	}
	stamps, err := json.Marshal(m.stamps)
	if err != nil {
		return err
	}
	_, err = a.tx.ExecContext(a.ctx, `INSERT OR REPLACE INTO records VALUES (?,?,?,?,?,?,?)`,
		id, m.scope, m.siteID, m.kind, m.removed, raw, string(stamps))
	return err
}

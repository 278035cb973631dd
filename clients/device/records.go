package device

import (
	"context"
	"slices"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
)

// Record is one record as this device sees it: the cooperative's fields, with
// its own entries laid over.
type Record struct {
	ID      string
	Kind    string // its name in the contract: "vessel"
	SiteID  string // empty for records of the cooperative and of the member
	Message protoreflect.Message
	Pending bool // own edits of it are not yet with the cooperative
}

// Records lists the records of the given kinds, or of all where none is given,
// in the order of their ids. Removed ones are left out.
func (d *Device) Records(ctx context.Context, kinds ...string) ([]Record, error) {
	all, err := storedRecords(ctx, d.db)
	if err != nil {
		return nil, err
	}
	pending := map[string]bool{}
	err = d.laidOver(ctx, d.db, func(w waiting) error {
		if id := layOver(all, w); id != "" && w.pending {
			pending[id] = true
		}
		return nil
	}, laneOther)
	if err != nil {
		return nil, err
	}
	var list []Record
	for id, m := range all {
		kind := string(recordOneof.Fields().ByNumber(protoreflect.FieldNumber(m.kind)).Name())
		if !m.removed && (len(kinds) == 0 || slices.Contains(kinds, kind)) {
			list = append(list, Record{ID: id, Kind: kind, SiteID: m.siteID, Message: m.message, Pending: pending[id]})
		}
	}
	slices.SortFunc(list, func(a, b Record) int { return strings.Compare(a.ID, b.ID) })
	return list, nil
}

func storedRecords(ctx context.Context, q queryer) (map[string]*merged, error) {
	all := map[string]*merged{}
	return all, each(ctx, q, `SELECT id, scope, site_id, kind, removed, body, stamps FROM records`, nil,
		func(scan func(...any) error) error {
			m, id, raw, stamps := &merged{}, "", []byte(nil), ""
			if err := scan(&id, &m.scope, &m.siteID, &m.kind, &m.removed, &raw, &stamps); err != nil {
				return err
			}
			all[id] = m
			return m.read(raw, stamps)
		})
}

// layOver applies one own operation to the records it is about, and names the
// record. An own entry is shown before the cooperative has judged it, so its
// stamp beats every other.
func layOver(all map[string]*merged, w waiting) (id string) {
	switch c := w.op.GetChange().(type) {
	case *freshetv1.Operation_Edit:
		id = c.Edit.GetRecordId()
		if all[id] == nil {
			m := newMerged(c.Edit, "")
			if m == nil {
				return ""
			}
			all[id] = m
		}
		all[id].set(c.Edit, stamp{ms: 1<<63 - 1})
	case *freshetv1.Operation_Removal:
		id = c.Removal.GetRecordId()
		if all[id] != nil {
			all[id].removed = true
		}
	}
	return id
}

// Belongs gives the member and the cooperative that the device belongs to;
// both empty before joining.
func (d *Device) Belongs(ctx context.Context) (memberID, cooperativeID string, err error) {
	memberID, err = fact(ctx, d.db, factMember)
	if err != nil {
		return "", "", err
	}
	cooperativeID, err = fact(ctx, d.db, factCooperative)
	return memberID, cooperativeID, err
}

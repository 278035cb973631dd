package server

import (
	"slices"
	"sync"

	"github.com/google/uuid"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/store"
)

// rosters keeps what records scopes have between pushes, for as long as no page
// changes records.
type rosters struct {
	mu   sync.Mutex
	kept map[uuid.UUID]keptRoster
}

type keptRoster struct {
	sequence uint64
	roster   roster
}

// roster is the noun of each record by its id.
type roster map[uuid.UUID]string

func newRosters() *rosters { return &rosters{kept: map[uuid.UUID]keptRoster{}} }

// of gives a site's roster as of a sequence, by the nil uuid that of no site.
func (r *rosters) of(site uuid.UUID, sequence uint64, read func() ([]store.RecordHead, error)) (roster, error) {
	r.mu.Lock()
	kept, ok := r.kept[site]
	r.mu.Unlock()
	if ok && kept.sequence == sequence {
		return kept.roster, nil
	}
	heads, err := read()
	if err != nil {
		return nil, err
	}
	found := roster{}
	for _, head := range heads {
		found[head.ID] = head.Noun
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.kept[site] = keptRoster{sequence, found}
	return found, nil
}

// roster is read once a push.
func (in *intake) roster(site uuid.UUID) (roster, error) {
	if known := in.records[site]; known != nil {
		return known, nil
	}
	scope := coopScope
	if site != uuid.Nil {
		scope = siteScope(site)
	}
	found, err := in.rosters.of(site, in.pushing.RecordsSequence[scope], func() ([]store.RecordHead, error) { return in.pushing.Records(in.ctx, site) })
	in.records[site] = found
	return found, err
}

// referee tells what records of a site, or of the cooperative, may be named.
func (in *intake) referee(site uuid.UUID) (referee, error) {
	own, err := in.roster(site)
	if err != nil {
		return nil, err
	}
	shared, err := in.roster(uuid.Nil)
	return func(noun string, id uuid.UUID) bool {
		made := in.made[id]
		for _, found := range []string{own[id], shared[id], made.noun} {
			if found == noun || noun == "place" && (found == "vessel" || found == "bed") {
				return made.noun == "" || made.site == site || made.site == uuid.Nil
			}
		}
		return noun == "site" && id == site
	}, err
}

// recordOf finds which record an edit sets.
func recordOf(e *freshetv1.Edit) (noun string, message protoreflect.Message, ok bool) {
	m := e.ProtoReflect()
	field := m.WhichOneof(m.Descriptor().Oneofs().ByName("record"))
	if field == nil {
		return "", nil, false
	}
	return string(field.Name()), m.Get(field).Message(), true
}

func (in *intake) edit(op *freshetv1.Operation, e *freshetv1.Edit) (func(), *refusal, error) {
	noun, message, id, wrong := target(e)
	if wrong != nil {
		return nil, wrong, nil
	}
	site, scope, wrong := in.home(noun, id, e.GetSiteId(), id == in.id(op.GetNumber()))
	if wrong != nil {
		return nil, wrong, nil
	}
	created, wrong, err := in.known(op, noun, id, site)
	if wrong != nil || err != nil {
		return nil, wrong, err
	}
	fields, wrong := named(noun, message.Descriptor(), e.GetFields().GetPaths(), created)
	if wrong != nil {
		return nil, wrong, nil
	}
	refers, err := in.referee(site)
	if err != nil {
		return nil, nil, err
	}
	if wrong := validate("edit."+noun, message, refers, fields); wrong != nil {
		return nil, wrong, nil
	}
	if created {
		in.made[id] = madeRecord{noun, site}
		in.undoable(func() { delete(in.made, id) })
	}
	row := store.RecordEdit{Noun: noun, ID: id, SiteID: site, New: created, EnteredMs: op.GetNoted().GetWallMs(), Fields: columns(message, fields)}
	if noun == "site" {
		row.SiteID = uuid.Nil
	}
	return func() {
		in.push.Edits = append(in.push.Edits, row)
		in.changes[scope] = true
		in.send(scope, op)
	}, nil, nil
}

// target finds the record that an edit is of.
func target(e *freshetv1.Edit) (noun string, message protoreflect.Message, id uuid.UUID, wrong *refusal) {
	noun, message, ok := recordOf(e)
	if !ok {
		return "", nil, id, fault(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "edit", "it holds no record that this server knows")
	}
	if e.GetRecordId() == "" {
		return "", nil, id, fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "edit.record_id", "")
	}
	if id, ok = readID(e.GetRecordId()); !ok {
		return "", nil, id, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "edit.record_id", "")
	}
	return noun, message, id, nil
}

// columns are the named fields as they are stored.
func columns(message protoreflect.Message, names []string) (fields []store.Field) {
	for _, name := range names {
		fields = append(fields, store.Field{Column: name, Value: columnValue(message, message.Descriptor().Fields().ByName(protoreflect.Name(name)))})
	}
	return fields
}

// cooperativeNouns may stand without a site, for all members.
var cooperativeNouns = []string{"feed", "species", "crop", "remedy", "plan", "trial"}

// home finds the scope a record belongs to, where the caller may change it.
func (in *intake) home(noun string, id uuid.UUID, siteID string, makes bool) (site uuid.UUID, scope string, wrong *refusal) {
	keeper := in.caller.Is(freshetv1.Role_ROLE_STEWARD, freshetv1.Role_ROLE_GROWER)
	forbidden := fault(freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS, "edit", "")
	switch {
	case noun == "member":
		if id != in.caller.MemberID {
			return site, "", fault(freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS, "edit.record_id", "settings are their member's own")
		}
		return uuid.Nil, memberScope(id), nil
	case noun == "cooperative":
		if id != in.coop || !in.caller.Is(freshetv1.Role_ROLE_STEWARD) {
			return site, "", forbidden
		}
		return uuid.Nil, coopScope, nil
	case noun == "site":
		if makes && keeper || in.made[id].noun == "site" || keeper && in.caller.At(id) {
			return id, siteScope(id), nil
		}
		return site, "", in.notYours("edit.record_id", id)
	case siteID == "" && slices.Contains(cooperativeNouns, noun):
		if !keeper {
			return site, "", forbidden
		}
		return uuid.Nil, coopScope, nil
	}
	site, wrong = in.siteOf("edit.site_id", siteID, noun)
	return site, siteScope(site), wrong
}

// known says whether the edit makes its record; else the record must be there,
// of the same noun and in the same scope.
func (in *intake) known(op *freshetv1.Operation, noun string, id, site uuid.UUID) (created bool, wrong *refusal, err error) {
	if noun == "member" || noun == "cooperative" {
		return false, nil, nil
	}
	if id == in.id(op.GetNumber()) {
		return true, nil, nil
	}
	if made := in.made[id]; made.noun == noun && made.site == site {
		return false, nil, nil
	}
	if noun == "site" && in.caller.At(id) {
		return false, nil, nil
	}
	records, err := in.roster(site)
	if install, _, ok := wire.Split(id); err == nil && records[id] == "" && ok && install == in.install {
		return false, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "edit.record_id", "this operation makes another id"), nil
	}
	if err == nil && records[id] != noun {
		wrong = fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, "edit.record_id", "there is no such "+noun+" here, and this install could not have made it with this operation")
	}
	return false, wrong, err
}

// named gives the fields an edit sets. One that makes a record must name those
// that must be given.
func named(noun string, m protoreflect.MessageDescriptor, paths []string, created bool) ([]string, *refusal) {
	for _, path := range paths {
		if m.Fields().ByName(protoreflect.Name(path)) == nil {
			return nil, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, "edit.fields", "there is no field "+path)
		}
	}
	if len(paths) == 0 {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "edit.fields", "")
	}
	for i := range m.Fields().Len() {
		f := m.Fields().Get(i)
		if created && limitsOf(f).GetRequired() && mustShow(f) && !slices.Contains(paths, string(f.Name())) {
			return nil, fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "edit."+noun+"."+string(f.Name()), "")
		}
	}
	slices.Sort(paths)
	return slices.Compact(paths), nil
}

func (in *intake) removal(op *freshetv1.Operation, r *freshetv1.Removal) (func(), *refusal, error) {
	id, ok := readID(r.GetRecordId())
	if !ok {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "removal.record_id", ""), nil
	}
	site, scope := uuid.Nil, coopScope
	if r.GetSiteId() != "" {
		var wrong *refusal
		if site, wrong = in.siteOf("removal.site_id", r.GetSiteId(), ""); wrong != nil {
			return nil, wrong, nil
		}
		scope = siteScope(site)
	}
	records, err := in.roster(site)
	if err != nil {
		return nil, nil, err
	}
	noun := records[id]
	if made := in.made[id]; made.noun != "" && made.site == site {
		noun = made.noun
	}
	shared := slices.Contains(cooperativeNouns, noun) && in.caller.Is(freshetv1.Role_ROLE_STEWARD, freshetv1.Role_ROLE_GROWER)
	if noun == "" || site == uuid.Nil && !shared {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, "removal.record_id", ""), nil
	}
	return func() {
		in.push.Removals = append(in.push.Removals, store.RecordRemoval{Noun: noun, ID: id, EnteredMs: op.GetNoted().GetWallMs()})
		in.changes[scope] = true
		in.send(scope, op)
	}, nil, nil
}

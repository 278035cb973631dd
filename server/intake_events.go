package server

import (
	"crypto/sha256"
	"slices"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/store"
)

// look judges one operation. It gives what storing it does, or the fault.
func (in *intake) look(op *freshetv1.Operation) (func(), *refusal, error) {
	switch change := op.GetChange().(type) {
	case *freshetv1.Operation_Event:
		return in.event(op, change.Event)
	case *freshetv1.Operation_Edit:
		return in.edit(op, change.Edit)
	case *freshetv1.Operation_Removal:
		return in.removal(op, change.Removal)
	}
	return nil, fault(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "", "it says nothing that this server knows"), nil
}

// kindOf finds what an event says: its field of the oneof, by the contract's name.
func kindOf(e *freshetv1.Event) (noun string, message protoreflect.Message, ok bool) {
	m := e.ProtoReflect()
	field := m.WhichOneof(m.Descriptor().Oneofs().ByName("kind"))
	if field == nil {
		return "", nil, false
	}
	return string(field.Name()), m.Get(field).Message(), true
}

func (in *intake) event(op *freshetv1.Operation, e *freshetv1.Event) (func(), *refusal, error) {
	noun, message, ok := kindOf(e)
	if !ok {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "event", "it holds no event that this server knows"), nil
	}
	site, wrong := in.siteOf("event.site_id", e.GetSiteId(), noun)
	if wrong == nil {
		wrong = in.when(e)
	}
	if wrong != nil {
		return nil, wrong, nil
	}
	if c := e.GetCorrection(); c != nil {
		return in.correction(op, e, c, site)
	}
	row, reading, wrong, err := in.row(e, noun, message, site, in.id(op.GetNumber()), op.GetNoted().GetWallMs(), "event."+noun)
	if wrong != nil || err != nil {
		return nil, wrong, err
	}
	if wrong, err := in.inTurn(e, message, noun); wrong != nil || err != nil {
		return nil, wrong, err
	}
	return func() {
		if reading != nil {
			in.push.Readings = append(in.push.Readings, *reading)
		} else {
			in.push.Events = append(in.push.Events, *row)
		}
		in.send(eventScope(site, noun), op)
	}, nil, nil
}

func eventScope(site uuid.UUID, noun string) string {
	if store.IsHouse(noun) {
		return houseScope(site)
	}
	return siteScope(site)
}

func (in *intake) send(scope string, op *freshetv1.Operation) {
	page := in.page(scope)
	page.Operations = append(page.Operations, op)
}

// siteOf finds the site that something is entered at, where the caller may.
func (in *intake) siteOf(path, text, noun string) (uuid.UUID, *refusal) {
	site, ok := readID(text)
	if !ok {
		if text == "" {
			return site, fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, path, "")
		}
		return site, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, path, "")
	}
	if in.made[site].noun == "site" {
		return site, nil
	}
	if !in.caller.Enters(site) {
		return site, in.notYours(path, site)
	}
	if in.caller.Role == freshetv1.Role_ROLE_SENSOR && noun != "reading" {
		return site, fault(freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS, path, "a sensor enters readings only")
	}
	return site, nil
}

// notYours is the fault of what is said of a site that the caller may not enter
// at. Where the site exists it is held: the caller may have lost it while the
// entry waited, and its grower decides.
func (in *intake) notYours(path string, site uuid.UUID) *refusal {
	wrong := fault(freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS, path, "")
	wrong.held = slices.Contains(in.pushing.Others, site)
	return wrong
}

// soon is how far ahead of now something may be said to have happened.
const soon = time.Hour

// earliest is before any record that is brought in; a date before it is a
// clock that was never set.
var earliest = time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC)

func (in *intake) when(e *freshetv1.Event) *refusal {
	if e.GetOccurredAt() == nil {
		return fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "event.occurred_at", "")
	}
	if !e.GetOccurredAt().IsValid() {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, "event.occurred_at", "")
	}
	return in.moment("event.occurred_at", e.GetOccurredAt().AsTime())
}

func (in *intake) moment(path string, t time.Time) *refusal {
	switch {
	case t.After(in.received.Add(soon)):
		return fault(freshetv1.ErrorReason_ERROR_REASON_IN_THE_FUTURE, path, "")
	case t.Before(earliest):
		return fault(freshetv1.ErrorReason_ERROR_REASON_BAD_DATE, path, "it lies before 1990, as of a clock that was never set")
	}
	return nil
}

// row turns an event's own message into what the store keeps.
func (in *intake) row(e *freshetv1.Event, noun string, message protoreflect.Message, site, id uuid.UUID, enteredMs int64, path string) (*store.EventRow, *store.ReadingRow, *refusal, error) {
	refers, err := in.referee(site)
	if err != nil {
		return nil, nil, nil, err
	}
	if wrong := validate(path, message, refers, nil); wrong != nil {
		return nil, nil, wrong, nil
	}
	if wrong := coherent(e, path); wrong != nil {
		return nil, nil, wrong, nil
	}
	occurred := e.GetOccurredAt().AsTime()
	if r := e.GetReading(); r != nil {
		row, wrong := readingRow(r, path)
		if wrong != nil {
			return nil, nil, wrong, nil
		}
		row.ID, row.SiteID, row.OccurredMs, row.EnteredMs = id, site, occurred.UnixMilli(), enteredMs
		return nil, row, nil, nil
	}
	return &store.EventRow{
		Noun: noun, ID: id, SiteID: site, OccurredAt: occurred, EnteredAt: time.UnixMilli(enteredMs),
		Columns: columnNames(message.Descriptor()), Values: columnValues(message),
	}, nil, nil, nil
}

// coherent looks at what no field by itself can show.
func coherent(e *freshetv1.Event, path string) *refusal {
	at := e.GetOccurredAt().AsTime()
	switch {
	case e.GetEnergy().GetBeganAt() != nil && e.GetEnergy().GetBeganAt().AsTime().After(at):
		return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".began_at", "it would have begun after its end")
	case e.GetIncident().GetEndedAt() != nil && e.GetIncident().GetEndedAt().AsTime().Before(at):
		return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".ended_at", "it would have ended before it began")
	case e.GetPhoto() != nil && len(e.GetPhoto().GetSha256()) != sha256.Size:
		return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".sha256", "a hash has 32 bytes")
	case e.GetDisposition() != nil && e.GetDisposition().GetCrop() == "" && e.GetDisposition().GetSpecies() == "":
		return fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, path+".crop", "name the crop or the species")
	}
	return nil
}

func readingRow(r *freshetv1.Reading, path string) (*store.ReadingRow, *refusal) {
	micro, wrong := typedReading{r.GetQuantity(), r.GetDigits(), r.GetDecimals(), r.GetUnit(), r.GetBasis()}.canonical(path)
	if wrong != nil {
		return nil, wrong
	}
	place, _ := uuid.Parse(r.GetPlaceId())
	probe, _ := uuid.Parse(r.GetEquipmentId())
	return &store.ReadingRow{
		Quantity: int16(r.GetQuantity()), Digits: r.GetDigits(), Decimals: int64(r.GetDecimals()), Unit: int16(r.GetUnit()),
		Basis: int16(r.GetBasis()), Method: int16(r.GetMethod()), Censoring: int16(r.GetCensoring()), PlaceID: place, EquipmentID: probe, ValueMicro: micro,
	}, nil
}

// correction voids an event of the same site, or puts another in its place.
func (in *intake) correction(op *freshetv1.Operation, e *freshetv1.Event, c *freshetv1.Correction, site uuid.UUID) (func(), *refusal, error) {
	const path = "event.correction"
	if wrong := validateField(path+".words", c.ProtoReflect().Descriptor().Fields().ByName("words"), c.ProtoReflect(), nil); wrong != nil {
		return nil, wrong, nil
	}
	about, ok := readID(c.GetEventId())
	if !ok {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, path+".event_id", ""), nil
	}
	private, found, err := in.corrected(about, site)
	if err != nil {
		return nil, nil, err
	}
	if !found {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, path+".event_id", "there is no such event at this site"), nil
	}
	entered := op.GetNoted().GetWallMs()
	out := store.Correction{ID: in.id(op.GetNumber()), SiteID: site, OccurredAt: e.GetOccurredAt().AsTime(), EnteredAt: time.UnixMilli(entered), EventID: about, Words: c.GetWords()}
	if r := c.GetReplacement(); r != nil {
		row, wrong, err := in.replacement(r, site, out.ID, entered)
		if wrong != nil || err != nil {
			return nil, wrong, err
		}
		if store.IsHouse(row.Noun) != private {
			return nil, fault(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, path+".replacement", "what is private to the site and what is not cannot stand in each other's place"), nil
		}
		out.Replacement = row
	}
	scope := siteScope(site)
	if private {
		scope = houseScope(site)
	}
	return func() {
		in.push.Corrections = append(in.push.Corrections, out)
		in.send(scope, op)
	}, nil, nil
}

// corrected finds the event that a correction is about, here or in this push,
// and tells whether it is private to the site.
func (in *intake) corrected(id, site uuid.UUID) (private, found bool, err error) {
	if _, number, _ := wire.Split(id); in.makes(id) && number > in.pushing.Through {
		return in.correctedHere(id, site)
	}
	family, err := in.pushing.Family(in.ctx, []uuid.UUID{id})
	for _, e := range family {
		found = found || e.ID == id && e.SiteID == site
		private = private || store.IsHouse(e.Noun)
	}
	return private, found, err
}

// correctedHere looks among what this push stores.
func (in *intake) correctedHere(id, site uuid.UUID) (private, found bool, err error) {
	for i := range in.push.Readings {
		if r := &in.push.Readings[i]; r.ID == id {
			return false, r.SiteID == site, nil
		}
	}
	for i := range in.push.Events {
		if e := &in.push.Events[i]; e.ID == id {
			return store.IsHouse(e.Noun), e.SiteID == site, nil
		}
	}
	for i := range in.push.Corrections {
		if c := &in.push.Corrections[i]; c.ID == id && c.SiteID == site {
			return in.corrected(c.EventID, site)
		}
	}
	return false, false, nil
}

func (in *intake) replacement(r *freshetv1.Event, site, id uuid.UUID, enteredMs int64) (*store.EventRow, *refusal, error) {
	const path = "event.correction.replacement"
	noun, message, ok := kindOf(r)
	if !ok || noun == "correction" || r.GetOccurredAt() == nil {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, path, "it must hold an event, with its time"), nil
	}
	if r.GetSiteId() != site.String() {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS, path+".site_id", "it must stand at the same site"), nil
	}
	if wrong := in.moment(path+".occurred_at", r.GetOccurredAt().AsTime()); wrong != nil {
		return nil, wrong, nil
	}
	row, reading, wrong, err := in.row(r, noun, message, site, id, enteredMs, path+"."+noun)
	if reading != nil {
		row = &store.EventRow{Noun: noun, ID: id, SiteID: site, OccurredAt: r.GetOccurredAt().AsTime(), EnteredAt: time.UnixMilli(enteredMs),
			Columns: append(columnNames(message.Descriptor()), "value_micro"), Values: append(columnValues(message), reading.ValueMicro)}
	}
	return row, wrong, err
}

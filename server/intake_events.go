package server

import (
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
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
	site, err := uuid.Parse(text)
	if err != nil {
		if text == "" {
			return site, fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, path, "")
		}
		return site, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, path, "")
	}
	if in.made[site].noun == "site" {
		return site, nil
	}
	if !in.caller.Enters(site) {
		return site, fault(freshetv1.ErrorReason_ERROR_REASON_SITE_NOT_YOURS, path, "")
	}
	if in.caller.Role == freshetv1.Role_ROLE_SENSOR && noun != "reading" {
		return site, fault(freshetv1.ErrorReason_ERROR_REASON_ROLE_FORBIDS, path, "a sensor enters readings only")
	}
	return site, nil
}

// earliest is before any record that is brought in; a date before it is a
// clock that was never set.
var earliest = time.Date(1990, 1, 1, 0, 0, 0, 0, time.UTC)

func (in *intake) when(e *freshetv1.Event) *refusal {
	if e.GetOccurredAt() == nil {
		return fault(freshetv1.ErrorReason_ERROR_REASON_FIELD_MISSING, "event.occurred_at", "")
	}
	return in.moment("event.occurred_at", e.GetOccurredAt().AsTime())
}

func (in *intake) moment(path string, t time.Time) *refusal {
	switch {
	case t.After(in.received.Add(time.Hour)):
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
	about, err := uuid.Parse(c.GetEventId())
	if err != nil {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "event.correction.event_id", ""), nil
	}
	found, err := in.pushing.Family(in.ctx, []uuid.UUID{about})
	if err != nil {
		return nil, nil, err
	}
	if (len(found) == 0 || found[0].SiteID != site) && !in.stored(about) {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, "event.correction.event_id", "there is no such event at this site"), nil
	}
	if wrong := validateText("event.correction.words", limitsOf(c.ProtoReflect().Descriptor().Fields().ByName("words")), c.GetWords(), nil); wrong != nil {
		return nil, wrong, nil
	}
	entered := op.GetNoted().GetWallMs()
	out := store.Correction{ID: in.id(op.GetNumber()), SiteID: site, OccurredAt: e.GetOccurredAt().AsTime(), EnteredAt: time.UnixMilli(entered), EventID: about, Words: c.GetWords()}
	if r := c.GetReplacement(); r != nil {
		row, wrong, err := in.replacement(r, site, out.ID, entered)
		if wrong != nil || err != nil {
			return nil, wrong, err
		}
		out.Replacement = row
	}
	return func() {
		in.push.Corrections = append(in.push.Corrections, out)
		in.send(siteScope(site), op)
	}, nil, nil
}

// stored says whether this push stores the event itself.
func (in *intake) stored(id uuid.UUID) bool {
	for _, r := range in.push.Readings {
		if r.ID == id {
			return true
		}
	}
	for _, e := range in.push.Events {
		if e.ID == id {
			return true
		}
	}
	return false
}

func (in *intake) replacement(r *freshetv1.Event, site, id uuid.UUID, enteredMs int64) (*store.EventRow, *refusal, error) {
	const path = "event.correction.replacement"
	noun, message, ok := kindOf(r)
	if !ok || noun == "correction" || r.GetOccurredAt() == nil {
		return nil, fault(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, path, "it must hold an event, with its time"), nil
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

// inTurn holds what rests on earlier records to them: fish that leave must have
// come, and a harvest follows its sowing.
func (in *intake) inTurn(e *freshetv1.Event, message protoreflect.Message, noun string) (*refusal, error) {
	switch {
	case e.GetDeath() != nil || e.GetMove() != nil || e.GetFishHarvest() != nil:
		return in.fishLeave(message, noun)
	case e.GetStocking() != nil || e.GetCount() != nil:
		return nil, in.fishCome(message, noun)
	case e.GetBedHarvest() != nil:
		return in.afterSowing(e)
	case e.GetSowing() != nil:
		in.begins(e.GetSowing().GetPlantingId(), e.GetOccurredAt().AsTime())
	case e.GetTransplanting() != nil:
		in.begins(e.GetTransplanting().GetPlantingId(), e.GetOccurredAt().AsTime())
	}
	return nil, nil
}

// cohortPast is how many fish of a cohort ever came, and how many left.
type cohortPast struct{ came, counted, left int64 }

func (c *cohortPast) add(noun string, n int64) {
	switch noun {
	case "stocking", "move_in":
		c.came += n
	case "count":
		c.counted = max(c.counted, n)
	default:
		c.left += n
	}
}

// ever is the most that can have lived.
func (c *cohortPast) ever() int64 { return max(c.came, c.counted+c.left) }

// past is a cohort's record with what this push adds to it.
func (in *intake) past(message protoreflect.Message, field string) (*cohortPast, error) {
	cohort, err := uuid.Parse(message.Get(message.Descriptor().Fields().ByName(protoreflect.Name(field))).String())
	if err != nil || in.pasts[cohort] != nil {
		return in.pasts[cohort], err
	}
	events, err := in.pushing.CohortEvents(in.ctx, []uuid.UUID{cohort})
	past := &cohortPast{}
	for _, e := range events {
		past.add(e.Noun, e.Count)
	}
	in.pasts[cohort] = past
	return past, err
}

func countOf(message protoreflect.Message) int64 {
	return int64(message.Get(message.Descriptor().Fields().ByName("count")).Uint()) // #nosec G115 -- within the field's limits
}

// fishCome may be looked at beside other pushes: that only ever allows too much,
// and the count is flagged when it shows.
func (in *intake) fishCome(message protoreflect.Message, noun string) error {
	past, err := in.past(message, "cohort_id")
	if err == nil {
		past.add(noun, countOf(message))
	}
	return err
}

// fishLeave holds more than ever lived. Where nothing was noted to have come, a
// stocking is still to arrive, and nothing can be said.
func (in *intake) fishLeave(message protoreflect.Message, noun string) (*refusal, error) {
	past, err := in.past(message, "cohort_id")
	if err != nil {
		return nil, err
	}
	if ever := past.ever(); ever > 0 && past.left+countOf(message) > ever {
		return fault(freshetv1.ErrorReason_ERROR_REASON_MORE_THAN_LIVED, "event."+noun+".count", ""), nil
	}
	past.add(noun, countOf(message))
	if noun != "move" {
		return nil, nil
	}
	joined, err := in.past(message, "to_cohort_id")
	if err == nil {
		joined.add("move_in", countOf(message))
	}
	return nil, err
}

func (in *intake) begins(planting string, at time.Time) {
	id, err := uuid.Parse(planting)
	if before, ok := in.begun[id]; err == nil && (!ok || at.Before(before)) {
		in.begun[id] = at
	}
}

func (in *intake) afterSowing(e *freshetv1.Event) (*refusal, error) {
	id, err := uuid.Parse(e.GetBedHarvest().GetPlantingId())
	if err != nil {
		return nil, err
	}
	if _, here := in.begun[id]; !here {
		events, err := in.pushing.PlantingEvents(in.ctx, []uuid.UUID{id})
		if err != nil {
			return nil, err
		}
		for _, past := range events {
			if past.Noun == "sowing" || past.Noun == "transplanting" {
				in.begins(id.String(), past.OccurredAt)
			}
		}
	}
	begun, known := in.begun[id]
	if known && e.GetOccurredAt().AsTime().Before(begun.Add(-24*time.Hour)) {
		return fault(freshetv1.ErrorReason_ERROR_REASON_BEFORE_ITS_CAUSE, "event.occurred_at", "it lies before the planting was sown"), nil
	}
	return nil, nil
}

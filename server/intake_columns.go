package server

import (
	"errors"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/store"
)

// columnIDs parses the ids of a batch once, not row by row.
type columnIDs map[string]uuid.UUID

func parseColumnIDs(texts []string) (columnIDs, bool) {
	ids := columnIDs{"": uuid.Nil}
	for _, text := range texts {
		id, err := uuid.Parse(text)
		if err != nil {
			return nil, false
		}
		ids[text] = id
	}
	return ids, true
}

// columnRows is a batch of columns being looked at row by row.
type columnRows struct {
	ids     columnIDs
	site    uuid.UUID // of the last row
	refers  referee
	good    map[uuid.UUID]bool // ids that may be named, once looked at
	mixed   bool               // rows of several sites
	refused int
}

// at moves on to a row's site and says whether the caller may enter there.
func (in *intake) at(c *columnRows, text, noun string) (*refusal, error) {
	site := c.ids[text]
	if c.refers != nil && site == c.site {
		return nil, nil
	}
	if _, wrong := in.siteOf("event.site_id", text, noun); wrong != nil {
		return wrong, nil
	}
	c.mixed = c.mixed || c.refers != nil
	var err error
	c.site, c.good = site, map[uuid.UUID]bool{uuid.Nil: true}
	c.refers, err = in.referee(site)
	return nil, err
}

// names says whether a row may name a record.
func (c *columnRows) names(path, noun, text string) *refusal {
	id := c.ids[text]
	if !c.good[id] {
		if !c.refers(noun, id) {
			return fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, path, "there is no "+noun+" with this id here")
		}
		c.good[id] = true
	}
	return nil
}

// lateBy is what a batch's clock goes wrong by, ms: one settling serves all rows.
func (in *intake) lateBy(noted *freshetv1.Noted) int64 {
	if noted == nil {
		return 0
	}
	return in.settled(noted) - noted.GetWallMs()
}

func (in *intake) entered(wallMs, late int64) int64 {
	return min(wallMs+late, in.received.UnixMilli()+2*time.Minute.Milliseconds())
}

// readingColumns stores a batch of readings. Where every row is good and of one
// site, the columns go into the feed as they came.
func (in *intake) readingColumns(columns *freshetv1.ReadingColumns) error {
	ids, ok := parseColumnIDs(columns.GetIds())
	if !ok {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "readings.ids", "", "")
	}
	if err := in.closeGroup(); err != nil {
		return err
	}
	c, late, begin := &columnRows{ids: ids}, in.lateBy(columns.GetNoted()), len(in.push.Readings)
	var rows []*freshetv1.Operation
	err := wire.EachReading(columns, func(r *wire.ReadingRow) error {
		if r.Number <= in.pushing.Through {
			c.refused++ // it has its outcome; the columns cannot go on as they came
			return nil
		}
		row, wrong, err := in.readingOf(c, r, late)
		if err != nil {
			return err
		}
		if wrong != nil {
			c.refused++
			return in.refuse(readingOperation(r), wrong)
		}
		in.push.Readings = append(in.push.Readings, row)
		return nil
	})
	if err != nil {
		return malformed(err, "readings")
	}
	stored := in.push.Readings[begin:]
	if len(stored) == 0 {
		return nil
	}
	if c.refused == 0 && !c.mixed {
		page := in.page(siteScope(c.site))
		page.Readings = append(page.Readings, columns)
		return nil
	}
	rows = readingOperations(in, stored)
	for i, op := range rows {
		in.send(siteScope(stored[i].SiteID), op)
	}
	return nil
}

func malformed(err error, field string) error {
	if errors.Is(err, wire.ErrColumns) {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, field, err.Error(), "")
	}
	return err
}

func (in *intake) readingOf(c *columnRows, r *wire.ReadingRow, late int64) (store.ReadingRow, *refusal, error) {
	wrong, err := in.at(c, r.Site, "reading")
	if wrong == nil && err == nil {
		wrong = in.columnMoment(r.OccurredMs)
	}
	if wrong == nil && err == nil {
		wrong = c.names("event.reading.place_id", "place", r.Place)
	}
	if wrong == nil && err == nil {
		wrong = c.names("event.reading.equipment_id", "equipment", r.Equipment)
	}
	if wrong != nil || err != nil {
		return store.ReadingRow{}, wrong, err
	}
	micro, wrong := typedReading{r.Quantity, r.Digits, r.Decimals, r.Unit, r.Basis}.canonical("event.reading")
	if wrong != nil {
		return store.ReadingRow{}, wrong, nil
	}
	if freshetv1.Method_name[int32(r.Method)] == "" || freshetv1.Censoring_name[int32(r.Censoring)] == "" {
		return store.ReadingRow{}, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, "event.reading.method", ""), nil
	}
	return store.ReadingRow{
		ID: in.id(r.Number), SiteID: c.site, OccurredMs: r.OccurredMs, EnteredMs: in.entered(r.EnteredMs, late), Quantity: int16(r.Quantity),
		Digits: r.Digits, Decimals: int64(r.Decimals), Unit: int16(r.Unit), Basis: int16(r.Basis), Method: int16(r.Method),
		Censoring: int16(r.Censoring), PlaceID: c.ids[r.Place], EquipmentID: c.ids[r.Equipment], ValueMicro: micro,
	}, nil, nil
}

func (in *intake) columnMoment(ms int64) *refusal {
	if ms > in.received.Add(time.Hour).UnixMilli() || ms < earliest.UnixMilli() {
		return in.moment("event.occurred_at", time.UnixMilli(ms))
	}
	return nil
}

func readingOperation(r *wire.ReadingRow) *freshetv1.Operation {
	return &freshetv1.Operation{Number: r.Number, Noted: &freshetv1.Noted{WallMs: r.EnteredMs}, Change: &freshetv1.Operation_Event{Event: &freshetv1.Event{
		SiteId: r.Site, OccurredAt: timestamppb.New(time.UnixMilli(r.OccurredMs)), Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
			Quantity: r.Quantity, Digits: r.Digits, Decimals: r.Decimals, Unit: r.Unit, Basis: r.Basis, Method: r.Method,
			Censoring: r.Censoring, PlaceId: r.Place, EquipmentId: r.Equipment,
		}},
	}}}
}

// readingOperations writes stored rows as operations, where the columns cannot
// go into the feed as they came.
func readingOperations(in *intake, stored []store.ReadingRow) []*freshetv1.Operation {
	text := func(id uuid.UUID) string {
		if id == uuid.Nil {
			return ""
		}
		return id.String()
	}
	var list []*freshetv1.Operation
	for i := range stored {
		r := &stored[i]
		_, number, _ := wire.Split(r.ID)
		list = append(list, readingOperation(&wire.ReadingRow{
			Number: number, Site: r.SiteID.String(), Place: text(r.PlaceID), Equipment: text(r.EquipmentID), OccurredMs: r.OccurredMs, EnteredMs: r.EnteredMs,
			Quantity: freshetv1.Quantity(r.Quantity), Digits: r.Digits, Decimals: uint32(r.Decimals), Unit: freshetv1.Unit(r.Unit),
			Basis: freshetv1.Basis(r.Basis), Method: freshetv1.Method(r.Method), Censoring: freshetv1.Censoring(r.Censoring),
		}))
	}
	return list
}

// feedingColumns stores a batch of feedings, row by row as operations: there
// are few of them.
func (in *intake) feedingColumns(columns *freshetv1.FeedingColumns) error {
	if _, ok := parseColumnIDs(columns.GetIds()); !ok {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, "feedings.ids", "", "")
	}
	late := in.lateBy(columns.GetNoted())
	err := wire.EachFeeding(columns, func(r *wire.FeedingRow) error {
		if r.Number <= in.pushing.Through {
			return nil
		}
		op := &freshetv1.Operation{Number: r.Number, Noted: &freshetv1.Noted{WallMs: in.entered(r.EnteredMs, late)}, Change: &freshetv1.Operation_Event{Event: &freshetv1.Event{
			SiteId: r.Site, OccurredAt: timestamppb.New(time.UnixMilli(r.OccurredMs)),
			Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{VesselId: r.Vessel, CohortId: r.Cohort, FeedId: r.Feed, MassG: r.MassG}},
		}}}
		effect, wrong, err := in.look(op)
		if err != nil {
			return err
		}
		return in.decide(op, effect, wrong)
	})
	return malformed(err, "feedings")
}

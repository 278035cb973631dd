package server

import (
	"errors"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/store"
)

// columnRows is a batch of columns being looked at row by row.
type columnRows struct {
	*intake
	first  uint64
	lateMs int64                // what the batch's clock goes wrong by
	ids    map[string]uuid.UUID // of the batch, each read once
	site   uuid.UUID            // of the last row
	refers referee              // at that site
	good   map[uuid.UUID]bool   // records that may be named there
	kept   []bool               // by row: it is stored
	// plain: every row is kept as it came, at one site; then the columns go into
	// the feed as they came, but for the clock.
	plain bool
}

// columns begins a batch.
func (in *intake) columns(field string, texts []string, first uint64, count uint32, noted *freshetv1.Noted) (*columnRows, error) {
	c := &columnRows{intake: in, first: first, ids: map[string]uuid.UUID{"": uuid.Nil}, kept: make([]bool, count), plain: true}
	for _, text := range texts {
		id, ok := readID(text)
		if !ok {
			return nil, refuse(freshetv1.ErrorReason_ERROR_REASON_BAD_ID, field+".ids", "", "")
		}
		c.ids[text] = id
	}
	if noted.GetWallMs() != 0 {
		c.lateMs = in.settled(noted, in.received.UnixMilli()) - noted.GetWallMs()
	} else if now := in.now.GetWallMs(); now != 0 {
		c.lateMs = in.received.UnixMilli() - now
	}
	return c, in.closeGroup()
}

// skip tells whether a row had its outcome before.
func (c *columnRows) skip(number uint64) bool {
	if number > c.pushing.Through {
		return false
	}
	c.plain = false
	return true
}

// keep notes a row that is stored.
func (c *columnRows) keep(number uint64) { c.kept[number-c.first] = true }

// drop gives a row its outcome.
func (c *columnRows) drop(op *freshetv1.Operation, wrong *refusal) error {
	c.plain = false
	return c.refuse(op, wrong)
}

// at moves on to a row's site, where the caller must be able to enter.
func (c *columnRows) at(text, noun string) (*refusal, error) {
	site := c.ids[text]
	if c.refers != nil && site == c.site {
		return nil, nil
	}
	if _, wrong := c.siteOf("event.site_id", text, noun); wrong != nil {
		return wrong, nil
	}
	c.plain = c.plain && c.refers == nil
	refers, err := c.referee(site)
	c.site, c.refers, c.good = site, refers, map[uuid.UUID]bool{uuid.Nil: true}
	return nil, err
}

// name gives the id of a record that a row names.
func (c *columnRows) name(path, noun, text string) (uuid.UUID, *refusal) {
	id := c.ids[text]
	if !c.good[id] {
		if !c.refers(noun, id) {
			return id, fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_RECORD, path, "there is no "+noun+" with this id here")
		}
		c.good[id] = true
	}
	return id, nil
}

func (c *columnRows) occurred(ms int64) *refusal {
	if ms > c.received.Add(soon).UnixMilli() || ms < earliest.UnixMilli() {
		return c.moment("event.occurred_at", time.UnixMilli(ms))
	}
	return nil
}

// entered is when a row was entered, as settled.
func (c *columnRows) entered(wallMs int64) int64 {
	entered := wallMs + c.lateMs
	if entered > c.received.Add(ahead).UnixMilli() || entered < earliest.UnixMilli() {
		c.plain = false
		return c.received.UnixMilli()
	}
	return entered
}

// readingColumns stores a batch of readings.
func (in *intake) readingColumns(columns *freshetv1.ReadingColumns) error {
	c, err := in.columns("readings", columns.GetIds(), columns.GetFirstNumber(), columns.GetCount(), columns.GetNoted())
	if err != nil {
		return err
	}
	err = wire.EachReading(columns, func(r *wire.ReadingRow) error {
		if c.skip(r.Number) {
			return nil
		}
		in.push.Readings = append(in.push.Readings, store.ReadingRow{})
		row := &in.push.Readings[len(in.push.Readings)-1]
		wrong, err := c.reading(r, row)
		if err == nil && wrong == nil {
			c.keep(r.Number)
			return nil
		}
		in.push.Readings = in.push.Readings[:len(in.push.Readings)-1]
		if err != nil {
			return err
		}
		return c.drop(readingOperation(r), wrong)
	})
	if err != nil {
		return malformed(err, "readings")
	}
	if c.plain {
		page := in.page(siteScope(c.site))
		page.Readings = append(page.Readings, readingsSettled(columns, c.lateMs))
		return nil
	}
	return c.sendReadings(columns)
}

func malformed(err error, field string) error {
	if errors.Is(err, wire.ErrColumns) {
		return refuse(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, field, err.Error(), "")
	}
	return err
}

// digitsMost is the contract's bound of Reading.digits.
const digitsMost = 1_000_000_000_000

func (c *columnRows) reading(r *wire.ReadingRow, row *store.ReadingRow) (*refusal, error) {
	const path = "event.reading"
	if wrong, err := c.at(r.Site, "reading"); wrong != nil || err != nil {
		return wrong, err
	}
	if wrong := c.occurred(r.OccurredMs); wrong != nil {
		return wrong, nil
	}
	place, wrong := c.name(path+".place_id", "place", r.Place)
	if wrong != nil {
		return wrong, nil
	}
	probe, wrong := c.name(path+".equipment_id", "equipment", r.Equipment)
	if wrong != nil {
		return wrong, nil
	}
	if r.Digits > digitsMost || r.Digits < -digitsMost {
		return fault(freshetv1.ErrorReason_ERROR_REASON_OUT_OF_RANGE, path+".digits", ""), nil
	}
	if freshetv1.Method_name[int32(r.Method)] == "" {
		return fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".method", ""), nil
	}
	if freshetv1.Censoring_name[int32(r.Censoring)] == "" {
		return fault(freshetv1.ErrorReason_ERROR_REASON_UNKNOWN_VALUE, path+".censoring", ""), nil
	}
	micro, wrong := typedReading{r.Quantity, r.Digits, r.Decimals, r.Unit, r.Basis}.canonical(path)
	if wrong != nil {
		return wrong, nil
	}
	*row = store.ReadingRow{
		ID: c.id(r.Number), SiteID: c.site, OccurredMs: r.OccurredMs, EnteredMs: c.entered(r.EnteredMs), Quantity: int16(r.Quantity),
		Digits: r.Digits, Decimals: int64(r.Decimals), Unit: int16(r.Unit), Basis: int16(r.Basis), Method: int16(r.Method),
		Censoring: int16(r.Censoring), PlaceID: place, EquipmentID: probe, ValueMicro: micro,
	}
	return nil, nil
}

// readingOperation is a row as an operation of its own, as outcomes keep it.
func readingOperation(r *wire.ReadingRow) *freshetv1.Operation {
	return rowOperation(r.Number, r.Site, r.OccurredMs, r.EnteredMs, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
		Quantity: r.Quantity, Digits: r.Digits, Decimals: r.Decimals, Unit: r.Unit, Basis: r.Basis, Method: r.Method,
		Censoring: r.Censoring, PlaceId: r.Place, EquipmentId: r.Equipment,
	}}})
}

func rowOperation(number uint64, site string, occurredMs, enteredMs int64, e *freshetv1.Event) *freshetv1.Operation {
	e.SiteId, e.OccurredAt = site, timestamppb.New(time.UnixMilli(occurredMs))
	return &freshetv1.Operation{Number: number, Noted: &freshetv1.Noted{WallMs: enteredMs}, Change: &freshetv1.Operation_Event{Event: e}}
}

// readingsSettled is a batch as it goes into the feed: with settled times in
// place of the device's clock.
func readingsSettled(columns *freshetv1.ReadingColumns, lateMs int64) *freshetv1.ReadingColumns {
	out := proto.CloneOf(columns)
	out.Noted, out.EnteredAfterMs = nil, laterBy(out.EnteredAfterMs, int(out.GetCount()), lateMs)
	return out
}

// laterBy moves a column of differences: its first value moves them all.
func laterBy(column []int64, count int, ms int64) []int64 {
	if ms == 0 {
		return column
	}
	if len(column) == 0 {
		column = make([]int64, count)
	}
	column[0] += ms
	return column
}

// sendReadings puts the kept rows of a batch into the feed, site by site and in
// runs without gaps.
func (c *columnRows) sendReadings(columns *freshetv1.ReadingColumns) error {
	var run []wire.ReadingRow
	flush := func() {
		if len(run) > 0 {
			page := c.page(siteScope(c.ids[run[0].Site]))
			page.Readings = append(page.Readings, wire.EncodeReadings(run, nil))
			run = nil
		}
	}
	err := wire.EachReading(columns, func(r *wire.ReadingRow) error {
		if !c.kept[r.Number-c.first] {
			return nil
		}
		if n := len(run); n > 0 && (run[n-1].Number+1 != r.Number || run[n-1].Site != r.Site) {
			flush()
		}
		row := *r
		row.EnteredMs = c.entered(r.EnteredMs)
		run = append(run, row)
		return nil
	})
	flush()
	return err
}

package store

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
)

// A correction may be corrected in its turn, and two phones may correct one
// event without knowing of each other. So all corrections that go back to one
// event compete: the one entered last holds, between equal times the one with
// the greater id, and every other row of that family names it in corrected_by.
// The order in which they arrive does not matter.

// correct stores corrections with what stands in their place, settles which of
// each family holds, and reckons the days anew that this touched.
func (p *Pushing) correct(ctx context.Context, push *Push) error {
	for i := range push.Corrections {
		p.queueCorrection(&push.Corrections[i])
	}
	if err := p.send(ctx); err != nil { // everything the push adds is in now
		return err
	}
	touched := make(map[touchedDay]bool)
	for i := range push.Corrections {
		c := &push.Corrections[i]
		if err := p.alone(c.SiteID); err != nil {
			return err
		}
		if err := p.settleFamily(ctx, c, touched); err != nil {
			return err
		}
	}
	return p.sumAgain(ctx, touched)
}

func (p *Pushing) queueCorrection(c *Correction) {
	row := EventRow{Noun: "correction", ID: c.ID, SiteID: c.SiteID, OccurredAt: c.OccurredAt, EnteredAt: c.EnteredAt,
		Columns: []string{"event_id", "words"}, Values: []any{c.EventID, c.Words}}
	p.queueEvent("corrections", &row)
	if c.Replacement != nil {
		p.queueEvent(eventTables[c.Replacement.Noun], c.Replacement)
	}
}

// family finds every correction that goes back to the same event as $1: up to
// the event, then down to all that correct it or each other.
const family = `WITH RECURSIVE up AS (
		SELECT event_id FROM corrections WHERE id = $1
		UNION SELECT c.event_id FROM corrections c JOIN up ON c.id = up.event_id
	), root AS (
		SELECT event_id AS id FROM up WHERE NOT EXISTS (SELECT FROM corrections c WHERE c.id = up.event_id)
	), down AS (
		SELECT id FROM root
		UNION SELECT c.id FROM corrections c JOIN down ON c.event_id = down.id
	)
	SELECT down.id FROM down LEFT JOIN corrections c ON c.id = down.id ORDER BY c.entered_at DESC NULLS LAST, down.id DESC`

func (p *Pushing) settleFamily(ctx context.Context, c *Correction, touched map[touchedDay]bool) error {
	rows, err := p.conn.Query(ctx, family, c.ID)
	if err != nil {
		return err
	}
	members, err := pgx.CollectRows(rows, pgx.RowTo[uuid.UUID])
	if err != nil {
		return err
	}
	if len(members) < 2 {
		return errors.New("store: a correction of nothing")
	}
	holds := members[0]
	found, err := p.find(ctx, members)
	if err != nil {
		return err
	}
	if err := p.note(found, touched); err != nil {
		return err
	}
	for _, noun := range slices.Sorted(maps.Keys(eventTables)) {
		if !slices.ContainsFunc(found, func(e EventHead) bool { return e.Noun == noun }) {
			continue
		}
		p.batch.Queue("UPDATE "+eventTables[noun]+" SET corrected_by = $2 WHERE id = ANY ($1) AND id <> $2 AND corrected_by IS DISTINCT FROM $2", members, holds)
	}
	return p.send(ctx)
}

func (p *Pushing) note(found []EventHead, touched map[touchedDay]bool) error {
	for _, e := range found {
		if measures[e.Noun] == nil && e.Noun != "reading" {
			continue
		}
		z, err := p.zone(e.SiteID)
		if err != nil {
			return err
		}
		touched[touchedDay{e.SiteID, e.Noun, e.quantity, z.dayOf(e.OccurredAt.UnixMilli())}] = true
	}
	return nil
}

// EventHead is what is known of any event.
type EventHead struct {
	Noun       string
	ID         uuid.UUID
	SiteID     uuid.UUID
	OccurredAt time.Time
	// Corrects is the event that a correction corrects.
	Corrects uuid.UUID
	quantity int16
}

// findEvents looks into every table of events: the id does not say which.
var findEvents = func() string {
	var selects []string
	for _, noun := range slices.Sorted(maps.Keys(eventTables)) {
		corrects, quantity := "NULL::uuid", "0::smallint"
		switch noun {
		case "correction":
			corrects = "event_id"
		case "reading":
			quantity = "quantity"
		}
		selects = append(selects, "SELECT '"+noun+"', id, site_id, occurred_at, "+corrects+", "+quantity+" FROM "+eventTables[noun]+" WHERE id = ANY ($1)")
	}
	return strings.Join(selects, " UNION ALL ")
}()

// find reads the heads of events by id. A correction that put an event in
// place of another has two: its own and that event's.
func (p *Pushing) find(ctx context.Context, ids []uuid.UUID) ([]EventHead, error) {
	rows, err := p.conn.Query(ctx, findEvents, ids)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, func(row pgx.CollectableRow) (e EventHead, err error) {
		err = row.Scan(&e.Noun, &e.ID, &e.SiteID, &e.OccurredAt, &e.Corrects, &e.quantity)
		return e, err
	})
}

// Family is the events by these ids with everything that corrections lead back
// to from them; ids that are not there are left out.
func (p *Pushing) Family(ctx context.Context, ids []uuid.UUID) ([]EventHead, error) {
	var all []EventHead
	for wanted := ids; len(wanted) > 0; {
		found, err := p.find(ctx, wanted)
		if err != nil {
			return nil, err
		}
		wanted = nil
		for _, e := range found {
			if e.Corrects != uuid.Nil && !slices.ContainsFunc(all, func(a EventHead) bool { return a.ID == e.Corrects }) {
				wanted = append(wanted, e.Corrects)
			}
		}
		all = append(all, found...)
	}
	return all, nil
}

package server

import (
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/pgtype"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/api/wire"
	"freshet.example/store"
)

// feedingColumns stores a batch of feedings.
func (in *intake) feedingColumns(columns *freshetv1.FeedingColumns) error {
	c, err := in.columns("feedings", columns.GetIds(), columns.GetFirstNumber(), columns.GetCount(), columns.GetNoted())
	if err != nil {
		return err
	}
	err = wire.EachFeeding(columns, func(r *wire.FeedingRow) error {
		if c.skip(r.Number) {
			return nil
		}
		row, wrong, err := c.feeding(r)
		if err != nil {
			return err
		}
		if wrong != nil {
			return c.drop(feedingOperation(r), wrong)
		}
		in.push.Events = append(in.push.Events, *row)
		c.keep(r.Number)
		return nil
	})
	if err != nil {
		return malformed(err, "feedings")
	}
	if c.plain {
		page := in.page(siteScope(c.site))
		page.Feedings = append(page.Feedings, feedingsSettled(columns, c.lateMs))
		return nil
	}
	return c.sendFeedings(columns)
}

var (
	feedingFields = (&freshetv1.Feeding{}).ProtoReflect().Descriptor()
	feedingNames  = columnNames(feedingFields)
	feedingMass   = feedingFields.Fields().ByName("mass_g")
)

func (c *columnRows) feeding(r *wire.FeedingRow) (*store.EventRow, *refusal, error) {
	const path = "event.feeding"
	if wrong, err := c.at(r.Site, "feeding"); wrong != nil || err != nil {
		return nil, wrong, err
	}
	if wrong := c.occurred(r.OccurredMs); wrong != nil {
		return nil, wrong, nil
	}
	var named [3]pgtype.UUID
	for i, text := range []string{r.Vessel, r.Cohort, r.Feed} {
		noun := []string{"vessel", "cohort", "feed"}[i]
		id, wrong := c.name(path+"."+noun+"_id", noun, text)
		if wrong != nil {
			return nil, wrong, nil
		}
		named[i] = pgtype.UUID{Bytes: id, Valid: id != uuid.Nil}
	}
	if wrong := validateNumber(path+".mass_g", limitsOf(feedingMass), r.MassG); wrong != nil {
		return nil, wrong, nil
	}
	return &store.EventRow{
		Noun: "feeding", ID: c.id(r.Number), SiteID: c.site, OccurredAt: time.UnixMilli(r.OccurredMs), EnteredAt: time.UnixMilli(c.entered(r.EnteredMs)),
		Columns: feedingNames, Values: []any{named[0], named[1], named[2], r.MassG, 0.0},
	}, nil, nil
}

func feedingOperation(r *wire.FeedingRow) *freshetv1.Operation {
	return rowOperation(r.Number, r.Site, r.OccurredMs, r.EnteredMs, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{
		VesselId: r.Vessel, CohortId: r.Cohort, FeedId: r.Feed, MassG: r.MassG,
	}}})
}

func feedingsSettled(columns *freshetv1.FeedingColumns, lateMs int64) *freshetv1.FeedingColumns {
	out := proto.CloneOf(columns)
	out.Noted, out.EnteredAfterMs = nil, laterBy(out.EnteredAfterMs, int(out.GetCount()), lateMs)
	return out
}

// sendFeedings is sendReadings for feedings.
func (c *columnRows) sendFeedings(columns *freshetv1.FeedingColumns) error {
	var run []wire.FeedingRow
	flush := func() {
		if len(run) > 0 {
			page := c.page(siteScope(c.ids[run[0].Site]))
			page.Feedings = append(page.Feedings, wire.EncodeFeedings(run, nil))
			run = nil
		}
	}
	err := wire.EachFeeding(columns, func(r *wire.FeedingRow) error {
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

package server

import (
	"slices"

	"github.com/google/uuid"
	"google.golang.org/protobuf/reflect/protoreflect"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/store"
)

// A ledger is what a push's events are judged by: the earlier events of the
// cohorts and plantings that they are about, and those of the push itself.
// Events may arrive in any order, so what counts is when they happened.
type ledger struct {
	cohorts   map[uuid.UUID][]store.CohortEvent
	plantings map[uuid.UUID]*growth
}

func newLedger() ledger {
	return ledger{map[uuid.UUID][]store.CohortEvent{}, map[uuid.UUID]*growth{}}
}

// growth is when a planting was first sown, and when something was first done
// that rests on that, as days; none where known is false.
type growth struct {
	sown, used           int
	sownKnown, usedKnown bool
}

func (g *growth) note(noun string, day int) {
	if noun == "sowing" {
		g.sown, g.sownKnown = earlier(g.sown, g.sownKnown, day), true
		return
	}
	g.used, g.usedKnown = earlier(g.used, g.usedKnown, day), true
}

func earlier(day int, known bool, other int) int {
	if known && day < other {
		return day
	}
	return other
}

// inTurn holds an event to what it rests on, and notes it for those after it:
// fish that leave must have come, and produce follows its sowing.
func (in *intake) inTurn(e *freshetv1.Event, message protoreflect.Message, noun string) (*refusal, error) {
	switch noun {
	case "stocking", "count":
		return nil, in.noteFish(message, "cohort_id", noun, e)
	case "death", "fish_harvest", "move":
		return in.fishLeave(message, noun, e)
	case "sowing", "transplanting", "bed_harvest", "pulling":
		return in.grow(message, noun, e)
	}
	return nil, nil
}

// fishOf gives a cohort's events.
func (in *intake) fishOf(cohort uuid.UUID) ([]store.CohortEvent, error) {
	events, known := in.ledger.cohorts[cohort]
	if known {
		return events, nil
	}
	events, err := in.pushing.CohortEvents(in.ctx, []uuid.UUID{cohort})
	in.ledger.cohorts[cohort] = events
	return events, err
}

func (in *intake) noteFish(message protoreflect.Message, field, noun string, e *freshetv1.Event) error {
	cohort := idIn(message, field)
	before, err := in.fishOf(cohort)
	if err != nil {
		return err
	}
	in.undoable(func() { in.ledger.cohorts[cohort] = before })
	in.ledger.cohorts[cohort] = append(slices.Clip(before), store.CohortEvent{
		CohortID: cohort, OccurredAt: e.GetOccurredAt().AsTime(), Noun: noun, Count: countIn(message),
	})
	return nil
}

// fishLeave holds more than ever lived.
func (in *intake) fishLeave(message protoreflect.Message, noun string, e *freshetv1.Event) (*refusal, error) {
	if err := in.noteFish(message, "cohort_id", noun, e); err != nil {
		return nil, err
	}
	cohort := idIn(message, "cohort_id")
	if lived, left := everLived(in.ledger.cohorts[cohort]); left > lived {
		events := in.ledger.cohorts[cohort]
		in.ledger.cohorts[cohort] = events[:len(events)-1]
		return fault(freshetv1.ErrorReason_ERROR_REASON_MORE_THAN_LIVED, "event."+noun+".count", ""), nil
	}
	if noun != "move" {
		return nil, nil
	}
	return nil, in.noteFish(message, "to_cohort_id", "move_in", e)
}

// everLived counts all fish that came into a cohort, and all that left it. A
// count that finds more than the events before it had led to expect shows that
// more had come.
func everLived(events []store.CohortEvent) (lived, left int64) {
	events = slices.Clone(events)
	slices.SortStableFunc(events, func(a, b store.CohortEvent) int { return a.OccurredAt.Compare(b.OccurredAt) })
	var alive int64
	for _, e := range events {
		switch e.Noun {
		case "stocking", "move_in":
			lived += e.Count
			alive += e.Count
		case "count":
			lived += max(0, e.Count-alive)
			alive = e.Count
		default:
			left += e.Count
			alive -= e.Count
		}
	}
	return lived, left
}

// grow holds produce to its sowing, whichever of them arrives first. A planting
// whose sowing was never noted, as of an old tree, bears as it will.
func (in *intake) grow(message protoreflect.Message, noun string, e *freshetv1.Event) (*refusal, error) {
	planting, site := idIn(message, "planting_id"), uuid.MustParse(e.GetSiteId())
	g, err := in.growthOf(planting, site)
	if err != nil {
		return nil, err
	}
	before := *g
	g.note(noun, in.pushing.DayOf(site, e.GetOccurredAt().AsTime()))
	if g.sownKnown && g.usedKnown && g.used < g.sown {
		*g = before
		return fault(freshetv1.ErrorReason_ERROR_REASON_BEFORE_ITS_CAUSE, "event.occurred_at", "what grew of a planting would lie before its sowing"), nil
	}
	in.undoable(func() { *g = before })
	return nil, nil
}

func (in *intake) growthOf(planting, site uuid.UUID) (*growth, error) {
	if g := in.ledger.plantings[planting]; g != nil {
		return g, nil
	}
	events, err := in.pushing.PlantingEvents(in.ctx, []uuid.UUID{planting})
	if err != nil {
		return nil, err
	}
	g := &growth{}
	for _, e := range events {
		g.note(e.Noun, in.pushing.DayOf(site, e.OccurredAt))
	}
	in.ledger.plantings[planting] = g
	return g, nil
}

// idIn and countIn read fields of a message that was found good.
func idIn(message protoreflect.Message, field string) uuid.UUID {
	id, err := uuid.Parse(message.Get(message.Descriptor().Fields().ByName(protoreflect.Name(field))).String())
	if err != nil {
		return uuid.Nil
	}
	return id
}

func countIn(message protoreflect.Message) int64 {
	return int64(message.Get(message.Descriptor().Fields().ByName("count")).Uint()) // #nosec G115 -- within the field's limits
}

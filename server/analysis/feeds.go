package analysis

import (
	"context"
	"time"

	"github.com/google/uuid"

	"freshet.example/store"
)

// usualProtein is counted for feedings that name no feed.
const usualProtein = 32.0

// fed is feed given in a span of days.
type fed struct {
	grams   float64
	protein float64 // g
	days    map[time.Time]float64
	unnamed int // feedings that name no feed
}

// fed adds up what the loop's fish were fed from a midnight to another.
func (l *loop) fed(ctx context.Context, from, to time.Time) (fed, error) {
	feedings, err := store.History[store.Feeding](ctx, l.store, l.Site.ID, from, to)
	sum := fed{days: map[time.Time]float64{}}
	for _, f := range feedings {
		if !l.eats(f) {
			continue
		}
		eaten := max(0, f.MassG-f.LeftG)
		percent := usualProtein
		if feed, ok := l.Feeds[f.FeedID]; ok {
			percent = feed.ProteinPercent
		} else {
			sum.unnamed++
		}
		sum.grams += eaten
		sum.protein += eaten * percent / 100
		sum.days[midnight(f.OccurredAt, l.zone)] += eaten
	}
	return sum, err
}

// eats says whether a feeding was given in this loop.
func (l *loop) eats(f store.Feeding) bool {
	if f.CohortID != uuid.Nil {
		return l.cohort(f.CohortID).SystemID == l.ID
	}
	return l.holds(f.VesselID)
}

// holds says whether a vessel is the loop's; where none is named the site's only loop is meant.
func (l *loop) holds(vessel uuid.UUID) bool {
	if vessel == uuid.Nil {
		return len(l.Systems) == 1
	}
	for _, v := range l.vessels() {
		if v.ID == vessel {
			return true
		}
	}
	return false
}

// aDay is the mean over a span, g a day.
func (f fed) aDay(days int) float64 { return f.grams / float64(max(1, days)) }

// share is the protein of what was fed, 0 to 1.
func (f fed) share() float64 {
	if f.grams == 0 {
		return usualProtein / 100
	}
	return f.protein / f.grams
}

package fish

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Kind says what an Event did to the number of fish.
type Kind int

// The kinds of events.
const (
	Counted   Kind = iota // so many are alive, whatever the records say
	Stocked               // came from outside
	MovedIn               // came from another tank
	Died                  // found dead and taken out
	MovedOut              // went to another tank
	Harvested             // taken to eat or sell
)

// An Event is one record about the fish of a cohort.
type Event struct {
	At   int64 // seconds since the epoch
	Kind Kind
	Fish int
}

// change is how many fish the event adds.
func (e Event) change() int {
	switch e.Kind {
	case Stocked, MovedIn:
		return e.Fish
	case Died, MovedOut, Harvested:
		return -e.Fish
	}
	return 0
}

// A Tally is what the records say of the number of fish.
type Tally struct {
	Alive       int
	Counted     bool // a count at or before the moment was there to start from
	CountedAt   int64
	Unexplained int  // last count less what the records before it had led to expect; negative: fish are missing
	Negative    bool // more fish left than there were: records are wrong or missing
	Disputed    bool // two counts at that same instant differ; the lower is taken
}

// Alive returns the number of fish at a moment: the last count at or before it,
// and what came less what died, left or was harvested after that count. An
// event at the instant of a count is held to be in the count. The answer does
// not depend on the order of the events, which phones deliver as they find
// signal. Numbers below 0 are never hidden. An event of unknown kind or with
// fewer than 0 or more than 1e7 fish is refused.
func Alive(events []Event, at int64) (Tally, error) {
	for _, e := range events {
		if err := firstError(fishBound.check(float64(e.Fish)), quantity.Within("kind of event", float64(e.Kind), float64(Counted), float64(Harvested), "", boundSource)); err != nil {
			return Tally{}, err
		}
	}
	last, counted, disputed := lastCount(events, at, true)
	t := Tally{Counted: counted, Disputed: disputed}
	if !counted {
		t.Alive = changes(events, beginning, at)
		t.Negative = t.Alive < 0
		return t, nil
	}
	t.CountedAt = last.At
	t.Alive = last.Fish + changes(events, last.At, at)
	earlier, had, _ := lastCount(events, last.At, false)
	if !had {
		earlier.At = beginning
	}
	t.Unexplained = last.Fish - earlier.Fish - changes(events, earlier.At, last.At)
	t.Negative = t.Alive < 0
	return t, nil
}

// lastCount finds the latest count before a moment, or at it where inclusive.
// Of two at one instant it takes the lower.
func lastCount(events []Event, at int64, inclusive bool) (last Event, found, disputed bool) {
	for _, e := range events {
		if e.Kind != Counted || e.At > at || e.At == at && !inclusive {
			continue
		}
		switch {
		case !found || e.At > last.At:
			last, found, disputed = e, true, false
		case e.At == last.At && e.Fish != last.Fish:
			last.Fish, disputed = min(last.Fish, e.Fish), true
		}
	}
	return last, found, disputed
}

// beginning is before every event.
const beginning = math.MinInt64

// changes sums what events after one moment and up to another did.
func changes(events []Event, after, to int64) int {
	sum := 0
	for _, e := range events {
		if e.At > after && e.At <= to {
			sum += e.change()
		}
	}
	return sum
}

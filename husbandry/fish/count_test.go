package fish

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestAlive(t *testing.T) {
	for _, c := range []struct {
		name   string
		events []Event
		at     int64
		want   Tally
	}{
		{"nothing", nil, 10, Tally{}},
		{"never counted", []Event{{1, Stocked, 100}, {2, MovedIn, 10}, {3, Died, 3}, {4, MovedOut, 2}, {5, Harvested, 1}}, 10, Tally{Alive: 104}},
		{"events to come", []Event{{1, Stocked, 100}, {20, Died, 3}}, 10, Tally{Alive: 100}},
		{"event at the moment", []Event{{1, Stocked, 100}, {10, Died, 3}}, 10, Tally{Alive: 97}},
		{"counted as expected", []Event{{1, Stocked, 100}, {2, Died, 3}, {5, Counted, 97}, {6, Died, 1}}, 10, Tally{Alive: 96, Counted: true, CountedAt: 5}},
		{"fish missing", []Event{{1, Stocked, 100}, {5, Counted, 90}}, 10, Tally{Alive: 90, Counted: true, CountedAt: 5, Unexplained: -10}},
		{"more than expected", []Event{{1, Counted, 50}, {2, Stocked, 10}, {5, Counted, 65}}, 10, Tally{Alive: 65, Counted: true, CountedAt: 5, Unexplained: 5}},
		{"death at the count is in it", []Event{{1, Counted, 50}, {5, Died, 3}, {5, Counted, 47}}, 10, Tally{Alive: 47, Counted: true, CountedAt: 5}},
		{"count at the moment", []Event{{10, Counted, 47}}, 10, Tally{Alive: 47, Counted: true, CountedAt: 10, Unexplained: 47}},
		{"none left", []Event{{1, Stocked, 5}, {2, Died, 5}}, 10, Tally{}},
		{"none left since the count", []Event{{1, Counted, 5}, {2, Died, 5}}, 10, Tally{Counted: true, CountedAt: 1, Unexplained: 5}},
		{"count to come", []Event{{1, Stocked, 5}, {11, Counted, 47}}, 10, Tally{Alive: 5}},
		{"more died than lived", []Event{{1, Stocked, 5}, {2, Died, 7}}, 10, Tally{Alive: -2, Negative: true}},
		{"more left than counted", []Event{{1, Counted, 5}, {2, Harvested, 7}}, 10, Tally{Alive: -2, Counted: true, CountedAt: 1, Unexplained: 5, Negative: true}},
		{"two counts disagree", []Event{{5, Counted, 48}, {5, Counted, 47}}, 10, Tally{Alive: 47, Counted: true, CountedAt: 5, Unexplained: 47, Disputed: true}},
		{"two counts agree", []Event{{5, Counted, 47}, {5, Counted, 47}}, 10, Tally{Alive: 47, Counted: true, CountedAt: 5, Unexplained: 47}},
		{"an old dispute is settled", []Event{{4, Counted, 48}, {4, Counted, 46}, {5, Counted, 47}}, 10, Tally{Alive: 47, Counted: true, CountedAt: 5, Unexplained: 1}},
		{"before the epoch", []Event{{-5, Counted, 47}, {-4, Died, 1}}, -3, Tally{Alive: 46, Counted: true, CountedAt: -5, Unexplained: 47}},
	} {
		if got, err := Alive(c.events, c.at); err != nil || got != c.want {
			t.Errorf("%s: %+v, %v, want %+v", c.name, got, err, c.want)
		}
	}
}

func TestImpossibleEventsAreRefused(t *testing.T) {
	var out *quantity.RangeError
	for _, e := range []Event{{1, Stocked, -1}, {1, Stocked, 1e7 + 1}, {1, -1, 5}, {1, 6, 5}} {
		if _, err := Alive([]Event{e}, 10); !errors.As(err, &out) {
			t.Errorf("%+v gave %v", e, err)
		}
	}
	for _, e := range []Event{{1, Stocked, 0}, {1, Stocked, 1e7}, {1, Harvested, 1e7}} {
		if _, err := Alive([]Event{e}, 10); err != nil {
			t.Errorf("%+v: %v", e, err)
		}
	}
}

func randomEvents(r *rand.Rand) []Event {
	events := make([]Event, 1+r.IntN(12))
	for i := range events {
		events[i] = Event{int64(r.IntN(10)), Kind(r.IntN(6)), r.IntN(100)}
	}
	return events
}

// TestOrderOfArrivalDoesNotMatter: phones deliver events in any order.
func TestOrderOfArrivalDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		events := randomEvents(r)
		want, err := Alive(events, 8)
		if err != nil {
			t.Fatal(err)
		}
		r.Shuffle(len(events), func(i, j int) { events[i], events[j] = events[j], events[i] })
		if got, err := Alive(events, 8); err != nil || got != want {
			t.Fatalf("%+v became %+v, %v for %+v", want, got, err, events)
		}
	}
}

// TestAliveByDefinition holds Alive against the rule read literally: sort the
// counts by time, then add up what came after the last.
func TestAliveByDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	sign := map[Kind]int{Stocked: 1, MovedIn: 1, Died: -1, MovedOut: -1, Harvested: -1}
	for range 1000 {
		events, at := randomEvents(r), int64(8)
		start, from, counted := 0, int64(-1), false
		for moment := int64(0); moment <= at; moment++ {
			for _, e := range events {
				if e.Kind == Counted && e.At == moment && (from != moment || !counted || e.Fish < start) {
					start, from, counted = e.Fish, moment, true
				}
			}
		}
		for _, e := range events {
			if e.At > from && e.At <= at {
				start += sign[e.Kind] * e.Fish
			}
		}
		if got, err := Alive(events, at); err != nil || got.Alive != start || got.Counted != counted {
			t.Fatalf("%+v, %v, want %d for %+v", got, err, start, events)
		}
	}
}

func TestTallySpeaks(t *testing.T) {
	for inputs, want := range map[string]string{
		"at=[1 2];kind=[stocked died];fish=[100 3];now=5":               "97 fish, never counted",
		"at=[1 2];kind=[stocked counted];fish=[100 99];now=5":           "99 fish; 1 were missing at the last count",
		"at=[1 2];kind=[stocked counted];fish=[100 104];now=5":          "104 fish; 4 more than expected at the last count",
		"at=[1 2 3];kind=[stocked counted died];fish=[100 100 1];now=5": "99 fish",
	} {
		if a, err := ask(t, "fish_alive", inputs); err != nil || a.Text != want || len(a.Cautions) != 0 {
			t.Errorf("%s: %q, %v, %v", inputs, a.Text, a.Cautions, err)
		}
	}
	a, err := ask(t, "fish_alive", "at=[1 1 2];kind=[counted counted died];fish=[3 4 9];now=5")
	if err != nil || a.Value != -6 || len(a.Cautions) != 2 || !strings.Contains(a.Cautions[0], "wrong or missing") {
		t.Errorf("got %+v, %v", a, err)
	}
	for _, inputs := range []string{
		"at=[1 2];kind=[stocked];fish=[100 3];now=5", "at=[1 2];kind=[stocked died];fish=[100];now=5",
		"at=[1];kind=[eaten];fish=[100];now=5", "at=[2e12];kind=[died];fish=[100];now=5", "at=[1];kind=[died];fish=[-1];now=5",
	} {
		if _, err := ask(t, "fish_alive", inputs); err == nil {
			t.Errorf("%s is answered", inputs)
		}
	}
}

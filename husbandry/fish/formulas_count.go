package fish

import (
	"slices"
	"strconv"

	"freshet.example/husbandry/formula"
)

var kinds = []string{"counted", "stocked", "moved_in", "died", "moved_out", "harvested"}

var countFormulas = []formula.Formula{{
	Name: "fish_alive", Title: "How many fish are alive?", Unit: "fish",
	Inputs: []formula.Input{
		remark("at", "when each event was, seconds or days, as a list"),
		remark("kind", "what each event was: counted, stocked, moved_in, died, moved_out, harvested"),
		remark("fish", "how many fish each event was about"),
		{Name: "now", Meaning: "the moment asked about, in the same unit", Unit: "s or d", Low: -maxMoment, High: maxMoment},
	},
	Source: "last count, and what came and went after it", Range: "events in any order",
	Work: func(in *formula.Given) (formula.Answer, error) {
		events, err := eventsOf(in)
		if err != nil {
			return formula.Answer{}, err
		}
		now := in.Float("now")
		if err := momentBound.check(now); err != nil {
			return formula.Answer{}, err
		}
		t, err := Alive(events, int64(now))
		a := formula.Number(float64(t.Alive))
		a.Text, a.Cautions = t.Words(), t.cautions()
		return a, err
	},
}}

const maxMoment = 1e12

var momentBound = bound{"moment", -maxMoment, maxMoment, ""}

func eventsOf(in *formula.Given) ([]Event, error) {
	at, kind, fish := in.Numbers("at"), in.Labels("kind"), in.Numbers("fish")
	if len(at) != len(kind) || len(at) != len(fish) {
		return nil, &formula.InputError{Formula: "fish_alive", Input: "kind", Reason: "not as long as at and fish", Hint: "give one of each for every event"}
	}
	events := make([]Event, len(at))
	for i := range events {
		if err := firstError(momentBound.check(at[i]), fishBound.check(fish[i])); err != nil {
			return nil, err
		}
		events[i] = Event{int64(at[i]), Kind(slices.Index(kinds, kind[i])), int(fish[i])}
	}
	return events, nil
}

// Words says how the number was come by.
func (t Tally) Words() string {
	s := strconv.Itoa(t.Alive) + " fish"
	if !t.Counted {
		return s + ", never counted"
	}
	switch {
	case t.Unexplained < 0:
		s += "; " + strconv.Itoa(-t.Unexplained) + " were missing at the last count"
	case t.Unexplained > 0:
		s += "; " + strconv.Itoa(t.Unexplained) + " more than expected at the last count"
	}
	return s
}

func (t Tally) cautions() []string {
	var all []string
	if t.Negative {
		all = append(all, "More fish left than there were: a record is wrong or missing. Count the fish.")
	}
	if t.Disputed {
		all = append(all, "Two counts at the same moment differ; the lower is taken.")
	}
	return all
}

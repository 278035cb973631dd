package analysis

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/signs"
	"freshet.example/store"
)

// GetMorning is what needs the grower today, loop by loop in walking order.
func (s *Service) GetMorning(ctx context.Context, in *freshetv1.GetMorningRequest) (*freshetv1.GetMorningResponse, error) {
	place, err := s.picture(ctx, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	at := s.at(in.GetAt())
	out := &freshetv1.GetMorningResponse{SiteName: place.Site.Name}
	for _, system := range place.Systems {
		if !system.EndedOn.IsZero() && system.EndedOn.Before(at) {
			continue
		}
		morning, err := (&loop{place, system}).morning(ctx, at)
		if err != nil {
			return nil, err
		}
		out.Systems = append(out.Systems, morning)
	}
	out.Beds, err = place.bedsThisMorning(ctx, at)
	return out, err
}

func (l *loop) morning(ctx context.Context, at time.Time) (*freshetv1.MorningSystem, error) {
	m := &freshetv1.MorningSystem{SystemId: l.ID.String(), SystemName: l.Name}
	var err error
	if m.Water, err = l.describe(ctx, at); err != nil {
		return nil, err
	}
	_, herds, grams, _, err := l.biomass(ctx, at)
	if err != nil {
		return nil, err
	}
	for _, h := range herds {
		if h.tally.Alive != 0 || h.tally.Negative {
			m.Fish = append(m.Fish, h.countAnswer(grams[h.ID]))
		}
	}
	rations, err := l.rations(ctx, at)
	for _, r := range rations {
		m.Rations = append(m.Rations, r.Answer)
	}
	if err != nil {
		return nil, err
	}
	m.Tasks = l.tasks(m)
	sign, err := l.signThisMorning(ctx, at, m.Tasks)
	if sign != nil {
		m.Tasks = append(m.Tasks, sign)
	}
	return m, err
}

// signThisMorning is the most pressing sign that the page does not say already:
// of a filter that cannot follow, ammonia and nitrite tell themselves.
func (l *loop) signThisMorning(ctx context.Context, at time.Time, tasks []*freshetv1.Task) (*freshetv1.Task, error) {
	w, err := l.watched(ctx, at)
	if err != nil {
		return nil, err
	}
	found, err := w.look(ctx)
	if err != nil {
		return nil, err
	}
	pressed := slices.ContainsFunc(tasks, func(t *freshetv1.Task) bool { return t.Standing == act })
	for _, s := range found {
		if s.Kind == signs.WeakFilter.String() && pressed || s.Kind == signs.Silent.String() {
			continue
		}
		return &freshetv1.Task{Sentence: s.Answer.Sentence, Standing: s.Answer.Standing}, nil
	}
	return nil, nil
}

// tasks turns what presses into things to do, in the order the water runs.
func (l *loop) tasks(m *freshetv1.MorningSystem) []*freshetv1.Task {
	tank := l.tank()
	var list []*freshetv1.Task
	add := func(sentence string, place store.Vessel, standing freshetv1.Standing) {
		task := &freshetv1.Task{Sentence: sentence, Standing: standing}
		if place.ID != uuid.Nil {
			task.PlaceId, task.PlaceName = place.ID.String(), place.Name
		}
		list = append(list, task)
	}
	for _, a := range m.Water {
		if urgency(a.Standing) >= urgency(watch) {
			add(a.Sentence, tank, a.Standing)
		}
	}
	for _, a := range slices.Concat(m.Water, m.Fish) {
		if a.Standing == unknown {
			continue
		}
		for _, missing := range a.Missing {
			add(missing+".", tank, watch)
		}
	}
	if held := notFed(m.Rations); held != "" {
		add(held, tank, act)
		return distinct(list)
	}
	for _, r := range m.Rations {
		add(r.Sentence, tank, r.Standing)
	}
	return distinct(list)
}

// notFed says in one sentence that nobody is fed, where that is so.
func notFed(rations []*freshetv1.Answer) string {
	for _, r := range rations {
		if r.Standing != act || r.Estimate.GetValue() != 0 {
			return ""
		}
	}
	if len(rations) == 0 {
		return ""
	}
	_, why, _ := strings.Cut(rations[0].Sentence, "since ")
	return "Do not feed today, since " + why
}

// distinct drops what is said twice.
func distinct(list []*freshetv1.Task) []*freshetv1.Task {
	seen := map[string]bool{}
	return slices.DeleteFunc(list, func(t *freshetv1.Task) bool {
		again := seen[t.Sentence]
		seen[t.Sentence] = true
		return again
	})
}

// bedsThisMorning tells what bears now or soon, what will not set fruit, and what to sow.
func (s *site) bedsThisMorning(ctx context.Context, at time.Time) ([]*freshetv1.Answer, error) {
	g, err := s.growing(ctx, at)
	if err != nil {
		return nil, err
	}
	var list []*freshetv1.Answer
	for _, st := range g.stands {
		if st.known && g.today <= st.window.Last && st.window.First <= g.today+7 {
			list = append(list, g.bears(st).Answer)
		}
		if st.known && g.today > st.window.Last {
			list = append(list, &freshetv1.Answer{Name: "past_bearing", Standing: watch,
				Sentence: fmt.Sprintf("%s in %s is past its bearing since %s: pull it when it no longer gives.", st.Crop, st.bed.Name, st.window.Last.Words())})
		}
	}
	sowing, err := g.sow()
	if err != nil {
		return nil, err
	}
	for _, line := range sowing.Suggestions {
		list = append(list, line.Answer)
	}
	for _, caution := range sowing.Cautions {
		list = append(list, &freshetv1.Answer{Name: "pollination", Standing: watch, Sentence: caution})
	}
	return list, nil
}

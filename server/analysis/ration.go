package analysis

import (
	"context"
	"fmt"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
)

// SuggestRation says how much to feed each cohort today.
func (s *Service) SuggestRation(ctx context.Context, in *freshetv1.SuggestRationRequest) (*freshetv1.SuggestRationResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	rations, err := l.rations(ctx, s.at(in.GetAt()))
	return &freshetv1.SuggestRationResponse{Rations: rations}, err
}

// table is the day's feeding of a loop.
type table struct {
	*glass
	appetite float64
	cut      float64 // share of the ration that the water allows
	why      string
	carries  float64 // g of feed a day; 0 not known
}

func (l *loop) rations(ctx context.Context, at time.Time) ([]*freshetv1.CohortAnswer, error) {
	_, herds, grams, _, err := l.biomass(ctx, at)
	if err != nil {
		return nil, err
	}
	g, err := l.glass(ctx, at)
	if err != nil {
		return nil, err
	}
	t := &table{glass: g, appetite: g.appetite(), cut: 1}
	t.judge()
	if t.carries, err = l.carries(ctx, at, herds, grams); err != nil {
		return nil, err
	}
	var out []*freshetv1.CohortAnswer
	sum := 0.0
	for _, h := range herds {
		if h.tally.Alive <= 0 {
			continue
		}
		a := t.ration(h, grams[h.ID])
		sum += a.Estimate.GetValue()
		out = append(out, &freshetv1.CohortAnswer{CohortId: h.ID.String(), CohortName: h.Name, Answer: a})
	}
	t.hold(out, sum)
	return out, nil
}

// carries is the feed a day that the loop's tightest part carries.
func (l *loop) carries(ctx context.Context, at time.Time, herds []*herd, grams map[uuid.UUID]float64) (float64, error) {
	fed, err := l.fed(ctx, midnight(at, l.zone).AddDate(0, 0, -14), midnight(at, l.zone))
	if err != nil {
		return 0, err
	}
	plan, _, err := l.plan(ctx, at, fed, herds, grams)
	if err != nil {
		return 0, nil //nolint:nilerr // without the limits the ration still stands, uncapped
	}
	c, err := fish.Capacity(plan)
	if err != nil {
		return 0, nil //nolint:nilerr // as above
	}
	return float64(c.Limits[c.Binding].Feed), nil
}

// appetite turns the last noted word into the share of a meal that is finished.
func (g *glass) appetite() float64 {
	r, ok := g.observed[freshetv1.Quantity_QUANTITY_APPETITE]
	if !ok || g.at.Sub(r.OccurredAt) > tested {
		return 1
	}
	return [...]float64{0, 0.5, 0.9, 1, 1}[int(min(4, max(0, r.Value())))]
}

// judge cuts the ration when the water says so.
func (t *table) judge() {
	if a := t.unionized(); a.Standing == act {
		t.cut, t.why = 0, "ammonia is not safe"
	} else if a.Standing == watch {
		t.cut, t.why = 0.5, "ammonia is close to its limit"
	}
	if a := t.dissolvedOxygen(); a.Standing == act {
		t.cut, t.why = 0, "oxygen is too low"
	}
	if v, ok := t.value(nitrite); ok && v > 1 && t.cut > 0 {
		t.cut, t.why = 0, "nitrite is too high"
	}
}

func (t *table) ration(h *herd, grams float64) *freshetv1.Answer {
	warmth, ok := t.value(temperature)
	if !ok || grams == 0 || !h.known {
		return lacking("ration", h.Name+": a ration cannot be told.", t.lackingFor(h, grams, ok)...)
	}
	full, err := fish.Ration(h.species, float64(h.tally.Alive), quantity.Grams(grams), quantity.Celsius(warmth), quantity.Fraction(t.appetite))
	if err != nil {
		return lacking("ration", h.Name+": feed nothing until this is looked at: "+err.Error()+".")
	}
	g := float64(full) * t.cut
	a := &freshetv1.Answer{
		Name: "ration", Estimate: estimate(g, "g a day"), Standing: well, Source: "species table: feeding rates by weight and temperature",
		Inputs: []*freshetv1.InputUsed{
			setting("fish alive", float64(h.tally.Alive), "", "events"), setting("mean weight", grams, "g", "weighings"),
			t.used(t.observed, temperature, "water temperature", "degC"), setting("appetite", t.appetite, "share of a meal", "last note"),
		},
		Sentence: fmt.Sprintf("%s: %.0f g today, in two or more meals.", h.Name, g),
		Cautions: []string{"Stop when they stop: feed left in the water turns to ammonia."},
	}
	if t.cut < 1 {
		a.Standing = watch
		a.Sentence = fmt.Sprintf("%s: feed %.0f g instead of %.0f g today, since %s.", h.Name, g, float64(full), t.why)
	}
	if t.cut == 0 {
		a.Standing = act
		a.Sentence = fmt.Sprintf("%s: do not feed today, since %s.", h.Name, t.why)
	}
	return a
}

func (t *table) lackingFor(h *herd, grams float64, warm bool) []string {
	var list []string
	if !warm {
		list = append(list, "Water temperature")
	}
	if grams == 0 {
		list = append(list, "A weight of "+h.Name)
	}
	if !h.known {
		list = append(list, "The species "+h.Species)
	}
	return list
}

// hold keeps the sum below what filter, oxygen and plants carry.
func (t *table) hold(out []*freshetv1.CohortAnswer, sum float64) {
	if t.carries == 0 || sum <= t.carries {
		return
	}
	for _, c := range out {
		if c.Answer.Estimate == nil {
			continue
		}
		c.Answer.Estimate.Value *= t.carries / sum
		c.Answer.Standing = worse(c.Answer.Standing, watch)
		c.Answer.Sentence = fmt.Sprintf("%s: no more than %.0f g today; the loop carries %.0f g in all, less than they would eat.", c.CohortName, c.Answer.Estimate.Value, t.carries)
	}
}

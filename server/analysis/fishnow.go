package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// weightCV is how single weights spread within a cohort where they were not
// weighed one by one; common practice, no source.
const weightCV = 0.18

// herd is what the records say of one cohort up to a moment.
type herd struct {
	store.Cohort
	species fish.Species
	known   bool // the species is in the table
	tally   fish.Tally
	weights []weight // mean weights in order of time
	gone    []gone   // fish that came or left with their weight
	kin     []kin    // other cohorts of the species at this site
}

// kin is another cohort with the warmth of the loop that it lives or lived in.
type kin struct {
	*herd
	warmth map[time.Time]float64
}

// weight is a mean weight at a moment.
type weight struct {
	at    time.Time
	grams float64
	n     int64 // fish weighed
}

// gone is fish that came (positive) or left (negative), with their mass where it was noted.
type gone struct {
	at    time.Time
	count int64
	massG float64
}

// beginning is before any record.
var beginning = time.Date(1900, 1, 1, 0, 0, 0, 0, time.UTC)

// fishRecords are all events about fish of a site up to a moment.
type fishRecords struct {
	stockings []store.Stocking
	weighings []store.Weighing
	counts    []store.Counting
	deaths    []store.Death
	moves     []store.Move
	harvests  []store.FishHarvest
}

func (s *site) fishRecords(ctx context.Context, to time.Time) (r fishRecords, err error) {
	id := s.Site.ID
	for _, get := range []func() error{
		func() error {
			r.stockings, err = store.History[store.Stocking](ctx, s.store, id, beginning, to)
			return err
		},
		func() error {
			r.weighings, err = store.History[store.Weighing](ctx, s.store, id, beginning, to)
			return err
		},
		func() error {
			r.counts, err = store.History[store.Counting](ctx, s.store, id, beginning, to)
			return err
		},
		func() error { r.deaths, err = store.History[store.Death](ctx, s.store, id, beginning, to); return err },
		func() error { r.moves, err = store.History[store.Move](ctx, s.store, id, beginning, to); return err },
		func() error {
			r.harvests, err = store.History[store.FishHarvest](ctx, s.store, id, beginning, to)
			return err
		},
	} {
		if err := get(); err != nil {
			return r, err
		}
	}
	return r, nil
}

// herds tells each cohort of the loop at a moment.
func (l *loop) herds(ctx context.Context, at time.Time) ([]*herd, error) {
	records, err := l.fishRecords(ctx, at.Add(time.Nanosecond))
	if err != nil {
		return nil, err
	}
	var list []*herd
	for _, c := range l.cohorts() {
		h, err := records.of(c, at)
		if err != nil {
			return nil, err
		}
		list = append(list, h)
	}
	return list, l.findKin(ctx, list, records, at)
}

// findKin gives each cohort of the loop the others of its species at the site,
// those of its own loop with no warmth of their own.
func (l *loop) findKin(ctx context.Context, list []*herd, records fishRecords, at time.Time) error {
	others := make([]kin, len(list))
	for i, h := range list {
		others[i] = kin{herd: h}
	}
	for _, system := range l.Systems {
		if other := (&loop{l.site, system}); system.ID != l.ID {
			found, err := other.kinOf(ctx, list, records, at)
			if err != nil {
				return err
			}
			others = append(others, found...)
		}
	}
	for _, h := range list {
		h.kin = slices.DeleteFunc(slices.Clone(others), func(o kin) bool { return o.ID == h.ID || o.Species != h.Species })
	}
	return nil
}

// kinOf are the cohorts of this loop that are kin to some of another's.
func (l *loop) kinOf(ctx context.Context, list []*herd, records fishRecords, at time.Time) (found []kin, err error) {
	for _, c := range l.cohorts() {
		if !slices.ContainsFunc(list, func(h *herd) bool { return h.Species == c.Species }) {
			continue
		}
		h, err := records.of(c, at)
		if err != nil {
			return nil, err
		}
		found = append(found, kin{herd: h})
	}
	if len(found) == 0 {
		return nil, nil
	}
	warmth, err := l.dailyWarmth(ctx, at)
	for i := range found {
		found[i].warmth = warmth
	}
	return found, err
}

// of gathers one cohort's records.
func (r *fishRecords) of(c store.Cohort, at time.Time) (*herd, error) {
	h := &herd{Cohort: c}
	species, err := speciesOf(c.Species)
	h.species, h.known = species, err == nil
	var events []fish.Event
	add := func(t time.Time, kind fish.Kind, count int64) {
		events = append(events, fish.Event{At: t.Unix(), Kind: kind, Fish: int(count)})
	}
	r.arrivals(h, add)
	r.departures(h, add)
	for _, e := range r.counts {
		if e.CohortID == c.ID {
			add(e.OccurredAt, fish.Counted, e.Count)
		}
	}
	for _, e := range r.weighings {
		if e.CohortID == c.ID && e.SampleCount > 0 {
			h.weights = append(h.weights, weight{e.OccurredAt, e.MassG / float64(e.SampleCount), e.SampleCount})
		}
	}
	if h.tally, err = fish.Alive(events, at.Unix()); err == nil && h.tally.Alive == 0 {
		r.weighAtTheEnd(h)
	}
	slices.SortStableFunc(h.weights, func(a, b weight) int { return a.at.Compare(b.at) })
	return h, err
}

// weighAtTheEnd takes the harvest that emptied a cohort as a weighing of all
// that were left. Earlier ones took the largest and tell nothing of the rest.
func (r *fishRecords) weighAtTheEnd(h *herd) {
	var last *store.FishHarvest
	for i, e := range r.harvests {
		if e.CohortID == h.ID && e.MassG > 0 && (last == nil || e.OccurredAt.After(last.OccurredAt)) {
			last = &r.harvests[i]
		}
	}
	if last != nil {
		h.weights = append(h.weights, weight{last.OccurredAt, last.MassG / float64(last.Count), last.Count})
	}
}

func (r *fishRecords) arrivals(h *herd, add func(time.Time, fish.Kind, int64)) {
	for _, e := range r.stockings {
		if e.CohortID != h.ID {
			continue
		}
		add(e.OccurredAt, fish.Stocked, e.Count)
		h.gone = append(h.gone, gone{e.OccurredAt, e.Count, e.MassG})
		if e.MassG > 0 {
			h.weights = append(h.weights, weight{e.OccurredAt, e.MassG / float64(e.Count), e.Count})
		}
	}
	for _, e := range r.moves {
		if e.ToCohortID == h.ID {
			add(e.OccurredAt, fish.MovedIn, e.Count)
			h.gone = append(h.gone, gone{e.OccurredAt, e.Count, e.MassG})
		}
	}
}

func (r *fishRecords) departures(h *herd, add func(time.Time, fish.Kind, int64)) {
	leave := func(cohort uuid.UUID, t time.Time, kind fish.Kind, count int64, massG float64) {
		if cohort == h.ID {
			add(t, kind, count)
			h.gone = append(h.gone, gone{t, -count, massG})
		}
	}
	for _, e := range r.moves {
		leave(e.CohortID, e.OccurredAt, fish.MovedOut, e.Count, e.MassG)
	}
	for _, e := range r.deaths {
		leave(e.CohortID, e.OccurredAt, fish.Died, e.Count, 0)
	}
	for _, e := range r.harvests {
		leave(e.CohortID, e.OccurredAt, fish.Harvested, e.Count, e.MassG)
	}
}

// growth is how the cohort grows here, told from its own weights and those of
// its kin, and the warmth between them.
type growth struct {
	coefficient fish.TGC1000
	cv          float64 // of the coefficient
	intervals   int     // of its own, it rests on
	kin         int     // other cohorts it rests on
	ownShare    float64 // how much its own weighings carry
}

// units are the growth units from one day to another. A day without a reading
// counts as the one before it, and those before the first reading as that one;
// without any there are none.
func (h *herd) units(warmth map[time.Time]float64, from, to time.Time) float64 {
	sum, last, unread := 0.0, math.NaN(), 0.0
	for d := from; d.Before(to); d = d.AddDate(0, 0, 1) {
		if t, ok := warmth[d]; ok {
			last = t
		}
		if math.IsNaN(last) {
			unread++
			continue
		}
		sum += h.dayUnits(last) * (1 + unread)
		unread = 0
	}
	return sum
}

func (h *herd) dayUnits(celsius float64) float64 {
	u, err := fish.GrowthUnits(h.species, quantity.Celsius(celsius))
	if err != nil {
		return 0
	}
	return float64(u)
}

// grows finds the growth coefficient from the last weighings and from the whole
// lives of others of the species at the site.
func (h *herd) grows(warmth map[time.Time]float64, zone *time.Location) (growth, bool) {
	if !h.known {
		return growth{}, false
	}
	own := h.coefficients(h.weights[max(0, len(h.weights)-5):], warmth, zone)
	var others []fish.TGC1000
	for _, o := range h.kin {
		if o.warmth == nil {
			o.warmth = warmth
		}
		if n := len(o.weights); n > 1 {
			others = append(others, o.coefficients([]weight{o.weights[0], o.weights[n-1]}, o.warmth, zone)...)
		}
	}
	others = slices.DeleteFunc(others, func(c fish.TGC1000) bool { return c <= 0 }) // a slip, or weighed once
	g, err := fish.GrowthWithKin(own, others)
	return growth{g.Coefficient, float64(g.CV), len(own), len(others), float64(g.OwnShare)}, err == nil
}

// coefficients are those between weights that follow each other.
func (h *herd) coefficients(weights []weight, warmth map[time.Time]float64, zone *time.Location) []fish.TGC1000 {
	var each []fish.TGC1000
	for i := 1; i < len(weights); i++ {
		heat := h.units(warmth, midnight(weights[i-1].at, zone), midnight(weights[i].at, zone))
		if c, err := fish.GrowthCoefficient(quantity.Grams(weights[i-1].grams), quantity.Grams(weights[i].grams), fish.DegreeDays(heat)); err == nil {
			each = append(each, c)
		}
	}
	return each
}

// weightAt is the mean weight at a moment: between weighings on a straight line
// of cube roots, after the last grown on by the coefficient.
func (h *herd) weightAt(at time.Time, warmth map[time.Time]float64, zone *time.Location) (grams float64, ok bool) {
	if len(h.weights) == 0 {
		return 0, false
	}
	before := h.weights[0]
	for _, w := range h.weights[1:] {
		if w.at.After(at) {
			share := at.Sub(before.at).Hours() / w.at.Sub(before.at).Hours()
			root := math.Cbrt(before.grams) + math.Max(0, share)*(math.Cbrt(w.grams)-math.Cbrt(before.grams))
			return root * root * root, true
		}
		before = w
	}
	g, known := h.grows(warmth, zone)
	heat := h.units(warmth, midnight(before.at, zone), midnight(at, zone))
	if !known || heat <= 0 {
		return before.grams, true
	}
	now, err := fish.WeightByHeat(quantity.Grams(before.grams), g.coefficient, fish.DegreeDays(heat))
	if err != nil {
		return before.grams, true
	}
	return float64(now), true
}

// dailyWarmth is the mean water temperature of each day up to a moment.
func (l *loop) dailyWarmth(ctx context.Context, to time.Time) (map[time.Time]float64, error) {
	sums, err := l.store.DaySums(ctx, l.Site.ID, "readings", int16(temperature), beginning, to)
	if err != nil {
		return nil, err
	}
	n, total := map[time.Time]float64{}, map[time.Time]float64{}
	here := map[uuid.UUID]bool{}
	for _, id := range l.places() {
		here[id] = true
	}
	for _, d := range sums {
		if here[d.SubjectID] {
			day := time.Date(d.Day.Year(), d.Day.Month(), d.Day.Day(), 0, 0, 0, 0, l.zone)
			n[day] += float64(d.N)
			total[day] += d.Sum
		}
	}
	for day := range total {
		total[day] /= n[day]
	}
	return total, nil
}

// biomass is the fish of the loop at a moment, kg, and what could not be told.
func (l *loop) biomass(ctx context.Context, at time.Time) (kg float64, herds []*herd, grams map[uuid.UUID]float64, missing []string, err error) {
	herds, err = l.herds(ctx, at)
	if err != nil {
		return 0, nil, nil, nil, err
	}
	warmth, err := l.dailyWarmth(ctx, at)
	grams = map[uuid.UUID]float64{}
	for _, h := range herds {
		g, ok := h.weightAt(at, warmth, l.zone)
		if !ok {
			missing = append(missing, "a weighing of "+h.Name)
			continue
		}
		grams[h.ID] = g
		kg += g * float64(max(0, h.tally.Alive)) / 1000
	}
	return kg, herds, grams, missing, err
}

// countAnswer says how many live, and what is odd about it.
func (h *herd) countAnswer(grams float64) *freshetv1.Answer {
	a := &freshetv1.Answer{
		Name: "fish_alive", Estimate: estimate(float64(h.tally.Alive), "fish"), Standing: well,
		Source:   "counted from stockings, counts, moves, deaths and harvests",
		Sentence: fmt.Sprintf("%s: %d alive.", h.Name, h.tally.Alive),
	}
	if grams > 0 && h.tally.Alive > 0 {
		a.Sentence = fmt.Sprintf("%s: %d alive at about %s g, %s kg together.", h.Name, h.tally.Alive, show(grams, 2), show(grams*float64(h.tally.Alive)/1000, 2))
	}
	switch {
	case h.tally.Negative:
		a.Standing = watch
		a.Missing = append(a.Missing, "More fish left than the records say were there: a stocking or a count is missing")
	case h.tally.Unexplained != 0:
		a.Missing = append(a.Missing, fmt.Sprintf("The last count differs by %d from what the records before it led to expect", h.tally.Unexplained))
	}
	return a
}

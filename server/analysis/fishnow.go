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
	before  []*herd  // other cohorts of the species in this loop
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
	for _, h := range list {
		h.before = slices.DeleteFunc(slices.Clone(list), func(o *herd) bool { return o.ID == h.ID || o.Species != h.Species })
	}
	return list, nil
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

// growth is how the cohort grows here, told from its own weights and the warmth between them.
type growth struct {
	coefficient fish.TGC1000
	cv          float64 // of the coefficient
	intervals   int     // it rests on
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

// grows finds the growth coefficient from the last weighings; for a cohort that
// was not weighed twice, from the whole life of those before it in this loop.
func (h *herd) grows(warmth map[time.Time]float64, zone *time.Location) (growth, bool) {
	if !h.known {
		return growth{}, false
	}
	each := h.coefficients(h.weights[max(0, len(h.weights)-5):], warmth, zone)
	if len(each) == 0 {
		for _, o := range h.before {
			if n := len(o.weights); n > 1 {
				each = append(each, h.coefficients([]weight{o.weights[0], o.weights[n-1]}, warmth, zone)...)
			}
		}
	}
	return spreadOf(each)
}

// coefficients are those between weights that follow each other.
func (h *herd) coefficients(weights []weight, warmth map[time.Time]float64, zone *time.Location) []float64 {
	var each []float64
	for i := 1; i < len(weights); i++ {
		heat := h.units(warmth, midnight(weights[i-1].at, zone), midnight(weights[i].at, zone))
		c, err := fish.GrowthCoefficient(quantity.Grams(weights[i-1].grams), quantity.Grams(weights[i].grams), fish.DegreeDays(heat))
		if err == nil {
			each = append(each, float64(c))
		}
	}
	return each
}

// spreadOf gives the mean coefficient with its spread; with few intervals the
// spread is never taken below what twenty weighed fish leave open.
func spreadOf(each []float64) (growth, bool) {
	if len(each) == 0 {
		return growth{}, false
	}
	mean, squares := 0.0, 0.0
	for _, c := range each {
		mean += c / float64(len(each))
	}
	for _, c := range each {
		squares += (c - mean) * (c - mean)
	}
	cv := 0.2
	if len(each) > 1 && mean > 0 {
		sd := math.Sqrt(squares / float64(len(each)-1))
		cv = math.Max(0.08, sd/mean*math.Sqrt(1+1/float64(len(each))))
	}
	return growth{fish.TGC1000(mean), cv, len(each)}, mean > 0
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

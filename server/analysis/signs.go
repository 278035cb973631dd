package analysis

import (
	"context"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/signs"
	"freshet.example/server/typed"
	"freshet.example/store"
)

// FindSigns looks through six weeks of a loop's readings for what nobody noted.
func (s *Service) FindSigns(ctx context.Context, in *freshetv1.FindSignsRequest) (*freshetv1.FindSignsResponse, error) {
	l, err := s.loop(ctx, in.GetSystemId())
	if err != nil {
		return nil, err
	}
	w, err := l.watched(ctx, s.at(in.GetAt()))
	if err != nil {
		return nil, err
	}
	found, err := w.look(ctx)
	if err != nil {
		return nil, err
	}
	return &freshetv1.FindSignsResponse{Sentence: w.sentence(len(found)), Signs: found, Unwatched: w.unwatched()}, nil
}

// watched is a loop's last six weeks as signs are looked for in them.
type watched struct {
	*loop
	record signs.Record
	from   time.Time
}

func (l *loop) watched(ctx context.Context, at time.Time) (*watched, error) {
	p, err := l.past(ctx, at.Add(time.Hour)) // with the hour that has begun
	if err != nil {
		return nil, err
	}
	w := &watched{loop: l, from: p.from, record: signs.Record{
		Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]signs.Test{}, Litres: quantity.Litres(l.litres()), Pressure: l.pressure(),
	}}
	for _, h := range p.hours {
		w.record.Hours = append(w.record.Hours, signs.Hour{Fish: h.Fish, Sun: h.Sun})
	}
	for _, gather := range []func(context.Context, time.Time) error{w.probes, w.tests, w.deaths, w.calibrations} {
		if err := gather(ctx, p.to); err != nil {
			return nil, err
		}
	}
	w.endWhereProbesDo()
	return w, nil
}

// hour is the record's hour of a moment.
func (w *watched) hour(at time.Time) int { return int(at.Sub(w.from).Hours()) }

// moment is when an hour of the record begins.
func (w *watched) moment(hour int) time.Time {
	return w.from.Add(time.Duration(hour) * time.Hour).In(w.zone)
}

// probes takes each quantity from the place where it is read most.
func (w *watched) probes(ctx context.Context, to time.Time) error {
	found, err := w.store.Probed(ctx, w.Site.ID, w.waterPlaces(), w.from, to)
	if err != nil {
		return err
	}
	most := map[quantity.Quantity]int{}
	for len(found) > 0 {
		n := slices.IndexFunc(found, func(p store.Probed) bool { return p.Quantity != found[0].Quantity || p.PlaceID != found[0].PlaceID })
		if n < 0 {
			n = len(found)
		}
		q, known := typed.Quantities[freshetv1.Quantity(found[0].Quantity)]
		if known && n > most[q] {
			most[q], w.record.Probe[q] = n, w.series(found[:n])
		}
		found = found[n:]
	}
	return nil
}

func (w *watched) series(hours []store.Probed) []float64 {
	series := slices.Repeat([]float64{math.NaN()}, len(w.record.Hours))
	for _, h := range hours {
		series[w.hour(h.At)] = h.Mean
	}
	return series
}

func (w *watched) tests(ctx context.Context, to time.Time) error {
	found, err := w.store.Tests(ctx, w.Site.ID, w.waterPlaces(), w.from, to)
	for _, t := range found {
		q, unit, basis, ok := typed.Of(freshetv1.Quantity(t.Quantity), freshetv1.Unit(t.Unit), freshetv1.Basis(t.Basis))
		if !ok || freshetv1.Censoring(t.Censoring) == freshetv1.Censoring_CENSORING_ABOVE {
			continue
		}
		w.record.Tests[q] = append(w.record.Tests[q], signs.Test{
			Hour: w.hour(t.OccurredAt), Value: t.Value(), Below: freshetv1.Censoring(t.Censoring) == freshetv1.Censoring_CENSORING_BELOW,
			Typed: quantity.Measure{Digits: t.Digits, Decimals: int(t.Decimals), Unit: unit, Basis: basis},
		})
	}
	return err
}

func (w *watched) deaths(ctx context.Context, to time.Time) error {
	found, err := store.History[store.Death](ctx, w.store, w.Site.ID, w.from, to)
	cohorts := w.cohorts()
	for _, d := range found {
		if i := slices.IndexFunc(cohorts, func(c store.Cohort) bool { return c.ID == d.CohortID }); i >= 0 {
			w.record.Deaths = append(w.record.Deaths, signs.Death{
				Hour: w.hour(d.OccurredAt), Cohort: i, Count: int(d.Count), Sentinel: cohorts[i].Purpose == int16(freshetv1.CohortPurpose_COHORT_PURPOSE_SENTINEL),
			})
		}
	}
	return err
}

func (w *watched) calibrations(ctx context.Context, to time.Time) error {
	done, err := store.History[store.Upkeep](ctx, w.store, w.Site.ID, w.from, to)
	for _, u := range done {
		if u.Kind == int16(freshetv1.UpkeepKind_UPKEEP_KIND_PROBE_CALIBRATED) && (u.VesselID == uuid.Nil || w.holds(u.VesselID)) {
			w.record.Hours[w.hour(u.OccurredAt)].Calibrated = true
		}
	}
	return err
}

// endWhereProbesDo drops the hour that has begun where no probe spoke in it yet.
func (w *watched) endWhereProbesDo() {
	last := len(w.record.Hours) - 1
	for _, series := range w.record.Probe {
		if !math.IsNaN(series[last]) {
			return
		}
	}
	if w.testedIn(last) {
		return
	}
	w.record.Hours = w.record.Hours[:last]
	for q, series := range w.record.Probe {
		w.record.Probe[q] = series[:last]
	}
}

// testedIn tells whether anything was noted by hand in an hour.
func (w *watched) testedIn(hour int) bool {
	for _, tests := range w.record.Tests {
		if tests[len(tests)-1].Hour == hour {
			return true
		}
	}
	n := len(w.record.Deaths)
	return n > 0 && w.record.Deaths[n-1].Hour == hour
}

// look finds the signs and what may explain each.
func (w *watched) look(ctx context.Context) ([]*freshetv1.LoopSign, error) {
	found, err := signs.Look(w.record)
	if err != nil {
		return nil, err
	}
	list := make([]*freshetv1.LoopSign, 0, len(found))
	for i, s := range found {
		if s.Kind == signs.Silent && !s.Hand && slices.ContainsFunc(found[:i], func(o signs.Sign) bool { return o.Kind == s.Kind && !o.Hand && o.Since == s.Since }) {
			continue // said with the first probe that fell silent in that hour
		}
		sign := &freshetv1.LoopSign{Kind: s.Kind.String(), Since: timestamppb.New(w.moment(s.Since)), Until: timestamppb.New(w.moment(s.Until)), Answer: w.words(s)}
		if s.Kind == signs.Silent && !s.Hand {
			sign.Answer.Sentence = w.silentProbes(s, found)
		}
		sign.Quantity = freshetv1.Quantity(freshetv1.Quantity_value["QUANTITY_"+strings.ToUpper(s.Quantity.String())])
		if sign.Happenings, err = w.cameBefore(ctx, s); err != nil {
			return nil, err
		}
		list = append(list, sign)
	}
	return list, nil
}

// cameBefore is what happened about the time of a sign and may explain it: the
// latest first, but of a filter that cannot follow what harms it most first, and
// for longer back, since it takes days to show.
func (w *watched) cameBefore(ctx context.Context, s signs.Sign) ([]*freshetv1.Happening, error) {
	const before, after, slowly = 3, 1, 16 // days
	if !explained[s.Kind] {
		return nil, nil
	}
	back := before
	if s.Kind == signs.WeakFilter {
		back = slowly
	}
	list, err := w.happenings(ctx, w.moment(s.Since).AddDate(0, 0, -back), w.moment(s.Since).AddDate(0, 0, after))
	if s.Kind == signs.WeakFilter {
		slices.SortStableFunc(list, func(a, b *freshetv1.Happening) int { return weightOf(b) - weightOf(a) })
	}
	return list, err
}

// explained are the kinds that what was done about then may explain.
var explained = map[signs.Kind]bool{
	signs.StillPump: true, signs.Cooling: true, signs.WeakFilter: true, signs.Dying: true, signs.Hungerless: true, signs.Shifted: true, signs.Foul: true,
}

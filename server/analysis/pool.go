package analysis

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/pool"
	"freshet.example/store"
)

// Pool is the PoolService of the contract.
type Pool struct {
	freshetv1.UnimplementedPoolServiceServer
	*Service
}

// NewPool makes the service over a store, by a clock.
func NewPool(s *store.Store, now func() time.Time) *Pool { return &Pool{Service: New(s, now)} }

// TooFewError says that a comparison would be of fewer members than the
// cooperative shows; those who wait to be counted are among Have.
type TooFewError struct{ Have, Need int }

// Error reads as a sentence.
func (e *TooFewError) Error() string {
	have := counted(e.Have, "member")
	if e.Have == 0 {
		have = "nobody"
	}
	return fmt.Sprintf("a comparison is shown from sites of %d members on, and so far those of %s can be compared on this", e.Need, have)
}

// measure is one definition of what is compared. Numerator and denominator are
// kept apart by month, so that a ratio of sums has an honest error.
type measure struct {
	kind       string // kind of record that must be shared
	definition string
	unit       string
	moreIsGood bool
	gather     func(context.Context, *comparison) error
	adjust     func(*comparison) error // sets sites on one and the same year
	adjustment string                  // how, in words
	nouns      []string                // whose months it asks for
}

var measures = map[freshetv1.PoolMeasure]measure{
	freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR: {"bed_harvest", "Produce as weighed at harvest, kg, for each m2 of beds in loops and year of record; beds count whether planted or not.", "kg/m2 a year", true, produce, oneYear, byMonth, []string{harvested}},
	freshetv1.PoolMeasure_POOL_MEASURE_FEED_CONVERSION:        {"weighing", "Feed given, kg, for each kg of live weight gained; dead fish count as gained.", "kg/kg", false, conversion, asItIs, byFeed, nil},
	freshetv1.PoolMeasure_POOL_MEASURE_SURVIVAL_PERCENT:       {"death", "Fish alive or used for each hundred stocked, of cohorts that live or were stocked in the time.", "percent", true, survival, keptAsLong, byKeeping, nil},
	freshetv1.PoolMeasure_POOL_MEASURE_WATER_L_PER_KG:         {"water_in", "Water added to loops, L, for each kg of produce and fish harvested from them.", "L/kg", false, per("waters_in", 1), oneYear, byNoted("water added at least once"), []string{"waters_in", harvested, fishHarvested}},
	freshetv1.PoolMeasure_POOL_MEASURE_ENERGY_KWH_PER_KG:      {"energy", "Electricity metered, kWh, for each kg of produce and fish harvested.", "kWh/kg", false, energy, oneYear, byNoted("electricity metered over half of it, brought up to the whole month"), []string{harvested, fishHarvested}},
	freshetv1.PoolMeasure_POOL_MEASURE_LABOUR_H_PER_KG:        {"labour", "Labour noted, hours, for each kg of produce and fish harvested.", "h/kg", false, per("labour", 1.0/60), oneYear, byNoted("labour at least once"), []string{"labour", harvested, fishHarvested}},
}

// definitionVersion rises when any definition, bound or adjustment changes:
// figures of two versions are never set beside each other. 2: whole months, and
// sites set on one year. 3: of water, energy and labour only the months in which
// they were noted, energy over the time in which it was used.
const definitionVersion = 3

// mostRanked is the most sites whose ranks are told.
const mostRanked = 200

// comparison is one question being answered.
type comparison struct {
	*Pool
	measure
	from, to time.Time // days, both inclusive: twelve whole months
	shared   map[uuid.UUID]store.Sharing
	rows     map[uuid.UUID]*row
	left     map[string]uint32
	asked    map[string][]store.SiteMonth // months, by noun
}

// CompareSites sets sites beside each other on one measure.
func (p *Pool) CompareSites(ctx context.Context, in *freshetv1.CompareSitesRequest) (*freshetv1.CompareSitesResponse, error) {
	m, ok := measures[in.GetMeasure()]
	if !ok {
		return nil, &FieldError{"measure", "is not one that sites are compared on"}
	}
	if err := p.ownSpan(in); err != nil {
		return nil, err
	}
	from, to := wholeMonths(p.now())
	c := &comparison{Pool: p, measure: m, from: from, to: to, rows: map[uuid.UUID]*row{}, left: map[string]uint32{}, asked: map[string][]store.SiteMonth{}}
	counted := store.ForPool(ctx)
	if err := c.enter(counted); err != nil {
		return nil, err
	}
	if err := m.gather(counted, c); err != nil {
		return nil, err
	}
	return c.answer(ctx, in)
}

func keys[V any](m map[uuid.UUID]V) []uuid.UUID {
	list := make([]uuid.UUID, 0, len(m))
	for k := range m {
		list = append(list, k)
	}
	slices.SortFunc(list, func(a, b uuid.UUID) int { return slices.Compare(a[:], b[:]) })
	return list
}

func (c *comparison) answer(ctx context.Context, in *freshetv1.CompareSitesRequest) (*freshetv1.CompareSitesResponse, error) {
	cooperative, err := c.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	cast, err := c.chosen(store.ForPool(ctx), in.GetMeasure(), cooperative.SmallestGroup)
	if err != nil {
		return nil, err
	}
	if err := c.onOneYear(cast, cooperative.SmallestGroup); err != nil {
		return nil, err
	}
	ids := keys(c.rows)
	out, err := c.pulled(ids, in.GetSiteId())
	if err != nil {
		return nil, err
	}
	for reason, n := range c.left {
		out.LeftOut = append(out.LeftOut, &freshetv1.LeftOut{Reason: reason, Count: n})
	}
	slices.SortFunc(out.LeftOut, func(a, b *freshetv1.LeftOut) int { return int(b.Count) - int(a.Count) })
	if out.Sentence, err = c.words(ids, out, in.GetSiteId()); err != nil {
		return nil, err
	}
	out.Sentence += waits(cast, in.GetSiteId(), cooperative.SmallestGroup)
	if cast.Gone > 0 {
		c.coarse(out, cooperative.SmallestGroup)
	} else if out.Matched, err = c.matched(store.ForPool(ctx), in, cast, cooperative.SmallestGroup); err != nil {
		return nil, err
	}
	c.claimsOf(in.GetSiteId(), out)
	if in.GetMeasure() == freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR {
		err = c.ownSoil(ctx, in.GetSiteId(), out)
	}
	return out, err
}

// pulled shrinks the sites towards the group and places them.
func (c *comparison) pulled(ids []uuid.UUID, own string) (*freshetv1.CompareSitesResponse, error) {
	means, ses := make([]float64, len(ids)), make([]float64, len(ids))
	for i, id := range ids {
		means[i], ses[i] = c.rows[id].figure.value, c.rows[id].figure.se
	}
	group, err := pool.Meta(means, ses, pool.REML)
	if err != nil {
		return nil, err
	}
	sites, err := group.Shrink(0.9)
	if err != nil {
		return nil, err
	}
	places := make([]pool.Place, len(ids)) // none where there are too many to rank
	if len(ids) <= mostRanked {
		if places, err = group.Rank(0.9); err != nil {
			return nil, err
		}
	}
	reach, err := group.HKSJ(0.9)
	if err != nil {
		return nil, err
	}
	out := &freshetv1.CompareSitesResponse{
		Definition: c.definition, DefinitionVersion: definitionVersion, Adjustment: c.adjustment,
		FromOn: c.from.Format(time.DateOnly), ToOn: c.to.Format(time.DateOnly), BetweenSd: math.Sqrt(group.Tau2), Group: c.within(group.Mu, reach.Low, reach.High),
		Source: "random effects by REML, intervals after Hartung & Knapp 2001; ratio of sums of months (Cochran 1977), one year by marginal totals (Andersen 1977)",
	}
	for i, id := range ids {
		out.Sites = append(out.Sites, c.figure(id, sites[i], places[i], len(ids), own))
	}
	slices.SortStableFunc(out.Sites, c.better)
	return out, nil
}

// within tells a figure with its interval, 9 in 10, as far as there can be such:
// nothing is used or borne below nought, and of a hundred no more than all live.
func (c *comparison) within(value, low, high float64) *freshetv1.Estimate {
	most := math.Inf(1)
	if c.unit == "percent" {
		most = 100
	}
	return between(value, math.Max(0, low), math.Min(most, high), 0.9, c.unit)
}

// better puts the site first that stands better, all in all.
func (c *comparison) better(a, b *freshetv1.SiteFigure) int {
	by := cmp.Compare(a.Pulled.Value, b.Pulled.Value)
	if c.moreIsGood {
		by = -by
	}
	return cmp.Or(cmp.Compare(a.RankLow+a.RankHigh, b.RankLow+b.RankHigh), by)
}

func (c *comparison) figure(id uuid.UUID, s pool.Site, p pool.Place, n int, own string) *freshetv1.SiteFigure {
	r := c.rows[id]
	low, high := p.Low, p.High
	if !c.moreIsGood && high > 0 {
		low, high = n+1-p.High, n+1-p.Low
	}
	f := &freshetv1.SiteFigure{
		Name: "a member's site", Completeness: math.Min(1, sum(r.noted)/r.days()), Days: uint32(r.days()), Own: id.String() == own,
		AsRecorded: c.estimate(r.plain), Adjusted: c.estimate(r.figure), MonthsCount: uint32(len(r.months())), Pulled: c.within(s.Mean, s.Low, s.High),
		RankLow: uint32(low), RankHigh: uint32(high),
	}
	if f.Own || c.shared[id] >= store.SharingNamed {
		f.SiteId, f.Name = id.String(), r.Name
		return f
	}
	f.Completeness = math.Round(f.Completeness*10) / 10
	f.AsRecorded, f.Adjusted, f.Pulled = blunted(f.AsRecorded), blunted(f.Adjusted), blunted(f.Pulled)
	return f
}

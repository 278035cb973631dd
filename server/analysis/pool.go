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
	return fmt.Sprintf("sites of %s can be compared, and those of fewer than %d are never shown", counted(e.Have, "member"), e.Need)
}

// measure is one definition of what is compared. Numerator and denominator are
// kept apart by block, so that a ratio of sums has an honest error.
type measure struct {
	kind       string // kind of record that must be shared
	definition string
	unit       string
	moreIsGood bool
	gather     func(context.Context, *comparison) error
}

var measures = map[freshetv1.PoolMeasure]measure{
	freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR: {"bed_harvest", "Produce as weighed at harvest, kg, for each m2 of beds in loops and year of record; beds count whether planted or not.", "kg/m2 a year", true, produce},
	freshetv1.PoolMeasure_POOL_MEASURE_FEED_CONVERSION:        {"weighing", "Feed given, kg, for each kg of live weight gained; dead fish count as gained.", "kg/kg", false, conversion},
	freshetv1.PoolMeasure_POOL_MEASURE_SURVIVAL_PERCENT:       {"death", "Fish alive or used for each hundred stocked, of cohorts that live or were stocked in the time.", "percent", true, survival},
	freshetv1.PoolMeasure_POOL_MEASURE_WATER_L_PER_KG:         {"water_in", "Water added to loops, L, for each kg of produce and fish harvested from them.", "L/kg", false, per("waters_in", 1)},
	freshetv1.PoolMeasure_POOL_MEASURE_ENERGY_KWH_PER_KG:      {"energy", "Electricity metered, kWh, for each kg of produce and fish harvested.", "kWh/kg", false, per("energy", 1)},
	freshetv1.PoolMeasure_POOL_MEASURE_LABOUR_H_PER_KG:        {"labour", "Labour noted, hours, for each kg of produce and fish harvested.", "h/kg", false, per("labour", 1.0/60)},
}

// definitionVersion rises when any definition or bound below changes: figures of
// two versions are never set beside each other.
const definitionVersion = 1

// mostRanked is the most sites whose ranks are told.
const mostRanked = 200

// Bounds below which a site does not enter: they are stated with every answer.
const (
	leastComplete = 0.5 // share of days with feed noted
	leastBlocks   = 4   // whole blocks of 28 days
)

// comparison is one question being answered.
type comparison struct {
	*Pool
	measure
	from, to time.Time // days, both inclusive
	shared   map[uuid.UUID]store.Sharing
	rows     map[uuid.UUID]*row
	left     map[string]uint32
}

// row is one site's record in blocks.
type row struct {
	store.Ground
	num, den     map[int32]float64
	first        int32 // block of the first noted day, which is left out where it is not whole
	blocks       int32
	completeness float64
	days         uint32
	value, se    float64
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
	from, to, err := p.days("", in.GetToOn(), time.UTC, 364)
	if err != nil {
		return nil, err
	}
	c := &comparison{Pool: p, measure: m, from: from, to: to, rows: map[uuid.UUID]*row{}, left: map[string]uint32{}}
	counted := store.ForPool(ctx)
	if err := c.enter(counted); err != nil {
		return nil, err
	}
	if err := m.gather(counted, c); err != nil {
		return nil, err
	}
	return c.answer(ctx, in)
}

// enter takes in the sites that share this kind of record and are complete enough.
func (c *comparison) enter(ctx context.Context) (err error) {
	if c.shared, err = c.store.SharedAs(ctx, c.kind); err != nil {
		return err
	}
	grounds, err := c.store.Grounds(ctx, keys(c.shared), c.from, c.to)
	for _, g := range grounds {
		if g.FirstDay.IsZero() {
			c.left["no feed noted in the time"]++
			continue
		}
		r := c.rowOf(g)
		switch {
		case r.blocks < leastBlocks:
			c.left[fmt.Sprintf("less than %d whole spans of %d days on record", leastBlocks, store.BlockDays)]++
		case r.completeness < leastComplete:
			c.left[fmt.Sprintf("feed noted on fewer than %.0f in 100 days", leastComplete*100)]++
		default:
			c.rows[g.SiteID] = r
		}
	}
	return err
}

func (c *comparison) rowOf(g store.Ground) *row {
	days := c.to.Sub(g.FirstDay.Time).Hours()/24 + 1
	all := int32(c.to.Sub(c.from).Hours()/24+1) / store.BlockDays
	before := g.FirstDay.Sub(c.from).Hours() / 24
	first := int32(math.Ceil(before / store.BlockDays))
	return &row{
		Ground: g, num: map[int32]float64{}, den: map[int32]float64{}, first: first, blocks: all - first,
		completeness: float64(g.NotedDays) / days, days: uint32(days),
	}
}

func keys[V any](m map[uuid.UUID]V) []uuid.UUID {
	list := make([]uuid.UUID, 0, len(m))
	for k := range m {
		list = append(list, k)
	}
	return list
}

// put adds a block's sum to the numerator or denominator of its site.
func (c *comparison) put(blocks []store.Block, scale float64, into func(*row) map[int32]float64) {
	for _, b := range blocks {
		if r := c.rows[b.SiteID]; r != nil && b.Block >= r.first && b.Block < r.first+r.blocks {
			into(r)[b.Block] += b.Sum * scale
		}
	}
}

func numerator(r *row) map[int32]float64   { return r.num }
func denominator(r *row) map[int32]float64 { return r.den }

// produce is kg from beds in loops over m2 and years.
func produce(ctx context.Context, c *comparison) error {
	blocks, err := c.store.ProduceBlocks(ctx, keys(c.rows), false, c.from, c.to)
	c.put(blocks, 1.0/1000, numerator)
	for id, r := range c.rows {
		if r.LoopM2 == 0 {
			delete(c.rows, id)
			c.left["no beds with a known area"]++
			continue
		}
		for b := r.first; b < r.first+r.blocks; b++ {
			r.den[b] = r.LoopM2 * store.BlockDays / 365.25
		}
	}
	return err
}

// per is a noun's sum over kg of produce and fish.
func per(noun string, scale float64) func(context.Context, *comparison) error {
	return func(ctx context.Context, c *comparison) error {
		used, err := c.store.Blocks(ctx, keys(c.rows), noun, c.from, c.to)
		if err != nil {
			return err
		}
		c.put(used, scale, numerator)
		produce, err := c.store.ProduceBlocks(ctx, keys(c.rows), false, c.from, c.to)
		if err != nil {
			return err
		}
		c.put(produce, 1.0/1000, denominator)
		fish, err := c.store.Blocks(ctx, keys(c.rows), "fish_harvests", c.from, c.to)
		c.put(fish, 1.0/1000, denominator)
		for id, r := range c.rows {
			if sum(r.num) == 0 {
				delete(c.rows, id)
				c.left["it was not noted"]++
			}
		}
		return err
	}
}

func sum(m map[int32]float64) float64 {
	total := 0.0
	for _, v := range m {
		total += v
	}
	return total
}

// settle turns each row's blocks into a ratio of sums with its standard error
// (the linearised ratio estimator, Cochran 1977, Sampling Techniques 6.4).
func (c *comparison) settle() {
	for id, r := range c.rows {
		if r.se > 0 {
			continue // the measure gave its own
		}
		if sum(r.num) <= 0 || sum(r.den) <= 0 {
			delete(c.rows, id)
			c.left["nothing was harvested"]++
			continue
		}
		r.ratio()
	}
}

func (r *row) ratio() {
	num, den, n := sum(r.num), sum(r.den), float64(r.blocks)
	r.value = num / den
	squares := 0.0
	for b := r.first; b < r.first+r.blocks; b++ {
		off := r.num[b] - r.value*r.den[b]
		squares += off * off
	}
	r.se = math.Max(math.Sqrt(squares*n/(n-1))/den, 0.01*math.Abs(r.value))
}

func (c *comparison) answer(ctx context.Context, in *freshetv1.CompareSitesRequest) (*freshetv1.CompareSitesResponse, error) {
	c.settle()
	cooperative, err := c.store.Cooperative(ctx)
	if err != nil {
		return nil, err
	}
	cast, err := c.chosen(store.ForPool(ctx), in.GetMeasure(), cooperative.SmallestGroup)
	if err != nil {
		return nil, err
	}
	if cast.Members < cooperative.SmallestGroup {
		return nil, &TooFewError{cast.Members + cast.Waiting, cooperative.SmallestGroup}
	}
	ids := keys(c.rows)
	slices.SortFunc(ids, func(a, b uuid.UUID) int { return slices.Compare(a[:], b[:]) })
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
	}
	if in.GetMeasure() == freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR {
		err = c.ownSoil(ctx, in.GetSiteId(), out)
	}
	return out, err
}

// pulled shrinks the sites towards the group and places them.
func (c *comparison) pulled(ids []uuid.UUID, own string) (*freshetv1.CompareSitesResponse, error) {
	means, ses := make([]float64, len(ids)), make([]float64, len(ids))
	for i, id := range ids {
		means[i], ses[i] = c.rows[id].value, c.rows[id].se
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
		Definition: c.definition, DefinitionVersion: definitionVersion, BetweenSd: math.Sqrt(group.Tau2), Group: between(group.Mu, reach.Low, reach.High, 0.9, c.unit),
		Source: "random effects by REML, intervals after Hartung & Knapp 2001; ratio of sums over spans of 28 days (Cochran 1977)",
	}
	for i, id := range ids {
		out.Sites = append(out.Sites, c.figure(id, sites[i], places[i], len(ids), own))
	}
	slices.SortStableFunc(out.Sites, c.better)
	return out, nil
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
		Name: "a member's site", Completeness: math.Min(1, r.completeness), Days: r.days, Own: id.String() == own,
		AsRecorded: between(r.value, r.value-1.645*r.se, r.value+1.645*r.se, 0.9, c.unit), Pulled: between(s.Mean, s.Low, s.High, 0.9, c.unit),
		RankLow: uint32(low), RankHigh: uint32(high),
	}
	if f.Own || c.shared[id] >= store.SharingNamed {
		f.SiteId, f.Name = id.String(), r.Name
		return f
	}
	f.Completeness = math.Round(f.Completeness*10) / 10
	f.Days -= f.Days % store.BlockDays
	f.AsRecorded, f.Pulled = blunted(f.AsRecorded), blunted(f.Pulled)
	return f
}

package analysis

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/pool"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// A comparison also tells how the sites do that are most like one's own. Were
// these chosen anew for each question, a member who changed what their own site
// is said to be like could move it past another and read that one's figure off
// the difference. So the cast is sorted into groups once a year, each of as many
// members as the smallest group (store.SettleAlike), and of the caller's only
// the mean is told, to two digits.

// matched tells of the group of the caller's own site; nil without one that is compared.
func (c *comparison) matched(ctx context.Context, in *freshetv1.CompareSitesRequest, cast store.Cast, smallest int) (*freshetv1.MatchedSites, error) {
	own, err := uuid.Parse(in.GetSiteId())
	at := slices.Index(cast.Sites, own)
	if err != nil || at < 0 || c.rows[own] == nil {
		return nil, nil //nolint:nilerr,nilnil // no own site is pointed out
	}
	a, err := c.alike(ctx, int16(in.GetMeasure()), cast.Sites, smallest) //nolint:gosec // few
	if err != nil {
		return nil, err
	}
	group := a.Groups[at]
	var sites []uuid.UUID
	for i, id := range cast.Sites {
		if group > 0 && a.Groups[i] == group {
			sites = append(sites, id)
		}
	}
	if missing := slices.ContainsFunc(sites, func(id uuid.UUID) bool { return c.rows[id] == nil }); group == 0 || missing {
		return &freshetv1.MatchedSites{Sentence: noGroup(a, len(cast.Sites), smallest)}, nil
	}
	return c.matchedWords(sites, own, a.Reasons[group-1])
}

// alike answers the groups that hold; it makes them where there are none.
func (c *comparison) alike(ctx context.Context, measure int16, sites []uuid.UUID, smallest int) (store.Alike, error) {
	a, err := c.store.AlikeOf(ctx, measure, sites, smallest)
	if err != nil || a.Since != nil {
		return a, err
	}
	groups, reasons, err := c.sorted(ctx, sites, smallest)
	if err != nil || len(reasons) < 2 {
		return a, err
	}
	if err := c.store.SettleAlike(ctx, measure, sites, groups, reasons, smallest); err != nil {
		return a, err
	}
	return c.store.AlikeOf(ctx, measure, sites, smallest)
}

// sorted proposes groups of like sites, from 1, with what each has in common.
func (c *comparison) sorted(ctx context.Context, sites []uuid.UUID, smallest int) (groups []int16, reasons []string, err error) {
	likenesses, err := c.store.Likenesses(ctx, sites, c.from, c.to)
	if err != nil {
		return nil, nil, err
	}
	numbers, err := c.store.KeepersOf(ctx, sites)
	if err != nil {
		return nil, nil, err
	}
	traits, keepers := make([]pool.Traits, len(sites)), make([]int, len(sites))
	at := make(map[uuid.UUID]int, len(sites))
	for i, id := range sites {
		traits[i], keepers[i], at[id] = traitsOf(store.Likeness{}), int(numbers[i]), i
	}
	for _, l := range likenesses {
		traits[at[l.SiteID]] = traitsOf(l)
	}
	found, err := pool.Alike(traits, keepers, smallest)
	if err != nil {
		return nil, nil, nil //nolint:nilerr // too many to sort: there are no groups
	}
	for n := range slices.Max(found) + 1 {
		var of []pool.Traits
		for i, g := range found {
			if g == n {
				of = append(of, traits[i])
			}
		}
		reasons = append(reasons, inCommon(of))
	}
	for _, g := range found {
		groups = append(groups, int16(g+1)) //nolint:gosec // few
	}
	return groups, reasons, nil
}

// traitsOf leaves out what is not known, or cannot be.
func traitsOf(l store.Likeness) pool.Traits {
	value := func(v *float64) float64 {
		if v == nil {
			return math.NaN()
		}
		return *v
	}
	t := pool.Traits{
		WaterCelsius: quantity.Celsius(value(l.Celsius)), Latitude: value(l.Latitude), Covered: value(l.Covered),
		Litres: quantity.Litres(value(l.Litres)), PlantedM2: value(l.LoopM2),
	}
	if l.Species != nil {
		t.Species = *l.Species
	}
	if _, err := pool.Distance(t, t); err != nil {
		return traitsOf(store.Likeness{})
	}
	return t
}

// inCommon says what sites of a group have in common, in steps so wide that no
// site is known by them.
func inCommon(of []pool.Traits) string {
	var said []string
	each := func(words string, steps []float64, value func(pool.Traits) float64) {
		low, high := math.Inf(1), math.Inf(-1)
		for _, t := range of {
			if v := value(t); v > steps[0] {
				low, high = min(low, v), max(high, v)
			}
		}
		if low > high {
			return
		}
		from, _ := slices.BinarySearch(steps, low)
		to, _ := slices.BinarySearch(steps, high)
		if from > 0 && to < len(steps) {
			said = append(said, fmt.Sprintf(words, brief(steps[from-1]), brief(steps[to])))
		}
	}
	each("water of %s to %s degC", []float64{-5, 5, 10, 15, 20, 25, 30, 45}, func(t pool.Traits) float64 { return float64(t.WaterCelsius) })
	if words := coverOf(of); words != "" {
		said = append(said, words)
	}
	if words := speciesIn(of); words != "" {
		said = append(said, words)
	}
	each("%s to %s m3 of water", sizes, func(t pool.Traits) float64 { return float64(t.Litres) / 1000 })
	each("%s to %s m2 of beds", sizes, func(t pool.Traits) float64 { return t.PlantedM2 })
	if len(said) == 0 {
		return "little noted that would say so"
	}
	if unlikest(of) > notAlike {
		said = append(said, wantOfOthers)
	}
	return strings.Join(said, ", ")
}

// wantOfOthers ends the reason of a group that only the smallest group holds together.
const wantOfOthers = "not much alike, for want of others"

// notAlike is the distance from which two sites of a group are no longer called
// alike: as far as another species alone sets them.
const notAlike = 0.3

func unlikest(of []pool.Traits) float64 {
	most := 0.0
	for i, a := range of {
		for _, b := range of[:i] {
			if d, err := pool.Distance(a, b); err == nil {
				most = max(most, d)
			}
		}
	}
	return most
}

// sizes are steps of about half a decade.
var sizes = []float64{0, 0.1, 0.3, 1, 3, 10, 30, 100, 300, 1000, 3000, 10000, 100000, 1e8}

func brief(v float64) string { return fmt.Sprintf("%.12g", v) }

// coverOf tells of all of them, else nothing.
func coverOf(of []pool.Traits) string {
	under, open := true, true
	for _, t := range of {
		under, open = under && t.Covered > 0.5, open && t.Covered <= 0.5
	}
	switch {
	case under:
		return "under cover"
	case open:
		return "in the open"
	}
	return ""
}

// speciesIn names the fish where they are of three species at most.
func speciesIn(of []pool.Traits) string {
	var names []string
	for _, t := range of {
		name := "other fish"
		if s, err := speciesOf(t.Species); err == nil {
			name = s.Name
		}
		if t.Species != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	if len(names) > 3 {
		return ""
	}
	return strings.Join(names, " or ")
}

// matchedWords tells of the group as a whole.
func (c *comparison) matchedWords(sites []uuid.UUID, own uuid.UUID, reason string) (*freshetv1.MatchedSites, error) {
	means, ses := make([]float64, len(sites)), make([]float64, len(sites))
	for i, id := range sites {
		means[i], ses[i] = c.rows[id].figure.value, c.rows[id].figure.se
	}
	group, err := pool.Meta(means, ses, pool.REML)
	if err != nil {
		return nil, err
	}
	reach, err := group.HKSJ(0.9)
	if err != nil {
		return nil, err
	}
	nearest := "Most like yours"
	with, unlike := strings.CutSuffix(reason, ", "+wantOfOthers)
	if unlike {
		nearest = "The nearest to yours, " + wantOfOthers
	}
	e := blunted(c.within(group.Mu, reach.Low, reach.High))
	return &freshetv1.MatchedSites{
		Reason: reason, SitesCount: uint32(len(sites)), Group: e, //nolint:gosec // few
		Source: "likeness after Gower 1971; groups by microaggregation (Domingo-Ferrer & Torra 2005); mean and interval as of all sites",
		Sentence: fmt.Sprintf("%s: %d sites, yours among them, with %s. Their mean is %s %s, between %s and %s, 9 in 10; yours over the same year is %s.",
			nearest, len(sites), with, show(e.Value, 2), c.unit, show(e.GetLow(), 2), show(e.GetHigh(), 2), show(c.rows[own].figure.value, 2)),
	}, nil
}

// noGroup says why there is none to tell of.
func noGroup(a store.Alike, sites, smallest int) string {
	if a.Since == nil {
		return fmt.Sprintf("Which sites are most like yours is told from two groups of %d members on; %d sites are compared.", smallest, sites)
	}
	return fmt.Sprintf("Which sites are most like yours is not told now: yours came after the groups were made, or one of its group is not compared. They are made anew after %s.",
		a.Since.Add(aYear).Format("2 January 2006"))
}

// aYear is how long groups hold; the database keeps to it.
const aYear = 364 * 24 * time.Hour

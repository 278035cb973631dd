package analysis

import (
	"context"
	"fmt"
	"math"
	"math/bits"
	"time"

	"github.com/google/uuid"
	"golang.org/x/sync/errgroup"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/pool"
	"freshet.example/store"
)

// Bounds below which a site does not enter: they are stated with every answer.
const (
	leastNoted  = 0.5 // share of a month's days with feed noted, for the month to enter
	leastMonths = 4   // months that enter
)

// byMonth says how sites are set on one year.
var byMonth = fmt.Sprintf("A month enters where feed was noted on half its days, a site with %d months. %s", leastMonths, toOneYear)

// byNoted says the same of what is used, and which months enter besides.
func byNoted(what string) string {
	return fmt.Sprintf("A month enters where feed was noted on half its days and %s: a month in which none was noted is not known to have had none. A site enters with %d months. %s", what, leastMonths, toOneYear)
}

const toOneYear = "Sites that noted different months are set on one year by what each month gave at the sites that noted it; south of the equator the seasons are taken half a year on."

const year = 12

// row is one site's record by month of the season: the first of a northern site
// is the first compared, of a southern one the seventh.
type row struct {
	store.Ground
	num, den [year]float64
	span     [year]float64 // years that enter: a month's part of a year, or 0
	noted    [year]float64 // days with feed noted in them
	plain    measured      // as recorded
	figure   measured      // set on one year with the others
	fish     *fishRow      // of measures of fish
}

// measured is a value with its standard error.
type measured struct{ value, se float64 }

func (c *comparison) estimate(m measured) *freshetv1.Estimate {
	return c.within(m.value, m.value-1.645*m.se, m.value+1.645*m.se)
}

// wholeMonths are the twelve before the month of yesterday, which may not be
// over everywhere.
func wholeMonths(now time.Time) (from, to time.Time) {
	y, m, _ := now.UTC().AddDate(0, 0, -1).Date()
	return time.Date(y, m-year, 1, 0, 0, 0, 0, time.UTC), time.Date(y, m, 0, 0, 0, 0, 0, time.UTC)
}

// season is the place of a month in the row.
func (c *comparison) season(r *row, month time.Time) int {
	y, m, _ := c.from.Date()
	at := (month.Year()-y)*12 + int(month.Month()-m)
	if r.Latitude != nil && *r.Latitude < 0 {
		at += year / 2
	}
	return at % year
}

// enter takes in the sites that share this kind of record and are complete enough.
func (c *comparison) enter(ctx context.Context) (err error) {
	if c.shared, err = c.store.SharedAs(ctx, c.kind); err != nil {
		return err
	}
	grounds, err := c.ask(ctx, keys(c.shared))
	if err != nil {
		return err
	}
	for _, g := range grounds {
		c.rows[g.SiteID] = &row{Ground: g}
	}
	for _, m := range c.asked[feedNoted] {
		if r := c.rows[m.SiteID]; r != nil {
			r.note(c.season(r, m.Month), m)
		}
	}
	for id, r := range c.rows {
		if len(r.months()) < leastMonths {
			c.leave(id, fmt.Sprintf("fewer than %d months with feed noted on half the days", leastMonths))
		}
	}
	return nil
}

// Nouns of months; of what was harvested only what comes from beds in loops is asked for.
const (
	feedNoted     = "feedings"
	harvested     = "bed_harvests"
	fishHarvested = "fish_harvests"
)

// ask asks for where sites stand and for the months of each noun that they are
// compared on. No question waits for another's answer, and most of what a comparison
// takes is the database's, so it works at two: at more, those who ask at once would
// keep the connections from everybody else.
func (c *comparison) ask(ctx context.Context, ids []uuid.UUID) (grounds []store.Ground, err error) {
	const atOnce = 2
	nouns := append([]string{feedNoted}, c.nouns...)
	months := make([][]store.SiteMonth, len(nouns))
	questions, ctx := errgroup.WithContext(ctx)
	questions.SetLimit(atOnce)
	questions.Go(func() (err error) {
		grounds, err = c.store.Grounds(ctx, ids)
		return err
	})
	for i, noun := range nouns {
		questions.Go(func() (err error) {
			months[i], err = c.monthsOf(ctx, ids, noun)
			return err
		})
	}
	err = questions.Wait()
	for i, noun := range nouns {
		c.asked[noun] = months[i]
	}
	return grounds, err
}

func (c *comparison) monthsOf(ctx context.Context, ids []uuid.UUID, noun string) ([]store.SiteMonth, error) {
	if noun == harvested {
		return c.store.ProduceMonths(ctx, ids, false, c.from, c.to)
	}
	return c.store.Months(ctx, ids, noun, 0, c.from, c.to)
}

// note enters a month where feed was noted on enough of its days.
func (r *row) note(at int, m store.SiteMonth) {
	days := float64(m.Month.AddDate(0, 1, -1).Day())
	if fed := float64(bits.OnesCount32(m.Days)); fed >= leastNoted*days {
		r.span[at], r.noted[at] = days/365.25, fed
	}
}

// months are the places of those that enter.
func (r *row) months() (list []int) {
	for j, span := range r.span {
		if span > 0 {
			list = append(list, j)
		}
	}
	return list
}

func (r *row) days() float64 { return math.Round(sum(r.span) * 365.25) }

func (c *comparison) leave(id uuid.UUID, reason string) {
	delete(c.rows, id)
	c.left[reason]++
}

// put adds a month's sum to the numerator or denominator of its site.
func (c *comparison) put(months []store.SiteMonth, scale float64, into func(*row) *[year]float64) {
	for _, m := range months {
		if r := c.rows[m.SiteID]; r != nil {
			if at := c.season(r, m.Month); r.span[at] > 0 {
				into(r)[at] += m.Sum() * scale
			}
		}
	}
}

func numerator(r *row) *[year]float64   { return &r.num }
func denominator(r *row) *[year]float64 { return &r.den }

// produce is kg from beds in loops over m2 and years.
func produce(_ context.Context, c *comparison) error {
	c.put(c.asked[harvested], 1.0/1000, numerator)
	for id, r := range c.rows {
		if r.LoopM2 == 0 {
			c.leave(id, "no beds with a known area")
			continue
		}
		for j, span := range r.span {
			r.den[j] = r.LoopM2 * span
		}
	}
	c.settle()
	return nil
}

// per is a noun's sum over kg of produce and fish.
func per(noun string, scale float64) func(context.Context, *comparison) error {
	return func(_ context.Context, c *comparison) error {
		c.perHarvest(c.asked[noun], scale)
		return nil
	}
}

// energy is electricity over kg of produce and fish. A month enters where half
// of it was metered, brought up to the whole.
func energy(ctx context.Context, c *comparison) error {
	months, err := c.store.MeteredMonths(ctx, keys(c.rows), c.from, c.to)
	if err != nil {
		return err
	}
	var used []store.SiteMonth
	for _, m := range months {
		if m.Share >= leastNoted {
			used = append(used, store.SiteMonth{SiteID: m.SiteID, Month: m.Month, Micro: m.KWh / m.Share * 1e6})
		}
	}
	c.perHarvest(used, 1)
	return nil
}

func (c *comparison) perHarvest(used []store.SiteMonth, scale float64) {
	c.onlyNoted(used)
	c.put(used, scale, numerator)
	c.put(c.asked[harvested], 1.0/1000, denominator)
	c.put(c.asked[fishHarvested], 1.0/1000, denominator)
	c.settle()
}

// onlyNoted keeps the months in which something was noted, be it nought: one in
// which nothing was is not known to have had none, and what was harvested in it
// for nothing would make the others' months look better.
func (c *comparison) onlyNoted(used []store.SiteMonth) {
	noted := map[uuid.UUID]*[year]bool{}
	for id := range c.rows {
		noted[id] = &[year]bool{}
	}
	for _, m := range used {
		if r := c.rows[m.SiteID]; r != nil {
			noted[m.SiteID][c.season(r, m.Month)] = true
		}
	}
	for id, r := range c.rows {
		for j, yes := range noted[id] {
			if !yes {
				r.span[j], r.noted[j] = 0, 0
			}
		}
		if len(r.months()) < leastMonths {
			c.leave(id, fmt.Sprintf("it was noted in fewer than %d of the months with feed noted", leastMonths))
		}
	}
}

func sum(m [year]float64) float64 {
	total := 0.0
	for _, v := range m {
		total += v
	}
	return total
}

// settle turns each row's months into its ratio of sums.
func (c *comparison) settle() {
	for id, r := range c.rows {
		switch {
		case sum(r.den) <= 0:
			c.leave(id, "nothing was harvested")
			continue
		case sum(r.num) <= 0 && c.kind == "bed_harvest":
			c.leave(id, "nothing was harvested")
			continue
		case sum(r.num) <= 0:
			c.leave(id, "what was noted comes to nothing")
			continue
		}
		r.ratio()
	}
}

// ratio is the ratio of sums with its standard error (the linearised ratio
// estimator, Cochran 1977, Sampling Techniques 6.4).
func (r *row) ratio() {
	num, den, n := sum(r.num), sum(r.den), float64(len(r.months()))
	value, squares := num/den, 0.0
	for _, j := range r.months() {
		off := r.num[j] - value*r.den[j]
		squares += off * off
	}
	r.plain = measured{value, floored(value, math.Sqrt(squares*n/(n-1))/den)}
}

// floored keeps an error from vanishing where months happen to agree: weights
// are not noted to better than a hundredth.
func floored(value, se float64) float64 { return math.Max(se, 0.01*math.Abs(value)) }

// onOneYear adjusts the sites of the cast; it says so where too few are left.
// The cast comes first: what a month gives is told by its sites alone, so that
// no newcomer shows in the others' figures.
func (c *comparison) onOneYear(cast store.Cast, smallest int) error {
	if cast.Members < smallest {
		return &TooFewError{cast.Members + cast.Waiting, smallest}
	}
	before := len(c.rows)
	if err := c.adjust(c); err != nil {
		return err
	}
	if left := cast.Members - (before - len(c.rows)); left < smallest {
		return &TooFewError{left + cast.Waiting, smallest}
	}
	return nil
}

// oneYear sets numerators and denominators each on one year. That of produce,
// the area, is the same in any.
func oneYear(c *comparison) error {
	above, err := c.standardise(numerator)
	if err != nil {
		return err
	}
	below := above
	if c.kind != "bed_harvest" {
		if below, err = c.standardise(denominator); err != nil {
			return err
		}
	}
	for id, r := range c.rows {
		a, b := above[id], below[id]
		if c.kind == "bed_harvest" {
			b = pool.Yearly{Rate: sum(r.den) / sum(r.span), Joined: true}
		}
		if !a.Joined || !b.Joined || b.Rate == 0 {
			c.leave(id, "no month in which both it and others harvested")
			continue
		}
		value := a.Rate / b.Rate
		r.figure = measured{value, floored(value, value*math.Hypot(a.SE/a.Rate, b.SE/b.Rate))}
	}
	return nil
}

// standardise works out what each site would come to in a year. Sites tell the
// months alike, whatever their size: each first comes down to its own mean.
func (c *comparison) standardise(of func(*row) *[year]float64) (map[uuid.UUID]pool.Yearly, error) {
	ids := keys(c.rows)
	amounts, spans, means := make([][]float64, len(ids)), make([][]float64, len(ids)), make([]float64, len(ids))
	for i, id := range ids {
		r := c.rows[id]
		spans[i], means[i] = r.span[:], sum(*of(r))/sum(r.span)
		for _, v := range of(r) {
			amounts[i] = append(amounts[i], v/means[i])
		}
	}
	y, err := pool.Standardise(amounts, spans)
	if err != nil {
		return nil, &TooLittleError{What: "the months that sites noted have too little in common to set them on one year", Hint: "a comparison comes when they have more months in common"}
	}
	found := make(map[uuid.UUID]pool.Yearly, len(ids))
	for i, s := range y.Sites {
		found[ids[i]] = pool.Yearly{Rate: s.Rate * means[i], SE: s.SE * means[i], Joined: s.Joined}
	}
	return found, nil
}

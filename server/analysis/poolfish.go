package analysis

import (
	"cmp"
	"context"
	"math"
	"slices"
	"time"

	"freshet.example/husbandry/fish"
)

// fishRow is what measures of fish need besides: fish-years kept in the months
// compared, fish that were there in them, and how many of those died.
type fishRow struct{ years, there, dead float64 }

const (
	byFeed    = "Feed and growth follow the seasons together and growth is known only from weighing to weighing: figures stay as recorded, over months in a row in which feed was noted."
	byKeeping = "Sites that kept fish for longer had longer to lose them: each is told as if all had kept theirs as long as the group on average. Deaths are too few to tell the seasons by."
)

// conversion is feed over live weight gained; its error comes from the weighings.
func conversion(ctx context.Context, c *comparison) error {
	return c.eachFish(ctx, "fish were not weighed often enough", func(place *site, r *row) error {
		from, to, enough := c.inARow(place, r)
		if !enough {
			return nil
		}
		fed, gain, off := 0.0, 0.0, 0.0
		for _, system := range place.Systems {
			l := &loop{place, system}
			given, err := l.fed(ctx, from, to)
			if err != nil {
				return err
			}
			a := &accounts{loop: l, from: from, to: to, fed: given}
			if err := a.fish(ctx); err != nil {
				return err
			}
			fed, gain, off = fed+given.grams, gain+float64(a.FishGain.Value), math.Hypot(off, float64(a.FishGain.Error))
		}
		if gain > 0 {
			value := fed * float64(fish.WholeFishN) / gain
			r.plain = measured{value, value * math.Max(0.05, off/gain)}
		}
		return nil
	})
}

// inARow is the last stretch of months that all enter, in the site's own time.
func (c *comparison) inARow(place *site, r *row) (from, to time.Time, enough bool) {
	end := c.to.AddDate(0, 0, 1)
	for r.span[c.season(r, end.AddDate(0, -1, 0))] == 0 {
		end = end.AddDate(0, -1, 0)
	}
	start := end
	for start.After(c.from) && r.span[c.season(r, start.AddDate(0, -1, 0))] > 0 {
		start = start.AddDate(0, -1, 0)
	}
	enough = !start.AddDate(0, leastMonths, 0).After(end)
	return midnight(start.Add(12*time.Hour), place.zone), midnight(end.Add(12*time.Hour), place.zone), enough
}

// asItIs compares figures as recorded.
func asItIs(c *comparison) error {
	for _, r := range c.rows {
		r.figure = r.plain
	}
	return nil
}

// survival is fish alive or used over fish stocked, as independent fish: what
// fish of one tank share makes the true error larger.
func survival(ctx context.Context, c *comparison) error {
	return c.eachFish(ctx, "no fish were stocked", func(place *site, r *row) error {
		records, err := place.fishRecords(ctx, c.to.AddDate(0, 0, 1))
		if err != nil {
			return err
		}
		stocked, dead := 0.0, 0.0
		for _, s := range records.stockings {
			stocked += float64(s.Count)
		}
		for _, d := range records.deaths {
			dead += float64(d.Count)
		}
		if stocked == 0 {
			return nil
		}
		alive := math.Max(0, stocked-dead)
		p := (alive + 1) / (stocked + 2)
		r.plain, r.fish = measured{100 * alive / stocked, 100 * math.Sqrt(p*(1-p)/stocked)}, records.kept(c.from, c.to.AddDate(0, 0, 1))
		if r.fish.years == 0 {
			r.plain = measured{}
		}
		return nil
	})
}

// kept adds up the fish of a site over a time, from what came and what left.
func (r *fishRecords) kept(from, to time.Time) *fishRow {
	type change struct {
		at   time.Time
		fish float64
		died bool
	}
	var all []change
	for _, s := range r.stockings {
		all = append(all, change{at: s.OccurredAt, fish: float64(s.Count)})
	}
	for _, h := range r.harvests {
		all = append(all, change{at: h.OccurredAt, fish: -float64(h.Count)})
	}
	for _, d := range r.deaths {
		all = append(all, change{d.OccurredAt, -float64(d.Count), true})
	}
	slices.SortStableFunc(all, func(a, b change) int { return cmp.Or(a.at.Compare(b.at), cmp.Compare(b.fish, a.fish)) })
	k, alive, last := &fishRow{}, 0.0, from
	for _, e := range append(all, change{at: to}) {
		if e.at.After(last) {
			k.years += alive * e.at.Sub(last).Hours() / 24 / 365.25
			last = e.at
		}
		if inside := !e.at.Before(from); inside && e.fish > 0 {
			k.there += e.fish
		} else if inside && e.died {
			k.dead -= e.fish
		} else if !inside {
			k.there = math.Max(0, alive+e.fish)
		}
		alive = math.Max(0, alive+e.fish)
	}
	return k
}

// keptAsLong tells survival as if all had kept their fish as long as the group
// on average, losing them at the pace at which each did (deaths a fish and year;
// their error as if deaths came singly).
func keptAsLong(c *comparison) error {
	years, there := 0.0, 0.0
	for _, r := range c.rows {
		years, there = years+r.fish.years, there+r.fish.there
	}
	each := years / there
	for _, r := range c.rows {
		left := 100 * math.Exp(-each*r.fish.dead/r.fish.years)
		r.figure = measured{left, left * each * math.Sqrt(r.fish.dead+1) / r.fish.years}
	}
	return nil
}

// eachFish runs one site after the other; a site that gives no value is left out.
func (c *comparison) eachFish(ctx context.Context, reason string, work func(*site, *row) error) error {
	for id, r := range c.rows {
		place, err := c.site(ctx, id)
		if err != nil {
			return err
		}
		if err := work(place, r); err != nil {
			return err
		}
		if r.plain.se == 0 {
			c.leave(id, reason)
		}
	}
	return nil
}

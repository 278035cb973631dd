package analysis

import (
	"context"
	"math"
	"time"

	"github.com/google/uuid"

	"freshet.example/husbandry/fish"
)

// conversion is feed over live weight gained; its error comes from the weighings.
func conversion(ctx context.Context, c *comparison) error {
	return c.eachFish(ctx, "fish were not weighed often enough", func(l *loop, r *row) error {
		from, to := l.span(c, r)
		fed, err := l.fed(ctx, from, to)
		if err != nil {
			return err
		}
		a := &accounts{loop: l, from: from, to: to, fed: fed}
		if err := a.fish(ctx); err != nil {
			return err
		}
		gain := float64(a.FishGain.Value) / float64(fish.WholeFishN) / 1000
		if gain <= 0 {
			return nil
		}
		r.value = fed.grams / 1000 / gain
		r.se = r.value * math.Max(0.05, float64(a.FishGain.Error)/float64(a.FishGain.Value))
		return nil
	})
}

// survival is fish alive or used over fish stocked, as independent fish: what
// fish of one tank share makes the true error larger, and is said.
func survival(ctx context.Context, c *comparison) error {
	return c.eachFish(ctx, "no fish were stocked", func(l *loop, r *row) error {
		herds, err := l.herds(ctx, c.to.AddDate(0, 0, 1))
		if err != nil {
			return err
		}
		stocked, dead := 0.0, 0.0
		records, err := l.fishRecords(ctx, c.to.AddDate(0, 0, 1))
		if err != nil {
			return err
		}
		for _, h := range herds {
			for _, g := range h.gone {
				stocked += math.Max(0, float64(g.count))
			}
		}
		for _, d := range records.deaths {
			dead += float64(d.Count)
		}
		if stocked == 0 {
			return nil
		}
		p := (stocked - dead + 1) / (stocked + 2)
		r.value, r.se = 100*(stocked-dead)/stocked, 100*math.Sqrt(p*(1-p)/stocked)
		return nil
	})
}

// eachFish runs one site after the other; a site that gives no value is left out.
func (c *comparison) eachFish(ctx context.Context, reason string, work func(*loop, *row) error) error {
	for id, r := range c.rows {
		place, err := c.site(ctx, id)
		if err != nil {
			return err
		}
		for _, system := range place.Systems {
			if err := work(&loop{place, system}, r); err != nil {
				return err
			}
		}
		if r.se == 0 {
			c.leave(id, reason)
		}
	}
	return nil
}

func (c *comparison) leave(id uuid.UUID, reason string) {
	delete(c.rows, id)
	c.left[reason]++
}

// span is the site's own part of the time.
func (l *loop) span(c *comparison, r *row) (from, to time.Time) {
	from = midnight(r.FirstDay.Add(12*time.Hour), l.zone)
	return from, midnight(c.to.Add(12*time.Hour), l.zone).AddDate(0, 0, 1)
}

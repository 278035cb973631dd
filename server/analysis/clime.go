package analysis

import (
	"context"
	"time"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/plan"
	"freshet.example/husbandry/quantity"
	"freshet.example/store"
)

// climes finds the usual air of each week of the year, from the readings of a
// year: those read at a covered bed for beds under cover, all others for the open.
// Without any of its own what stands under cover has the open's, and the other way.
func (g *growing) climes(ctx context.Context) error {
	sums, err := g.store.DaySums(ctx, g.Site.ID, "readings", int16(freshetv1.Quantity_QUANTITY_AIR_TEMPERATURE), dayTime(g.today-365), dayTime(g.today))
	if err != nil {
		return err
	}
	var out, in yearOf
	for _, d := range sums {
		into := &out
		if g.bed(d.SubjectID).Covered {
			into = &in
		}
		into.add(crop.Day(d.Day.Unix()/86400).YearDay(), d.Sum, d.N)
	}
	g.open.Air, g.covered.Air = out.weeks(), in.weeks()
	if g.covered.Air == nil {
		g.covered.Air = g.open.Air
	}
	if g.open.Air == nil {
		g.open.Air = g.covered.Air
	}
	if g.Site.Latitude != nil {
		g.open.Latitude, g.covered.Latitude = crop.Degrees(*g.Site.Latitude), crop.Degrees(*g.Site.Latitude)
	}
	return nil
}

func dayTime(d crop.Day) time.Time { return time.Unix(int64(d)*86400, 0).UTC() }

// clime is where a bed's plants stand.
func (g *growing) clime(b store.Bed) crop.Clime {
	if b.Covered {
		return g.covered
	}
	return g.open
}

// weekly are a clime's weeks as a season meets them; nil where they are not known.
func weekly(c crop.Clime, s plan.Season) []quantity.Celsius {
	if c.Air == nil {
		return nil
	}
	list := make([]quantity.Celsius, s.Weeks)
	for i := range list {
		list[i] = c.Air[((s.Start+crop.Day(7*i)).YearDay()-1)/7]
	}
	return list
}

// yearOf holds sums of air temperature by week of the year, 0 to 52.
type yearOf struct {
	sum [53]float64
	n   [53]int64
}

func (y *yearOf) add(yearDay int, sum float64, n int64) {
	week := (yearDay - 1) / 7
	y.sum[week] += sum
	y.n[week] += n
}

// weeks are the means of the year's weeks, those without a reading as the nearest
// week with one; nil where fewer than half of them were read.
func (y *yearOf) weeks() []quantity.Celsius {
	read := 0
	for _, n := range y.n {
		if n > 0 {
			read++
		}
	}
	if read < len(y.n)/2 {
		return nil
	}
	list := make([]quantity.Celsius, len(y.n))
	for week := range list {
		list[week] = y.near(week)
	}
	return list
}

// near is the mean of a week, or of the nearest one that was read.
func (y *yearOf) near(week int) quantity.Celsius {
	for away := range len(y.n) {
		for _, at := range []int{week - away, week + away} {
			if at = (at + len(y.n)) % len(y.n); y.n[at] > 0 {
				return quantity.Celsius(y.sum[at] / float64(y.n[at]))
			}
		}
	}
	return 0
}

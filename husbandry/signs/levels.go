package signs

import (
	"math"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/watch"
)

// falling are the figures whose slow fall matters, with the fall in four weeks
// from which on it does: so much, and such a share. Common practice, no source.
var falling = []struct {
	quantity    quantity.Quantity
	much, share float64
}{
	{quantity.Acidity, 0.4, 0},
	{quantity.Alkalinity, 15, 0.35},
}

// slides finds figures that stand lower in the last quarter of four weeks than
// ever in the first, where the order of all of them is unlikely by chance (Mann 1945).
func slides(r *Record) (list []Sign) {
	const (
		span  = 28 * Day
		least = 4    // readings
		rare  = 0.05 // that chance puts them in such order: weekly tests have few orders
	)
	for _, f := range falling {
		hours, values := r.daysRead(f.quantity, len(r.Hours)-span)
		n := len(values)
		if n < least || hours[n-1]-hours[0] < span/2 {
			continue
		}
		order, err := watch.MannKendall(values)
		if err != nil || order.P > rare {
			continue
		}
		quarter := max(1, n/4)
		first, last := middleOf(values[:quarter]), middleOf(values[n-quarter:])
		if fall := first - last; fall < f.much || fall < f.share*first || quantileOf(values[n-quarter:], 1) >= quantileOf(values[:quarter], 0) {
			continue
		}
		list = append(list, Sign{Kind: Sliding, Quantity: f.quantity, Hand: len(r.Probe[f.quantity]) == 0, Since: int(hours[0]), Until: int(hours[n-1]), Is: last, Was: first, Count: n})
	}
	return list
}

// daysRead are a figure's day means by a probe, or its tests where no probe
// reads it, since an hour.
func (r *Record) daysRead(q quantity.Quantity, from int) (hours, values []float64) {
	series := r.Probe[q]
	for at := from; at+Day <= len(series); at += Day {
		if mean := daily(series, at, 1); len(mean) > 0 {
			hours, values = append(hours, float64(max(0, at)+Day/2)), append(values, mean[0])
		}
	}
	if len(values) > 0 {
		return hours, values
	}
	for _, t := range r.Tests[q] {
		if t.Hour >= from && !t.Below && (len(hours) == 0 || float64(t.Hour) > hours[len(hours)-1]) {
			hours, values = append(hours, float64(t.Hour)), append(values, t.Value)
		}
	}
	return hours, values
}

// level are the figures of probes whose change of level is asked about, with how
// much matters. Common practice, no source.
var level = []struct {
	quantity    quantity.Quantity
	much, share float64
}{
	{quantity.Acidity, 0.35, 0},
	{quantity.Conductivity, 50, 0.15},
}

// shifts finds figures that stand at another level since one day: two levels
// leave far less than one does (watch.OneBreak), and the step between the two
// days makes up most of it.
func shifts(r *Record) (list []Sign) {
	const (
		days     = 21
		shortest = 3    // days on each side
		sharp    = 0.6  // of the change, within two days; common practice, no source
		supF     = 40.0 // days follow one another closely: far above the 9 of independent ones; common practice, no source
	)
	for _, l := range level {
		hours, values := r.daysRead(l.quantity, len(r.Hours)-days*Day)
		n := len(values)
		if len(r.Probe[l.quantity]) == 0 || n < days-shortest {
			continue
		}
		b, err := watch.OneBreak(values, shortest)
		if err != nil {
			continue
		}
		change := b.After - b.Before
		if math.Abs(change) < math.Max(l.much, l.share*math.Abs(b.Before)) || b.SupF < supF {
			continue
		}
		if step := values[b.Last+1] - values[b.Last-1]; step/change < sharp {
			continue
		}
		list = append(list, Sign{Kind: Shifted, Quantity: l.quantity, Since: int(hours[b.Last]) - Day/2, Until: int(hours[n-1]), Is: b.After, Was: b.Before, Count: n - b.Last})
	}
	return list
}

package signs

import (
	"math"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/watch"
)

// testable are the figures that both probes and hands read, with how far apart
// the two may lie by a test's own error, and from where on it matters. Common
// practice, no source.
var testable = []struct {
	quantity     quantity.Quantity
	error, worth float64
}{
	{quantity.WaterTemperature, 0.3, 0.8},
	{quantity.Acidity, 0.1, 0.2},
	{quantity.DissolvedOxygen, 0.3, 0.6},
	{quantity.Conductivity, 20, 60},
}

// adrift finds probes that move away from what is tested by hand: sums of how far
// they differ beyond half a spread pass four spreads (Page 1954), and the last
// three tests lie as far off as matters. What was read before the last
// calibration does not count.
func adrift(r *Record) (list []Sign) {
	const slack, decision, last = 0.5, 4, 3
	for _, one := range testable {
		hours, off := r.beside(one.quantity)
		n := len(off)
		if n < 2*last || r.now()-hours[n-1] > 14*Day {
			continue
		}
		first := n / 2
		centre, spread := middleOf(off[:first]), math.Max(one.error, spreadOf(off[:first]))
		now := middleOf(off[n-last:])
		if math.Abs(now-centre) < one.worth {
			continue
		}
		away := make([]float64, 0, n-first)
		for _, v := range off[first:] {
			away = append(away, (v-centre)/spread*math.Copysign(1, now-centre))
		}
		if sums := watch.RunningSums(away, slack); sums[len(sums)-1] > decision {
			list = append(list, Sign{Kind: Adrift, Quantity: one.quantity, Since: hours[first+lastNone(sums)], Until: hours[n-1], Is: now, Was: centre, Count: n})
		}
	}
	return list
}

// lastNone is the place after the last sum of 0.
func lastNone(sums []float64) int {
	for i := len(sums) - 1; i >= 0; i-- {
		if sums[i] == 0 {
			return min(i+1, len(sums)-1)
		}
	}
	return 0
}

// beside sets each test since the last calibration beside what the probe said
// within an hour of it: the hours, and probe less test.
func (r *Record) beside(q quantity.Quantity) (hours []int, off []float64) {
	from := 0
	for i, h := range r.Hours {
		if h.Calibrated {
			from = i
		}
	}
	series := r.Probe[q]
	for _, t := range r.Tests[q] {
		if t.Hour < from || t.Below {
			continue
		}
		if said := said(series, t.Hour-1, t.Hour+2); len(said) > 0 {
			hours, off = append(hours, t.Hour), append(off, middleOf(said)-t.Value)
		}
	}
	return hours, off
}

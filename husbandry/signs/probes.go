package signs

import (
	"math"

	"freshet.example/husbandry/quantity"
)

const month = 30 * Day

// stuck finds probes that say the same for longer than chance would let them:
// where neighbours are equal with a chance p, a run of so many comes in a month
// of hours about month (1-p) p^(run-1) times (Feller 1968). A probe that said
// one thing through a whole week or more of readings is stuck too.
func stuck(r *Record) (list []Sign) {
	const (
		rare  = 0.005 // runs a month that chance may make; common practice, no source
		least = 10    // readings; common practice, no source
		week  = 7 * Day
	)
	for _, q := range r.probed() {
		series := r.Probe[q]
		hours := spoken(series, 0, len(r.Hours))
		n := len(hours)
		if n < least {
			continue
		}
		last := hours[n-1]
		if r.now()-last > lately {
			continue
		}
		run, equal := 1, 0
		for run < n && series[hours[n-1-run]] == series[last] {
			run++
		}
		for i := 1; i < n-run; i++ {
			if series[hours[i]] == series[hours[i-1]] {
				equal++
			}
		}
		p := float64(equal+1) / float64(n-run+1)
		chance := month * (1 - p) * math.Pow(p, float64(run-1))
		if run >= week || run >= least && n-run >= 2*Day && chance < rare {
			list = append(list, Sign{Kind: Stuck, Quantity: q, Since: hours[n-run], Until: last, Is: series[last], Was: series[last], Count: run})
		}
	}
	return list
}

// lately is within how many hours a probe must have spoken to be taken for speaking.
const lately = 3

// silent finds what was read regularly and is not any more.
func silent(r *Record) (list []Sign) {
	const (
		regular = 2 * Day // readings of a probe in the record
		quiet   = 6       // hours, for a probe that speaks each hour; common practice, no source
	)
	for _, q := range r.probed() {
		hours := spoken(r.Probe[q], 0, len(r.Hours))
		if n := len(hours); n >= regular && r.now()-hours[n-1] > quiet*usualGap(hours) {
			list = append(list, Sign{Kind: Silent, Quantity: q, Since: hours[n-1], Until: hours[n-1], Is: float64(r.now() - hours[n-1]), Was: float64(usualGap(hours)), Count: n})
		}
	}
	return append(list, untested(r)...)
}

// untested finds what was tested regularly by hand and is not any more: the first
// in the order of what harms, since one round of tests takes them all.
func untested(r *Record) []Sign {
	const (
		often   = 4       // tests
		gaps    = 3.0     // usual gaps between tests; common practice, no source
		atLeast = 5 * Day // without a test; common practice, no source
	)
	for _, q := range []quantity.Quantity{quantity.TotalAmmonia, quantity.Nitrite, quantity.Nitrate, quantity.Acidity, quantity.Alkalinity} {
		var hours []int
		for _, t := range r.Tests[q] {
			if len(hours) == 0 || t.Hour > hours[len(hours)-1] {
				hours = append(hours, t.Hour)
			}
		}
		n := len(hours)
		if n < often {
			continue
		}
		since, usual := r.now()-hours[n-1], usualGap(hours)
		if since > atLeast && float64(since) > gaps*float64(usual) {
			return []Sign{{Kind: Silent, Quantity: q, Hand: true, Since: hours[n-1], Until: hours[n-1], Is: float64(since), Was: float64(usual), Count: n}}
		}
	}
	return nil
}

// usualGap is the median distance of hours, which rise.
func usualGap(hours []int) int {
	gaps := make([]float64, 0, len(hours))
	for i := 1; i < len(hours); i++ {
		gaps = append(gaps, float64(hours[i]-hours[i-1]))
	}
	return int(math.Ceil(middleOf(gaps)))
}

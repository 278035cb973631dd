package signs

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// cooling finds water that falls below what a heater kept it at: for half of the
// last two weeks it stood within a little of its lowest, and now it is below.
func cooling(r *Record) []Sign {
	const (
		learnt = 14 * Day
		apart  = 12   // hours between what is learnt from and now
		lowest = 0.25 // of the hours: where the middle of the colder half lies
		flat   = 0.3  // K within which the colder half of the hours lies; common practice, no source
		least  = 0.2  // K below; common practice, no source
		sure   = 2    // hours
	)
	now, series := r.now(), r.Probe[quantity.WaterTemperature]
	if len(series) == 0 || math.IsNaN(series[now]) {
		return nil
	}
	usual := said(series, now-apart-learnt, now-apart)
	recent := said(series, now-sure+1, len(series))
	if len(usual) < learnt/2 || len(recent) < sure {
		return nil
	}
	kept := quantileOf(usual, lowest)
	if middleOf(usual)-kept > flat || quantileOf(recent, 1) > kept-least || series[now] > recent[0] {
		return nil
	}
	if air := said(r.Probe[quantity.AirTemperature], now-sure, len(series)); len(air) > 0 && middleOf(air) >= series[now] {
		return nil
	}
	since := now
	for series[since-1] < kept-flat/2 {
		since--
	}
	return []Sign{{Kind: Cooling, Quantity: quantity.WaterTemperature, Since: since, Until: now, Is: series[now], Was: kept, Count: now - since + 1}}
}

package signs

import (
	"math"

	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/watch"
	"freshet.example/husbandry/water"
)

// A breath is how a loop's oxygen stands against its own balance: what the water
// can hold, less what fish breathe, which rises twofold in ten degrees (Boyd),
// plus what light adds, each as far as the loop's own past says.
type breath struct {
	oxygen, off []float64 // mg/L, hour by hour, NaN where something was not read; off is read less balance
}

const (
	warmReference = 25.0
	tenDegrees    = 10.0
)

// balance learns a loop's balance of oxygen from the hours of a span and holds
// all hours against it; nil where there is too little.
func (r *Record) balance(from, to int) *breath {
	const least = 7 * Day // hours learnt from
	oxygen, warmth := r.Probe[quantity.DissolvedOxygen], r.Probe[quantity.WaterTemperature]
	if len(oxygen) == 0 || len(warmth) == 0 {
		return nil
	}
	terms := make([][]float64, len(r.Hours))
	columns, read := make([][]float64, 4), []float64{}
	for i := range r.Hours {
		terms[i] = r.breathes(i, warmth[i])
		if i < from || i >= to || terms[i] == nil || math.IsNaN(oxygen[i]) {
			continue
		}
		for c, v := range terms[i] {
			columns[c] = append(columns[c], v)
		}
		read = append(read, oxygen[i])
	}
	if len(read) < least {
		return nil
	}
	learnt, err := fit.LeastSquares(columns, read)
	if err != nil {
		return nil
	}
	b := &breath{oxygen: oxygen, off: make([]float64, len(r.Hours))}
	for i, t := range terms {
		b.off[i] = math.NaN()
		if t != nil {
			should, _ := learnt.Combine(t)
			b.off[i] = oxygen[i] - should
		}
	}
	return b
}

// breathes are the terms of the balance in an hour; nil where its warmth was not read.
func (r *Record) breathes(hour int, celsius float64) []float64 {
	full, err := water.OxygenSaturation(quantity.Celsius(math.Max(0, math.Min(celsius, 40))), 0, r.Pressure)
	if err != nil {
		return nil
	}
	h := r.Hours[hour]
	breathing := h.Fish * math.Exp2((celsius-warmReference)/tenDegrees)
	return []float64{1, float64(full), breathing, h.Sun}
}

// stillPump finds oxygen that fell within an hour or two as it does where pump
// and air stand: far below the loop's own balance, and falling.
func stillPump(r *Record) []Sign {
	const (
		learnt  = 21 * Day
		apart   = 12  // hours between what is learnt from and now
		near    = 5   // hours that now is held against
		spreads = 5.0 // common practice, no source
		least   = 0.3 // mg/L; common practice, no source
	)
	now := r.now()
	b := r.balance(now-apart-learnt, now-apart)
	if b == nil || math.IsNaN(b.off[now]) {
		return nil
	}
	before := said(b.off, now-near, now)
	if len(before) == 0 {
		return nil
	}
	fall := middleOf(before) - b.off[now]
	if fall < math.Max(least, spreads*restless(b.off, now-apart-learnt, now-apart)) || !falls(b.oxygen, now) {
		return nil
	}
	since := now
	for since > now-near && !(b.off[since-1] > middleOf(before)-fall/2) {
		since--
	}
	return []Sign{{Kind: StillPump, Quantity: quantity.DissolvedOxygen, Since: since, Until: now, Is: b.oxygen[now], Was: b.oxygen[now] - b.off[now] + middleOf(before), Count: now - since + 1}}
}

// restless is how far an hour lies from the hour before it, as a spread of one.
func restless(series []float64, from, to int) float64 {
	hours := spoken(series, from, to)
	steps := make([]float64, 0, len(hours))
	for i := 1; i < len(hours); i++ {
		steps = append(steps, (series[hours[i]]-series[hours[i-1]])/math.Sqrt2)
	}
	return spreadOf(steps)
}

// falls tells whether a series is lower than it was in its last hour that spoke.
func falls(series []float64, now int) bool {
	before := said(series, now-lately, now)
	return len(before) > 0 && series[now] < before[len(before)-1]
}

// foul finds oxygen that stays more and more below the loop's balance, or above
// it: the probe drifts, or the water is stirred less. Sums of what days lack
// beyond half a spread pass their bound (Page 1954).
func foul(r *Record) []Sign {
	const (
		watched  = 14   // days
		learnt   = 28   // days before them
		least    = 0.2  // mg/L; common practice, no source
		above    = 2    // times as much where oxygen reads more: fish that fast breathe less; common practice, no source
		error    = 0.06 // mg/L, spread of a day's mean that a balance leaves open; common practice, no source
		slack    = 0.5
		decision = 6.0 // spreads: days follow one another closely; common practice, no source
		last     = 3   // days
	)
	now := len(r.Hours)
	b := r.balance(now-(watched+learnt)*Day, now-watched*Day)
	if b == nil {
		return nil
	}
	usual := daily(b.off, now-(watched+learnt)*Day, learnt)
	days := daily(b.off, now-watched*Day, watched)
	if len(usual) < last || len(days) < watched-last {
		return nil
	}
	spread := math.Max(error, spreadOf(usual))
	off := middleOf(days[len(days)-last:])
	if off > -least && off < above*least {
		return nil
	}
	away := make([]float64, len(days))
	for i, d := range days {
		away[i] = d / spread * math.Copysign(1, off)
	}
	sums := watch.RunningSums(away, slack)
	if sums[len(sums)-1] < decision {
		return nil
	}
	is := middleOf(said(b.oxygen, now-last*Day, now))
	return []Sign{{Kind: Foul, Quantity: quantity.DissolvedOxygen, Since: now - (len(days)-lastNone(sums))*Day, Until: now - 1, Is: is, Was: is - off, Count: len(days)}}
}

// daily are the means of days that spoke for half their hours at least, in order.
func daily(series []float64, from, days int) (means []float64) {
	for d := range days {
		if values := said(series, from+d*Day, from+(d+1)*Day); len(values) >= Day/2 {
			mean, _ := watch.Mean(values)
			means = append(means, mean)
		}
	}
	return means
}

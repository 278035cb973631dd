package signs

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// weakFilter finds a last test of ammonia or nitrite far above those of the
// weeks before.
func weakFilter(r *Record) (list []Sign) {
	const (
		learnt  = 28 * Day
		fresh   = 3 * Day
		least   = 4    // tests before it
		times   = 2.2  // common practice, no source
		more    = 0.2  // mg/L as N; common practice, no source
		floor   = 0.05 // mg/L as N, what drops tell from nothing; common practice, no source
		spreads = 3.0  // of the logarithms; common practice, no source
		error   = 0.15 // of the logarithm, a test's own; common practice, no source
	)
	for _, q := range []quantity.Quantity{quantity.TotalAmmonia, quantity.Nitrite} {
		tests := r.Tests[q]
		n := len(tests)
		if n == 0 || tests[n-1].Below || r.now()-tests[n-1].Hour > fresh {
			continue
		}
		var before []float64
		for _, t := range tests[:n-1] {
			if age := tests[n-1].Hour - t.Hour; age >= Day/2 && age <= learnt {
				before = append(before, math.Log(math.Max(t.told(), floor)))
			}
		}
		if len(before) < least {
			continue
		}
		last, usual := tests[n-1].Value, math.Exp(middleOf(before))
		if last-usual > more && last > times*usual && math.Log(last/usual) > spreads*math.Max(error, spreadOf(before)) {
			list = append(list, Sign{Kind: WeakFilter, Quantity: q, Hand: true, Since: tests[n-1].Hour, Until: tests[n-1].Hour, Is: last, Was: usual, Count: len(before)})
		}
	}
	return list
}

// told is a test's value, or half of what it lies below.
func (t Test) told() float64 {
	if t.Below {
		return t.Value / 2
	}
	return t.Value
}

// hungerless finds an appetite, in its ordered words, at least one word below
// what it usually was and no longer usual.
func hungerless(r *Record) []Sign {
	const (
		least = 3       // notes before it
		fresh = 4 * Day // of the last one
		usual = 2.0     // the word "usual"
		slow  = 1.0     // the word "slow"
	)
	notes := r.Tests[quantity.Appetite]
	n := len(notes)
	if n <= least || r.now()-notes[n-1].Hour > fresh {
		return nil
	}
	var before []float64
	for _, t := range notes[:n-1] {
		before = append(before, t.Value)
	}
	if is, was := notes[n-1].Value, middleOf(before); is <= slow && was >= usual && !r.cooled(notes[0].Hour) {
		return []Sign{{Kind: Hungerless, Quantity: quantity.Appetite, Hand: true, Since: notes[n-1].Hour, Until: notes[n-1].Hour, Is: is, Was: was, Count: 1}}
	}
	return nil
}

// cooled tells whether the water is colder than it was since an hour: then fish
// eat less and nothing is wrong.
func (r *Record) cooled(since int) bool {
	const colder, lately = 1.5, 2 * Day // K; common practice, no source
	_, before := r.daysRead(quantity.WaterTemperature, since)
	_, now := r.daysRead(quantity.WaterTemperature, len(r.Hours)-lately)
	return len(before) > 0 && len(now) > 0 && middleOf(now) < middleOf(before)-colder
}

//go:build wasip1

package main

import (
	"errors"

	"freshet.example/clients/web/wasm/passage"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/quantity"
)

const (
	level = 0.8
	seed  = 1
)

// learnt is the loop that was asked about last.
var learnt struct {
	outlook *outlook.Outlook
	loop    outlook.Loop
}

// learn goes through a loop's past: litres, media, planted area, pressure, the
// source's alkalinity and nitrate, hours and readings. It answers how past
// forecasts of each figure did: held and asked.
//
//go:wasmexport learn
func learn(n int32) int32 {
	in := passage.NumbersOf(passage.Question(n))
	l := loop(in)
	o, err := outlook.Learn(l, hours(in), readings(in), seed)
	if err != nil {
		return refuse(err)
	}
	learnt.outlook, learnt.loop = o, l
	w := passage.Writer{'a'}
	for f := range outlook.Unionized {
		held, asked := o.Held(f)
		w.Number(float64(held))
		w.Number(float64(asked))
	}
	return passage.Answer(w)
}

// ahead forecasts the loop that was learnt: the hours left of today, days, what is
// done otherwise, and figures. For each figure it answers which reading would
// narrow it, to what share, and for each day low, middle, high and the chance to
// pass the limit.
//
//go:wasmexport ahead
func ahead(n int32) int32 {
	if learnt.outlook == nil {
		return refuse(errors.New("nothing was learnt"))
	}
	in := passage.NumbersOf(passage.Question(n))
	rest, days := in.Whole(), in.Whole()
	err := errors.Join(quantity.Within("rest of the day", float64(rest), 0, 23, "h", ""), quantity.Within("days ahead", float64(days), 1, 60, "d", ""))
	if err != nil {
		return refuse(err)
	}
	plan, err := otherwise(in).Plan(learnt.outlook.Usual(rest+24*days), rest, learnt.loop.Litres)
	if err != nil {
		return refuse(err)
	}
	a, err := learnt.outlook.Ahead(plan, rest)
	if err != nil {
		return refuse(err)
	}
	w := passage.Writer{'a'}
	for _, f := range figures(in) {
		if err := f.tell(&w, a); err != nil {
			return refuse(err)
		}
	}
	return passage.Answer(w)
}

// refuse writes the letter r, what is out of range where something is, and why.
func refuse(err error) int32 {
	w, name := passage.Writer{'r'}, ""
	if outside, ok := errors.AsType[*quantity.RangeError](err); ok {
		name = outside.Name
	}
	w.Text(name)
	w.Text(err.Error())
	return passage.Answer(w)
}

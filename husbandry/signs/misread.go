package signs

import (
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// slow are the figures that cannot leap within days: one that does was most
// likely typed in another unit or basis. Alkalinity can fall that fast where base
// is forgotten, and then it matters: only leaps upwards are asked about.
var slow = []quantity.Quantity{quantity.Nitrate, quantity.Alkalinity, quantity.Hardness, quantity.Conductivity, quantity.Phosphate, quantity.Potassium, quantity.Calcium, quantity.WaterTemperature}

// quick may leap: only a slip between two tests that agree is asked about, and
// never the last test, which may be the truth.
var quick = []quantity.Quantity{quantity.TotalAmmonia, quantity.Nitrite, quantity.Acidity, quantity.DissolvedOxygen}

// misread finds stretches of tests that leap from what was read before and would
// fit it in another unit or basis, or with the point moved; and single ones that
// fit nothing between two that agree.
func misread(r *Record) (list []Sign) {
	for _, q := range slow {
		list = append(list, stretches(q, r.Tests[q], true)...)
	}
	for _, q := range quick {
		list = append(list, stretches(q, r.Tests[q], false)...)
	}
	return list
}

// coarse is what tests with drops tell from nothing, a few times over: below it
// two tests may differ by a leap. Common practice, no source.
var coarse = map[quantity.Quantity]float64{quantity.TotalAmmonia: 0.4, quantity.Nitrite: 0.3, quantity.Nitrate: 5, quantity.Phosphate: 0.5}

// heldBefore is how many readings that fit are looked back on, and lastOf how many
// of them tell where a figure stands: slow ones move too.
const (
	heldBefore = 8
	lastOf     = 3
)

// stands is the logarithm at which a figure stands.
func stands(fits []float64) float64 { return middleOf(fits[len(fits)-lastOf:]) }

// moves is the spread of the steps from one reading to the next.
func moves(fits []float64) float64 {
	steps := make([]float64, len(fits)-1)
	for i := range steps {
		steps[i] = math.Abs(fits[i+1] - fits[i])
	}
	return middleOf(steps)
}

// agree tells whether the last reading that fitted and the next one agree with
// where a figure stands: then what leapt between them was no rise.
func agree(fits []float64, next float64) bool {
	const near = 0.4 // of the logarithm; common practice, no source
	at := stands(fits)
	return math.Abs(fits[len(fits)-1]-at) < near && math.Abs(math.Log(next)-at) < near
}

// stretches walks through tests. Those that leap open a stretch; the first that
// fits again closes it. What a stretch says is not learnt from.
func stretches(q quantity.Quantity, tests []Test, slowly bool) (list []Sign) {

	var fits []float64
	var open []Test
	for _, t := range tests {
		switch {
		case t.Below, !(t.Value > 0):
		case len(fits) < lastOf || !leaps(t.Value, fits):
			if len(open) > 0 && (slowly || agree(fits, t.Value)) {
				list = append(list, told(q, open, fits, slowly, true)...)
			}
			open, fits = nil, held(fits, t.Value)
		case settled(q, append(slices.Clone(open), t), fits):
			// A level that no other unit explains is a new level, not a slip.
			open, fits = nil, []float64{t.Value}
		default:
			open = append(open, t)
		}
	}
	return append(list, told(q, open, fits, slowly, false)...)
}

func held(fits []float64, v float64) []float64 {
	fits = append(fits, math.Log(v))
	return fits[max(0, len(fits)-heldBefore):]
}

// leaps tells whether a value lies farther from those before than they spread and
// than a slow figure moves. Fits are logarithms.
func leaps(v float64, fits []float64) bool {
	const (
		least   = 0.5  // of the logarithm: 1.6 times; common practice, no source
		error   = 0.12 // of the logarithm, a test's own; common practice, no source
		spreads = 4.0
	)
	return math.Abs(math.Log(v)-stands(fits)) > math.Max(least, spreads*math.Max(error, moves(fits)))
}

// settled tells whether a stretch has gone on without an explanation.
func settled(q quantity.Quantity, open []Test, fits []float64) bool {
	const long = 3
	if len(open) < long {
		return false
	}
	_, _, ok := explained(q, open, fits)
	return !ok
}

// told makes the sign of a stretch. Of quick figures only a closed single one is told.
func told(q quantity.Quantity, open []Test, fits []float64, slowly, closed bool) []Sign {
	collapse := q == quantity.Alkalinity && len(open) > 0 && math.Log(open[0].Value) < stands(fits)
	if len(open) == 0 || (!slowly || collapse) && (!closed || len(open) > 1) {
		return nil
	}
	is := make([]float64, len(open))
	for i, t := range open {
		is[i] = t.Value
	}
	const gross = 1.0 // of the logarithm, for what no slip explains; common practice, no source
	s := Sign{Kind: Outlier, Quantity: q, Hand: true, Since: open[0].Hour, Until: open[len(open)-1].Hour, Is: middleOf(is), Was: math.Exp(stands(fits)), Count: len(open)}
	as, times, ok := explained(q, open, fits)
	switch {
	case ok:
		s.Kind, s.As, s.Times = Misread, as, times
	case !closed || len(open) > 1 || math.Abs(math.Log(s.Is/s.Was)) < gross || math.Abs(s.Is-s.Was) < coarse[q]:
		return nil
	}
	return []Sign{s}
}

// explained finds in what unit and basis, or with the point moved by how much,
// a stretch would fit what was read before.
func explained(q quantity.Quantity, open []Test, fits []float64) (as quantity.Measure, times float64, ok bool) {
	const (
		near = 0.3  // of the logarithm; common practice, no source
		same = 1e-6 // two ways that differ by less are one
	)
	best := near
	for _, way := range ways(q, open[0].Typed) {
		off := make([]float64, 0, len(open))
		for _, t := range open {
			if v := way.value(q, t); v > 0 {
				off = append(off, math.Abs(math.Log(v)-stands(fits)))
			}
		}
		if len(off) == len(open) && slices.Max(off) < 2*near && middleOf(off) < best-same {
			best, as, times, ok = middleOf(off), way.as, way.times, true
		}
	}
	return as, times, ok
}

// A way is another way of reading what was typed.
type way struct {
	as    quantity.Measure // unit and basis
	times float64          // or the point moved
}

// ways lists them, the point moved before units whose factor is the same.
func ways(q quantity.Quantity, typed quantity.Measure) []way {
	list := []way{{times: 0.1}, {times: 10}}
	for _, u := range q.Units() {
		bases := q.Bases(u)
		if len(bases) == 0 {
			bases = []quantity.Basis{quantity.NoBasis}
		}
		for _, b := range bases {
			if (u != typed.Unit || b != typed.Basis) && typed != (quantity.Measure{}) {
				list = append(list, way{as: quantity.Measure{Unit: u, Basis: b}})
			}
		}
	}
	return list
}

// value is a test as it would be; NaN where it cannot be.
func (w way) value(q quantity.Quantity, t Test) float64 {
	if w.times != 0 {
		return t.Value * w.times
	}
	v, err := quantity.Canonical(q, t.Typed.Value(), w.as.Unit, w.as.Basis)
	if err != nil {
		return math.NaN()
	}
	return v
}

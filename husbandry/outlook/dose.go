package outlook

import (
	"math"
	"slices"
)

// dose is base given by hand, and the alkalinity that it met.
type dose struct {
	hour          int
	given, before float64 // mg/L as CaCO3
}

// custom is how somebody keeps up alkalinity by hand.
type custom struct {
	keep  float64 // where it is kept, mg/L; 0 where nobody does
	mends float64 // how far a dose fills up what lacks, 0 to 1, rather than being as always
	doses []dose
}

// customOf looks at the last three weeks.
func customOf(past []Hour, readings []Reading, doses []dose) custom {
	from, _ := slices.BinarySearchFunc(doses, len(past)-dosedFor, func(d dose, hour int) int { return d.hour - hour })
	return custom{keeping(past, readings), mends(doses[from:]), doses}
}

// mends is by how much less was given for each mg/L more that there was before: 1
// where doses fill up to a level, 0 where each is as the last. It is the slope of a
// line through the doses, drawn towards a half as far as tests leave it open.
func mends(doses []dose) float64 {
	const usual, unsure = 0.5, 0.5 // common practice, no source
	given, before := meanOf(doses, func(d dose) float64 { return d.given }), meanOf(doses, func(d dose) float64 { return d.before })
	open := doubts[Alkalinity].least * doubts[Alkalinity].least / (unsure * unsure)
	across, along := open, usual*open
	for _, d := range doses {
		across += (d.before - before) * (d.before - before)
		along -= (d.before - before) * (d.given - given)
	}
	return math.Max(0, math.Min(1, along/across))
}

// on is the dose given in an hour of the past.
func (c *custom) on(hour int) (dose, bool) {
	i, found := slices.BinarySearchFunc(c.doses, hour, func(d dose, hour int) int { return d.hour - hour })
	if !found {
		return dose{}, false
	}
	return c.doses[i], true
}

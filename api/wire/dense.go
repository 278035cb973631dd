package wire

import (
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

// What is entered by hand happened at whole minutes, and a morning's values are
// entered in one moment. Dense times say so: in steps, and without repeating in
// entered_after_ms what occurred_ms says already. A day of entries by hand is a
// third shorter by it.

// longestStepMs bounds ReadingColumns.step_ms.
const longestStepMs = 86_400_000

// stepsMs are tried in turn.
var stepsMs = []int64{3_600_000, 60_000, 1000, 1}

// Dense gives columns dense times. They share all other lists with c.
func Dense(c *freshetv1.ReadingColumns) *freshetv1.ReadingColumns {
	n := int(c.GetCount())
	if !readingColumnsFit(c, n) {
		return c // what cannot be read stays as it is, to be refused
	}
	step := commonStep(c.GetOccurredMs())
	out := shared(c)
	out.StepMs = uint32(step)
	out.OccurredMs, out.EnteredMs = make([]int64, n), make([]int64, n)
	var occurred, after int64
	var entered delta
	for i := range n {
		occurred += at(c.GetOccurredMs(), i)
		after += at(c.GetEnteredAfterMs(), i)
		out.OccurredMs[i] = at(c.GetOccurredMs(), i) / step
		out.EnteredMs[i] = entered.next(occurred + after)
	}
	if foldZero(out.EnteredMs[1:]) == nil {
		out.EnteredMs = out.EnteredMs[:1]
	}
	return out
}

func commonStep(differences []int64) int64 {
	for _, step := range stepsMs {
		whole := true
		for _, d := range differences {
			whole = whole && d%step == 0
		}
		if whole {
			return step
		}
	}
	return 1
}

// shared is c without its times.
func shared(c *freshetv1.ReadingColumns) *freshetv1.ReadingColumns {
	return &freshetv1.ReadingColumns{
		FirstNumber: c.GetFirstNumber(), Count: c.GetCount(), Ids: c.GetIds(), Sites: c.GetSites(), Places: c.GetPlaces(), Equipment: c.GetEquipment(),
		Quantities: c.GetQuantities(), Digits: c.GetDigits(), Decimals: c.GetDecimals(), Units: c.GetUnits(), Bases: c.GetBases(),
		Methods: c.GetMethods(), Censorings: c.GetCensorings(), Noted: proto.CloneOf(c.GetNoted()),
	}
}

// Plain turns dense times back into those that every release reads.
func Plain(c *freshetv1.ReadingColumns) (*freshetv1.ReadingColumns, error) {
	n, step := int(c.GetCount()), int64(c.GetStepMs())
	if n < 1 || n > MaxRows || step < 1 || step > longestStepMs || len(c.GetOccurredMs()) != n ||
		!fits(c.GetEnteredMs(), n) || len(c.GetEnteredMs()) == 0 || len(c.GetEnteredAfterMs()) > 0 {
		return nil, ErrColumns
	}
	out := shared(c)
	out.OccurredMs, out.EnteredAfterMs = make([]int64, n), make([]int64, n)
	var occurred, entered int64
	var after delta
	for i, d := range c.GetOccurredMs() {
		if i == 0 || len(c.GetEnteredMs()) > 1 {
			entered += c.GetEnteredMs()[i]
		}
		out.OccurredMs[i] = d * step
		occurred += out.OccurredMs[i]
		out.EnteredAfterMs[i] = after.next(entered - occurred)
	}
	out.OccurredMs, out.EnteredAfterMs = foldZero(out.OccurredMs), foldZero(out.EnteredAfterMs)
	return out, nil
}

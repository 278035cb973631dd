package plan

import (
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/quantity"
)

// A Climate is what the weeks of a plan are like where plants stand, by what
// was read or is usual there.
type Climate struct {
	Latitude crop.Degrees       // for the length of days
	Open     []quantity.Celsius // mean of each week in the open; nil where it is not known
	Covered  []quantity.Celsius // the same under cover
}

// paces gives a crop's pace on each day of a plan: 1 on all where the warmth is
// not known.
func (s Season) paces(c crop.Crop, covered bool) ([]float64, error) {
	warmth := s.Climate.Open
	if covered {
		warmth = s.Climate.Covered
	}
	paces := make([]float64, s.Weeks*7)
	for i := range paces {
		paces[i] = 1
		if warmth == nil {
			continue
		}
		light, err := crop.DaylightHours(s.Climate.Latitude, (s.Start + crop.Day(i)).YearDay())
		if err != nil {
			return nil, err
		}
		if paces[i], err = crop.Pace(c, warmth[i/7], light); err != nil {
			return nil, err
		}
	}
	return paces, nil
}

// reach is the day of a plan on which days of the table, begun on a day of the
// plan, are through; false where the plan ends before.
func reach(paces []float64, from int, days float64) (int, bool) {
	done := 0.0
	for i := from; i < len(paces); i++ {
		if done += paces[i]; done >= days {
			return i + 1, true
		}
	}
	return 0, false
}

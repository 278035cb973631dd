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

// Pace is how much nearer to its first harvest a crop comes in a day, in days
// of the crop table. The table's days are those of good conditions (NDSU H-912
// says so of its own), so 1 is the most, reached at the middle of the range in
// which the crop does well; below it growth falls in proportion to the warmth
// above the crop's base, as degree days count it. Where the day is shorter than
// ten hours nothing comes nearer (common practice, no source). Warmth -60 to
// 60 degC.
func Pace(c crop.Crop, warmth quantity.Celsius, daylight quantity.Hours) (float64, error) {
	if err := quantity.Within("air temperature", float64(warmth), -60, 60, "degC", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := quantity.Within("day length", float64(daylight), 0, 24, "h", quantity.OwnBounds); err != nil {
		return 0, err
	}
	const darkest = 10 // hours
	if daylight < darkest {
		return 0, nil
	}
	base, well := c.Base.Low, c.Air.Middle()
	if !c.Base.Known() || !c.Air.Known() || well <= base {
		return 1, nil
	}
	return min(1, max(0, (float64(warmth)-base)/(well-base))), nil
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
		if paces[i], err = Pace(c, warmth[i/7], light); err != nil {
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

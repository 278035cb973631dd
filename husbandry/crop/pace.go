package crop

import "freshet.example/husbandry/quantity"

// Pace is how much nearer to its first harvest a crop comes in a day, in days
// of the crop table. The table's days are those of good conditions (NDSU H-912
// says so of its own), so 1 is the most, reached at the middle of the range in
// which the crop does well; below it growth falls in proportion to the warmth
// above the crop's base, as degree days count it. Where the day is shorter than
// ten hours nothing comes nearer (common practice, no source). Warmth -60 to
// 60 degC.
func Pace(c Crop, warmth quantity.Celsius, daylight quantity.Hours) (float64, error) {
	if err := firstError(airBound.check(float64(warmth)), dayLengthBound.check(float64(daylight))); err != nil {
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

// A Clime is what warmth and light are like through the year where plants stand.
type Clime struct {
	Latitude Degrees            // for the length of days
	Air      []quantity.Celsius // usual mean of each week of the year from 1 January, 53; nil where it is not known: then all days are good ones
}

// pace is the crop's on one day.
func (w Clime) pace(c Crop, day Day) (float64, error) {
	if w.Air == nil {
		return 1, nil
	}
	if err := quantity.Within("weeks of usual air temperature", float64(len(w.Air)), weeksOfYear, weeksOfYear, "", "by definition: one for each week of the year"); err != nil {
		return 0, err
	}
	light, err := DaylightHours(w.Latitude, day.YearDay())
	if err != nil {
		return 0, err
	}
	return Pace(c, w.Air[(day.YearDay()-1)/7], light)
}

const weeksOfYear = 53

// GoodDays returns how many days of the crop table a crop goes through from one
// day to another: fewer than those between them where it is cool or dark. The
// second day lies not before the first, nor more than 1,000 days after it.
func GoodDays(crop string, from, to Day, where Clime) (float64, error) {
	c, err := Find(crop)
	if err != nil {
		return 0, err
	}
	if err := quantity.Within("days between", float64(to-from), 0, longest, "d", quantity.OwnBounds); err != nil {
		return 0, err
	}
	sum := 0.0
	for day := from; day < to; day++ {
		pace, err := where.pace(c, day)
		if err != nil {
			return 0, err
		}
		sum += pace
	}
	return sum, nil
}

const longest = 1000 // days

// through returns the day on which so many good days are through; a NeverError
// where a thousand days are too few.
func (w Clime) through(c Crop, from Day, days float64) (Day, error) {
	sum, day := 0.0, from
	for ; sum < days && day < from+longest; day++ {
		pace, err := w.pace(c, day)
		if err != nil {
			return 0, err
		}
		sum += pace
	}
	if sum < days {
		return 0, &NeverError{c.Name}
	}
	return day, nil
}

package outlook

import "math"

// A week of days is what a forecast is drawn towards: how the water was of late,
// which it keeps to more often than a balance of so many guessed traits says.
const latelyDays = 7

// history is each hour of the past as the guesses take it to have been, the hour
// since which all went on as it does now, and until which each figure was known by a
// reading.
type history struct {
	hours [][Figures]float64
	since int
	known [readable]int
}

// lately is how a figure was on the last days, on its scale: their mean, their
// spread and how much of a week they are.
type lately struct{ middle, spread, share float64 }

// sinceWhen is the hour from which nothing broke in: no filter was cleaned, no pump
// stood, and no more than a fifth of the fish came or went.
func sinceWhen(past []Hour) int {
	const alike = 0.2 // common practice, no source
	for i := len(past) - 1; i >= 0; i-- {
		h, now := &past[i], past[len(past)-1].Fish
		if h.Cleaned || h.Still || math.Abs(h.Fish-now) > alike*now {
			return i + 1
		}
	}
	return 0
}

// upTo is the history up to an hour.
func (h history) upTo(hour int, past []Hour) history {
	h.hours, h.since = h.hours[:hour], sinceWhen(past[:hour])
	return h
}

// read notes that a figure is known by a reading in an hour, and for as long after as
// the slowest tests are apart.
func (h *history) read(r Reading) {
	const apart = 14 * 24 // hours; common practice, no source
	h.known[r.Figure] = r.Hour + apart
}

// knows says whether a figure, or what it follows from, was read of late.
func (h history) knows(f Figure) bool { return len(h.hours) <= h.known[readAs(f)] }

// readAs is the figure that is read where another is told of.
func readAs(f Figure) Figure {
	if f == Unionized {
		return Ammonia
	}
	return f
}

// days is how many of the last days tell how a figure is: none where it was not read
// for long.
func (h history) days(f Figure) int {
	if !h.knows(f) {
		return 0
	}
	return min(latelyDays, (len(h.hours)-h.since)/int(noonToNoon))
}

// before are the hours of a day so many days ago, counted from 1.
func (h history) before(ago int) [][Figures]float64 {
	const day = int(noonToNoon)
	from := len(h.hours) - ago*day
	return h.hours[from : from+day]
}

// hour is how a figure was at an hour of the day, counted on from now.
func (h history) hour(f Figure, hour int) lately {
	return latelyOf(scaleOf(f), h.days(f), func(ago int) float64 { return h.before(ago)[hourOf(hour)][f] })
}

// side is how a figure's daily mean, lowest or highest was.
func (h history) side(f Figure, s Side) lately {
	return latelyOf(scaleOf(f), h.days(f), func(ago int) float64 {
		c := [...]float64{0, math.Inf(1), math.Inf(-1)}
		for _, hour := range h.before(ago) {
			c[Mean] += hour[f] / noonToNoon
			c[Lowest], c[Highest] = math.Min(c[Lowest], hour[f]), math.Max(c[Highest], hour[f])
		}
		return c[s]
	})
}

// latelyOf is nothing known from a single day.
func latelyOf(s scale, days int, value func(ago int) float64) (l lately) {
	if days < 2 {
		return l
	}
	values := make([]float64, days)
	for i := range values {
		values[i] = s.on(value(i + 1))
	}
	mean, variance := moments(values)
	n := float64(days)
	return lately{mean, math.Sqrt(variance * n / (n - 1)), n / latelyDays}
}

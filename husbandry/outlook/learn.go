package outlook

import (
	"math"
	"slices"

	"freshet.example/husbandry/quantity"
)

// How many guesses are followed: through the past, and in each forecast.
const (
	guesses  = 300
	followed = 300
	thinning = 3 // hours
)

// An Outlook is what a loop's past says of what it will do.
type Outlook struct {
	cloud    *cloud
	past     []Hour
	readings []Reading
	sky      sky
	doses    []dose
	lived    history
	word
}

// records are how forecasts did, by how far ahead they were.
type records [reaches][readable]record

// A PastError says what of the past cannot be used.
type PastError struct{ Why string }

// Error says why.
func (e *PastError) Error() string { return e.Why }

// Learn goes through a loop's past hour by hour with many guesses at what it is
// like, each from the literature's ranges, and bends them all towards what was
// read, as far as they differ in what goes with it (see heed). Particles with
// weights were tried and lost: of fourteen traits a few guesses took all weight.
// Readings must be in order of time. Without any, the forecasts are as wide as
// what is known of loops in general. The same seed gives the same answer. Then
// it forecasts from days of the past to see how such forecasts did.
func Learn(l Loop, past []Hour, readings []Reading, seed uint64) (*Outlook, error) {
	if l.Pressure == 0 {
		l.Pressure = 1
	}
	if err := firstError(l.check(), checkPast(past, readings)); err != nil {
		return nil, err
	}
	t, err := newTables(l.Pressure)
	if err != nil {
		return nil, err
	}
	known, err := knownStrays()
	if err != nil {
		return nil, err
	}
	o := &Outlook{past: past, readings: readings, sky: lookUp(past), word: word{loops: known}}
	kept := thinned(readings, thinning)
	o.cloud = gather(&simulated{l, t}, guesses, seed, kept, past)
	o.through(kept, readings)
	return o, nil
}

func checkPast(past []Hour, readings []Reading) error {
	const most = 400 * 24
	if len(past) > most {
		return &PastError{"more than 400 days of the past: give the last of them"}
	}
	for _, h := range past {
		if err := h.check(); err != nil {
			return err
		}
	}
	last := 0
	for _, r := range readings {
		switch {
		case r.Figure < 0 || r.Figure >= readable:
			return &PastError{"a reading of what is not read"}
		case r.Hour < last || r.Hour >= len(past):
			return &PastError{"readings must be in order of time and within the past"}
		}
		if err := quantity.Within("reading", r.Value, 0, highest[r.Figure], "", quantity.OwnBounds); err != nil {
			return err
		}
		last = r.Hour
	}
	return nil
}

// through lives the past. Every few days it forecasts from there.
func (o *Outlook) through(kept, all []Reading) {
	const settling, every = 10 * 24, 3 * 24 // hours
	next := 0
	for i, h := range o.past {
		if i >= settling && (len(o.past)-i)%every == 0 && next > 0 {
			o.lookBack(i, all)
		}
		if h.Base > 0 {
			o.doses = append(o.doses, dose{i, h.Base, meanOf(o.cloud.members, func(m member) float64 { return m.alkalinity })})
		}
		o.cloud.live(h)
		for ; next < len(kept) && kept[next].Hour == i; next++ {
			o.cloud.heed(kept[next])
			o.lived.read(kept[next])
		}
		o.lived.hours = append(o.lived.hours, o.cloud.now())
	}
	o.lived.since = sinceWhen(o.past)
}

// routine is the hours in which what is done every other day and each week
// comes round again.
const routine = 14 * 24

// usualPlan is that fish are fed as in the last week and at the same hours, since a
// meal spread over the day would leave tomorrow's ammonia short of what is passing
// through them, and that water and base are given on the days on which they were a
// fortnight before; from less of a past, evenly.
func usualPlan(past []Hour, hours int, by custom) []Hour {
	const week = 7 * 24
	plan := make([]Hour, hours)
	recent := past[max(0, len(past)-week):]
	meals, changed := mealsOf(recent), meanOf(recent, func(h Hour) float64 { return h.Changed })
	base := meanOf(past[max(0, len(past)-dosedFor):], func(h Hour) float64 { return h.Base })
	for i := range plan {
		h := Hour{Feed: meals[hourOf(i)], Changed: changed, Base: base, Keep: by.keep, Air: math.NaN()}
		if len(past) > 0 {
			h.Fish = past[len(past)-1].Fish
		}
		if n := len(past); n >= int(noonToNoon) {
			h.Sun = past[n-int(noonToNoon)+hourOf(i)].Sun
		}
		if n := len(past); n >= routine {
			then := past[n-routine+i%routine]
			h.Changed, h.Base = then.Changed, then.Base
			if d, given := by.on(n - routine + i%routine); given {
				h.Level, h.Mends = math.Min(d.before+d.given, alkBound.high), by.mends
			}
		}
		plan[i] = h
	}
	return plan
}

// mealsOf is what is fed in each hour of a day, counted on from the end of the past:
// the mean of that hour on its days; evenly where there is not a day of it.
func mealsOf(recent []Hour) (meals [int(noonToNoon)]float64) {
	const day = int(noonToNoon)
	for i := range meals {
		if len(recent) < day {
			meals[i] = meanFeed(recent)
			continue
		}
		days := 0.0
		for at := len(recent) - day + i; at >= 0; at -= day {
			meals[i] += recent[at].Feed
			days++
		}
		meals[i] /= days
	}
	return meals
}

// dosedFor is how far back doses are looked for, hours.
const dosedFor = 21 * 24

// keeping is the alkalinity that is kept up by hand: where base was added in the
// last three weeks, the mean of what was read in them; 0 where it was not.
func keeping(past []Hour, readings []Reading) float64 {
	from := max(0, len(past)-dosedFor)
	if !slices.ContainsFunc(past[from:], func(h Hour) bool { return h.Base > 0 }) {
		return 0
	}
	sum, n := 0.0, 0.0
	for _, r := range readings {
		if r.Figure == Alkalinity && r.Hour >= from && r.Hour < len(past) {
			sum, n = sum+r.Value, n+1
		}
	}
	return math.Min(sum/math.Max(1, n), alkBound.high) // a plan holds no more, and a slip of a hand may not stop the forecast
}

// Usual is the plan of as many hours, in which everything goes on as in the last
// week and nobody knows the air.
func (o *Outlook) Usual(hours int) []Hour {
	return usualPlan(o.past, hours, customOf(o.past, o.readings, o.doses))
}

func sorted(values []float64) []float64 {
	s := slices.Clone(values)
	slices.Sort(s)
	return s
}

package outlook

import (
	_ "embed" // the table is part of the program
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// straysCSV is written by go run ./cmd/check coverage --learn, never by hand.
//
//go:embed strays.csv
var straysCSV string

// StrayDays and StrayLevels are the days ahead and the levels of intervals at
// which it is known how far loops stray. Between the days straight lines are taken,
// beyond them the nearest.
var (
	StrayDays   = [...]int{1, 2, 3, 5, 7, 10, 14}
	StrayLevels = [...]quantity.Fraction{0.25, 0.5, 0.8, 0.9, 0.98}
)

// strays is how far the water of a loop that is often read strays from its
// forecast, for how far the guesses do, by figure and days ahead: guesses between
// the intervals of two levels are drawn together or apart by so much, so that each
// interval holds as often as it says. Guesses are made wide, since loops differ
// more than one loop does; quiet weeks keep close to what was forecast, and what
// goes otherwise goes far.
type strays [Figures][len(StrayDays)]ByLevel

// ByLevel is a number for what lies between each level's interval and the one
// within it; the last holds beyond, too.
type ByLevel [len(StrayLevels)]float64

// A TableError says what is wrong with the table of strays.
type TableError struct{ Why string }

// Error says why.
func (e *TableError) Error() string { return "table of strays: " + e.Why }

var knownStrays = sync.OnceValues(func() (*strays, error) { return readStrays(straysCSV) })

// straySpreads are the levels as spreads of a normal distribution.
var straySpreads = sync.OnceValue(func() (z ByLevel) {
	for i, level := range StrayLevels {
		z[i] = chance.NormalQuantile((1 + float64(level)) / 2)
	}
	return z
})

// straysHead is what the table's columns hold: the days ahead, and by how much
// guesses are drawn that lie out to the interval of so many in 100.
const straysHead = "figure,days,25,50,80,90,98"

var figureNames = [Figures]string{"warmth", "ammonia", "nitrite", "nitrate", "alkalinity", "acidity", "oxygen", "unionized"}

// readStrays reads a table whose rows are in order of figures and days.
func readStrays(text string) (*strays, error) {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	if len(lines) != 1+len(strays{})*len(StrayDays) || lines[0] != straysHead {
		return nil, &TableError{"it has other rows or columns"}
	}
	s := &strays{}
	for i, line := range lines[1:] {
		f, d := i/len(StrayDays), i%len(StrayDays)
		numbers, named := strings.CutPrefix(line, figureNames[f]+","+strconv.Itoa(StrayDays[d])+",")
		cells := strings.Split(numbers, ",")
		if !named || len(cells) != len(StrayLevels) {
			return nil, &TableError{"another row was expected than " + line}
		}
		for l, cell := range cells {
			v, err := strconv.ParseFloat(cell, 64)
			if err != nil || !(v > 0) || math.IsInf(v, 0) {
				return nil, &TableError{"a number above 0 was expected in each cell of " + line}
			}
			s[f][d][l] = v
		}
	}
	return s, nil
}

// WriteStrays writes what was learnt as the table is kept.
func WriteStrays(learnt func(f Figure, days int) ByLevel) string {
	var b strings.Builder
	b.WriteString(straysHead + "\n")
	for f := range Figures {
		for _, days := range StrayDays {
			b.WriteString(figureNames[f] + "," + strconv.Itoa(days))
			for _, v := range learnt(f, days) {
				b.WriteString("," + strconv.FormatFloat(v, 'g', 4, 64))
			}
			b.WriteString("\n")
		}
	}
	return b.String()
}

// on is the row of a figure on a day, counted from 0.
func (s *strays) on(f Figure, day int) (row ByLevel) {
	i, share := place(StrayDays[:], day+1)
	for l := range row {
		row[l] = s[f][i][l] + share*(s[f][i+1][l]-s[f][i][l])
	}
	return row
}

// place is where a value lies among rising ones: after which of them, and what
// share of the way to the next.
func place[T int | float64](rising []T, v T) (after int, share float64) {
	i, _ := slices.BinarySearch(rising, v)
	i = max(1, min(i, len(rising)-1))
	low, high := float64(rising[i-1]), float64(rising[i])
	return i - 1, math.Max(0, math.Min(1, (float64(v)-low)/(high-low)))
}

// word is what is known of how forecasts kept theirs: here, and in loops at large.
type word struct {
	held  records
	loops *strays
}

// drawing is guesses of a figure on a day, drawn about their middle as one for the
// whole of what is told: the ends of intervals and the chance to pass a limit.
type drawing struct {
	scale
	values []float64 // in order
	middle float64   // on the scale
	below  ByLevel   // how far intervals of the levels reach to the left, before they are drawn
	above  ByLevel
	by     ByLevel // how much they are drawn, here and in loops at large
	open   float64
}

// draw draws guesses of a figure on a day. Where nothing was tried, and so nothing
// read, they stand as they are. Un-ionized ammonia goes by how all ammonia strayed
// here: it is not read itself.
func (w *word) draw(f Figure, day int, values []float64) *drawing {
	d, r := spreadOut(f, values), w.recordOf(f, day)
	loops := w.loops.on(f, day)
	for l := range d.by {
		d.by[l] = r.stretch() * math.Pow(loops[l], r.heed())
	}
	return d
}

func (w *word) recordOf(f Figure, day int) record {
	if f == Unionized {
		f = Ammonia
	}
	return w.held[reach(day)][f]
}

// spreadOut lays guesses out in order, not drawn yet.
func spreadOut(f Figure, values []float64) *drawing {
	d := &drawing{scale: scaleOf(f), values: sorted(values), open: leftOpen[f]}
	d.middle = d.on(between(d.values, 0.5))
	for l, z := range straySpreads() {
		out := (1 - float64(StrayLevels[l])) / 2
		d.below[l], d.above[l] = d.off(between(d.values, out), z), d.off(between(d.values, 1-out), z)
	}
	return d
}

// off is how far a guess lies from the middle that is so many spreads of a normal
// distribution away. Guesses may all be alike, so what they leave open counts too.
func (d *drawing) off(v, spreads float64) float64 {
	return math.Hypot(d.on(v)-d.middle, d.open*spreads)
}

// end is where a guess is drawn to that lies so many spreads from the middle, below
// 0 to the left.
func (d *drawing) end(v, spreads float64) float64 {
	arms := &d.above
	if spreads < 0 {
		arms = &d.below
	}
	return d.back(d.middle + math.Copysign(drawn(d.off(v, spreads), arms, &d.by), spreads))
}

// drawn is a distance from the middle after the bands between the arms were drawn,
// each by its own: it never falls, so that wider intervals lie about narrower ones.
func drawn(off float64, arms, by *ByLevel) float64 {
	sum, from := 0.0, 0.0
	for l, arm := range arms {
		if off <= arm || l == len(arms)-1 {
			return sum + by[l]*(off-from)
		}
		sum, from = sum+by[l]*(arm-from), arm
	}
	return sum
}

// fan leaves a share out on either side.
func (d *drawing) fan(out float64) Fan {
	spreads := chance.NormalQuantile(1 - out)
	low, high := d.end(between(d.values, out), -spreads), d.end(between(d.values, 1-out), spreads)
	return Fan{d.shown(low), d.shown(d.back(d.middle)), math.Max(high, d.least)}
}

// A Stray is how far what came lay from the middle of a forecast, drawn as
// forecasts of that loop's own past were, and how far its guesses reached to that
// side at each level. Strays of many loops say how the guesses of any are drawn.
type Stray struct {
	Off  float64
	Arms ByLevel
	Heed float64 // 0 to 1, how far loops at large are heeded; 0 where the figure was never read
}

// Strayed sets what came on a day beside its forecast.
func (a *Ahead) Strayed(f Figure, s Side, day int, came float64) (Stray, error) {
	if err := a.checkDay(f, day); err != nil {
		return Stray{}, err
	}
	d, r := spreadOut(f, a.days[day][f].side(s)), a.recordOf(f, day)
	off, arms := d.on(came)-d.middle, d.above
	if off < 0 {
		off, arms = -off, d.below
	}
	return Stray{off / r.stretch(), arms, r.heed()}, nil
}

// LearnStrays finds from the inmost level outwards by how much guesses must be drawn
// so that intervals of each level hold as often as they say. It is the row of one
// figure and day.
func LearnStrays(list []Stray) (row ByLevel) {
	reached := make([]float64, len(list))
	needed := make([]float64, len(list))
	for l, level := range StrayLevels {
		for i, s := range list {
			needed[i] = math.Pow(math.Max(0, s.Off-reached[i])/s.band(l), 1/s.Heed)
		}
		slices.Sort(needed)
		most := mostDrawn
		if l == len(row)-1 {
			most = outmostDrawn
		}
		row[l] = math.Max(leastDrawn, math.Min(most, needed[int(math.Ceil(float64(level)*float64(len(needed))))-1]))
		for i, s := range list {
			reached[i] += math.Pow(row[l], s.Heed) * s.band(l)
		}
	}
	return row
}

// Bounds of what is learnt: a band is never drawn to nothing, and what lies beyond
// all guesses, as where they all say that there is nothing, does not draw the others.
// The outmost goes on without end, so that it is drawn less.
const leastDrawn, mostDrawn, outmostDrawn = 0.02, 5.0, 2.0

// band is how far the guesses reach between a level's interval and the one within it.
func (s Stray) band(l int) float64 {
	if l == 0 {
		return s.Arms[0]
	}
	return s.Arms[l] - s.Arms[l-1]
}

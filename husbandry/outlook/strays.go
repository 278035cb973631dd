package outlook

import (
	"cmp"
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

// strays is what is known of how the water of a loop that is often read strays from
// its forecast, by figure and days ahead.
type strays [Figures][len(StrayDays)]Straying

// A Straying says how far the middle of the guesses leans towards how the figure was
// of late, 0 to 1, and by how much guesses between the intervals of two levels are
// then drawn together or apart, so that each interval holds as often as it says.
// Guesses are made wide, since loops differ more than one loop does; quiet weeks keep
// close to what was forecast, and what goes otherwise goes far.
type Straying struct {
	Lean float64
	Draw ByLevel
}

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

// straysHead is what the table's columns hold: the days ahead, how far guesses lean,
// and by how much those are drawn that lie out to the interval of so many in 100.
const straysHead = "figure,days,lean,25,50,80,90,98"

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
		if !named || len(cells) != 1+len(StrayLevels) {
			return nil, &TableError{"another row was expected than " + line}
		}
		if !s[f][d].read(cells) {
			return nil, &TableError{"a lean of 0 to 1 and numbers above 0 were expected in " + line}
		}
	}
	return s, nil
}

// read says whether the cells of a row are what they should be.
func (s *Straying) read(cells []string) bool {
	lean, err := strconv.ParseFloat(cells[0], 64)
	if s.Lean = lean; err != nil || !(lean >= 0 && lean <= 1) {
		return false
	}
	for l, cell := range cells[1:] {
		v, err := strconv.ParseFloat(cell, 64)
		if s.Draw[l] = v; err != nil || !(v > 0 && v <= math.MaxFloat64) {
			return false
		}
	}
	return true
}

// WriteStrays writes what was learnt as the table is kept.
func WriteStrays(learnt func(f Figure, days int) Straying) string {
	var b strings.Builder
	b.WriteString(straysHead + "\n")
	for f := range Figures {
		for _, days := range StrayDays {
			row := learnt(f, days)
			b.WriteString(figureNames[f] + "," + strconv.Itoa(days) + "," + strconv.FormatFloat(row.Lean, 'g', 4, 64))
			for _, v := range row.Draw {
				b.WriteString("," + strconv.FormatFloat(v, 'g', 4, 64))
			}
			b.WriteString("\n")
		}
	}
	return b.String()
}

// on is the row of a figure on a day, counted from 0.
func (s *strays) on(f Figure, day int) (row Straying) {
	i, share := place(StrayDays[:], day+1)
	a, b := &s[f][i], &s[f][i+1]
	row.Lean = a.Lean + share*(b.Lean-a.Lean)
	for l := range row.Draw {
		row.Draw[l] = a.Draw[l] + share*(b.Draw[l]-a.Draw[l])
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

// drawing is guesses of a figure on a day, leant and drawn about their middle as one
// for the whole of what is told: the ends of intervals and the chance to pass a limit.
type drawing struct {
	scale
	values  []float64 // in order
	guessed float64   // their middle, on the scale
	open    float64
	lean    float64
	late    lately
	middle  float64 // leant
	below   ByLevel // how far intervals of the levels reach to the left, before they are drawn
	above   ByLevel
	by      ByLevel // how much they are drawn, here and in loops at large
}

// draw draws guesses of a figure on a day. Where nothing was tried, and so nothing
// read, they stand as they are. Un-ionized ammonia goes by how all ammonia strayed
// here: it is not read itself.
func (w *word) draw(f Figure, day int, values []float64, late lately) *drawing {
	r, loops := w.recordOf(f, day), w.loops.on(f, day)
	d := spreadOut(f, values, late, loops.Lean*r.heed())
	for l := range d.by {
		d.by[l] = r.stretch() * math.Pow(loops.Draw[l], r.heed())
	}
	return d
}

func (w *word) recordOf(f Figure, day int) record {
	return w.held[reach(day)][readAs(f)]
}

// spreadOut lays guesses out in order and lets them lean towards how the figure was
// of late: the end of each interval goes so much of the way to where that week's own
// interval ends. They are not drawn yet.
func spreadOut(f Figure, values []float64, late lately, lean float64) *drawing {
	d := &drawing{scale: scaleOf(f), values: sorted(values), open: leftOpen[f], late: late, lean: lean * late.share}
	d.guessed = d.on(between(d.values, 0.5))
	d.middle = d.guessed + d.lean*(late.middle-d.guessed)
	for l, z := range straySpreads() {
		out := (1 - float64(StrayLevels[l])) / 2
		d.below[l], d.above[l] = d.off(between(d.values, out), z), d.off(between(d.values, 1-out), z)
	}
	return d
}

// off is how far a guess lies from the middle that is so many spreads of a normal
// distribution away. Guesses may all be alike, so what they leave open counts too.
func (d *drawing) off(v, spreads float64) float64 {
	spreads = math.Abs(spreads)
	return (1-d.lean)*math.Hypot(d.on(v)-d.guessed, d.open*spreads) + d.lean*d.late.spread*spreads
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

// A Stray is how far what came lay from the middle of the guesses, how far they
// reached to either side at each level, and how the figure was of late. Strays of many
// loops say how the guesses of any lean and are drawn.
type Stray struct {
	Off          float64 // below 0 to the left
	Below, Above ByLevel
	Late, Spread float64 // from the middle of the guesses
	Share        float64 // of the lean, 0 to 1: how far loops at large are heeded, where a week is known
	Heed         float64 // 0 to 1, how far loops at large are heeded; 0 where the figure was never read
	Stretch      float64 // by how much forecasts of that loop's own past were drawn
}

// Strayed sets what came on a day beside its forecast.
func (a *Ahead) Strayed(f Figure, s Side, day int, came float64) (Stray, error) {
	if err := a.checkDay(f, day); err != nil {
		return Stray{}, err
	}
	late, r := a.late[f][s], a.recordOf(f, day)
	d := spreadOut(f, a.days[day][f].side(s), late, 0)
	return Stray{
		Off: d.on(came) - d.guessed, Below: d.below, Above: d.above, Late: late.middle - d.guessed, Spread: late.spread,
		Share: r.heed() * late.share, Heed: r.heed(), Stretch: r.stretch(),
	}, nil
}

// LearnStrays finds how far guesses must lean to be off least, and then from the
// inmost level outwards by how much they must be drawn so that intervals of each level
// hold as often as they say. It is the row of one figure and day.
func LearnStrays(list []Stray) (row Straying) {
	row.Lean = leanOf(list)
	sides := make([]leant, len(list))
	for i, s := range list {
		sides[i] = s.leant(row.Lean)
	}
	needed := make([]float64, len(list))
	for l, level := range StrayLevels {
		for i, s := range sides {
			needed[i] = math.Pow(math.Max(0, s.off-s.reached)/s.band(l), 1/s.heed)
		}
		slices.Sort(needed)
		row.Draw[l] = math.Max(leastDrawn, math.Min(mostDrawn[l], needed[int(math.Ceil(float64(level)*float64(len(needed))))-1]))
		for i := range sides {
			s := &sides[i]
			s.reached += math.Pow(row.Draw[l], s.heed) * s.band(l)
		}
	}
	return row
}

// mostLeant keeps something of what the balance foresees.
const mostLeant = 0.8

// leanOf is the lean at which what came lay off least in all: the median of the
// leans that would have met it, each as heavy as what it moves.
func leanOf(list []Stray) float64 {
	type wish struct{ lean, weight float64 }
	var wishes []wish
	half := 0.0
	for _, s := range list {
		if moves := s.Share * s.Late; moves != 0 {
			wishes = append(wishes, wish{s.Off / moves, math.Abs(moves)})
			half += math.Abs(moves) / 2
		}
	}
	slices.SortFunc(wishes, func(a, b wish) int { return cmp.Compare(a.lean, b.lean) })
	for _, w := range wishes {
		if half -= w.weight; half <= 0 {
			return math.Max(0, math.Min(mostLeant, w.lean))
		}
	}
	return 0
}

// Bounds of what is learnt: a band is never drawn to nothing, and what lies beyond
// all guesses, as where they all say that there is nothing, does not draw the others.
// The outmost goes on without end, so that it is drawn less.
const leastDrawn = 0.02

var mostDrawn = ByLevel{3, 3, 3, 3, 2}

// leant is a stray with its guesses leant: how far what came lies off to its side, how
// far the levels reach there, and how far those within are drawn.
type leant struct {
	off, reached, heed float64
	arms               ByLevel
}

func (s *Stray) leant(lean float64) leant {
	lean *= s.Share
	l := leant{off: (s.Off - lean*s.Late) / s.Stretch, heed: s.Heed, arms: s.Above}
	if l.off < 0 {
		l.off, l.arms = -l.off, s.Below
	}
	for i, z := range straySpreads() {
		l.arms[i] = (1-lean)*l.arms[i] + lean*s.Spread*z
	}
	return l
}

// band is how far the guesses reach between a level's interval and the one within it.
func (l *leant) band(level int) float64 {
	if level == 0 {
		return l.arms[0]
	}
	return l.arms[level] - l.arms[level-1]
}

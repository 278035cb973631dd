package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Want is what a household or a market uses of a crop.
type Want struct {
	Crop       string
	PerWeek    quantity.Kilograms // 0.001 to 100,000
	Transplant bool               // how the grower starts it
	Past       []Past             // own past plantings, where there are some
}

// A State says how a week's harvest stands against its use.
type State int

// The states of a week.
const (
	Gap    State = iota // less than three quarters of the use
	Enough              // from there to half as much again
	Glut                // more
)

// String names the state in one word.
func (s State) String() string { return [...]string{"gap", "enough", "glut"}[s] }

// A Stretch is a run of weeks in the same state.
type Stretch struct {
	Span
	State  State
	Supply quantity.Kilograms // mean of its weeks, a week
	Use    quantity.Kilograms // a week
}

// The bounds of a gap and of a glut are common practice, without a source.
const (
	gapBelow  = 0.75
	glutAbove = 1.5
)

// Supply returns what the windows of the crop give in the seven days from that
// day on; a crop that is not in the table gives nothing.
func Supply(windows []Window, crop string, from Day) quantity.Kilograms {
	sum := quantity.Kilograms(0)
	wanted, err := Find(crop)
	if err != nil {
		return sum
	}
	for _, w := range windows {
		if grown, err := Find(w.Planting.Crop); err != nil || grown.Name != wanted.Name {
			continue
		}
		sum += w.PerWeek * quantity.Kilograms(w.shareOfWeek(from))
	}
	return sum
}

// shareOfWeek is the share of a full week's harvest that falls in the seven
// days. A window shorter than a week gives all of its harvest in its own days.
func (w Window) shareOfWeek(from Day) float64 {
	const week = 7
	shared := int(min(w.Last, from+week-1)-max(w.First, from)) + 1
	lasting := int(w.Last-w.First) + 1
	return float64(max(0, shared)) / float64(min(week, lasting))
}

// GapsAndGluts returns the weeks from first to last as stretches of gap, enough
// and glut for one wanted crop. Weeks begin on the first day given; at most 520.
func GapsAndGluts(windows []Window, want Want, season Span) ([]Stretch, error) {
	if err := want.check(); err != nil {
		return nil, err
	}
	if err := seasonBound.check(float64(season.Days())); err != nil {
		return nil, err
	}
	stretches := []Stretch{}
	for from := season.First; from+6 <= season.Last; from += 7 {
		supply := Supply(windows, want.Crop, from)
		state := stateOf(supply, want.PerWeek)
		n := len(stretches)
		if n == 0 || stretches[n-1].State != state {
			stretches = append(stretches, Stretch{Span: Span{from, from + 6}, State: state, Supply: supply, Use: want.PerWeek})
			continue
		}
		stretches[n-1].add(supply)
	}
	return stretches, nil
}

func (s *Stretch) add(supply quantity.Kilograms) {
	weeks := quantity.Kilograms(s.Days()) / 7
	s.Supply = (s.Supply*weeks + supply) / (weeks + 1)
	s.Last += 7
}

func stateOf(supply, use quantity.Kilograms) State {
	switch {
	case supply < gapBelow*use:
		return Gap
	case supply > glutAbove*use:
		return Glut
	}
	return Enough
}

func (w Want) check() error {
	if _, err := Find(w.Crop); err != nil {
		return err
	}
	return useBound.check(float64(w.PerWeek))
}

// areaToClose returns the area whose harvest would bring a week's supply up to
// its use, for a window worked out for one square metre.
func areaToClose(short quantity.Kilograms, of Window) quantity.SquareMetres {
	return quantity.SquareMetres(math.Max(0, float64(short/of.PerWeek)))
}

package page

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
)

// drawn gives what is written on a page so many columns wide, and holds every
// line to that width.
func drawn(t *testing.T, width int, write func(*Page)) string {
	t.Helper()
	var b strings.Builder
	p := New(&b, width)
	write(p)
	for _, line := range strings.Split(b.String(), "\n") {
		if Columns(line) > p.Width() || strings.HasSuffix(line, " ") {
			t.Errorf("%d columns in %d: %q", Columns(line), p.Width(), line)
		}
	}
	return b.String()
}

func same(t *testing.T, got, want string) {
	t.Helper()
	if want = strings.TrimPrefix(want, "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 3, 64) }

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text    string
		columns int
		want    string
	}{
		{"", 10, ""},
		{"the water is safe", 10, "the water|is safe"},
		{"the water is safe", 9, "the water|is safe"},
		{"nitrification", 5, "nitri|ficat|ion"},
		{"a nitrification", 5, "a|nitri|ficat|ion"},
		{"水がきれい", 4, "水が|きれ|い"}, // two columns a letter
		{"cafe\u0301 au lait", 4, "cafe\u0301|au|lait"},
		{"anything", 0, "a|n|y|t|h|i|n|g"},
	} {
		if got := strings.Join(Wrap(c.text, c.columns), "|"); got != c.want {
			t.Errorf("%q in %d: %q, want %q", c.text, c.columns, got, c.want)
		}
	}
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		text    string
		columns int
		want    string
	}{{"Fish tank", 9, "Fish tank"}, {"Fish tank", 8, "Fish ta…"}, {"Fish tank", 6, "Fish…"}, {"水がきれい", 6, "水が…"}} {
		if got := Cut(c.text, c.columns); got != c.want {
			t.Errorf("%q in %d: %q", c.text, c.columns, got)
		}
	}
}

func TestCleanTakesTheCursorAway(t *testing.T) {
	if got := Clean("a\x1b[2Jb\u202ec\r\nd\u009b"); got != "a [2Jb c  d " {
		t.Errorf("%q", got)
	}
}

func TestHeadAndItem(t *testing.T) {
	same(t, drawn(t, 30, func(p *Page) {
		p.Head("Barn", "Monday")
		p.Item("!", "Do not feed today, since ammonia is not safe.")
	}), `
Barn                    Monday
~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~
  ! Do not feed today, since
    ammonia is not safe.
`)
	same(t, drawn(t, 30, func(p *Page) { p.Head("A barn with a long name", "Wednesday 25 November") }), `
A barn with a long name
Wednesday 25 November
~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~
`)
}

func TestWithinStandsToTheRight(t *testing.T) {
	same(t, drawn(t, 30, func(p *Page) {
		p.Within(4, func(p *Page) { p.Say("what is said of it goes on below") })
		p.Say("and back")
	}), `
    what is said of it goes on
    below
and back
`)
}

func TestBars(t *testing.T) {
	same(t, drawn(t, 40, func(p *Page) {
		p.Bars([]Bar{{Name: "feed", Value: 100}, {Name: "gained by fish", Value: 30, Words: "25 to 35"}, {Name: "in the water", Value: -10}}, short)
	}), `
  feed            100 ████████
  gained by fish   30 ██▍      25 to 35
  in the water    -10 ░
`)
	same(t, drawn(t, 30, func(p *Page) { p.Bars([]Bar{{Name: "all", Value: 0}, {Name: "none", Value: math.NaN()}}, short) }), `
  all     0
  none  NaN
`)
}

func TestSpans(t *testing.T) {
	same(t, drawn(t, 34, func(p *Page) {
		p.Spans([]Bar{{Name: "ours", Mark: "* ", Value: 5, Low: 0, High: 10}, {Name: "theirs", Mark: "  ", Value: 10, Low: math.NaN(), High: math.NaN()}}, short)
	}), `
  * ours     5  ├────────o───────┤
    theirs  10                   o
                0               10
`)
	if got := drawn(t, 34, func(p *Page) { p.Spans(nil, short) }); got != "" {
		t.Errorf("%q of nothing", got)
	}
	if got := drawn(t, 34, func(p *Page) { p.Spans([]Bar{{Name: "one", Value: 3, Low: 3, High: 3}}, short) }); !strings.Contains(got, "o") {
		t.Errorf("%q", got)
	}
}

func TestTableGivesWayAndThenStacks(t *testing.T) {
	columns := []Column{{Title: "site", Give: true}, {Title: "kg", Right: true}}
	rows := [][]string{{"Coldwell Race on the fell", "8.3"}, {"Barn", "12"}}
	same(t, drawn(t, 40, func(p *Page) { p.Table(columns, rows) }), `
  site                        kg
  Coldwell Race on the fell  8.3
  Barn                        12
`)
	same(t, drawn(t, 30, func(p *Page) { p.Table(columns, rows) }), `
  site                      kg
  Coldwell Race on the f…  8.3
  Barn                      12
`)
	fixed := []Column{{Title: "Site"}, {Title: "Kept as"}}
	same(t, drawn(t, 30, func(p *Page) { p.Table(fixed, [][]string{{"Coldwell Race on the fell", "28 jars"}, {"Barn", ""}}) }), `
  Coldwell Race on the fell
    kept as 28 jars
  Barn
`)
}

func TestPlotLeavesGapsOpen(t *testing.T) {
	nan := math.NaN()
	same(t, drawn(t, 30, func(p *Page) {
		p.Plot(Series{Values: []float64{0, nan, 4, 8}, Show: short, From: "Mon", To: "Thu", Mark: 4, MarkAs: "limit"}, 2)
	}), `
   8 ┄┄┄┄┄┄┄┄┄┄┄┄▁▁▁▁▁▁██████
   0 ▁▁▁▁▁▁······████████████
     Mon                  Thu
     ┄ limit
`)
	same(t, drawn(t, 30, func(p *Page) { p.Plot(Series{Values: []float64{nan}, Show: short}, 2) }), "  No readings to draw.\n")
}

func TestALongSeriesIsMeaned(t *testing.T) {
	long := make([]float64, 2400)
	for i := range long {
		long[i] = float64(i / 1200)
	}
	got := drawn(t, 40, func(p *Page) { p.Plot(Series{Values: long, Show: short, Mark: math.NaN(), From: "a", To: "b"}, 3) })
	if first, _, _ := strings.Cut(got, "\n"); strings.Count(first, "█") < 15 || strings.Count(first, "█") > 18 {
		t.Errorf("half of the steps stand high:\n%s", got)
	}
}

func TestStreamBesideAndBelow(t *testing.T) {
	walk := []Stretch{{"Fish tank", []string{"two cohorts", "tested today"}}, {"Settler", nil}}
	same(t, drawn(t, 64, func(p *Page) { p.Stream(walk) }), `
  ≈ Fish tank  two cohorts
  │            tested today
  │
  ≈ Settler
`)
	same(t, drawn(t, 40, func(p *Page) { p.Stream(walk) }), `
  ≈ Fish tank
  │   two cohorts
  │   tested today
  │
  ≈ Settler
`)
}

func TestPairs(t *testing.T) {
	same(t, drawn(t, 40, func(p *Page) {
		p.Pairs([][2]string{{"--as", "what the value is told as, such as NH3"}, {"--at", "where"}})
	}), `
  --as  what the value is told as, such
        as NH3
  --at  where
`)
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("the disk is full") }

func TestTheFirstErrorOfTheWriterIsKept(t *testing.T) {
	p := New(full{}, 80)
	p.Within(2, func(p *Page) { p.Say("a") })
	p.Say("b")
	if p.Err() == nil {
		t.Error("nothing is said of a full disk")
	}
}

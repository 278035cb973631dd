package outlook

import (
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/water"
)

// TestTables reads them at their rows, between them and beyond their ends.
func TestTables(t *testing.T) {
	l := simulatedBarn(t, asIs)
	for celsius, read := range map[float64]float64{-3: 0, 0: 0, 20: 20, 39.9: 39.9, 44: 40, 60: 40} {
		want, err := water.OxygenSaturation(quantity.Celsius(read), 0, barn.Pressure)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "oxygen that water holds", at(l.full, celsius), float64(want), 1e-9)
	}
	middle := at(l.full, 20.05)
	near(t, "between two rows", middle, (at(l.full, 20)+at(l.full, 20.1))/2, 1e-12)
	last, err := water.PK1(45)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "acidity constant at the end", at(l.acid, 47), last, 1e-12)
}

// TestWhatIsTakenForUsual where nothing is known.
func TestWhatIsTakenForUsual(t *testing.T) {
	unknown := Hour{Air: math.NaN()}
	near(t, "warmth of nothing", usualWarmth(nil), 18, 0)
	near(t, "warmth without air", usualWarmth([]Hour{unknown}), 18, 0)
	near(t, "warmth of frost", usualWarmth([]Hour{{Air: -5}, unknown}), 1, 0)
	near(t, "warmth of air", usualWarmth([]Hour{{Air: 10}, {Air: 20}, unknown}), 15, 1e-12)
	bare := simulatedBarn(t, func(l *Loop) { l.Media = 0 })
	near(t, "filter of nothing", bare.usualFilter(nil), 0.1, 0)
	near(t, "filter by what comes in", bare.usualFilter([]Hour{{Feed: 1}}), 2*0.576*24, 1e-9)
	near(t, "filter by its media", simulatedBarn(t, asIs).usualFilter(nil), 0.56*150, 1e-9)
	near(t, "fish of nothing", fishAt(nil), 0, 0)
	r := rand.New(rand.NewPCG(1, 1)) // #nosec G404 -- the same case each time
	if n := guess(r, math.NaN()); n[keeper] != 0 {
		t.Errorf("where no water was read it is kept at %g", n[keeper])
	}
	for range 2000 {
		if n := guess(r, 12); n[keeper] > 12 || n[given] > 0.95 || n[soaking] <= 0 {
			t.Fatalf("%v", n)
		}
	}
}

// TestStretch by how forecasts did, drawn towards 1 where few were tried.
func TestStretch(t *testing.T) {
	near(t, "untried", record{}.stretch(), 1, 0)
	near(t, "as they should", record{squares: 12, origins: 4}.stretch(), math.Sqrt(16.0/8), 1e-12)
	near(t, "far too narrow", record{squares: 1e4, origins: 10}.stretch(), 1.7, 0)
	near(t, "far too wide", record{squares: 0, origins: 100}.stretch(), 0.4, 0)
	near(t, "nothing read", record{}.heed(), 0, 0)
	near(t, "half as sure as one can be", record{squares: 4, origins: 4}.heed(), 0.5, 1e-12)
	for day, want := range map[int]int{0: 0, 1: 0, 2: 1, 6: 1, 7: 2, 13: 2} {
		if reach(day) != want {
			t.Errorf("day %d is reach %d", day, reach(day))
		}
	}
}

// TestTally sets readings beside guesses that are known.
func TestTally(t *testing.T) {
	l := simulatedBarn(t, asIs)
	c := newCloud(l, make([]member, 4001), 2, 0)
	for i := range c.members {
		c.members[i].celsius = 20 + 1.5*c.r.NormFloat64()
	}
	spread := math.Hypot(1.5, 0.2)
	w := word{loops: &strays{}} // heeded half, at 1.21, where the own past drew by 0.9
	w.held[1][Warmth] = record{origins: 4, squares: 8*0.9*0.9 - 4}
	for d := range StrayDays {
		w.loops[Warmth][d].Draw = ByLevel{1.21, 1.21, 1.21, 1.21, 1.21}
	}
	for _, off := range []float64{0.5, -1, 1.2, 1.35, -3, 50} {
		var one tally
		one.count(c, Reading{Figure: Warmth, Value: 20 + off*spread}, &w, 4, lately{})
		if held := math.Abs(off) < 0.9*1.1*1.2816; (one.held == 1) != held {
			t.Errorf("%g spreads off: held %d", off, one.held)
		}
		want := math.Min(6, math.Abs(off))
		near(t, "off", math.Sqrt(one.squares), want, 0.08*want)
	}
}

// TestScales: what no test tells from nothing, and what a test leaves open.
func TestScales(t *testing.T) {
	s := scaleOf(Ammonia)
	near(t, "nothing", s.shown(0.05), 0, 0)
	near(t, "something", s.shown(0.051), 0.051, 0)
	near(t, "warmth of nothing", scaleOf(Warmth).shown(0), 0, 0)
	near(t, "on and back", s.back(s.on(2)), 2, 1e-12)
	near(t, "doubt in proportion", s.doubt(Reading{Figure: Ammonia, Value: 2}), 0.01, 1e-12)
	near(t, "doubt of little", s.doubt(Reading{Figure: Ammonia, Value: 0.02}), 1, 1e-12)
	near(t, "doubt below", s.doubt(Reading{Figure: Ammonia, Value: 2, Below: true}), math.Ln2*math.Ln2, 1e-12)
	near(t, "doubt of warmth", scaleOf(Warmth).doubt(Reading{Figure: Warmth, Value: 20}), 0.04, 1e-12)
	near(t, "doubt of warmth below", scaleOf(Warmth).doubt(Reading{Figure: Warmth, Value: 20, Below: true}), 100, 1e-12)
	for f, least := range map[Figure]float64{Warmth: 0, Ammonia: 0.05, Nitrite: 0.03, Nitrate: 1, Alkalinity: 5, Acidity: 0, Oxygen: 0, Unionized: 0.001} {
		near(t, "least told", scaleOf(f).least, least, 0)
	}
}

// TestReadingsThatCannotBe holds each figure to its highest.
func TestReadingsThatCannotBe(t *testing.T) {
	hours := make([]Hour, 400*24)
	for f, most := range map[Figure]float64{Warmth: 50, Ammonia: 1000, Nitrite: 1000, Nitrate: 10_000, Alkalinity: 5000, Acidity: 14, Oxygen: 40} {
		for value, ok := range map[float64]bool{0: true, most: true, math.Nextafter(most, math.Inf(1)): false, -1e-9: false} {
			if err := checkPast(hours, []Reading{{Figure: f, Value: value}}); (err == nil) != ok {
				t.Errorf("figure %d of %g: %v", f, value, err)
			}
		}
	}
	kept := thinned([]Reading{{0, Acidity, 7, false}, {1, Acidity, 7, false}, {11, Acidity, 7, false}, {12, Acidity, 7, false}, {13, Oxygen, 7, false}, {14, Oxygen, 7, false}, {15, Oxygen, 7, false}}, 3)
	if len(kept) != 4 || kept[1].Hour != 12 || kept[3].Hour != 15 {
		t.Errorf("kept %v", kept)
	}
}

// TestLevelsAndTargets are refused beyond their ends.
func TestLevelsAndTargets(t *testing.T) {
	p := Prospect{Middle: 1, Spread: 0.1, Few: 8}
	for level, ok := range map[float64]bool{0.01: true, 0.999: true, 0.0099: false, 0.9991: false} {
		if _, _, err := p.Between(quantity.Fraction(level)); (err == nil) != ok {
			t.Errorf("level %g: %v", level, err)
		}
	}
	for below, ok := range map[float64]bool{0.0001: true, 0.9999: true, 0.00009: false, 0.99991: false} {
		if _, err := p.Quantile(quantity.Fraction(below)); (err == nil) != ok {
			t.Errorf("chance %g: %v", below, err)
		}
	}
	if _, err := p.Above(0); err == nil {
		t.Error("a target of nothing")
	}
	if e := (&CurveError{0, "why"}).Error(); e != "growth curve, point 1: why" {
		t.Error(e)
	}
	if e := (&CurveError{-1, "why"}).Error(); e != "growth curve: why" {
		t.Error(e)
	}
}

// TestClock: half of the growth in the logarithm lies in the first tenth of the
// time; while nothing grows the clock still runs, at a fiftieth of its pace.
func TestClock(t *testing.T) {
	clock := meanGrowth([]float64{0, 10, 100}, []Curve{{[]float64{0, 10, 100}, []float64{1, 2, 4}}})
	near(t, "half", clock[1], 0.5, 1e-12)
	clock = meanGrowth([]float64{0, 10, 100}, []Curve{{[]float64{0, 10, 100}, []float64{1, 2, 1}}})
	grown, usual := math.Ln2, math.Ln2/100
	near(t, "stands nearly", clock[1], grown/(grown+0.02*usual*90), 1e-12)
	clock = meanGrowth([]float64{0, 10, 100}, nil)
	near(t, "nothing known", clock[1], 0.1, 1e-12)
}

// TestRisingEnds are refused beyond, and certain where nothing can rise so far.
func TestRisingEnds(t *testing.T) {
	_, a := outlookOf(t, make([]Hour, 24), nil)
	for _, c := range []struct {
		times, least float64
		ok           bool
	}{{1, 0, true}, {1000, 1e6, true}, {0.99, 0, false}, {1001, 0, false}, {2, -1e-9, false}, {2, 1e6 + 1, false}} {
		got, err := a.Rising(Nitrate, 1, c.times, c.least)
		if (err == nil) != c.ok || (!c.ok || c.least == 1e6) && got != 0 {
			t.Errorf("%g times, above %g: %g, %v", c.times, c.least, got, err)
		}
	}
	pool := power(0)
	fresh := evenly(0, pool)
	if pool != 1 || fresh != 1 {
		t.Errorf("nothing empties: %g, %g", pool, fresh)
	}
}

func TestPowersNearNoughtAreThoseOfTheLibrary(t *testing.T) {
	for x := -0.0101; x < 0.0102; x += 1.3e-5 {
		near(t, "power", power(x), math.Exp(x), 1e-15)
	}
}

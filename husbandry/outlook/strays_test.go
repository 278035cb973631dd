package outlook

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// TestTableOfStrays is read as it was written, and refused where it is another's.
func TestTableOfStrays(t *testing.T) {
	known, err := knownStrays()
	if err != nil {
		t.Fatal(err)
	}
	again := WriteStrays(func(f Figure, days int) ByLevel { return known[f][slices.Index(StrayDays[:], days)] })
	if again != straysCSV {
		t.Errorf("written again it is\n%s", again)
	}
	var wrong *TableError
	for name, change := range map[string][2]string{
		"another head": {"days,25", "days,20"}, "another figure": {"nitrite,1,", "nitrate,1,"}, "another day": {"oxygen,10,", "oxygen,11,"},
		"a row too few": {"\nunionized,14,", ","}, "no number": {"ammonia,3,", "ammonia,3,much"}, "nothing": {"ammonia,3,", "ammonia,3,-"},
		"a cell too many": {"ammonia,3,", "ammonia,3,0.1,"},
	} {
		text := strings.Replace(straysCSV, change[0], change[1], 1)
		if _, err := readStrays(text); text == straysCSV || !errors.As(err, &wrong) || err.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestBetweenDays straight lines are taken, beyond them the nearest; each band between
// two arms is drawn by its own.
func TestBetweenDays(t *testing.T) {
	s := &strays{}
	for d, days := range StrayDays {
		for l := range StrayLevels {
			s[Oxygen][d][l] = float64(days) + 100*float64(l)
		}
	}
	for day, want := range map[int]float64{0: 1, 1: 2, 3: 4, 8: 9, 11: 12, 13: 14, 59: 14} {
		row := s.on(Oxygen, day)
		near(t, "first level", row[0], want, 1e-12)
		near(t, "last level", row[4], want+400, 1e-12)
	}
	arms, by := ByLevel{1, 2, 3, 4, 5}, ByLevel{1, 2, 0.5, 1, 3}
	for off, want := range map[float64]float64{0: 0, 0.5: 0.5, 1: 1, 1.5: 2, 2: 3, 3: 3.5, 4: 4.5, 4.5: 6, 5: 7.5, 7: 13.5} {
		near(t, "drawn", drawn(off, &arms, &by), want, 1e-12)
	}
	near(t, "spreads of 80 %", straySpreads()[eightInTen], 1.2815515655, 1e-9)
}

// TestOneDistribution: the chance to pass the end of an interval is what the interval
// leaves out there, and wider intervals lie about narrower ones.
func TestOneDistribution(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	_, a := outlookOf(t, past, readings)
	for f := range Figures {
		for _, day := range []int{0, 3, 13} {
			inner := Fan{math.Inf(1), 0, math.Inf(-1)}
			for _, level := range []quantity.Fraction{0.01, 0.2, 0.5, 0.8, 0.85, 0.9, 0.98, 0.99} {
				top, err := a.Fan(f, Highest, day, level)
				low, other := a.Fan(f, Lowest, day, level)
				above, third := a.Past(f, day, top.High, true)
				below, fourth := a.Past(f, day, low.Low, false)
				if err := errors.Join(err, other, third, fourth); err != nil {
					t.Fatal(err)
				}
				out := (1 - float64(level)) / 2
				near(t, "above", float64(above), out, 2.0/followed)
				if low.Low > 0 { // what no test tells from nothing is told as 0
					near(t, "below", float64(below), out, 2.0/followed)
				}
				if top.Low > inner.Low || top.High < inner.High {
					t.Errorf("figure %d, day %d: at %g %+v, at less %+v", f, day, level, top, inner)
				}
				inner = top
			}
		}
	}
}

// TestLearnStrays: of guesses that reach twice as far as what comes strays, each
// interval holds as often as it says once they are drawn as was learnt.
func TestLearnStrays(t *testing.T) {
	z := straySpreads()
	const loops = 4000
	list := make([]Stray, loops)
	for i := range list {
		list[i] = Stray{Off: chance.NormalQuantile(0.5 + (float64(i)+0.5)/loops/2), Heed: []float64{1, 0.5}[i%2]}
		for l := range z {
			list[i].Arms[l] = 2 * z[l]
		}
	}
	row := LearnStrays(list)
	for l, level := range StrayLevels {
		held := 0.0
		for _, s := range list {
			by := ByLevel{}
			for k := range by {
				by[k] = math.Pow(row[k], s.Heed)
			}
			if s.Off <= drawn(s.Arms[l], &s.Arms, &by) {
				held += 1.0 / loops
			}
		}
		near(t, "held", held, float64(level), 1.5/loops)
	}
	for i := range list {
		list[i].Heed = 1
	}
	for _, v := range LearnStrays(list) {
		near(t, "half", v, 0.5, 0.01)
	}
	for i := range list { // of each 40 two strayed beyond all
		if i%20 == 0 {
			list[i].Off = 1e9
		}
	}
	if row := LearnStrays(list); row[4] != 2 || row[2] > 0.7 {
		t.Errorf("beyond all guesses: %v", row)
	}
	for i := range list {
		list[i].Off = 0
	}
	if row := LearnStrays(list); row != (ByLevel{0.02, 0.02, 0.02, 0.02, 0.02}) {
		t.Errorf("nothing strayed: %v", row)
	}
}

// TestStrayed tells on which side what came lay by the arms, and how far.
func TestStrayed(t *testing.T) {
	past, readings, _ := lived(t, plain(), 28)
	_, a := outlookOf(t, past, readings)
	values := a.days[2][Nitrate].mean
	r := a.held[1][Nitrate]
	middle := quantile(values, 0.5)
	up, err := a.Strayed(Nitrate, Mean, 2, 1.5*middle)
	down, other := a.Strayed(Nitrate, Mean, 2, middle/1.5)
	if err := errors.Join(err, other); err != nil {
		t.Fatal(err)
	}
	near(t, "off", up.Off, math.Log(1.5)/r.stretch(), 1e-9)
	near(t, "off to the left", down.Off, math.Log(1.5)/r.stretch(), 1e-9)
	near(t, "heed", up.Heed, r.origins/(r.origins+4), 1e-12)
	open := 0.02 * 1.2815515655
	near(t, "arm", up.Arms[eightInTen], math.Hypot(math.Log(quantile(values, 0.9)/middle), open), 1e-9)
	near(t, "arm to the left", down.Arms[eightInTen], math.Hypot(math.Log(quantile(values, 0.1)/middle), open), 1e-9)
	if _, err := a.Strayed(Warmth, Mean, 99, 1); err == nil {
		t.Error("day 99 is told")
	}
	_, blind := outlookOf(t, past, nil)
	if s, err := blind.Strayed(Warmth, Mean, 1, 20); err != nil || s.Heed != 0 {
		t.Errorf("never read, and heeded %g: %v", s.Heed, err)
	}
}

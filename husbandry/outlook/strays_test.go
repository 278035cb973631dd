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
	again := WriteStrays(func(f Figure, days int) Straying { return known[f][slices.Index(StrayDays[:], days)] })
	if again != straysCSV {
		t.Errorf("written again it is\n%s", again)
	}
	var wrong *TableError
	for name, change := range map[string][2]string{
		"another head": {"lean,25", "lean,20"}, "another figure": {"nitrite,1,", "nitrate,1,"}, "another day": {"oxygen,10,", "oxygen,11,"},
		"a row too few": {"\nunionized,14,", ","}, "no number": {"ammonia,3,", "ammonia,3,much"}, "less than nothing": {"ammonia,3,", "ammonia,3,-"},
		"more than all": {"ammonia,3,0.", "ammonia,3,1."}, "endless": {"ammonia,3,", "ammonia,3,0.5,Inf,1,1,1,1\n"}, "a cell too many": {"ammonia,3,", "ammonia,3,0.1,"}, "a draw of nothing": {"ammonia,3,", "ammonia,3,0.5,0,1,1,1,1\n"},
	} {
		text := strings.Replace(straysCSV, change[0], change[1], 1)
		if _, err := readStrays(text); text == straysCSV || !errors.As(err, &wrong) || err.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestRowsOfStrays are written in four figures and read as they stand.
func TestRowsOfStrays(t *testing.T) {
	const near4 = 0.1234499999 // rounded to fewer bits first it were 0.1235
	text := WriteStrays(func(Figure, int) Straying { return Straying{near4, ByLevel{near4, 1, 2, 3, 1.0 / 3}} })
	if row := strings.Split(text, "\n")[1]; row != "warmth,1,0.1234,0.1234,1,2,3,0.3333" {
		t.Error(row)
	}
	var s Straying
	if !s.read([]string{"0.1", "0.1", "0.3", "0.7", "0.9", "1.1"}) || s != (Straying{0.1, ByLevel{0.1, 0.3, 0.7, 0.9, 1.1}}) {
		t.Errorf("%+v", s)
	}
}

// TestBetweenDays straight lines are taken, beyond them the nearest; each band between
// two arms is drawn by its own.
func TestBetweenDays(t *testing.T) {
	s := &strays{}
	for d, days := range StrayDays {
		for l := range StrayLevels {
			s[Oxygen][d].Draw[l] = float64(days) + 100*float64(l)
		}
		s[Oxygen][d].Lean = float64(days) / 20
	}
	for day, want := range map[int]float64{0: 1, 1: 2, 3: 4, 8: 9, 11: 12, 13: 14, 59: 14} {
		row := s.on(Oxygen, day)
		near(t, "lean", row.Lean, want/20, 1e-12)
		near(t, "first level", row.Draw[0], want, 1e-12)
		near(t, "last level", row.Draw[4], want+400, 1e-12)
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
		off := math.Copysign(chance.NormalQuantile(0.5+(float64(i)+0.5)/loops/2), float64(i%4)-1.5)
		list[i] = Stray{Off: off, Heed: []float64{1, 0.5}[i%2], Stretch: 1}
		for l := range z {
			list[i].Below[l], list[i].Above[l] = 2*z[l], 2*z[l]
		}
	}
	row := LearnStrays(list)
	for l, level := range StrayLevels {
		held := 0.0
		for _, s := range list {
			by := ByLevel{}
			for k := range by {
				by[k] = math.Pow(row.Draw[k], s.Heed)
			}
			if math.Abs(s.Off) <= drawn(s.Above[l], &s.Above, &by) {
				held += 1.0 / loops
			}
		}
		near(t, "held", held, float64(level), 1.5/loops)
	}
	near(t, "lean towards what is not known", row.Lean, 0, 0)
	for i := range list {
		list[i].Heed = 1
	}
	for _, v := range LearnStrays(list).Draw {
		near(t, "half", v, 0.5, 0.01)
	}
	for i := range list { // of each 40 two strayed beyond all
		if i%20 == 0 {
			list[i].Off = 1e9
		}
	}
	if row := LearnStrays(list).Draw; row[4] != 2 || row[2] > 0.7 {
		t.Errorf("beyond all guesses: %v", row)
	}
	for i := range list {
		list[i].Off = 1e9
	}
	if row := LearnStrays(list).Draw; row != (ByLevel{3, 3, 3, 3, 2}) {
		t.Errorf("all strayed beyond all: %v", row)
	}
	for i := range list {
		list[i].Off = 0
	}
	if row := LearnStrays(list).Draw; row != (ByLevel{0.02, 0.02, 0.02, 0.02, 0.02}) {
		t.Errorf("nothing strayed: %v", row)
	}
}

// TestLearnLean: where what comes lies half of the way from the guesses to how it was
// of late, guesses learn to go that far; what lies beyond or behind draws them no further.
func TestLearnLean(t *testing.T) {
	const loops = 1001
	list := make([]Stray, loops)
	for way, want := range map[float64]float64{0.5: 0.5, 1.5: 0.8, -0.4: 0} {
		for i := range list {
			late := math.Copysign(1+float64(i%7), float64(i%2)-0.5)
			noise := chance.NormalQuantile((float64(i*389%loops) + 0.5) / loops)
			list[i] = Stray{Off: way*late + 0.3*noise, Late: late, Share: 1, Heed: 1, Stretch: 1, Spread: 0.2}
			for l, z := range straySpreads() {
				list[i].Below[l], list[i].Above[l] = z, z
			}
		}
		near(t, "lean", LearnStrays(list).Lean, want, 0.01)
	}
	few := []Stray{{Off: 0.06, Late: 0.1, Share: 1}, {Off: 0.01, Late: 0.1, Share: 1}, {Off: 9, Share: 1}, {Off: -0.03, Late: -0.1, Share: 1}}
	near(t, "the middle of three", leanOf(few), 0.3, 1e-12)
	for i := range list {
		list[i].Off, list[i].Share = list[i].Late*0.3, 0.5
	}
	near(t, "lean where half a week is known", LearnStrays(list).Lean, 0.6, 1e-9)
	near(t, "leant and there", list[5].leant(0.6).off, 0, 1e-12)
	one := list[5]
	one.Off, one.Stretch = -3, 2
	one.Below = ByLevel{1, 2, 3, 4, 5}
	l := one.leant(0.5) // a quarter of the way, since half a week is known
	near(t, "off to the left", l.off, (3+one.Late/4)/2, 1e-12)
	near(t, "arm to the left", l.arms[2], 0.75*3+0.25*0.2*1.2815515655, 1e-9)
	near(t, "band", l.band(2), l.arms[2]-l.arms[1], 0)
}

// TestLeant: the middle and the ends go so much of the way to where the last days'
// own lie, and one end of what is told stays in order.
func TestLeant(t *testing.T) {
	values := make([]float64, 4001)
	for i := range values {
		values[i] = 20 + 2*chance.NormalQuantile((float64(i)+0.5)/4001)
	}
	d := spreadOut(Warmth, values, lately{26, 0.5, 0.5}, 0.8) // four tenths, since half a week is known
	d.by = ByLevel{1, 1, 1, 1, 1}
	near(t, "middle", d.middle, 20+0.4*6, 1e-9)
	z := 1.2815515655
	fan := d.fan(0.1)
	near(t, "low", fan.Low, 22.4-z*(0.6*math.Hypot(2, 0.1)+0.4*0.5), 2e-3)
	near(t, "high", fan.High, 22.4+z*(0.6*math.Hypot(2, 0.1)+0.4*0.5), 2e-3)
	as := spreadOut(Warmth, values, lately{}, 0.8)
	near(t, "nothing known of late", as.middle, 20, 1e-9)
}

// TestStrayed tells how far what came lay off, how far the guesses reach and what was
// of late.
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
	near(t, "off", up.Off, math.Log(1.5), 1e-9)
	near(t, "off to the left", down.Off, -math.Log(1.5), 1e-9)
	near(t, "heed", up.Heed, r.origins/(r.origins+4), 1e-12)
	near(t, "share", up.Share, up.Heed, 1e-12)
	near(t, "stretch", up.Stretch, r.stretch(), 1e-12)
	open := 0.02 * 1.2815515655
	near(t, "arm", up.Above[eightInTen], math.Hypot(math.Log(quantile(values, 0.9)/middle), open), 1e-9)
	near(t, "arm to the left", up.Below[eightInTen], math.Hypot(math.Log(quantile(values, 0.1)/middle), open), 1e-9)
	late := a.late[Nitrate][Mean]
	near(t, "of late", up.Late, late.middle-math.Log(middle), 1e-9)
	near(t, "spread of late", up.Spread, late.spread, 0)
	if _, err := a.Strayed(Warmth, Mean, 99, 1); err == nil {
		t.Error("day 99 is told")
	}
	_, blind := outlookOf(t, past, nil)
	if s, err := blind.Strayed(Warmth, Mean, 1, 20); err != nil || s.Heed != 0 || s.Share != 0 {
		t.Errorf("never read, and heeded %g: %v", s.Heed, err)
	}
}

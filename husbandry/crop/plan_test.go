package crop

import (
	"math"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestShrink(t *testing.T) {
	book := Figure{50, 70, NDSU}
	e, err := Shrink(book, nil)
	same(t, "nothing of one's own", e.Mean, err, 60)
	same(t, "its spread is root two of a quarter range", e.Spread, err, 6*math.Sqrt2) // a tenth of 60 is more than 5
	if e.Weight != 0 {
		t.Errorf("weight %v", e.Weight)
	}
	e, err = Shrink(book, []float64{80})
	same(t, "one of one's own halves it", e.Mean, err, 70)
	same(t, "weight", e.Weight, err, 0.5)
	e, err = Shrink(Figure{40, 80, NDSU}, []float64{80, 90, 85})
	same(t, "three", e.Mean, err, (60+80+90+85)/4.0)
	same(t, "spread", e.Spread, err, 10*math.Sqrt(1.25))
	same(t, "weight of three", e.Weight, err, 0.75)
	low, high := e.Within80()
	same(t, "low", low, nil, 78.75-12.815515655446004*math.Sqrt(1.25))
	same(t, "high", high, nil, 78.75+12.815515655446004*math.Sqrt(1.25))
}

func TestShrinkStaysBetween(t *testing.T) {
	r := seeded()
	for range someCases {
		book := Figure{between(r, 20, 60), 0, NDSU}
		book.High = book.Low + between(r, 0, 60)
		own, mean := make([]float64, 1+r.IntN(8)), 0.0
		for i := range own {
			own[i] = between(r, 20, 150)
			mean += own[i] / float64(len(own))
		}
		e, err := Shrink(book, own)
		if err != nil || e.Mean < math.Min(mean, book.Middle())-1e-9 || e.Mean > math.Max(mean, book.Middle())+1e-9 {
			t.Fatalf("%v and %v give %v, %v", book, own, e, err)
		}
	}
}

func TestBearingWindow(t *testing.T) {
	// Lettuce set out: 24 to 32 days, holds 7 to 21, 2.5 to 5 kg/m2.
	sown, _ := ParseDay("2026-05-01")
	w, err := BearingWindow(Planting{"lettuce", sown, true, 2}, nil, Clime{})
	if err != nil {
		t.Fatal(err)
	}
	if w.First != sown+28 || w.Last != sown+28+13 || w.Basis != "days" || w.OwnShare != 0 {
		t.Errorf("got %+v", w)
	}
	same(t, "a week's lettuce", w.PerWeek, nil, 3.75*2/2)
	spread := 2.8 * math.Sqrt2 * 1.2815515655446004
	if w.Early != sown+Day(math.Round(28-spread)) || w.Late != sown+Day(math.Round(28+spread)) {
		t.Errorf("begins between %s and %s", w.Early, w.Late)
	}
	own := []Past{{true, 40, 20}, {false, 99, 99}, {true, 40, 0}}
	w, err = BearingWindow(Planting{"lettuce", sown, true, 2}, own, Clime{})
	if err != nil || w.First != sown+36 || w.Last != w.First+16 || !(math.Abs(float64(w.OwnShare)-2.0/3) <= 1e-9) {
		t.Errorf("own plantings give %+v, %v", w, err)
	}
	seed, err := BearingWindow(Planting{"lettuce", sown, false, 1}, nil, Clime{})
	if err != nil || seed.First != sown+63 { // 40 to 85 days, half a day rounded up
		t.Errorf("from seed %+v, %v", seed, err)
	}
	if _, err := BearingWindow(Planting{"carrot", sown, true, 1}, nil, Clime{}); err == nil {
		t.Error("carrots are transplanted")
	}
	if _, err := BearingWindow(Planting{"lettuce", sown, true, 1}, []Past{{true, -3, 0}}, Clime{}); err == nil {
		t.Error("a harvest before the sowing is believed")
	}
	if _, err := BearingWindow(Planting{"lettuce", sown, true, 1}, []Past{{true, 30, -3}}, Clime{}); err == nil {
		t.Error("a harvest of less than no days is believed")
	}
}

func TestShortHarvest(t *testing.T) {
	// Corn is ripe for 5 to 10 days; own plantings of three days give a window under a week.
	own := []Past{{false, 85, 3}, {false, 85, 3}, {false, 85, 3}}
	w, err := BearingWindow(Planting{"sweet corn", 0, false, 10}, own, Clime{})
	if err != nil || (Span{w.First, w.Last}).Days() != 4 {
		t.Fatalf("got %+v, %v", w, err)
	}
	yield, _ := ExpectedYield("sweet corn")
	same(t, "all of it in its week", w.PerWeek, nil, yield.Middle()*10)
	same(t, "its own week", Supply([]Window{w}, "corn", w.First), nil, yield.Middle()*10)
	same(t, "two of its four days", Supply([]Window{w}, "corn", w.First+2), nil, yield.Middle()*5)
}

func TestWindowsNeverRunBackwards(t *testing.T) {
	p := Planting{"lettuce", 100, true, 1}
	for days, want := range map[float64]Day{-5: 100, 0: 100, 0.4: 100, 1.6: 102} {
		if got := p.after(days); got != want {
			t.Errorf("%v days after day 100 is day %d", days, got)
		}
	}
	own := make([]Past, 99)
	for i := range own {
		own[i] = Past{true, 28, 0.1}
	}
	if w, err := BearingWindow(p, own, Clime{}); err != nil || w.Last != w.First {
		t.Errorf("a harvest of hours: %+v, %v", w, err)
	}
}

func TestBearingWindowByHeat(t *testing.T) {
	need := DegreeDays[quantity.Fahrenheit]{1000, Rule[quantity.Fahrenheit]{Modified, 50, 86}}
	weather := make([]Temperatures[quantity.Fahrenheit], 120)
	for i := range weather {
		weather[i] = Temperatures[quantity.Fahrenheit]{80, 60}
	}
	w, err := BearingWindowByHeat(Planting{"sweet corn", 100, false, 5}, need, weather, nil)
	if err != nil || w.First != 150 || w.Early != 148 || w.Late != 153 || w.Basis != "degree days" || w.Last != 157 {
		t.Errorf("got %+v, %v", w, err)
	}
	if _, err := BearingWindowByHeat(Planting{"sweet corn", 100, false, 5}, need, weather[:40], nil); err == nil {
		t.Error("forty days are enough")
	}
	if _, err := BearingWindowByHeat(Planting{"triffid", 100, false, 5}, need, weather, nil); err == nil {
		t.Error("triffids bear")
	}
}

func window(crop string, first, last Day, perWeek quantity.Kilograms) Window {
	return Window{Planting: Planting{Crop: crop}, First: first, Last: last, PerWeek: perWeek}
}

func TestSupply(t *testing.T) {
	windows := []Window{window("lettuce", 10, 23, 2), window("tomato", 0, 100, 9), window("head lettuce", 17, 30, 1)}
	for from, want := range map[Day]float64{0: 0, 3: 0, 4: 2.0 / 7, 10: 2, 13: 2 + 3.0/7, 17: 3, 20: 4*2.0/7 + 1, 24: 1, 30: 1.0 / 7, 31: 0} {
		same(t, "supply", Supply(windows, "lettuce", from), nil, want)
	}
	if Supply(windows, "triffid", 10) != 0 || Supply([]Window{window("triffid", 0, 9, 1)}, "lettuce", 0) != 0 {
		t.Error("the triffid feeds someone")
	}
}

func TestGapsAndGluts(t *testing.T) {
	windows := []Window{window("lettuce", 14, 34, 1), window("lettuce", 28, 41, 1)}
	got, err := GapsAndGluts(windows, Want{Crop: "lettuce", PerWeek: 1}, Span{0, 51})
	if err != nil {
		t.Fatal(err)
	}
	want := []Stretch{{Span{0, 13}, Gap, 0, 1}, {Span{14, 27}, Enough, 1, 1}, {Span{28, 34}, Glut, 2, 1}, {Span{35, 41}, Enough, 1, 1}, {Span{42, 48}, Gap, 0, 1}}
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("got %v, want %v", got[i], want[i])
		}
	}
	for supply, want := range map[quantity.Kilograms]State{0: Gap, 0.749: Gap, 0.75: Enough, 1.5: Enough, 1.501: Glut} {
		if stateOf(supply, 1) != want {
			t.Errorf("%v of 1 is %s", supply, stateOf(supply, 1))
		}
	}
	mean, err := GapsAndGluts([]Window{window("lettuce", 0, 6, 0.8), window("lettuce", 7, 13, 1.2), window("lettuce", 14, 20, 1)}, Want{Crop: "lettuce", PerWeek: 1}, Span{0, 20})
	if err != nil || len(mean) != 1 || !(math.Abs(float64(mean[0].Supply)-1) <= 1e-9) || mean[0].Last != 20 {
		t.Errorf("got %v, %v", mean, err)
	}
}

// summer is a season in which everything may stand in the open.
var summer = Season{Today: 0, LastFrost: -30, FirstFrost: 200}

func TestSowThisWeek(t *testing.T) {
	wants := []Want{{Crop: "lettuce", PerWeek: 3.75, Transplant: true}}
	beds := []Bed{{Name: "north", Free: []quantity.SquareMetres{1}}, {Name: "south", Free: []quantity.SquareMetres{5}}}
	got, err := SowThisWeek(nil, wants, beds, summer)
	if err != nil || len(got) != 1 {
		t.Fatalf("got %v, %v", got, err)
	}
	// 1 m2 gives 3.75 kg over two weeks; 3.75 kg a week wants 2 m2, 45 plants.
	line := got[0]
	if line.Bed != "south" || !(math.Abs(float64(line.Area)-2) <= 1e-9) || line.Plants != 45 || line.First != 28 {
		t.Errorf("got %+v", line)
	}
	if line.Reason != "to pick from 29 Jan to 11 Feb; without it nothing of the 3.8 kg a week" {
		t.Errorf("because %q", line.Reason)
	}
	if beds[1].Free[0] != 5 || len(beds[1].Free) != 1 {
		t.Error("the beds of the caller were changed")
	}
}

func TestSowThisWeekLeavesWhatIsServed(t *testing.T) {
	wants := []Want{{Crop: "lettuce", PerWeek: 2, Transplant: true}}
	got, err := SowThisWeek([]Window{window("lettuce", 20, 60, 2)}, wants, []Bed{{Name: "a", Free: []quantity.SquareMetres{9}}}, summer)
	if err != nil || len(got) != 1 || got[0].Area != 0 || got[0].Reason != "served already: 2.0 kg a week from 29 Jan, and 2.0 kg is used" {
		t.Errorf("got %+v, %v", got, err)
	}
}

func TestSowThisWeekSharesRoom(t *testing.T) {
	wants := []Want{{Crop: "lettuce", PerWeek: 3.75, Transplant: true}, {Crop: "basil", PerWeek: 5, Transplant: true}}
	beds := []Bed{{Name: "a", Free: []quantity.SquareMetres{1.5}}, {Name: "b", Free: []quantity.SquareMetres{9, 9, 0.8, 9}}}
	got, err := SowThisWeek(nil, wants, beds, summer)
	if err != nil || len(got) != 4 {
		t.Fatalf("got %+v, %v", got, err)
	}
	if got[0].Bed != "a" || got[0].Area != 1.5 || got[1].Bed != "b" || !(math.Abs(float64(got[1].Area)-0.5) <= 1e-9) || got[1].Plants != 11 {
		t.Errorf("lettuce goes to %+v", got[:2])
	}
	if got[2].Bed != "b" || !(math.Abs(float64(got[2].Area)-0.3) <= 1e-9) {
		t.Errorf("basil goes to %+v", got[2])
	}
	if got[3].Area != 0 || !strings.HasPrefix(got[3].Reason, "no bed has room for another ") || strings.Contains(got[3].Reason, "frost") || got[3].First != got[2].First {
		t.Errorf("what finds no room: %+v", got[3])
	}
	total := quantity.SquareMetres(0)
	for _, line := range got {
		total += line.Area
	}
	same(t, "no more than there is", total, nil, 2.3)
}

func TestSowThisWeekLooksToTheEndOfTheHarvest(t *testing.T) {
	// Lettuce set out today is picked to day 41: six weeks, the last with 1.5 m2 free.
	bed := Bed{Name: "a", Free: []quantity.SquareMetres{9, 9, 9, 9, 9, 1.5, 0.5}}
	got, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: 10, Transplant: true}}, []Bed{bed}, summer)
	if err != nil || len(got) != 2 || got[0].Area != 1.5 {
		t.Errorf("got %+v, %v", got, err)
	}
}

func TestSowThisWeekMindsFrost(t *testing.T) {
	open, covered := Bed{Name: "open", Free: []quantity.SquareMetres{9}}, Bed{Name: "covered", Covered: true, Free: []quantity.SquareMetres{2}}
	sow := func(crop string, season Season, beds ...Bed) Sowing {
		t.Helper()
		got, err := SowThisWeek(nil, []Want{{Crop: crop, PerWeek: 0.2, Transplant: true}}, beds, season)
		if err != nil || len(got) == 0 {
			t.Fatalf("%s: %v, %v", crop, got, err)
		}
		return got[0]
	}
	for _, c := range []struct {
		crop                  string
		lastFrost, firstFrost Day
		bed                   string
	}{
		{"basil", -1, 100, "open"}, {"basil", 0, 100, "covered"}, {"basil", -1, 46, "open"}, {"basil", -1, 45, "covered"}, // first bears on day 39 (38.5)
		{"lettuce", 13, 100, "open"}, {"lettuce", 14, 100, "covered"}, {"lettuce", -1, 21, "open"}, {"lettuce", -1, 20, "covered"}, // first bears on day 28
		{"kale", 41, 100, "open"}, {"kale", 42, 100, "covered"}, {"kale", -1, 5, "open"}, {"kale", -1, 4, "covered"}, // first bears on day 40
		{"kale", 150, 300, "covered"}, {"kale", 81, 323, "open"}, {"kale", 82, 323, "covered"}, {"kale", 81, 322, "covered"}, // stands over the winter
	} {
		if got := sow(c.crop, Season{0, c.lastFrost, c.firstFrost}, covered, open); got.Bed != c.bed {
			t.Errorf("%s between %d and %d goes to %q: %s", c.crop, c.lastFrost, c.firstFrost, got.Bed, got.Reason)
		}
	}
	if got := sow("basil", Season{0, 20, 100}, open); got.Area != 0 || !strings.HasSuffix(got.Reason, "; in the open frost would reach it") {
		t.Errorf("basil in frost: %+v", got)
	}
}

func TestSowThisWeekRefuses(t *testing.T) {
	for crop, want := range map[string]string{
		"fig": "stands for years: plan it as a perennial, not week by week", "carrot": "no days to harvest are known for this way of planting"} {
		got, err := SowThisWeek(nil, []Want{{Crop: crop, PerWeek: 1, Transplant: true}}, nil, summer)
		if err != nil || len(got) != 1 || got[0].Reason != want || got[0].Crop != crop {
			t.Errorf("%s: %+v, %v", crop, got, err)
		}
	}
	got, err := SowThisWeek(nil, []Want{{Crop: "lettuce", PerWeek: 1, Transplant: true}}, []Bed{{Name: "none"}}, summer)
	if err != nil || len(got) != 1 || got[0].Area != 0 {
		t.Errorf("a bed of nothing: %+v, %v", got, err)
	}
	// A wanted area under a pot is not worth a line; room under a pot is none.
	tiny := Want{Crop: "lettuce", PerWeek: 0.05 * 3.75 / 2 * 0.99, Transplant: true}
	if got, err := SowThisWeek(nil, []Want{tiny}, []Bed{{Name: "a", Free: []quantity.SquareMetres{1}}}, summer); err != nil || len(got) != 1 || got[0].Reason != "what is missing would fill less than a pot" {
		t.Errorf("a crumb: %+v, %v", got, err)
	}
	tiny.PerWeek *= 1.02
	if got, err := SowThisWeek(nil, []Want{tiny}, []Bed{{Name: "a", Free: []quantity.SquareMetres{1}}}, summer); err != nil || len(got) != 1 || got[0].Area == 0 {
		t.Errorf("a pot: %+v, %v", got, err)
	}
}

// TestSowingsSayWhatThereIs: a supply that would be shown as 0.0 kg is nothing
// to eat.
func TestSowingsSayWhatThereIs(t *testing.T) {
	w := window("lettuce", 28, 41, 2)
	for supply, want := range map[quantity.Kilograms]string{0: "nothing", 0.0499: "nothing", 0.05: "only 0.1 kg", 1.26: "only 1.3 kg", 16777217: "only 16777217.0 kg"} {
		if got := needed(supply, 2, w); got != "to pick from 29 Jan to 11 Feb; without it "+want+" of the 2.0 kg a week" {
			t.Errorf("%v kg: %q", supply, got)
		}
	}
}

func TestBedsKeepTheirWeeks(t *testing.T) {
	b := Bed{Free: []quantity.SquareMetres{5, 3, 4}}
	for weeks, want := range map[int]quantity.SquareMetres{1: 5, 2: 3, 9: 3} {
		if b.free(weeks) != want {
			t.Errorf("free for %d weeks: %v", weeks, b.free(weeks))
		}
	}
	b.take(2, 2)
	if b.free(1) != 3 || b.free(2) != 1 || b.Free[2] != 4 {
		t.Errorf("after taking: %v", b.Free)
	}
	b.take(1, 5)
	if len(b.Free) != 6 || b.Free[4] != 3 || b.Free[5] != 4 || b.Free[0] != 2 {
		t.Errorf("after taking beyond the list: %v", b.Free)
	}
}

// TestSowingsCloseTheirGap sows and looks again: the week asked for is served.
func TestSowingsCloseTheirGap(t *testing.T) {
	r := seeded()
	names := []string{"lettuce", "basil", "cucumber", "chard", "kale", "bush bean", "pak choi"}
	for range someCases {
		want := Want{Crop: names[r.IntN(len(names))], PerWeek: quantity.Kilograms(between(r, 0.5, 5)), Transplant: true}
		beds := []Bed{{Name: "a", Free: []quantity.SquareMetres{500}}}
		list, err := SowThisWeek(nil, []Want{want}, beds, summer)
		if err != nil || len(list) != 1 {
			t.Fatalf("%v: %v, %v", want, list, err)
		}
		w, err := BearingWindow(Planting{want.Crop, summer.Today, true, list[0].Area}, nil, Clime{})
		if err != nil {
			t.Fatal(err)
		}
		same(t, want.Crop, Supply([]Window{w}, want.Crop, w.First), nil, float64(want.PerWeek))
		again, err := SowThisWeek([]Window{w}, []Want{want}, beds, summer)
		if err != nil || again[0].Area != 0 {
			t.Fatalf("%v is sown twice: %v, %v", want, again, err)
		}
	}
}

func TestPerennials(t *testing.T) {
	years, err := YearsToBearing("figs")
	if err != nil || years != (Figure{2, 4, Practice}) {
		t.Errorf("figs bear in %v, %v", years, err)
	}
	planted, _ := ParseDay("2026-03-01")
	first, last, err := FirstBearingYears("fig", planted)
	whole(t, "first year", first, err, 2028)
	whole(t, "last year", last, err, 2030)
	autumn, _ := ParseDay("2026-11-01")
	first, last, err = FirstBearingYears("banana", autumn)
	whole(t, "banana, first", first, err, 2027)
	whole(t, "banana, last", last, err, 2028)
	if _, err := YearsToBearing("lettuce"); err == nil {
		t.Error("lettuce takes years")
	}
	for age, want := range map[int]float64{0: 0, 2: 0, 3: 1.25, 4: 2.5, 20: 2.5} { // figs: 2 to 4 years, 0.5 to 2 kg/m2
		yield, err := PerennialYield("fig", age, 2)
		same(t, "figs of an age", yield, err, want)
	}
	// Days in a year: 365.25, seen at the turn of the year.
	newYear, _ := ParseDay("2027-01-01")
	if first, _, _ := FirstBearingYears("citrus", newYear-1); first != 2029 {
		t.Errorf("three years from New Year's Eve 2026 are in %d", first)
	}
}

func BenchmarkGapsAndGluts(b *testing.B) {
	windows := []Window{}
	for i := range 500 {
		windows = append(windows, window(Crops[i%len(Crops)].Name, Day(i), Day(i+20), 1))
	}
	for b.Loop() {
		_, _ = GapsAndGluts(windows, Want{Crop: "lettuce", PerWeek: 1}, Span{0, 363})
	}
}

package plan

import (
	"slices"
	"testing"

	"freshet.example/husbandry/crop"
)

// alone is one crop that a bed of half its need bears from the first week on.
func alone() Task {
	return Task{
		Weeks: 2, Rooms: []Room{{Name: "bed", Free: []float64{0.5, 0.5}}},
		Wants: []Want{{Crop: "kale", Needed: []bool{true, true}, Options: []Option{{Sow: 0, From: 0, To: 2, Area: 1}}}},
	}
}

// The first option, the first season and the first week count as any other.
func TestTheFirstOfAllIsTaken(t *testing.T) {
	m := mixed(alone())
	if parts := m.parts(); len(parts) != 1 || parts[0] != (sown{0, 0, parts[0].part}) {
		t.Errorf("%+v", parts)
	}
	near(t, "half of two weeks", m.bound, 1, 1e-6)
	roomy := alone()
	roomy.Rooms[0].Free = []float64{1, 1}
	near(t, "two weeks", mixed(roomy).bound, 2, 1e-6)
	c := newCover(m.t, m.t.Wants[0])
	c.solve(m.t, m.t.Wants[0], byWeek(m.t, m.t.Wants[0]), func(int) bool { return true })
	near(t, "weeks served", c.best[0], 2, 0)
	if picked := c.picked(m.t, m.t.Wants[0]); !slices.Equal(picked, []int{0}) {
		t.Error(picked)
	}
	if l := newLedger(m.t); !m.patch(l, 0) || m.patch(l, 0) || len(l.sown) != 1 || l.sown[0].part != 0.5 {
		t.Errorf("%+v", l.sown)
	}
}

// What bears all its use in less than the smallest area is sown whole; feed binds
// also what lives on little of it.
func TestWhatFits(t *testing.T) {
	task := alone()
	task.Least = 0.1
	l := newLedger(task)
	if part := l.fits(Option{To: 2, Area: 0.05}); part != 1 {
		t.Error(part)
	}
	if part := l.fits(Option{To: 2, Area: 1}); part != 0.5 {
		t.Error(part)
	}
	task.Rooms[0].Loop, task.Feed = true, []float64{0.1, 0.2}
	if part := newLedger(task).fits(Option{To: 2, Area: 1, FeedPer: 0.5}); part != 0.2 {
		t.Error(part)
	}
}

// A week stands before the frost if its Sunday does, and what stands is gone in
// the week of the frost unless that comes after its Sunday.
func TestStandsUntilTheFrost(t *testing.T) {
	monday := dayOf(t, "2026-03-02")
	tender := crop.Crop{Frost: crop.Tender}
	for last, want := range map[crop.Day]int{monday + 20: 3, monday + 19: 2, monday + 14: 2, monday + 13: 2, monday + 6: 1} {
		s := Season{Start: monday, Weeks: 9, Warm: []crop.Span{{First: monday, Last: last}}}
		if until, stands := s.standsUntil(tender, 0, 0, Bed{}); until != want || !stands {
			t.Errorf("until %d days from now: %d, %v, want %d", last-monday, until, stands, want)
		}
	}
	s := Season{Start: monday, Weeks: 9, Warm: []crop.Span{{First: monday, Last: monday + 5}}}
	if until, stands := s.standsUntil(tender, 0, 0, Bed{}); until != 0 || stands {
		t.Error(until, stands)
	}
	half := crop.Crop{Frost: crop.HalfHardy}
	if until, stands := s.standsUntil(half, 0, 0, Bed{}); until != 2 || !stands { // 5 + 14 days on
		t.Error(until, stands)
	}
	if _, stands := s.standsUntil(tender, 1, 1, Bed{}); stands {
		t.Error("it stands in the frost")
	}
}

// What is hardy is sown and bears up to six weeks from the frosts, and may stand
// over the winter between; where the winter is shorter than that it does both all
// year.
func TestHardyPlantsStandOverTheWinter(t *testing.T) {
	monday, hardy := dayOf(t, "2026-03-02"), crop.Crop{Frost: crop.Hardy}
	year := crop.Span{First: monday + 70, Last: monday + 210} // frosts until week 10, and from week 30
	next := crop.Span{First: monday + 70 + 364, Last: monday + 210 + 364}
	s := Season{Start: monday, Weeks: 104, Warm: []crop.Span{year, next}}
	for _, c := range []struct{ sown, from, until int }{
		{3, 20, 0}, {4, 20, 36}, {10, 35, 36}, {10, 36, 0}, {34, 40, 0}, {34, 56, 88}, {35, 57, 88}, {36, 60, 0}, {40, 60, 0}, {56, 60, 88},
	} {
		if until, stands := s.standsUntil(hardy, c.sown, c.from, Bed{}); stands != (c.until > 0) || stands && until != c.until {
			t.Errorf("sown in week %d, bearing from %d: until %d, %v, want %d", c.sown, c.from, until, stands, c.until)
		}
	}
	s.Warm[0].Last, s.Warm[1].First = monday+270, monday+355 // twelve weeks of frost
	if until, stands := s.standsUntil(hardy, 40, 50, Bed{}); until != 88 || !stands {
		t.Errorf("through a short winter: until %d, %v", until, stands)
	}
	s.Warm[1].First++
	if until, stands := s.standsUntil(hardy, 4, 40, Bed{}); until != 44 || !stands {
		t.Errorf("until a longer winter: %d, %v", until, stands)
	}
}

// Days are through on the day on which their sum is, and never after the plan.
func TestDaysAreThrough(t *testing.T) {
	if day, ok := reach([]float64{1, 0.5, 0.5, 1}, 1, 1); day != 3 || !ok {
		t.Error(day, ok)
	}
	if day, ok := reach([]float64{1, 0.5}, 1, 1); day != 0 || ok {
		t.Error(day, ok)
	}
	paces, err := Season{Weeks: 1}.paces(crop.Crop{}, false)
	if err != nil || !slices.Equal(paces, []float64{1, 1, 1, 1, 1, 1, 1}) {
		t.Error(paces, err)
	}
	o, first, ok := Season{Weeks: 1}.option(Habit{}, 9, 0, paces, Bed{})
	if ok || first != 0 || o != (Option{}) {
		t.Error(o, first, ok)
	}
}

// Days of one are days: none means that they are not known.
func TestWaysOfStarting(t *testing.T) {
	for _, c := range []struct{ sowing, transplant, tray float64 }{{0, 20, 0}, {1, 0, 1}, {1, 1, 0}, {30, 40, 0}, {60, 39, 21}} {
		if got := (Habit{FromSowing: c.sowing, FromTransplant: c.transplant}).raising(); got != c.tray {
			t.Errorf("%+v: %g days in the tray", c, got)
		}
	}
	for _, c := range []struct {
		h      Habit
		raised bool
		want   []start
	}{
		{Habit{FromTransplant: 1}, false, []start{{1, true, 0}}},
		{Habit{FromTransplant: 1, FromSowing: 1}, false, []start{{1, false, 0}}},
		{Habit{FromTransplant: 1, FromSowing: 9}, true, []start{{1, true, 2}}},
		{Habit{FromSowing: 1}, true, []start{{1, false, 0}}},
		{Habit{}, true, nil},
	} {
		if got := (Wanted{Habit: c.h, Raised: c.raised}).starts(); !slices.Equal(got, c.want) {
			t.Errorf("%+v: %v, want %v", c.h, got, c.want)
		}
	}
}

// A basis of two columns, worked by hand: the first is worth 3 for one of the
// first row, then 5; the second row has its slack.
func TestSimplexByHand(t *testing.T) {
	s := newSimplex([]float64{2, 4})
	if s.enter(column{value: 1}, 9) {
		t.Error("what takes nothing has no end")
	}
	if out := s.leaving([]float64{1, 2}); out != 1 {
		t.Errorf("of two used up at once %d, with the smaller step", out)
	}
	if !s.enter(column{value: 3, row: []int{0}, take: []float64{1}}, 0) {
		t.Fatal("not taken in")
	}
	near(t, "price", s.price[0], 3, 0)
	s.revalue(func(int) float64 { return 5 })
	near(t, "price of the first row", s.price[0], 5, 0)
	near(t, "price of the second row", s.price[1], 0, 0)
}

// A sowing lies as it says: from its Monday to the Sunday before it is gone, its
// tray a whole day before; what is left of more than a hundredth of a square
// metre is sown too.
func TestLinesAsTheyLie(t *testing.T) {
	monday := dayOf(t, "2026-03-02")
	w := Wanted{Habit: Habit{Crop: crop.Crop{Name: "kale"}, FromSowing: 21, FromTransplant: 20}}
	s := Season{Start: monday, Weeks: 4, Crops: []Wanted{w}, Beds: []Bed{{Free: []float64{1, 1, 1, 1}}}}
	task := tasked{
		Task:  Task{Weeks: 4, Wants: []Want{{Options: []Option{{Sow: 1, From: 2, To: 3, Area: 1}}}}},
		rooms: [][]int{{0}}, ways: [][]way{{{setOut: true, first: monday + 14}}},
	}
	lines := s.lines(task, []Chosen{{Part: 0.015}})
	if want := []Line{{Crop: "kale", Area: 0.015, On: monday + 7, SetOut: true, Tray: monday + 6, First: monday + 14, Last: monday + 20}}; !slices.Equal(lines, want) {
		t.Errorf("%+v, want %+v", lines, want)
	}
	if lines := s.lines(task, []Chosen{{Part: 0.01}}); lines != nil {
		t.Errorf("%+v", lines)
	}
}

// Two crops and two beds that hold all, half or a quarter of a crop's use: each
// crop gets one of the beds.
func TestLittleRoomIsShared(t *testing.T) {
	for _, part := range []float64{1, 0.5, 0.25} {
		task := Task{Weeks: 1, Rooms: []Room{{Name: "north", Free: []float64{part}}, {Name: "south", Free: []float64{part}}}}
		for range task.Rooms {
			task.Wants = append(task.Wants, Want{Needed: []bool{true}, Options: []Option{{Room: 0, To: 1, Area: 1}, {Room: 1, To: 1, Area: 1}}})
		}
		m := &mixture{t: task, prices: newPrices(task), bearing: [][][]int{byWeek(task, task.Wants[0]), byWeek(task, task.Wants[1])}}
		m.prices.add()
		l := newLedger(task)
		m.fill(l)
		if want := []sown{{0, 0, part}, {1, 1, part}}; !slices.Equal(l.sown, want) {
			t.Errorf("%+v, want %+v", l.sown, want)
		}
	}
}

package plan

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/quantity"
)

func dayOf(t testing.TB, text string) crop.Day {
	t.Helper()
	d, err := crop.ParseDay(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// household is twelve crops in twenty beds over a year: half of the beds under
// cover, four of five in loops, one of five a raft; warmth a sine over the year,
// milder under cover; frost from 20 October to 20 April.
func household(t testing.TB, area float64) Season {
	t.Helper()
	s := Season{Start: dayOf(t, "2026-03-02"), Weeks: 52}
	last, first := dayOf(t, "2026-04-20"), dayOf(t, "2026-10-20")
	s.Warm = []crop.Span{{First: last, Last: first}, {First: last + 365, Last: first + 365}}
	s.Climate.Latitude = 47.6
	for week := range s.Weeks {
		mean := 11 - 7*math.Cos(2*math.Pi*(float64(week)*7+40)/365)
		s.Climate.Open = append(s.Climate.Open, quantity.Celsius(mean))
		s.Climate.Covered = append(s.Climate.Covered, quantity.Celsius(mean*0.7+9))
	}
	for i := range 20 {
		b := Bed{Name: "bed", Covered: i%2 == 0, Loop: i%5 != 4, Water: i%5 == 1}
		for range s.Weeks {
			b.Free = append(b.Free, area)
		}
		s.Beds = append(s.Beds, b)
	}
	for _, use := range []struct {
		crop    string
		perWeek quantity.Kilograms
	}{{"lettuce", 1.2}, {"chard", 0.6}, {"kale", 0.5}, {"spinach", 0.5}, {"pak choi", 0.8}, {"basil", 0.2}, {"tomato", 2.5}, {"cucumber", 1.5},
		{"bush bean", 0.7}, {"carrot", 1}, {"beet", 0.6}, {"radish", 0.3}} {
		s.Crops = append(s.Crops, wanted(t, use.crop, use.perWeek))
	}
	return s
}

func wanted(t testing.TB, name string, perWeek quantity.Kilograms) Wanted {
	t.Helper()
	h, err := HabitOf(name)
	if err != nil {
		t.Fatal(err)
	}
	return Wanted{Habit: h, PerWeek: perWeek, Raised: true}
}

var planned = map[float64]Sowing{}

// plan is the household's, made once for all tests.
func plan(t *testing.T, area float64) Sowing {
	t.Helper()
	p, ok := planned[area]
	if !ok {
		p = sowed(t, household(t, area))
		planned[area] = p
	}
	return p
}

func sowed(t testing.TB, s Season) Sowing {
	t.Helper()
	p, err := Sow(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g within %g", what, got, want, within)
	}
}

// The bounds are the optima of the linear programs written out and solved by
// GLPK 5.0 (glpsol --lp).
func TestTheBoundIsTheOptimumOfTheLinearProgram(t *testing.T) {
	fed := household(t, 2)
	for range fed.Weeks {
		fed.Feed = append(fed.Feed, 700)
	}
	for _, c := range []struct {
		name  string
		p     Sowing
		bound float64
	}{{"small beds", plan(t, 0.8), 228.3968157}, {"usual beds", plan(t, 2), 307.2096322}, {"little feed", sowed(t, fed), 277.4379213}} {
		near(t, c.name, c.p.Bound, c.bound, 1e-4)
	}
}

func TestAPlanBeatsSowingEverySecondWeek(t *testing.T) {
	for _, area := range []float64{1.2, 2, 3} {
		p := plan(t, area)
		if 100*p.Gaps > 40*p.Practice.Gaps {
			t.Errorf("beds of %v m2: %d gaps, %d by practice", area, p.Gaps, p.Practice.Gaps)
		}
		if p.Served < 0.98*p.Bound || p.Served > p.Bound+1e-9 {
			t.Errorf("beds of %v m2: %v weeks served, at most %v can be", area, p.Served, p.Bound)
		}
		if p.Practice.Served > p.Bound {
			t.Errorf("beds of %v m2: practice serves %v, at most %v can be", area, p.Practice.Served, p.Bound)
		}
	}
}

// The figures that this very plan has: a changed rule of the search shows here.
func TestThePlanOfTheHousehold(t *testing.T) {
	p := plan(t, 2)
	near(t, "weeks served", p.Served, 305.7, 0.05)
	near(t, "weeks served by practice", p.Practice.Served, 176.43, 0.05)
	if p.Wanted != 341 || p.Practice.Gaps != 215 || p.Practice.Sowings != 117 {
		t.Errorf("wanted %d; by practice %d gaps and %d sowings", p.Wanted, p.Practice.Gaps, p.Practice.Sowings)
	}
	again := sowed(t, household(t, 2))
	if len(again.Lines) != len(p.Lines) || again.Served != p.Served {
		t.Error("the same season gave another plan")
	}
}

func TestNothingStandsWhereThereIsNoRoom(t *testing.T) {
	s := household(t, 1.2)
	for i := range s.Beds { // a third of the beds is taken at first
		for week := range 10 * (i % 3) {
			s.Beds[i].Free[week] = 0.3
		}
	}
	for range s.Weeks {
		s.Feed = append(s.Feed, 500)
	}
	p := sowed(t, s)
	if len(p.Lines) < 50 {
		t.Fatalf("%d sowings", len(p.Lines))
	}
	taken, fed := make([][]float64, len(s.Beds)), make([]float64, s.Weeks)
	for i := range taken {
		taken[i] = make([]float64, s.Weeks)
	}
	for _, l := range p.Lines {
		ratio, _ := crop.FeedRatio(l.Crop)
		for week := int(l.On-s.Start) / 7; week < s.Weeks && s.Start+crop.Day(7*week) <= l.Last; week++ {
			taken[l.Bed][week] += l.Area
			if s.Beds[l.Bed].Loop {
				fed[week] += l.Area * ratio.Middle()
			}
		}
	}
	for i, b := range s.Beds {
		for week := range s.Weeks {
			if taken[i][week] > b.Free[week]+1e-6 {
				t.Fatalf("bed %d holds %v m2 in week %d, has %v", i, taken[i][week], week, b.Free[week])
			}
		}
	}
	for week := range fed {
		if fed[week] > 500+1e-6 {
			t.Errorf("what stands in week %d lives on %v g a day", week, fed[week])
		}
	}
}

func TestWhatIsSownCanGrowThere(t *testing.T) {
	s := household(t, 2)
	for _, l := range plan(t, 2).Lines {
		c, _ := crop.Find(l.Crop)
		bed := s.Beds[l.Bed]
		if bed.Water && c.Kind == crop.Root {
			t.Errorf("%s on a raft", l.Crop)
		}
		if l.SetOut && l.Tray < s.Start {
			t.Errorf("%s is set out on %v from seed of %v, before the plan begins", l.Crop, l.On, l.Tray)
		}
		extra := c.Frost.Grace()
		within := func(first, last crop.Day) bool {
			return slices.ContainsFunc(s.Warm, func(w crop.Span) bool { return first >= w.First-extra && last <= w.Last+extra })
		}
		if !bed.Covered && !within(l.On, l.Last) && (c.Frost != crop.Hardy || !within(l.On, l.On) || !within(l.First, l.Last)) {
			t.Errorf("%s stands open from %v to %v, bearing from %v", l.Crop, l.On, l.Last, l.First)
		}
		if l.First <= l.On || l.Last < l.First || l.Area < 0.01 {
			t.Errorf("%+v", l)
		}
	}
}

func TestInsectsAreMissedUnderCover(t *testing.T) {
	s := household(t, 5)
	s.Crops = []Wanted{wanted(t, "cucumber", 1), wanted(t, "summer squash", 1)}
	for i := range s.Beds {
		s.Beds[i].Covered = true
	}
	p := sowed(t, s)
	if len(p.Cautions) == 0 || !strings.Contains(strings.Join(p.Cautions, " "), "insects") {
		t.Errorf("cautions %q", p.Cautions)
	}
	for i := range s.Crops {
		s.Crops[i].ByHand = true
	}
	if p := sowed(t, s); len(p.Cautions) != 0 {
		t.Errorf("pollinated by hand, and yet %q", p.Cautions)
	}
}

func TestWhatStandsAlreadyIsCounted(t *testing.T) {
	s := household(t, 3)
	s.Crops = s.Crops[:1]
	none := sowed(t, s)
	s.Crops[0].Borne = make([]float64, s.Weeks)
	for week := range 20 {
		s.Crops[0].Borne[week] = 0.75
	}
	s.Crops[0].Borne[20] = 0.74
	p := sowed(t, s)
	if p.Wanted >= none.Wanted || p.Shares[0][3] != 0.75 || !p.Reachable[0][0] {
		t.Errorf("wanted %d and %d, share %v", p.Wanted, none.Wanted, p.Shares[0][3])
	}
	if first := none.Wanted - p.Wanted; first != 10 { // seedlings sown today bear from the eleventh week
		t.Errorf("%d weeks fewer are wanted", first)
	}
}

func TestNothingWantedNothingSown(t *testing.T) {
	s := household(t, 2)
	s.Crops = nil
	if p := sowed(t, s); len(p.Lines) != 0 || p.Bound != 0 {
		t.Errorf("%+v", p)
	}
	s = household(t, 2)
	s.Beds = nil
	if p := sowed(t, s); len(p.Lines) != 0 || p.Wanted != 0 {
		t.Errorf("without beds %+v", p)
	}
}

func TestAHabitIsTheCropTables(t *testing.T) {
	h, err := HabitOf("kale") // 50 to 65 days from seed, 30 to 50 from setting out, 45 to 120 bearing, 2 to 4 kg/m2
	if err != nil || h.FromSowing != 57.5 || h.FromTransplant != 40 || h.Bearing != 82.5 || h.PerM2 != 3 || h.raising() != 17.5 {
		t.Errorf("%+v, %v", h, err)
	}
	if _, err := HabitOf("dragon"); err == nil {
		t.Error("a crop that is not in the table was found")
	}
}

func TestATaskThatCannotBeIsRefused(t *testing.T) {
	usual := func() Task {
		return Task{Weeks: 2, Least: 0.1, Feed: []float64{1, 1}, Rooms: []Room{{Name: "bed", Free: []float64{1, 1}}},
			Wants: []Want{{Crop: "kale", Needed: []bool{true, true}, Options: []Option{{Sow: 0, From: 1, To: 2, Area: 1}}}}}
	}
	if p, err := Lay(usual()); err != nil || p.Served != 1 || len(p.Sowings) != 1 {
		t.Fatalf("%+v, %v", p, err)
	}
	for name, spoil := range map[string]func(*Task){
		"no weeks": func(t *Task) { t.Weeks = 0 }, "too many weeks": func(t *Task) { t.Weeks = 261 },
		"short list": func(t *Task) { t.Rooms[0].Free = t.Rooms[0].Free[:1] }, "negative room": func(t *Task) { t.Rooms[0].Free[0] = -1 },
		"short feed": func(t *Task) { t.Feed = t.Feed[:1] }, "least": func(t *Task) { t.Least = math.NaN() },
		"needs": func(t *Task) { t.Wants[0].Needed = nil }, "no such room": func(t *Task) { t.Wants[0].Options[0].Room = 1 },
		"sown too late": func(t *Task) { t.Wants[0].Options[0].Sow = 2 }, "bears before sown": func(t *Task) { t.Wants[0].Options[0].From = -1 },
		"never bears": func(t *Task) { t.Wants[0].Options[0].To = 1 }, "no area": func(t *Task) { t.Wants[0].Options[0].Area = 0 },
		"feed": func(t *Task) { t.Wants[0].Options[0].FeedPer = math.Inf(1) },
	} {
		task := usual()
		spoil(&task)
		var out *quantity.RangeError
		if _, err := Lay(task); !errors.As(err, &out) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// bestOf tries every set of whole sowings.
func bestOf(t Task) float64 {
	var all []sown
	for i, w := range t.Wants {
		for j := range w.Options {
			all = append(all, sown{i, j, 1})
		}
	}
	most := 0.0
	for set := range 1 << len(all) {
		l := newLedger(t)
		fits := true
		for i, x := range all {
			if set>>i&1 == 1 {
				fits = fits && l.fits(t.Wants[x.want].Options[x.option]) == 1
				l.sow(x)
			}
		}
		if fits {
			most = max(most, l.served())
		}
	}
	return most
}

func TestSmallTasksAgainstEverySetOfSowings(t *testing.T) {
	lots := noise(4)
	for range 60 {
		task := Task{Weeks: 8, Least: 0.05}
		for range 2 {
			r := Room{Name: "bed"}
			for range task.Weeks {
				r.Free = append(r.Free, 1+float64(lots.below(3)))
			}
			task.Rooms = append(task.Rooms, r)
		}
		for range 3 {
			w := Want{Crop: "crop", Needed: make([]bool, task.Weeks)}
			for week := range w.Needed {
				w.Needed[week] = lots.below(4) > 0
			}
			for range 4 {
				sow := lots.below(6)
				from := sow + 1 + lots.below(2)
				w.Options = append(w.Options, Option{Room: lots.below(2), Sow: sow, From: from, To: from + 1 + lots.below(3), Area: 0.5 + float64(lots.below(4))/2})
			}
			task.Wants = append(task.Wants, w)
		}
		best := bestOf(task)
		p, err := Lay(task)
		if err != nil {
			t.Fatal(err)
		}
		if p.Bound < best-1e-6 || p.Served > p.Bound+1e-9 {
			t.Errorf("bound %v, plan %v, every set of whole sowings %v", p.Bound, p.Served, best)
		}
		if p.Served < best-0.25 {
			t.Errorf("plan %v (bound %v), every set of whole sowings %v", p.Served, p.Bound, best)
		}
	}
}

// BenchmarkSow is 12 crops in 20 beds over 52 weeks, in small beds, usual ones and
// wide ones: beside the time, gaps of 100 of those by practice, and weeks served of
// 100 that any plan could serve.
func BenchmarkSow(b *testing.B) {
	for _, area := range []float64{1.2, 2, 3} {
		b.Run(fmt.Sprintf("%gm2", area), func(b *testing.B) {
			var p Sowing
			for b.Loop() {
				p = sowed(b, household(b, area))
			}
			b.ReportMetric(100*float64(p.Gaps)/float64(p.Practice.Gaps), "gaps/100")
			b.ReportMetric(100*p.Served/p.Bound, "served/100")
		})
	}
}

package plan

import (
	"math"

	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/quantity"
)

// A Season is what a sowing plan is made from.
type Season struct {
	Start   crop.Day    // a Monday: the first day of week 0
	Weeks   int         // 1 to 260
	Warm    []crop.Span // between last and first frost, in order; nil where no frost is known
	Climate Climate
	Beds    []Bed
	Crops   []Wanted
	Feed    []float64 // g a day by week for what stands in loops; nil where it binds nothing
}

// A Bed is room for planting.
type Bed struct {
	Name    string
	Covered bool      // frost does not reach it
	Loop    bool      // stands in water that fish feed
	Water   bool      // a raft or channel: nothing can swell under the surface
	Free    []float64 // m2 that nothing stands on, by week
}

// A Wanted crop is one that the household uses week after week.
type Wanted struct {
	Habit
	PerWeek quantity.Kilograms
	Raised  bool      // the grower raises seedlings of it elsewhere and sets them out
	ByHand  bool      // someone sets its fruit by hand
	Borne   []float64 // part of the use that what stands already bears, by week
}

// enough is the part of its use from which a crop bears enough in a week; with
// less the week is a gap (as in crop.GapsAndGluts; common practice, no source).
const enough = 0.75

// A Habit is how a crop behaves here: the crop table's figures, or the
// grower's own.
type Habit struct {
	Crop           crop.Crop
	FromSowing     float64 // days of the table to the first harvest, 0 where not known
	FromTransplant float64 // the same from setting out
	Bearing        float64 // days that the harvest lasts
	PerM2          float64 // kg over the whole bearing
}

// HabitOf reads a crop's habit from the crop table. A crop that is not in the
// table, or without yield, is a NotListedError.
func HabitOf(name string) (Habit, error) {
	c, err := crop.Find(name)
	if err != nil {
		return Habit{}, err
	}
	yield, err := crop.ExpectedYield(name)
	if err != nil {
		return Habit{}, err
	}
	return Habit{c, c.FromSowing.Middle(), c.FromTransplant.Middle(), c.Bearing.Middle(), yield.Middle()}, nil
}

// tasked is a task with what its rooms and options stand for.
type tasked struct {
	Task
	rooms [][]int // beds of each room
	ways  [][]way // of each want, beside its options
}

// way is how an option is started.
type way struct {
	setOut bool
	first  crop.Day // of harvest
}

// task turns a season into rooms and options.
func (s Season) task() (tasked, error) {
	t := tasked{Task: Task{Weeks: s.Weeks, Feed: s.Feed, Least: least}}
	t.rooms, t.Rooms = s.group()
	for _, w := range s.Crops {
		want := Want{Crop: w.Crop.Name, Needed: make([]bool, s.Weeks)}
		for week := range want.Needed {
			want.Needed[week] = week >= len(w.Borne) || w.Borne[week] < enough
		}
		var ways []way
		for room, beds := range t.rooms {
			options, started, err := s.options(w, room, s.Beds[beds[0]])
			if err != nil {
				return t, err
			}
			want.Options, ways = append(want.Options, options...), append(ways, started...)
		}
		t.Wants, t.ways = append(t.Wants, want), append(t.ways, ways)
	}
	return t, t.check()
}

// least is the smallest area worth a sowing, m2: a single pot.
const least = 0.05

// group puts beds that are alike into rooms.
func (s Season) group() (rooms [][]int, list []Room) {
	type likeness struct{ covered, loop, water bool }
	found := map[likeness]int{}
	for i, b := range s.Beds {
		is := likeness{b.Covered, b.Loop, b.Water}
		r, ok := found[is]
		if !ok {
			r = len(list)
			found[is] = r
			list, rooms = append(list, Room{Name: b.Name, Loop: b.Loop, Free: make([]float64, s.Weeks)}), append(rooms, nil)
		}
		rooms[r] = append(rooms[r], i)
		for week := range list[r].Free {
			list[r].Free[week] += b.Free[week]
		}
	}
	return rooms, list
}

// options are all ways of growing a crop in a room: one for each week and way
// of starting in which it comes to bear.
func (s Season) options(w Wanted, room int, like Bed) (list []Option, ways []way, err error) {
	if like.Water && (w.Crop.Kind == crop.Root || w.Crop.Kind == crop.Bulb) || w.Crop.Kind == crop.PerennialFruit {
		return nil, nil, nil
	}
	feed, err := crop.FeedRatio(w.Crop.Name)
	if err != nil {
		return nil, nil, err
	}
	paces, err := s.paces(w.Crop, like.Covered)
	if err != nil {
		return nil, nil, err
	}
	for _, start := range w.starts() {
		for week := start.ready; week < s.Weeks; week++ {
			o, first, ok := s.option(w.Habit, start.days, week, paces, like)
			if !ok {
				continue
			}
			o.Room, o.FeedPer = room, feed.Middle()
			o.Area *= float64(w.PerWeek)
			list, ways = append(list, o), append(ways, way{start.setOut, first})
		}
	}
	return list, ways, nil
}

// start is a way of starting a crop: its days to the first harvest, and the
// first week in which that can be.
type start struct {
	days   float64
	setOut bool
	ready  int
}

// raising is the days from sowing seedlings to setting them out; 0 where it is
// not known.
func (h Habit) raising() float64 {
	if h.FromSowing == 0 {
		return 0
	}
	return max(0, h.FromSowing-h.FromTransplant)
}

// starts are the ways in which the grower starts the crop: by seedlings where
// she raises them, for they stand shorter in the bed; those sown today are
// ready some weeks from now.
func (w Wanted) starts() []start {
	switch {
	case w.FromTransplant > 0 && (w.Raised || w.FromSowing == 0):
		return []start{{w.FromTransplant, true, int(math.Ceil(w.raising() / 7))}}
	case w.FromSowing > 0:
		return []start{{w.FromSowing, false, 0}}
	}
	return nil
}

// option is one sowing: it stands from its week, bears whole weeks from the
// first that begins after its days are through, and ends with its bearing or
// with the frost. Its area is for a kilogram a week.
func (s Season) option(h Habit, days float64, week int, paces []float64, like Bed) (Option, crop.Day, bool) {
	at, ok := reach(paces, 7*week, days)
	from := (at + 6) / 7
	end, stands := s.standsUntil(h.Crop, week, from, like)
	if !ok || !stands {
		return Option{}, 0, false
	}
	lasting := max(1, int(math.Round(h.Bearing/7)))
	to := from + lasting
	if end < s.Weeks {
		to = min(to, end)
	}
	o := Option{Sow: week, From: from, To: to, Area: float64(lasting) / h.PerM2}
	return o, s.Start + crop.Day(7*from), to > from && from < s.Weeks
}

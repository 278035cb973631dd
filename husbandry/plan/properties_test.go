package plan

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"freshet.example/husbandry/crop"
)

// thousand calls for a thousand random cases, the same each time.
func thousand(each func(r *rand.Rand)) {
	r := rand.New(rand.NewPCG(17, 1000)) // #nosec G404 -- the same case each time
	for range 1000 {
		each(r)
	}
}

// anyTask is a small task of anything that may be.
func anyTask(r *rand.Rand) Task {
	t := Task{Weeks: 2 + r.IntN(6), Least: 0.05 * float64(r.IntN(3))}
	weekly := func(most float64) (list []float64) {
		for range t.Weeks {
			list = append(list, most*r.Float64())
		}
		return list
	}
	for range 1 + r.IntN(2) {
		t.Rooms = append(t.Rooms, Room{Name: "room", Loop: r.IntN(2) == 0, Free: weekly(3)})
	}
	if r.IntN(2) == 0 {
		t.Feed = weekly(100)
	}
	for range 1 + r.IntN(3) {
		w := Want{Crop: "crop", Needed: make([]bool, t.Weeks)}
		for week := range w.Needed {
			w.Needed[week] = r.IntN(4) > 0
		}
		for range r.IntN(5) {
			sow := r.IntN(t.Weeks)
			from := sow + r.IntN(3)
			w.Options = append(w.Options, Option{Room: r.IntN(len(t.Rooms)), Sow: sow, From: from, To: from + 1 + r.IntN(4), Area: 0.2 + 2*r.Float64(), FeedPer: 60 * r.Float64()})
		}
		t.Wants = append(t.Wants, w)
	}
	return t
}

func laid(t *testing.T, task Task) Plan {
	t.Helper()
	p, err := Lay(task)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestNoPlanTakesMoreThanThereIs: of no room and of no feed, in any week; what it serves is
// what its sowings bear, counted anew, and never more than its bound or than is wanted.
func TestNoPlanTakesMoreThanThereIs(t *testing.T) {
	thousand(func(r *rand.Rand) {
		task := anyTask(r)
		p := laid(t, task)
		bears, served, wanted := make([][]float64, len(task.Wants)), 0.0, 0.0
		for i := range bears {
			bears[i] = make([]float64, task.Weeks)
		}
		for week := range task.Weeks {
			stands, feeds := make([]float64, len(task.Rooms)), 0.0
			for _, c := range p.Sowings {
				o := task.Wants[c.Want].Options[c.Option]
				if !(c.Part > 0) {
					t.Fatalf("%+v of %+v", c, task)
				}
				if week >= o.Sow && week < o.To {
					stands[o.Room] += c.Part * o.Area
					if task.Rooms[o.Room].Loop {
						feeds += c.Part * o.Area * o.FeedPer
					}
				}
				if week >= o.From && week < o.To {
					bears[c.Want][week] += c.Part
				}
			}
			for i, v := range stands {
				if v > task.Rooms[i].Free[week]+1e-9 {
					t.Fatalf("%g m2 stand in week %d where %g are free: %+v", v, week, task.Rooms[i].Free[week], task)
				}
			}
			if task.Feed != nil && feeds > task.Feed[week]+1e-9 {
				t.Fatalf("%g g feed what lives on %g: %+v", task.Feed[week], feeds, task)
			}
		}
		for i, w := range task.Wants {
			for week, needed := range w.Needed {
				if needed {
					wanted, served = wanted+1, served+math.Min(1, bears[i][week])
				}
				if math.Abs(p.Shares[i][week]-bears[i][week]) > 1e-9 {
					t.Fatalf("want %d bears %g in week %d and %g by its sowings", i, p.Shares[i][week], week, bears[i][week])
				}
			}
		}
		if math.Abs(served-p.Served) > 1e-9 || p.Served > p.Bound+1e-9 || p.Bound > wanted+1e-6 {
			t.Fatalf("%g weeks served, %g counted anew, at most %g of %g: %+v", p.Served, served, p.Bound, wanted, task)
		}
	})
}

// TestTheBoundKnowsNoOrder of crops, ways and beds: it is the most that can be had, so
// that it stands as well for beds and areas measured in another unit; and it never falls
// where there is more room.
func TestTheBoundKnowsNoOrder(t *testing.T) {
	thousand(func(r *rand.Rand) {
		task := anyTask(r)
		bound := laid(t, task).Bound
		turned := task
		turned.Wants = slices.Clone(task.Wants)
		slices.Reverse(turned.Wants)
		for i := range turned.Wants {
			turned.Wants[i].Options = slices.Clone(turned.Wants[i].Options)
			r.Shuffle(len(turned.Wants[i].Options), func(a, b int) {
				o := turned.Wants[i].Options
				o[a], o[b] = o[b], o[a]
			})
		}
		if got := laid(t, turned).Bound; math.Abs(got-bound) > 1e-5 {
			t.Fatalf("in another order at most %g, not %g: %+v", got, bound, task)
		}
		const feet, more = 10.7639, 1.3
		if got := laid(t, resized(task, feet, feet)).Bound; math.Abs(got-bound) > 1e-5 {
			t.Fatalf("in another unit at most %g, not %g: %+v", got, bound, task)
		}
		if got := laid(t, resized(task, more, 1)).Bound; got < bound-1e-5 {
			t.Fatalf("with more room at most %g, before %g: %+v", got, bound, task)
		}
	})
}

// resized is a task with rooms larger by one factor, and what stands in them by another.
func resized(t Task, room, stands float64) Task {
	t.Rooms, t.Wants = slices.Clone(t.Rooms), slices.Clone(t.Wants)
	t.Least *= stands
	for i := range t.Rooms {
		t.Rooms[i].Free = slices.Clone(t.Rooms[i].Free)
		for week := range t.Rooms[i].Free {
			t.Rooms[i].Free[week] *= room
		}
	}
	for i := range t.Wants {
		t.Wants[i].Options = slices.Clone(t.Wants[i].Options)
		for j := range t.Wants[i].Options {
			t.Wants[i].Options[j].Area *= stands
			t.Wants[i].Options[j].FeedPer /= stands
		}
	}
	return t
}

// TestLongerTakesLater: more days are through no sooner, and a faster pace no later; and
// what stands in frost stands no longer for being sown later.
func TestLongerTakesLater(t *testing.T) {
	thousand(func(r *rand.Rand) {
		slow, fast := make([]float64, 80), make([]float64, 80)
		for i := range slow {
			slow[i] = r.Float64()
			fast[i] = slow[i] + (1-slow[i])*r.Float64()
		}
		from, days := r.IntN(40), 20*r.Float64()
		at, ok := reach(slow, from, days)
		sooner, other := reach(fast, from, days)
		later, third := reach(slow, from, days+5*r.Float64())
		if ok && (!other || sooner > at || at <= from) || third && (!ok || later < at) {
			t.Fatalf("%g days from %d: through on %d %v, faster %d %v, more %d %v", days, from, at, ok, sooner, other, later, third)
		}
		s := Season{Weeks: 60, Warm: []crop.Span{{First: crop.Day(r.IntN(100)), Last: crop.Day(150 + r.IntN(200))}}}
		kind := crop.Crop{Frost: []crop.Hardiness{crop.Tender, crop.HalfHardy, crop.Hardy}[r.IntN(3)]}
		week := r.IntN(40)
		bears := week + r.IntN(20)
		until, stands := s.standsUntil(kind, week, bears, Bed{})
		covered, under := s.standsUntil(kind, week, bears, Bed{Covered: true})
		next, still := s.standsUntil(kind, week+1, bears+1, Bed{})
		if stands && until <= bears || !under || covered < until || stands && still && next != until {
			t.Fatalf("in week %d until %d %v, under cover %d %v, a week later %d %v", week, until, stands, covered, under, next, still)
		}
	})
}

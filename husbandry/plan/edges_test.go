package plan

import (
	"math"
	"testing"
)

// edge is one amount of a task, with the lowest and the highest that are taken.
type edge struct {
	name      string
	low, high float64
	set       func(*Task, float64)
}

var edges = []edge{
	{"smallest sowing", 0, 1e6, func(t *Task, v float64) { t.Least = v }},
	{"free area", 0, 1e9, func(t *Task, v float64) { t.Rooms[0].Free[1] = v }},
	{"feed", 0, 1e9, func(t *Task, v float64) { t.Feed[1] = v }},
	{"area", 1e-9, 1e9, func(t *Task, v float64) { t.Wants[0].Options[0].Area = v }},
	{"feed a square metre lives on", 0, 1e6, func(t *Task, v float64) { t.Wants[0].Options[0].FeedPer = v }},
}

// small is one crop in one bed for two weeks.
func small() Task {
	return Task{
		Weeks: 2, Least: 0.1, Feed: []float64{1, 1}, Rooms: []Room{{Name: "bed", Free: []float64{1, 1}}},
		Wants: []Want{{Crop: "kale", Needed: []bool{true, true}, Options: []Option{{Sow: 0, From: 1, To: 2, Area: 1}}}},
	}
}

func TestEdgesOfATask(t *testing.T) {
	for _, e := range edges {
		for v, ok := range map[float64]bool{
			e.low: true, e.high: true, math.Nextafter(e.low, math.Inf(-1)): false, math.Nextafter(e.high, math.Inf(1)): false,
		} {
			task := small()
			e.set(&task, v)
			if err := task.check(); (err == nil) != ok {
				t.Errorf("%s of %g: %v", e.name, v, err)
			}
		}
	}
}

// As many weeks and crops as are taken, and one more; the first and the last
// week and room of an option.
func TestCountsOfATask(t *testing.T) {
	long := func(weeks, wants int) Task {
		task := Task{Weeks: weeks}
		for range wants {
			task.Wants = append(task.Wants, Want{Needed: make([]bool, weeks)})
		}
		return task
	}
	for _, c := range []struct {
		weeks, wants int
		ok           bool
	}{{1, 0, true}, {260, 1, true}, {1, 1000, true}, {0, 0, false}, {261, 0, false}, {1, 1001, false}} {
		if err := long(c.weeks, c.wants).check(); (err == nil) != c.ok {
			t.Errorf("%d weeks of %d crops: %v", c.weeks, c.wants, err)
		}
	}
	for o, ok := range map[Option]bool{
		{Room: 0, Sow: 0, From: 0, To: 1}: true, {Room: 1, Sow: 1, From: 1, To: 2}: true, {Room: 0, Sow: 0, From: 1000, To: 1001}: true,
		{Room: -1, Sow: 0, From: 0, To: 1}: false, {Room: 2, Sow: 0, From: 0, To: 1}: false, {Room: 0, Sow: -1, From: 0, To: 1}: false,
		{Room: 0, Sow: 2, From: 2, To: 3}: false, {Room: 0, Sow: 1, From: 0, To: 1}: false, {Room: 0, Sow: 0, From: 1, To: 1}: false,
	} {
		task := small()
		task.Rooms = append(task.Rooms, task.Rooms[0])
		o.Area = 1
		task.Wants[0].Options[0] = o
		if err := task.check(); (err == nil) != ok {
			t.Errorf("%+v: %v", o, err)
		}
	}
}

// SplitMix64's first numbers, as its authors' C code gives them; from memory.
func TestNoiseIsSplitMix(t *testing.T) {
	for seed, first := range map[noise][]uint64{
		0:       {0xe220a8397b1dcdaf},
		1234567: {6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821},
	} {
		n := seed
		for _, want := range first {
			if got := n.next(); got != want {
				t.Errorf("from %d %d, want %d", seed, got, want)
			}
		}
	}
}

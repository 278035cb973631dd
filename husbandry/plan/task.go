package plan

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Task is a season to be planned, week by week from 0.
type Task struct {
	Weeks int       // 1 to 260
	Rooms []Room    // groups of beds that are alike
	Feed  []float64 // g of fish feed a day by week, on which what stands in loops lives; nil where it binds nothing
	Wants []Want
	Least float64 // smallest area worth a sowing, m2
}

// A Room is a group of beds that are alike: what may stand in one may stand in
// all of them, and bears there in the same weeks.
type Room struct {
	Name string
	Loop bool      // stands in water that fish feed
	Free []float64 // m2 that nothing stands on, by week
}

// A Want is one crop that is to bear week after week.
type Want struct {
	Crop    string
	Needed  []bool // by week: wanted, and not borne by what stands already
	Options []Option
}

// An Option is one way of bearing for some weeks: a sowing, or a setting out,
// in one week in one room. Its area is what bears the whole use of a week in
// each week from From up to, not including, To; half the area bears half.
type Option struct {
	Room    int
	Sow     int     // the first week that it stands
	From    int     // the first week that it bears
	To      int     // the week after the last; it is then cleared away
	Area    float64 // m2
	FeedPer float64 // g of feed a day that a square metre lives on
}

// gone is the first week in which its place is free again.
func (o Option) gone(weeks int) int { return min(o.To, weeks) }

// check refuses a task that cannot be planned.
func (t Task) check() error {
	if err := quantity.Within("weeks", float64(t.Weeks), 1, 260, "", quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("smallest sowing", t.Least, 0, 1e6, "m2", quantity.OwnBounds); err != nil {
		return err
	}
	if err := quantity.Within("number of wanted crops", float64(len(t.Wants)), 0, 1000, "", quantity.OwnBounds); err != nil {
		return err
	}
	for _, r := range t.Rooms {
		if err := t.weekly("free area of "+r.Name, r.Free); err != nil {
			return err
		}
	}
	if t.Feed != nil {
		if err := t.weekly("feed a day", t.Feed); err != nil {
			return err
		}
	}
	for _, w := range t.Wants {
		if err := t.checkWant(w); err != nil {
			return err
		}
	}
	return nil
}

// weekly refuses a list that has not one amount, 0 or more, for each week.
func (t Task) weekly(name string, amounts []float64) error {
	weeks := float64(t.Weeks)
	if err := quantity.Within("weeks of "+name, float64(len(amounts)), weeks, weeks, "", "by definition: one a week"); err != nil {
		return err
	}
	for _, a := range amounts {
		if err := quantity.Within(name, a, 0, 1e9, "", quantity.OwnBounds); err != nil {
			return err
		}
	}
	return nil
}

func (t Task) checkWant(w Want) error {
	weeks := float64(t.Weeks)
	if err := quantity.Within("weeks in which "+w.Crop+" is needed", float64(len(w.Needed)), weeks, weeks, "", "by definition: one a week"); err != nil {
		return err
	}
	for _, o := range w.Options {
		for _, v := range []struct {
			name      string
			value     float64
			low, high float64
		}{
			{"room", float64(o.Room), 0, float64(len(t.Rooms) - 1)},
			{"week of sowing", float64(o.Sow), 0, weeks - 1},
			{"first week of bearing", float64(o.From), float64(o.Sow), math.MaxInt32},
			{"week after bearing", float64(o.To), float64(o.From + 1), math.MaxInt32},
			{"area of an option", o.Area, 1e-9, 1e9},
			{"feed a square metre lives on", o.FeedPer, 0, 1e6},
		} {
			if err := quantity.Within(v.name+" of "+w.Crop, v.value, v.low, v.high, "", quantity.OwnBounds); err != nil {
				return err
			}
		}
	}
	return nil
}

// reachable tells the weeks in which some option bears.
func (t Task) reachable(w Want) []bool {
	can := make([]bool, t.Weeks)
	for _, o := range w.Options {
		for week := o.From; week < o.gone(t.Weeks); week++ {
			can[week] = true
		}
	}
	return can
}

package signs

import (
	"testing"

	"freshet.example/husbandry/quantity"
)

func TestWeakFilter(t *testing.T) {
	const ammonia = quantity.TotalAmmonia
	days := []int{28 * Day, 6 * Day, 5 * Day, 12, 0}
	for _, c := range []struct {
		name   string
		fresh  int // hours since the last test
		ago    []int
		values []float64
		was    float64 // 0 for no sign
	}{
		{"twice and a quarter", 0, days, []float64{0.2, 0.2, 0.2, 0.2, 0.45}, 0.2},
		{"not twice", 0, days, []float64{0.3, 0.3, 0.3, 0.3, 0.59}, 0},
		{"three days ago", 3 * Day, days, []float64{0.2, 0.2, 0.2, 0.2, 0.45}, 0.2},
		{"longer ago", 3*Day + 1, days, []float64{0.2, 0.2, 0.2, 0.2, 0.45}, 0},
		{"eleven hours before", 0, []int{28 * Day, 6 * Day, 5 * Day, 11, 0}, []float64{0.2, 0.2, 0.2, 0.2, 0.45}, 0},
		{"more than four weeks before", 0, []int{28*Day + 1, 6 * Day, 5 * Day, 12, 0}, []float64{0.2, 0.2, 0.2, 0.2, 0.45}, 0},
		{"next to nothing before", 0, days, []float64{0.01, 0.01, 0.01, 0.01, 0.29}, 0.05},
		{"still little", 0, days, []float64{0.01, 0.01, 0.01, 0.01, 0.24}, 0},
	} {
		r := flat(40 * Day)
		for i := range c.ago {
			r.tested(ammonia, []int{c.ago[i] + c.fresh}, c.values[i])
		}
		var want []Sign
		if at := r.now() - c.fresh; c.was > 0 {
			want = []Sign{{Kind: WeakFilter, Quantity: ammonia, Hand: true, Since: at, Until: at, Is: c.values[4], Was: c.was, Count: 4}}
		}
		same(t, c.name, weakFilter(r), want...)
	}
	if got := (Test{Value: 4, Below: true}).told(); got != 2 {
		t.Errorf("less than 4 is told as %v", got)
	}
}

func TestHungerless(t *testing.T) {
	ago := func(last int) []int { return []int{9*Day + last, 6*Day + last, 3*Day + last, last} }
	notes := func(last int, values ...float64) *Record {
		return flat(14*Day).tested(quantity.Appetite, ago(last), values...)
	}
	sign := func(last int, was float64) Sign {
		at := 14*Day - 1 - last
		return Sign{Kind: Hungerless, Quantity: quantity.Appetite, Hand: true, Since: at, Until: at, Is: 1, Was: was, Count: 1}
	}
	same(t, "slow, where it was usual", hungerless(notes(0, 2, 3, 1, 1)), sign(0, 2))
	same(t, "slow, where it was better", hungerless(notes(0, 2, 3, 3, 1)), sign(0, 3))
	same(t, "four days ago", hungerless(notes(4*Day, 2, 3, 2, 1)), sign(4*Day, 2))
	same(t, "longer ago", hungerless(notes(4*Day+1, 2, 3, 2, 1)))
	same(t, "two notes before", hungerless(flat(14*Day).tested(quantity.Appetite, []int{9, 5, 0}, 3, 3, 1)))
	cold := notes(0, 2, 3, 2, 1).says(warmth, func(h int) float64 {
		if h < 10*Day+12 {
			return 25
		}
		return 20
	})
	same(t, "in water that cooled since the first note", hungerless(cold))
}

func TestCooled(t *testing.T) {
	colder := func(of float64) *Record {
		return flat(10*Day).says(warmth, func(h int) float64 {
			if h < 8*Day {
				return 25
			}
			return of
		})
	}
	for _, c := range []struct {
		name  string
		r     *Record
		since int
		want  bool
	}{
		{"two and a half degrees for two days", colder(22.5), 0, true},
		{"one and a quarter", colder(23.75), 0, false},
		{"one test now", flat(10*Day).tested(warmth, []int{239, 0}, 25, 20), 0, true},
		{"one test since", flat(10*Day).tested(warmth, []int{40, 5}, 15, 19), 10*Day - 20, true},
		{"no test now", flat(10*Day).tested(warmth, []int{239}, 25), 0, false},
	} {
		if got := c.r.cooled(c.since); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// heated is water that its heater kept at 25 degC, a quarter of the hours of two
// weeks at 24.9, up to twelve hours ago; before and since, what is told.
func heated(before, since float64, last ...float64) *Record {
	const hours = 30 * Day
	return flat(hours).says(warmth, func(h int) float64 {
		ago := hours - 1 - h
		switch {
		case ago < len(last):
			return last[len(last)-1-ago]
		case ago <= 12:
			return since
		case ago <= 12+14*Day/4:
			return 24.9
		case ago <= 12+14*Day:
			return 25
		}
		return before
	})
}

func TestCooling(t *testing.T) {
	now := 30*Day - 1
	kept := 24.9 + 0.1*0.75 // where a quarter of 336 hours lie below, by straight lines
	cools := func(since int, is float64) Sign {
		return Sign{Kind: Cooling, Quantity: warmth, Since: since, Until: now, Is: is, Was: kept, Count: now - since + 1}
	}
	for _, before := range []float64{20, 30} {
		same(t, "two hours", cooling(heated(before, 25, 24.7, 24.6)), cools(now-1, 24.6))
		same(t, "since four hours", cooling(heated(before, 25, 24.9, 24.8, 24.8, 24.7, 24.6)), cools(now-3, 24.6))
	}
	same(t, "rising again", cooling(heated(20, 25, 24.4, 24.6)))
	same(t, "not yet two tenths", cooling(heated(20, 25, 24.8, 24.79)))
	warm := heated(20, 25, 24.7, 24.6)
	warm.says(quantity.AirTemperature, func(int) float64 { return nan })
	warm.Probe[quantity.AirTemperature][now-2] = 26
	same(t, "in air that is warmer", cooling(warm))
	known := func(hours int) *Record {
		r := heated(20, 25, 24.7, 24.6)
		for h := 0; h < now-12-hours; h++ {
			r.Probe[warmth][h] = nan
		}
		return r
	}
	if len(cooling(known(7*Day))) != 1 || len(cooling(known(7*Day-1))) != 0 {
		t.Error("half of the two weeks must be known, and no more")
	}
}

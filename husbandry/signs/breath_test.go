package signs

import (
	"math"
	"testing"
)

// Oxygen that water holds at 0, 35 and 40 degC: Standard Methods 4500-O, table.
// Fish breathe twofold at ten degrees more (Boyd).
func TestTermsOfTheBalance(t *testing.T) {
	r := flat(1)
	r.Hours[0] = Hour{Fish: 3, Sun: 0.5}
	for celsius, want := range map[float64][2]float64{-3: {14.621, 3 * math.Exp2(-2.8)}, 35: {6.949, 6}, 40: {6.412, 3 * math.Exp2(1.5)}, 45: {6.412, 12}} {
		terms := r.breathes(0, celsius)
		if len(terms) != 4 || terms[0] != 1 || terms[3] != 0.5 {
			t.Fatalf("%v", terms)
		}
		near(t, "oxygen that water holds", terms[1], want[0], 0.006)
		near(t, "breathing", terms[2], want[1], 1e-9)
	}
}

// A week of hours is learnt from, not an hour less; the balance is then met.
func TestLearningTheBalance(t *testing.T) {
	r := lively(t, 8*Day, func(int) float64 { return 0 })
	b := r.balance(0, 7*Day)
	if b == nil || r.balance(0, 7*Day-1) != nil {
		t.Fatal("a week is enough, and less is not")
	}
	for _, off := range b.off {
		near(t, "off", off, 0, 1e-9)
	}
	for _, q := range []func(*Record){func(r *Record) { delete(r.Probe, warmth) }, func(r *Record) { delete(r.Probe, oxygen) }} {
		r := lively(t, 8*Day, func(int) float64 { return 0 })
		if q(r); r.balance(0, 7*Day) != nil {
			t.Error("a balance without a probe")
		}
	}
}

func TestStillPump(t *testing.T) {
	const hours = 40 * Day
	now := hours - 1
	// Learnt from are the three weeks up to twelve hours ago; before, and since,
	// anything may have been.
	odd := func(h int) float64 {
		switch {
		case h < now-12-21*Day:
			return 3 * float64(h%2)
		case h >= now-12 && h < now-5:
			return -1
		}
		return 0
	}
	falling := func(by ...float64) *Record {
		return lively(t, hours, func(h int) float64 {
			if i := h - (hours - len(by)); i >= 0 {
				return by[i]
			}
			return odd(h)
		})
	}
	sign := func(r *Record, since int, by float64) Sign {
		is := r.Probe[oxygen][now]
		return Sign{Kind: StillPump, Quantity: oxygen, Since: since, Until: now, Is: is, Was: is - by, Count: now - since + 1}
	}
	r := falling(-3.1)
	same(t, "within the hour", stillPump(r), sign(r, now, -3.1))
	r = falling(-2.3, -2.5, -4.2)
	same(t, "by and by", stillPump(r), sign(r, now-2, -4.2))
	r = falling(-1.3, -2.5, -4.2)
	same(t, "half of it", stillPump(r), sign(r, now-1, -4.2))
	r = falling(nan, nan, nan, nan, 0, -3.2)
	r.Probe[oxygen][now-5] = nan
	same(t, "one hour before", stillPump(r), sign(r, now, -3.2))

	// The least that counts, where the air's own weather does not move it.
	still := func(by float64) *Record {
		r := lively(t, hours, func(h int) float64 {
			if h == now {
				return by
			}
			return 0
		})
		r.Hours[now], r.Probe[warmth][now] = Hour{Fish: 40}, 28
		r.Probe[oxygen][now] = lowest(r) + by
		return r
	}
	if r := still(-0.31); len(stillPump(r)) != 1 {
		t.Error("three tenths of a mg/L are let pass")
	}
	if r := still(-0.29); len(stillPump(r)) != 0 {
		t.Error("less than three tenths of a mg/L are a sign")
	}
}

// lowest is what the balance of lively says of its last hour.
func lowest(r *Record) float64 {
	terms := r.breathes(r.now(), r.Probe[warmth][r.now()])
	return terms[1] - 0.01*terms[2] + 0.4*terms[3]
}

// By hand: steps of 1, 3 and 10 have the median 3, and lie 2 off it in the middle.
func TestRestless(t *testing.T) {
	r2 := math.Sqrt2
	near(t, "restless", restless([]float64{0, r2, 4 * r2, nan, 14 * r2}, 0, 5), 1.4826*2, 1e-12)
	for _, c := range []struct {
		series []float64
		falls  bool
	}{{[]float64{2, nan, 1}, true}, {[]float64{3, 1, 2}, false}, {[]float64{3, 2, 1}, true}, {[]float64{5, nan, nan, nan, 1}, false}, {[]float64{1}, false}} {
		if got := falls(c.series, len(c.series)-1); got != c.falls {
			t.Errorf("%v falls: %v", c.series, got)
		}
	}
}

func TestDaysThatSpeak(t *testing.T) {
	spoke := func(hours int) []float64 {
		day := make([]float64, Day)
		for h := range day {
			day[h] = nan
			if h < hours {
				day[h] = float64(h)
			}
		}
		return day
	}
	if got := daily(append(spoke(11), spoke(12)...), 0, 2); len(got) != 1 || got[0] != 5.5 {
		t.Errorf("%v", got)
	}
}

func TestFoul(t *testing.T) {
	const hours = 50 * Day
	// Days before the last fourteen lie 0.0675 mg/L above and below the balance,
	// which is a spread of 0.1; before the four weeks learnt from, anything.
	days := func(usual float64, last ...float64) *Record {
		return lively(t, hours, func(h int) float64 {
			day := 49 - h/Day // ago
			switch {
			case day < len(last):
				return last[len(last)-1-day]
			case day >= 42:
				return 2 * float64(h%2)
			case day >= 14:
				return usual * float64(day%3-1)
			}
			return 0
		})
	}
	for _, c := range []struct {
		name  string
		usual float64
		last  []float64
		count int // of days that it shows for, 0 for no sign
	}{
		{"a fifth of a mg/L less", 0, []float64{-0.21, -0.21, -0.21}, 3},
		{"a little less than that", 0, []float64{-0.19, -0.19, -0.19}, 0},
		{"half a mg/L more", 0, []float64{0.5, 0.5, 0.5}, 3},
		{"three tenths more", 0, []float64{0.3, 0.3, 0.3}, 0},
		{"beyond what is usual", 0.0675, []float64{-0.28, -0.28, -0.28}, 3},
		{"within what is usual", 0.0675, []float64{-0.22, -0.22, -0.22}, 0},
	} {
		r := days(c.usual, c.last...)
		got := foul(r)
		if c.count == 0 {
			same(t, c.name, got)
			continue
		}
		if len(got) != 1 {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		g := got[0]
		if g.Since != hours-c.count*Day || g.Until != hours-1 || g.Count != 14 {
			t.Errorf("%s: %+v", c.name, g)
		}
		near(t, c.name, g.Is-g.Was, c.last[0], 0.02)
		near(t, "what is read", g.Is, middleOf(r.Probe[oxygen][hours-3*Day:]), 1e-12)
	}
}

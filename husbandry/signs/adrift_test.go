package signs

import (
	"testing"

	"freshet.example/husbandry/quantity"
)

// apart is a probe that lies so far off a test of 0 each day.
func apart(q quantity.Quantity, off ...float64) *Record {
	r := flat(len(off) * Day)
	r.says(q, func(h int) float64 { return off[h/Day] })
	return r.tested(q, steadily((len(off)-1)*Day, -Day, len(off)), make([]float64, len(off))...)
}

func TestAdrift(t *testing.T) {
	const conductivity = quantity.Conductivity
	for q, worth := range map[quantity.Quantity]float64{warmth: 0.8, ph: 0.2, oxygen: 0.6, conductivity: 60} {
		same(t, q.Title()+" as far off as matters", adrift(apart(q, 0, 0, 0, worth, worth, worth)),
			Sign{Kind: Adrift, Quantity: q, Since: 4*Day - 1, Until: 6*Day - 1, Is: worth, Count: 6})
		same(t, q.Title()+" less far off", adrift(apart(q, 0, 0, 0, 0.99*worth, 0.99*worth, 0.99*worth)))
	}
	same(t, "five tests", adrift(apart(ph, 0, 0, 0.5, 0.5, 0.5)))
	same(t, "lower", adrift(apart(ph, 0, 0, 0, -0.3, -0.3, -0.3)), Sign{Kind: Adrift, Quantity: ph, Since: 4*Day - 1, Until: 6*Day - 1, Is: -0.3, Count: 6})
	same(t, "half of the tests are the usual", adrift(apart(conductivity, 0, 60, 60, 120, 120, 120)),
		Sign{Kind: Adrift, Quantity: conductivity, Since: 4*Day - 1, Until: 6*Day - 1, Is: 120, Was: 60, Count: 6})
	same(t, "since later than the second half", adrift(apart(ph, 0, 0, 0, 0, 0, 0.4, 0.4, 0.4)),
		Sign{Kind: Adrift, Quantity: ph, Since: 6*Day - 1, Until: 8*Day - 1, Is: 0.4, Count: 8})
	same(t, "tests that spread as far", adrift(apart(conductivity, -25, 0, 25, 60, 60, 60)))
}

// Tests of a fortnight ago still tell, older ones do not.
func TestAdriftOfLate(t *testing.T) {
	for quiet, signs := range map[int]int{14 * Day: 1, 14*Day + 1: 0} {
		r := apart(ph, 0, 0, 0, 0.4, 0.4, 0.4)
		r.Hours = append(r.Hours, make([]Hour, quiet)...)
		if list := adrift(r); len(list) != signs {
			t.Errorf("%d hours after the last test: %+v", quiet, list)
		}
	}
}

func TestProbesBesideTests(t *testing.T) {
	r := flat(9).says(ph, func(h int) float64 { return float64(h * h) })
	r.Tests[ph] = []Test{{Hour: 0, Value: 1}, {Hour: 4, Value: 2, Below: true}, {Hour: 5, Value: 3}}
	check := func(hours []int, off []float64, want map[int]float64) {
		t.Helper()
		if len(hours) != len(want) {
			t.Errorf("%v, want %v", hours, want)
		}
		for i, h := range hours {
			near(t, "off", off[i], want[h], 1e-12)
		}
	}
	beside := func() (hours []int, off []float64) { return r.beside(ph) }
	hours, off := beside()
	check(hours, off, map[int]float64{0: 0.5 - 1, 5: 25 - 3}) // hours 0 and 1; hours 4, 5 and 6
	r.Hours[1].Calibrated = true
	hours, off = beside()
	check(hours, off, map[int]float64{5: 25 - 3})
	r.Probe[ph][4], r.Probe[ph][5] = nan, nan
	hours, off = beside()
	check(hours, off, map[int]float64{5: 36 - 3})
	delete(r.Probe, ph)
	hours, off = beside()
	check(hours, off, nil)
}

func TestPlaceAfterTheLastSumOfNothing(t *testing.T) {
	for _, c := range []struct {
		sums []float64
		want int
	}{{[]float64{1, 2, 3}, 0}, {[]float64{0, 1, 2}, 1}, {[]float64{0, 2, 1}, 1}, {[]float64{1, 0, 3}, 2}, {[]float64{0, 0, 0}, 2}, {[]float64{1, 2, 0}, 2}} {
		if got := lastNone(c.sums); got != c.want {
			t.Errorf("%v: %d, want %d", c.sums, got, c.want)
		}
	}
}

// By hand: with half a death added to the record, the chance of two deaths and
// more in three days of 42 is 0.0007, of 23 0.0027; of one 0.038, of 90 0.017.
func TestDying(t *testing.T) {
	for _, c := range []struct {
		name  string
		days  int
		one   Death
		signs int
	}{
		{"two in six weeks", 42, Death{Count: 2}, 1},
		{"two in three weeks", 23, Death{Count: 2}, 0},
		{"one sentinel in six weeks", 42, Death{Count: 1, Sentinel: true}, 0},
		{"one sentinel in three months", 90, Death{Count: 1, Sentinel: true}, 1},
		{"one of the others in three months", 90, Death{Count: 1}, 0},
		{"many after a week", 10, Death{Count: 20}, 1},
	} {
		r := flat(c.days * Day)
		c.one.Hour, c.one.Cohort = r.now()-5, 4
		r.Deaths = []Death{c.one}
		var want []Sign
		if c.signs > 0 {
			want = []Sign{{Kind: Dying, Since: c.one.Hour, Until: c.one.Hour, Is: float64(c.one.Count), Was: 0.5 * 3 / float64(c.days-3), Count: c.one.Count, Cohort: 4}}
		}
		same(t, c.name, dying(r), want...)
	}
	r := flat(10*Day - 1)
	r.Deaths = []Death{{Hour: r.now(), Count: 20}}
	same(t, "many before a week is known", dying(r))
}

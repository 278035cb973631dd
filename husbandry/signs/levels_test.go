package signs

import (
	"testing"

	"freshet.example/husbandry/quantity"
)

// By hand (Mann 1945): four tests that fall stand in such order by chance 0.089
// of times, five 0.027; eight with five pairs that rise 0.035.
func TestSlides(t *testing.T) {
	const alkalinity = quantity.Alkalinity
	weekly := func(values ...float64) []Sign {
		return slides(flat(30*Day).tested(alkalinity, steadily(7*Day*(len(values)-1), -7*Day, len(values)), values...))
	}
	at := 30*Day - 1
	slid := func(since int, is, was float64, n int) Sign {
		return Sign{Kind: Sliding, Quantity: alkalinity, Hand: true, Since: since, Until: at, Is: is, Was: was, Count: n}
	}
	same(t, "four tests", weekly(100, 90, 70, 50))
	same(t, "five tests", slides(flat(30*Day).tested(alkalinity, []int{14 * Day, 10 * Day, 6 * Day, 3 * Day, 0}, 100, 90, 80, 70, 50)), slid(at-14*Day, 50, 100, 5))
	same(t, "within less than a fortnight", slides(flat(30*Day).tested(alkalinity, []int{14*Day - 1, 10 * Day, 6 * Day, 3 * Day, 0}, 100, 90, 80, 70, 50)))
	every := []int{21 * Day, 18 * Day, 15 * Day, 12 * Day, 9 * Day, 6 * Day, 3 * Day, 0}
	same(t, "quarters of two", slides(flat(30*Day).tested(alkalinity, every, 100, 90, 85, 80, 75, 70, 60, 40)), slid(at-21*Day, 50, 95, 8))
	same(t, "as low once before", slides(flat(30*Day).tested(alkalinity, every, 100, 60, 90, 80, 75, 70, 61, 40)))
}

func TestDaysRead(t *testing.T) {
	r := flat(3*Day).says(ph, func(h int) float64 { return float64(h / Day) })
	check := func(what string, from int, want ...float64) {
		t.Helper()
		hours, values := r.daysRead(ph, from)
		if len(hours) != len(want)/2 || len(values) != len(hours) {
			t.Fatalf("%s: %v %v", what, hours, values)
		}
		for i := range hours {
			near(t, what, hours[i], want[2*i], 0)
			near(t, what, values[i], want[2*i+1], 1e-12)
		}
	}
	check("days", 0, 12, 0, 36, 1, 60, 2)
	check("from before the record", -9, 12, 0, 27, 15/24.0, 51, 1+15/24.0)
	for h := range Day {
		r.Probe[ph][h] = nan
	}
	check("a day that is silent", 0, 36, 1, 60, 2)
	r.Tests[ph] = []Test{{Hour: 5, Value: 6}, {Hour: 5, Value: 7}, {Hour: 9, Value: 8, Below: true}, {Hour: 50, Value: 9}, {Hour: 70, Value: 10}}
	check("one day by a probe", 2*Day, 60, 2)
	delete(r.Probe, ph)
	check("tests", 0, 5, 6, 50, 9, 70, 10)
}

// levelled are three weeks of days by a probe: so many at one level, the rest at
// another, each day a little above or below.
func levelled(q quantity.Quantity, before int, level, change, less float64) *Record {
	return flat(21*Day).says(q, func(h int) float64 {
		v := level + less*float64(h/Day%2)
		if h/Day >= before {
			v += change
		}
		return v
	})
}

func TestShifts(t *testing.T) {
	const conductivity = quantity.Conductivity
	shifted := func(q quantity.Quantity, last int, is, was float64) Sign {
		return Sign{Kind: Shifted, Quantity: q, Since: last * Day, Until: 20*Day + 12, Is: is, Was: was, Count: 21 - last}
	}
	// F is 3.88 times the square of change over half of what days differ by: 62.
	same(t, "pH", shifts(levelled(ph, 15, 7, 0.4, 0.2)), shifted(ph, 15, 7.4+0.1, 7+0.2*7/15))
	same(t, "pH by less", shifts(levelled(ph, 15, 7, 0.33, 0.01)))
	same(t, "within what days differ by", shifts(levelled(ph, 15, 7, 0.4, 0.26)))
	same(t, "conductivity", shifts(levelled(conductivity, 15, 200, 60, 0.5)), shifted(conductivity, 15, 260.25, 200+0.5*7/15))
	same(t, "three days ago", shifts(levelled(ph, 18, 7, 0.5, 0.01)), shifted(ph, 18, 7.5+0.01/3, 7.005))
	same(t, "two days ago", shifts(levelled(ph, 19, 7, 0.5, 0.01)))

	slowly := levelled(ph, 15, 7, 0.5, 0.01)
	for i, v := range []float64{7.17, 7.42, 7.44, 7.6} { // from the last day before
		for h := range Day {
			slowly.Probe[ph][(14+i)*Day+h] = v
		}
	}
	same(t, "a step that takes four days", shifts(slowly))
	byHand := flat(21 * Day)
	for day := range 21 {
		byHand.Tests[ph] = append(byHand.Tests[ph], Test{Hour: day * Day, Value: 7 + 0.01*float64(day%2) + float64(day/15)})
	}
	same(t, "by hand", shifts(byHand))
}

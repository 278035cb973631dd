package signs

import (
	"testing"

	"freshet.example/husbandry/quantity"
)

// repeated is a probe that in its first 56 hours said the same as the hour before
// so many times, in the first and the last of them too, and then one thing for
// as many hours as told. By hand, of ten: 720 (1-p) p^9 is 0.0032 where p is
// 15/57, and 0.0056 where it is 16/57.
func repeated(equal, run int) *Record {
	r := flat(56 + run)
	return r.says(ph, func(h int) float64 {
		switch {
		case h >= 56:
			return 9
		case h >= 54 || h < equal:
			return 5
		}
		return float64(h)
	})
}

func TestStuck(t *testing.T) {
	sign := func(since, until int, v float64) Sign {
		return Sign{Kind: Stuck, Quantity: ph, Since: since, Until: until, Is: v, Was: v, Count: until - since + 1}
	}
	same(t, "rarer than half a percent", stuck(repeated(14, 10)), sign(56, 65, 9))
	same(t, "as chance would have it", stuck(repeated(15, 10)))
	same(t, "nine hours", stuck(repeated(1, 9)))
	lone := repeated(1, 20)
	lone.Probe[ph][75] = 8
	same(t, "another value now", stuck(lone))
	lone.Probe[ph][75], lone.Probe[ph][74] = 9, 8
	same(t, "another value an hour ago", stuck(lone))
	quiet := repeated(14, 13)
	for h := 66; h < 69; h++ {
		quiet.Probe[ph][h] = nan
	}
	same(t, "silent for three hours", stuck(quiet), sign(56, 65, 9))
	quiet = repeated(14, 14)
	for h := 66; h < 70; h++ {
		quiet.Probe[ph][h] = nan
	}
	same(t, "silent for four hours", stuck(quiet))
	one := func(hours int) *Record { return flat(hours).says(ph, func(int) float64 { return 7 }) }
	same(t, "one thing through a week", stuck(one(7*Day)), sign(0, 7*Day-1, 7))
	same(t, "one thing through less", stuck(one(7*Day-1)))
}

func TestSilent(t *testing.T) {
	heard := func(hours, quiet int) *Record {
		return flat(hours+quiet).says(ph, func(h int) float64 {
			if h >= hours {
				return nan
			}
			return float64(h)
		})
	}
	same(t, "seven hours", silent(heard(2*Day, 7)), Sign{Kind: Silent, Quantity: ph, Since: 47, Until: 47, Is: 7, Was: 1, Count: 48})
	same(t, "six hours", silent(heard(2*Day, 6)))
	same(t, "never regular", silent(heard(2*Day-1, 7)))
	r := flat(40*Day).tested(quantity.Nitrite, []int{24 * Day, 22 * Day, 20 * Day, 18 * Day}, 1, 1, 1, 1)
	at := r.now() - 18*Day
	same(t, "four tests and no more", silent(r), Sign{Kind: Silent, Quantity: quantity.Nitrite, Hand: true, Since: at, Until: at, Is: 18 * Day, Was: 2 * Day, Count: 4})
	if got := usualGap([]int{0, 1, 4, 14}); got != 3 {
		t.Errorf("usual gap %d, want 3", got)
	}
}

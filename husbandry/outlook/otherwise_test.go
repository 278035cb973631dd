package outlook

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// TestOtherwiseByHand: two days after the last three hours of today, counted hour by hour.
func TestOtherwiseByHand(t *testing.T) {
	plan := make([]Hour, 3+48)
	for i := range plan {
		plan[i] = Hour{Feed: 2, Fish: 40, Changed: 1}
	}
	o := Otherwise{FeedShare: 0.5, UnfedDays: 1, AddedFish: 20, StillHours: 6, AirWarmer: -4, Replaced: 0.1}
	got, err := o.Plan(plan, 3, 2400)
	if err != nil {
		t.Fatal(err)
	}
	for i, h := range got {
		want := Hour{Feed: 0, Fish: 60, Changed: 1 + 10, Warmer: -4, Still: i >= 3 && i < 9} // a tenth of 2400 L a day is 10 L an hour
		if i >= 27 {
			want.Feed = 2 * 0.5 * 60 / 40
		}
		if !(math.Abs(h.Feed-want.Feed) <= 1e-12 && math.Abs(h.Changed-want.Changed) <= 1e-12) || h.Fish != want.Fish || h.Warmer != want.Warmer || h.Still != want.Still {
			t.Errorf("hour %d: %+v, by hand %+v", i, h, want)
		}
	}
}

// TestOtherwiseThatIsNothing leaves a plan as it is, also without fish.
func TestOtherwiseThatIsNothing(t *testing.T) {
	got, err := Otherwise{FeedShare: 1}.Plan([]Hour{{Feed: 2, Changed: 3}, {Fish: 1, Feed: 4}}, 0, 1000)
	if err != nil || got[0] != (Hour{Feed: 2, Changed: 3}) || got[1] != (Hour{Fish: 1, Feed: 4}) {
		t.Errorf("%+v, %v", got, err)
	}
}

func TestOtherwiseOutOfRange(t *testing.T) {
	for name, edge := range map[string]struct{ in, out Otherwise }{
		"otherwise.feed_share":                       {Otherwise{FeedShare: 5}, Otherwise{FeedShare: 5.01}},
		"otherwise.unfed_days":                       {Otherwise{UnfedDays: 14}, Otherwise{UnfedDays: 15}},
		"otherwise.added_fish_kg":                    {Otherwise{AddedFish: 1e5}, Otherwise{AddedFish: 1e5 + 1}},
		"otherwise.still_hours":                      {Otherwise{StillHours: 72}, Otherwise{StillHours: 73}},
		"otherwise.air_warmer_kelvin":                {Otherwise{AirWarmer: -30}, Otherwise{AirWarmer: -30.1}},
		"otherwise.replaced_share":                   {Otherwise{Replaced: 1}, Otherwise{Replaced: 1.01}},
		"otherwise.air_warmer_kelvin, its other end": {Otherwise{AirWarmer: 30}, Otherwise{AirWarmer: 30.1}},
	} {
		if _, err := edge.in.Plan(nil, 0, 1); err != nil {
			t.Errorf("%s at its edge: %v", name, err)
		}
		_, err := edge.out.Plan(nil, 0, 1)
		if outside, ok := errors.AsType[*quantity.RangeError](err); !ok || len(name) < len(outside.Name) || outside.Name != name[:len(outside.Name)] {
			t.Errorf("%s beyond its edge: %v", name, err)
		}
	}
}

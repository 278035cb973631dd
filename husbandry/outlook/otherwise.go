package outlook

import (
	"freshet.example/husbandry/quantity"
)

// Otherwise is what somebody would do differently from going on as of late. The
// zero value feeds nothing: a FeedShare of 1 leaves feeding as it is.
type Otherwise struct {
	FeedShare  quantity.Fraction  // of what was fed of late, 0 to 5
	UnfedDays  int                // days without any feed, 0 to 14, from now
	AddedFish  quantity.Kilograms // 0 to 100,000, fed like those that are there
	StillHours int                // hours in which pump and air stand, 0 to 72, from tomorrow's beginning
	AirWarmer  float64            // K, -30 to 30
	Replaced   quantity.Fraction  // of the loop's water replaced each day, 0 to 1
}

func (o Otherwise) check() error {
	return firstError(
		quantity.Within("otherwise.feed_share", float64(o.FeedShare), 0, 5, "", ""), quantity.Within("otherwise.unfed_days", float64(o.UnfedDays), 0, 14, "d", ""),
		quantity.Within("otherwise.added_fish_kg", float64(o.AddedFish), 0, 1e5, "kg", ""), quantity.Within("otherwise.still_hours", float64(o.StillHours), 0, 72, "h", ""),
		quantity.Within("otherwise.air_warmer_kelvin", o.AirWarmer, -30, 30, "K", ""), quantity.Within("otherwise.replaced_share", float64(o.Replaced), 0, 1, "", ""))
}

// Plan changes a plan for water of so many litres, of which the rest of the day
// that has begun comes first.
func (o Otherwise) Plan(plan []Hour, rest int, water quantity.Litres) ([]Hour, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	share := float64(o.FeedShare)
	if len(plan) > 0 && plan[0].Fish > 0 {
		share *= 1 + float64(o.AddedFish)/plan[0].Fish
	}
	for i := range plan {
		h := &plan[i]
		h.Feed *= share
		h.Fish += float64(o.AddedFish)
		h.Warmer = o.AirWarmer
		h.Changed += float64(o.Replaced) * float64(water) / noonToNoon
		if o.UnfedDays > 0 && i < rest+int(noonToNoon)*o.UnfedDays {
			h.Feed = 0
		}
		h.Still = i >= rest && i < rest+o.StillHours
	}
	return plan, nil
}

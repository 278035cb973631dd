package plan

import "freshet.example/husbandry/crop"

// grace is for how many days before the last and after the first frost what is
// half hardy stands (as in crop.SowThisWeek; common practice, no source).
const grace = 14

// standsUntil is the week in which frost ends what is sown in a week; false
// where frost comes on it at once. Under cover, and where no frost is known,
// that is the end of the plan.
func (s Season) standsUntil(c crop.Crop, week int, like Bed) (int, bool) {
	if like.Covered || s.Warm == nil || c.Frost == crop.Hardy {
		return s.Weeks, true
	}
	var extra crop.Day
	if c.Frost == crop.HalfHardy {
		extra = grace
	}
	day := s.Start + crop.Day(7*week)
	for _, warm := range s.Warm {
		if day >= warm.First-extra && day+6 <= warm.Last+extra {
			return min(s.Weeks, int(warm.Last+extra-s.Start+1)/7), true
		}
	}
	return 0, false
}

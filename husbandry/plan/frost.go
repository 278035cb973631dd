package plan

import "freshet.example/husbandry/crop"

// standsUntil is the week in which frost ends what is sown in one week and bears
// from another; false where frost comes first. Under cover, and where no frost is
// known, that is the end of the plan. What is hardy may stand over a winter between.
func (s Season) standsUntil(c crop.Crop, sown, from int, like Bed) (int, bool) {
	if like.Covered || s.Warm == nil {
		return s.Weeks, true
	}
	until, stands := s.growsUntil(sown, c.Frost.Grace())
	if stands && c.Frost == crop.Hardy {
		until, stands = s.growsUntil(from, c.Frost.Grace())
	}
	return until, stands && from < until
}

// growsUntil is the week in which the warm time ends that a week lies in, so many
// days longer at either end; times that then meet are one. False where it lies in
// none.
func (s Season) growsUntil(week int, grace crop.Day) (until int, grows bool) {
	day := s.Start + crop.Day(7*week)
	for _, warm := range s.Warm {
		first, last := warm.First-grace, warm.Last+grace
		if day >= first && (grows || day+6 <= last) {
			day, grows = max(day, last+1), true
		}
	}
	return min(s.Weeks, int(day-s.Start)/7), grows
}

package plan

import "testing"

// allotment is four crops in four beds over thirty weeks; feed in g a day, 0
// where it binds nothing.
func allotment(t *testing.T, area, feed float64) Season {
	t.Helper()
	s := household(t, area)
	s.Weeks, s.Beds = 30, s.Beds[:4]
	s.Crops = []Wanted{s.Crops[0], s.Crops[1], s.Crops[6], s.Crops[11]}
	for i := range s.Beds {
		s.Beds[i].Free = s.Beds[i].Free[:s.Weeks]
	}
	for range s.Weeks {
		if feed > 0 {
			s.Feed = append(s.Feed, feed)
		}
	}
	return s
}

// Small seasons are planned to the same figures each time: a changed rule of the
// search shows here, soonest.
func TestSmallSeasonsStayAsTheyWere(t *testing.T) {
	for _, c := range []struct {
		area, feed     float64
		bound, served  float64
		gaps, sowings  int
		practice       float64
		lacking, usual int
	}{
		{0.3, 0, 20.625, 20.624999391, 57, 27, 13.61875, 65, 14},
		{0.7, 0, 40.040625, 39.812497740, 43, 48, 22.601763347, 60, 22},
		{0.7, 40, 19.090277778, 19.090276895, 57, 23, 9.962253692, 68, 10},
		{1.5, 0, 61.96, 61.799998261, 13, 50, 39.331900163, 42, 35},
		{4, 0, 69.463514612, 69.374498548, 8, 44, 48.668561377, 32, 38},
	} {
		p := sowed(t, allotment(t, c.area, c.feed))
		near(t, "bound", p.Bound, c.bound, 1e-6)
		near(t, "served", p.Served, c.served, 1e-6)
		near(t, "served by practice", p.Practice.Served, c.practice, 1e-6)
		if p.Wanted != 73 || p.Gaps != c.gaps || len(p.Lines) != c.sowings || p.Practice.Gaps != c.lacking || p.Practice.Sowings != c.usual {
			t.Errorf("beds of %g m2: wanted %d, %d gaps, %d sowings; by practice %d gaps, %d sowings", c.area, p.Wanted, p.Gaps, len(p.Lines), p.Practice.Gaps, p.Practice.Sowings)
		}
	}
}

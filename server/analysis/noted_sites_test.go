package analysis_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// firstOf is the first day of one of the twelve months before yesterday's.
func (r *raftSite) firstOf(month int) time.Time {
	y, m, _ := r.today.AddDate(0, 0, -1).Date()
	return time.Date(y, m-12+time.Month(month), 1, 0, 0, 0, 0, time.UTC)
}

// metered notes 10 kWh for each day from the first of one month to the first of
// another; where it began only when said.
func (r *raftSite) metered(from, to int, said bool) {
	began, ended := r.firstOf(from), r.firstOf(to)
	e := &freshetv1.Energy{EnergyKwh: 10 * ended.Sub(began).Hours() / 24}
	if said {
		e.BeganAt = timestamppb.New(began)
	}
	r.event(int(r.today.Sub(ended).Hours()/24), 0, &freshetv1.Event{Kind: &freshetv1.Event_Energy{Energy: e}})
}

// A month in which nothing was noted is not known to have used nothing: sites
// that use alike come out alike, whoever left months out, read the meter every
// other month, or does not say since when.
func TestMonthsWithNothingNotedAreNotNought(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	var every *raftSite
	for name, note := range map[string]func(*raftSite){
		"Each month": func(r *raftSite) {
			every = r
			for month := range 12 {
				r.metered(month, month+1, true)
			}
		},
		"Half a year left out": func(r *raftSite) {
			for month := 3; month < 9; month++ {
				r.metered(month, month+1, true)
			}
		},
		"Every other month": func(r *raftSite) {
			for month := 0; month < 12; month += 2 {
				r.metered(month, month+2, true)
			}
		},
		"Since the last": func(r *raftSite) {
			for month := range 12 {
				r.metered(month, month+1, false)
			}
		},
		"Three months": func(r *raftSite) {
			for month := 3; month < 6; month++ {
				r.metered(month, month+1, true)
			}
		},
	} {
		r := monthlySite(t, s, name, 45, 1, 10, always)
		note(r)
		r.flush()
	}
	m, err := every.p.Pool.CompareSites(t.Context(), &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure_POOL_MEASURE_ENERGY_KWH_PER_KG, SiteId: every.site})
	if err != nil {
		t.Fatal(err)
	}
	months := map[string]uint32{"Each month": 12, "Half a year left out": 6, "Every other month": 12, "Since the last": 11}
	if len(m.GetSites()) != len(months) {
		t.Fatalf("%v", m)
	}
	for _, f := range m.GetSites() {
		if f.GetMonthsCount() != months[f.GetName()] {
			t.Errorf("%s: %d months", f.GetName(), f.GetMonthsCount())
		}
		if v, want := f.GetAdjusted().GetValue(), 10*365.25/(12*10*365.25/360); math.Abs(v/want-1) > 0.1 {
			t.Errorf("%s: %g kWh/kg, not about %g", f.GetName(), v, want)
		}
	}
	if len(m.GetLeftOut()) != 1 || !strings.Contains(m.GetLeftOut()[0].GetReason(), "noted in fewer than 4") {
		t.Errorf("left out: %v", m.GetLeftOut())
	}
}

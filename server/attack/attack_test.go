// Package attack tries to work one member out of what comparisons tell, with no
// more than a member may ask.
package attack_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
	"freshet.example/store/storetest"
)

func TestMain(m *testing.M) { os.Exit(storetest.Run(m)) }

const (
	smallest = 3
	grower   = freshetv1.Role_ROLE_GROWER
	private  = freshetv1.Sharing_SHARING_PRIVATE
	figures  = freshetv1.Sharing_SHARING_FIGURES
)

// A garden is a member with sites whose figures are known to the test alone.
type garden struct {
	*servertest.Person
	t        *testing.T
	site     string // the one at hand
	sites    []string
	planting string
}

func (g *garden) edit(e *freshetv1.Edit, paths ...string) string {
	g.t.Helper()
	e.RecordId, e.Fields = g.NextID(), &fieldmaskpb.FieldMask{Paths: paths}
	if e.GetSite() == nil {
		e.SiteId = g.site
	}
	g.Push(g.t, &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: e}})
	return e.RecordId
}

func (g *garden) event(daysAgo int, e *freshetv1.Event) *freshetv1.Operation {
	e.SiteId, e.OccurredAt = g.site, timestamppb.New(time.Now().UTC().AddDate(0, 0, -daysAgo))
	return &freshetv1.Operation{Change: &freshetv1.Operation_Event{Event: e}}
}

func (g *garden) harvest(daysAgo int, grams float64) *freshetv1.Operation {
	return g.event(daysAgo, &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{PlantingId: g.planting, MassG: grams}}})
}

// newGarden is somebody new with a site.
func newGarden(t *testing.T, s *servertest.Server, name string, weekly float64) *garden {
	t.Helper()
	g := &garden{Person: s.Join(grower, name), t: t}
	g.begin(name, weekly)
	return g
}

// begin enters half a year of one more site, which bears so many g a week on 10 m2.
func (g *garden) begin(name string, weekly float64) {
	g.t.Helper()
	g.site = g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: name, TimeZone: "UTC"}}}, "name", "time_zone")
	g.sites = append(g.sites, g.site)
	system := g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Loop"}}}, "name")
	bed := g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Bed{Bed: &freshetv1.Bed{Name: "Bed", Kind: freshetv1.BedKind_BED_KIND_RAFT, AreaM2: 10, SystemId: system}}}, "name", "kind", "area_m2", "system_id")
	g.planting = g.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Planting{Planting: &freshetv1.Planting{Crop: "basil", BedId: bed}}}, "crop", "bed_id")
	var all []*freshetv1.Operation
	for ago := 180; ago > 1; ago-- {
		all = append(all, g.event(ago, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{MassG: 100}}}))
		if ago%7 == 0 {
			all = append(all, g.harvest(ago, weekly))
		}
	}
	g.Push(g.t, all...)
	g.share(figures)
}

func (g *garden) share(how freshetv1.Sharing) {
	g.t.Helper()
	if _, err := g.Accounts.SetSharing(g.t.Context(), &freshetv1.SetSharingRequest{SiteId: g.site, Kind: "all", Sharing: how}); err != nil {
		g.t.Fatal(err)
	}
}

func (g *garden) ask(in *freshetv1.CompareSitesRequest) (*freshetv1.CompareSitesResponse, error) {
	in.Measure, in.SiteId = freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR, g.site
	return g.Pool.CompareSites(g.t.Context(), in)
}

func (g *garden) compare() *freshetv1.CompareSitesResponse {
	g.t.Helper()
	m, err := g.ask(&freshetv1.CompareSitesRequest{})
	if err != nil {
		g.t.Fatal(err)
	}
	return m
}

// truth is what the garden's own comparison says of it to all digits.
func truth(g *garden) float64 {
	for _, f := range g.compare().GetSites() {
		if f.GetOwn() {
			return f.GetAsRecorded().GetValue()
		}
	}
	return math.NaN()
}

// rows are the figures of others' sites, in order.
func rows(m *freshetv1.CompareSitesResponse) (list []float64) {
	for _, f := range m.GetSites() {
		if !f.GetOwn() {
			list = append(list, f.GetAsRecorded().GetValue())
		}
	}
	slices.Sort(list)
	return list
}

// single is the one figure that is in b and not in a; false where it is not one.
func single(a, b []float64) (float64, bool) {
	var more []float64
	for _, v := range b {
		if i := slices.Index(a, v); i >= 0 {
			a = slices.Delete(slices.Clone(a), i, i+1)
			continue
		}
		more = append(more, v)
	}
	if len(more) == 1 {
		return more[0], true
	}
	return 0, false
}

// byMeans works a site's figure out of two means of a group of n and one more.
func byMeans(before, after *freshetv1.CompareSitesResponse, n float64) float64 {
	return (n+1)*after.GetGroup().GetValue() - n*before.GetGroup().GetValue()
}

// wholeMonths are the days of so many months up to the last day of one.
func wholeMonths(t *testing.T, last string, months uint32) uint32 {
	t.Helper()
	end, err := time.Parse(time.DateOnly, last)
	if err != nil {
		t.Fatal(err)
	}
	after := end.AddDate(0, 0, 1)
	return uint32(after.Sub(after.AddDate(0, -int(months), 0)).Hours() / 24)
}

func TestNobodyIsWorkedOut(t *testing.T) {
	s := servertest.New(t)
	showFrom(t, s, smallest)
	spy := newGarden(t, s, "Spy", 1510)
	if _, err := spy.ask(&freshetv1.CompareSitesRequest{}); err == nil {
		t.Error("a group of one was shown")
	}
	// Many sites of few members are no group: whoever joins would be the difference.
	home, homePlanting := spy.site, spy.planting
	for _, name := range []string{"Spy's second", "Spy's third", "Spy's fourth"} {
		spy.begin(name, 1510)
	}
	if _, err := spy.ask(&freshetv1.CompareSitesRequest{}); err == nil || !strings.Contains(err.Error(), "those of 1 member can be compared") {
		t.Errorf("four sites of one member were shown, or refused so: %v", err)
	}
	for _, site := range spy.sites[1:] {
		spy.site = site
		spy.share(private)
	}
	spy.site, spy.planting = home, homePlanting
	others := []*garden{newGarden(t, s, "Ada", 1730), newGarden(t, s, "Ben", 1310), newGarden(t, s, "Cleo", 1930)}
	first := spy.compare()
	n := float64(len(first.GetSites()))

	// Somebody joins: their figure would be the difference.
	newGarden(t, s, "Dana", 2470)
	joined := spy.compare()
	_, byRow := single(rows(first), rows(joined))
	t.Logf("%-34s recovered by rows %v, by means %.2f", "a member joins", byRow, byMeans(first, joined, n))
	if byRow || joined.GetGroup().GetValue() != first.GetGroup().GetValue() {
		t.Error("a newcomer's figure is the difference of two answers")
	}

	// Days of one's own choosing: with and without a harvest, or a site.
	for _, in := range []*freshetv1.CompareSitesRequest{{ToOn: "2026-01-31"}, {FromOn: "2026-01-01"}} {
		if _, err := spy.ask(in); err == nil {
			t.Errorf("days of one's own choosing were answered: %v", in)
		}
	}

	// New data: one harvest a little larger is entered between two answers.
	before := spy.compare()
	others[0].Push(t, others[0].harvest(45, 40)) // in a month that is over
	if told, yes := single(rows(before), rows(spy.compare())); yes {
		t.Errorf("who entered something is told by a row that moved to %v", told)
	}
	// To know a site again, its figure, days and completeness are too coarse.
	for _, f := range before.GetSites() {
		if v := f.GetAsRecorded().GetValue(); !f.GetOwn() && (f.GetName() != "a member's site" || f.GetDays() != wholeMonths(t, before.GetToOn(), f.GetMonthsCount()) || fmt.Sprint(v) != fmt.Sprintf("%.2g", v)) {
			t.Errorf("a site that is not named can be known again: %v", f)
		}
	}

	// Somebody withdraws: gone at once, and the rest told coarsely.
	was := spy.compare()
	gone := truth(others[1])
	others[1].share(private)
	after := spy.compare()
	estimate := n*was.GetGroup().GetValue() - (n-1)*after.GetGroup().GetValue()
	reach := (n - 1) * (after.GetGroup().GetHigh() - after.GetGroup().GetLow()) / 2
	t.Logf("%-34s recovered by rows %v, by means %.1f give or take %.1f, of %.1f", "a member withdraws", len(rows(after)) > 0, estimate, reach, gone)
	if len(rows(after)) > 0 || after.GetGroup().GetHigh()-after.GetGroup().GetLow() < 0.9 {
		t.Errorf("figures of before and after a withdrawal can be set beside each other: %v", after)
	}

	// As many as the smallest group have come and gone: a cast of its own. One
	// withdrew, two came.
	newGarden(t, s, "Eli", 2210)
	again := spy.compare()
	if _, yes := single(rows(was), rows(again)); yes || len(rows(again)) != 4 {
		t.Errorf("%d others are shown, one told apart: %v", len(rows(again)), yes)
	}
}

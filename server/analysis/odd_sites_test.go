package analysis_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
	"golang.org/x/sync/errgroup"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// compare asks for the comparison of produce, as the site's grower.
func (r *raftSite) compare() (*freshetv1.CompareSitesResponse, error) {
	return r.p.Pool.CompareSites(r.t.Context(), &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure_POOL_MEASURE_PRODUCE_KG_PER_M2_YEAR, SiteId: r.site})
}

// Two sites are no group, and the refusal says what there is and what to do.
func TestTwoSitesAreNotCompared(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	monthlySite(t, s, "One", 45, 1, 10, always)
	other := monthlySite(t, s, "Other", 45, 1, 10, always)
	if m, err := other.compare(); err == nil || !strings.Contains(err.Error(), "from sites of 3 members on, and so far those of 2 members can be compared") {
		t.Errorf("%v, %v", m, err)
	}
}

// Years ago is not the year compared.
func TestSitesOfYearsAgoAreNotCompared(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	var last *raftSite
	for _, name := range []string{"One", "Two", "Three"} {
		last = monthlySite(t, s, name, 45, 1, 10, func(int) bool { return false })
		last.event(3650, 9, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{MassG: 100}}})
		last.event(1, 9, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{MassG: 100}}})
		last.flush()
	}
	if m, err := last.compare(); err == nil || !strings.Contains(err.Error(), "so far those of nobody can be compared") {
		t.Errorf("%v, %v", m, err)
	}
}

// Comparisons that are asked at once, while others are given up midway more often than
// there are connections, all come to what one comes to alone.
func TestComparisonsGivenUpKeepNoConnection(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	sites := make([]*raftSite, 3)
	for i := range sites {
		sites[i] = monthlySite(t, s, "Site", 45, 1, 10+float64(i), always)
	}
	ask := func(ctx context.Context, r *raftSite) (*freshetv1.CompareSitesResponse, error) {
		return r.p.Pool.CompareSites(ctx, &freshetv1.CompareSitesRequest{Measure: freshetv1.PoolMeasure_POOL_MEASURE_WATER_L_PER_KG})
	}
	alone, err := sites[0].compare()
	if err != nil {
		t.Fatal(err)
	}
	var all errgroup.Group
	for _, r := range sites {
		all.Go(func() error {
			for i := range 30 {
				ctx, end := context.WithTimeout(t.Context(), time.Duration(i%15)*time.Millisecond)
				_, _ = ask(ctx, r) // given up, most of them
				end()
			}
			m, err := r.compare()
			if err == nil && m.GetGroup().GetValue() != alone.GetGroup().GetValue() {
				err = fmt.Errorf("%v, alone %v", m.GetGroup(), alone.GetGroup())
			}
			return err
		})
	}
	if err := all.Wait(); err != nil {
		t.Error(err)
	}
}

// Sites that are equal to the gram are told not to differ; no rank, no number
// that is none.
func TestEqualSitesAreNotRanked(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	var last *raftSite
	for _, name := range []string{"One", "Two", "Three"} {
		last = monthlySite(t, s, name, 45, 1, 10, always)
	}
	m, err := last.compare()
	if err != nil {
		t.Fatal(err)
	}
	numbers(t, "equal sites", m.ProtoReflect())
	if m.GetBetweenSd() != 0 || !strings.Contains(m.GetSentence(), "no more than chance alone would bring") {
		t.Errorf("%v", m)
	}
	for _, f := range m.GetSites() {
		if f.GetRankLow() != 1 || f.GetRankHigh() != 3 {
			t.Errorf("ranked: %v", f)
		}
	}
}

// One site with a hundred times the entries and the area of the others counts as
// one site: the group's mean is not its figure, and it is ranked with the others.
func TestOneSiteWithNearlyAllTheDataIsOneSite(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	large := monthlySite(t, s, "Large", 45, 4, 4000, always)
	for month := range 12 {
		for day := range 27 {
			for hour := range 20 {
				large.event(int(large.today.Sub(large.firstOf(month)).Hours()/24)-day, hour, &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{PlantingId: large.planting, MassG: 1}}})
			}
		}
	}
	large.flush()
	uneven := []float64{1, 1.1, 0.9, 1.2}
	for i, level := range uneven {
		monthlySite(t, s, []string{"A", "B", "C", "D"}[i], 45, level, 10, always)
	}
	m, err := large.compare()
	if err != nil {
		t.Fatal(err)
	}
	numbers(t, "one large site", m.ProtoReflect())
	own := m.GetSites()[slices.IndexFunc(m.GetSites(), func(f *freshetv1.SiteFigure) bool { return f.GetOwn() })].GetAdjusted().GetValue()
	if mean := m.GetGroup().GetValue(); mean > own/2 || m.GetGroup().GetLow() > own/4 {
		t.Errorf("the group's mean is %v, the large site's figure %g", m.GetGroup(), own)
	}
}

// heldFor pushes one event that the server is to keep for review, and gives its hint.
func (m *thinSite) heldFor(ago int, e *freshetv1.Event) string {
	m.t.Helper()
	noted := &freshetv1.Noted{WallMs: time.Now().UnixMilli()}
	e.SiteId, e.OccurredAt = m.site, timestamppb.New(m.today.AddDate(0, 0, -ago))
	m.p.Number++
	answer, err := m.p.Sync.Push(m.t.Context(), &freshetv1.PushRequest{Install: m.p.Install[:], Noted: noted,
		Operations: []*freshetv1.Operation{{Number: m.p.Number, Noted: noted, Change: &freshetv1.Operation_Event{Event: e}}}})
	if err != nil || len(answer.GetOutcomes()) != 1 || answer.GetOutcomes()[0].GetKind() != freshetv1.OutcomeKind_OUTCOME_KIND_HELD_FOR_REVIEW {
		m.t.Fatalf("%v, %v", answer, err)
	}
	return answer.GetOutcomes()[0].GetHint()
}

// More fish die or are taken than there were, at once or in sum: the entry is
// held for review and says what is missing, and the count goes on without it.
func TestDeathsOverTheNumberAreAskedAbout(t *testing.T) {
	s := servertest.New(t)
	m := newThinSite(t, s, "deaths over the number")
	m.stock(40, 40)
	m.all(1, 2000, 700, 20, 700)
	m.event(15, 9, &freshetv1.Event{Kind: &freshetv1.Event_FishHarvest{FishHarvest: &freshetv1.FishHarvest{CohortId: m.cohort, Count: 30, MassG: 3000}}})
	m.flush()
	for _, hint := range []string{
		m.heldFor(20, &freshetv1.Event{Kind: &freshetv1.Event_Death{Death: &freshetv1.Death{CohortId: m.cohort, Count: 400}}}),
		m.heldFor(14, &freshetv1.Event{Kind: &freshetv1.Event_FishHarvest{FishHarvest: &freshetv1.FishHarvest{CohortId: m.cohort, Count: 30, MassG: 3000}}}),
	} {
		if !strings.Contains(hint, "enter the stocking or the count that is missing") {
			t.Errorf("it says %q", hint)
		}
	}
	for question, ask := range m.questions() {
		if answer, err := ask(t.Context()); err == nil {
			numbers(t, question, answer.ProtoReflect())
		}
	}
	morning, err := m.p.Analysis.GetMorning(t.Context(), &freshetv1.GetMorningRequest{SiteId: m.site})
	if err != nil || !strings.Contains(morning.String(), "10 alive") {
		t.Errorf("not the 10 that are left: %v, %v", morning, err)
	}
}

// A month of nitrate typed as the ion though the kit was said to read as N is
// asked about, and not one reading is changed.
func TestAMonthInTheWrongUnitIsAskedAbout(t *testing.T) {
	s := servertest.New(t)
	m := newThinSite(t, s, "a month as the ion")
	m.stock(90, 40)
	nitrate := func(ago int, mgPerL float64) {
		m.event(ago, 5, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{
			Quantity: freshetv1.Quantity_QUANTITY_NITRATE, Digits: int64(math.Round(mgPerL)), Unit: freshetv1.Unit_UNIT_MG_PER_L, Basis: freshetv1.Basis_BASIS_AS_N, PlaceId: m.tanks[0], Method: freshetv1.Method_METHOD_DROPS}}})
	}
	want := map[int64]int{}
	for ago := 40; ago > 0; ago -= 2 {
		v := 20.0 + float64(ago%3)
		if ago <= 28 {
			v = math.Round(v * 62.0049 / 14.0067)
		}
		nitrate(ago, v)
		want[int64(v)]++
	}
	m.flush()
	found, err := m.p.Analysis.FindSigns(t.Context(), &freshetv1.FindSignsRequest{SystemId: m.system})
	if err != nil {
		t.Fatal(err)
	}
	asked := false
	for _, sign := range found.GetSigns() {
		said := sign.GetAnswer().GetSentence()
		asked = asked || strings.Contains(said, "tests of nitrate") && strings.Contains(said, "mg/L as NO3") && strings.HasSuffix(said, "Was it that?")
	}
	if !asked {
		t.Errorf("nobody asks: %v", found)
	}
	conn, err := pgx.Connect(t.Context(), s.DatabaseURL)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(t.Context())
	for v, n := range want {
		got := 0
		if err := conn.QueryRow(t.Context(), "SELECT count(*) FROM readings WHERE quantity = $1 AND value_micro = $2 AND corrected_by IS NULL", int16(freshetv1.Quantity_QUANTITY_NITRATE), v*1e6).Scan(&got); err != nil || got != n {
			t.Errorf("%d readings of %d mg/L, %d were entered, %v", got, v, n, err)
		}
	}
}

package analysis_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// melonSite is a site with four beds, on each of which a trial's two arms stand.
type melonSite struct {
	*raftSite
	beds, plantings []string
	trial           string
}

// enterMelons gives the first arm base kg/m2 in bed i plus i, and the second more by gain, a little off in each.
func enterMelons(t *testing.T, s *servertest.Server, name string, gain float64, sharing freshetv1.Sharing) *melonSite {
	t.Helper()
	now := time.Now().UTC()
	m := &melonSite{raftSite: &raftSite{t: t, p: s.Join(freshetv1.Role_ROLE_GROWER, name), today: time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)}}
	m.site = m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{Name: name, TimeZone: "UTC"}}}, "name", "time_zone")
	arms := []*freshetv1.TrialArm{{Name: "None"}, {Name: "by hand"}}
	for i := range 4 {
		bed := m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Bed{Bed: &freshetv1.Bed{Name: fmt.Sprintf("Bed %d", i+1), Kind: freshetv1.BedKind_BED_KIND_MEDIA, AreaM2: 4}}}, "name", "kind", "area_m2")
		m.beds = append(m.beds, bed)
		for arm := range arms {
			planting := m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Planting{Planting: &freshetv1.Planting{Crop: "melon", BedId: bed, AreaM2: 2}}}, "crop", "bed_id", "area_m2")
			m.plantings, arms[arm].PlantingIds = append(m.plantings, planting), append(arms[arm].PlantingIds, planting)
			off := 0.1 * float64((i*3+arm*2)%4)
			kg := 2 * (3 + float64(i) + float64(arm)*gain + off)
			m.event(20, 9, &freshetv1.Event{Kind: &freshetv1.Event_BedHarvest{BedHarvest: &freshetv1.BedHarvest{PlantingId: planting, MassG: 1000 * kg}}})
		}
	}
	m.trial = m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Trial{Trial: &freshetv1.Trial{
		Question: "Do melons under cover want a hand?", Measure: freshetv1.TrialMeasure_TRIAL_MEASURE_HARVEST_KG_PER_M2, Arms: arms,
		FromOn: m.today.AddDate(0, 0, -90).Format(time.DateOnly), ToOn: m.today.AddDate(0, 0, -5).Format(time.DateOnly),
	}}}, "question", "measure", "arms", "from_on", "to_on")
	if _, err := m.p.Accounts.SetSharing(t.Context(), &freshetv1.SetSharingRequest{SiteId: m.site, Kind: "all", Sharing: sharing}); err != nil {
		t.Fatal(err)
	}
	return m
}

func (m *melonSite) result() *freshetv1.GetTrialResultResponse {
	m.t.Helper()
	out, err := m.p.Pool.GetTrialResult(m.t.Context(), &freshetv1.GetTrialResultRequest{TrialId: m.trial})
	if err != nil {
		m.t.Fatal(err)
	}
	return out
}

// Beds that differ by far more than the arms do decide nothing by Welch, and
// within beds they do. Sites that ask the same are pooled as soon as enough of
// them share; one that keeps its records to itself is not counted.
func TestATrialWithinBedsAndOverSites(t *testing.T) {
	s := servertest.New(t)
	steward := s.Steward()
	steward.Push(t, smallestGroup(t, steward, 3))
	first := enterMelons(t, s, "Alder Bank", 1.0, freshetv1.Sharing_SHARING_FIGURES)
	enterMelons(t, s, "Birch Yard", 1.2, freshetv1.Sharing_SHARING_FIGURES)
	enterMelons(t, s, "Closed Gate", 9, freshetv1.Sharing_SHARING_PRIVATE)
	out := first.result()
	if d := out.GetDifferences()[0]; !strings.HasPrefix(d.GetSentence(), "Decided: with by hand it was 1.0 kg/m2 more") || math.Abs(d.GetEstimate().GetValue()-1) > 0.11 {
		t.Errorf("%v", d)
	}
	if len(out.GetPooled()) != 0 || out.GetPooledSitesCount() != 0 {
		t.Errorf("two sites are fewer than three: %v", out.GetPooled())
	}
	enterMelons(t, s, "Dock Lane", 1.1, freshetv1.Sharing_SHARING_FIGURES)
	out = first.result()
	if len(out.GetPooled()) != 1 || out.GetPooledSitesCount() != 3 {
		t.Fatalf("%v", out)
	}
	e := out.GetPooled()[0].GetEstimate()
	if math.Abs(e.GetValue()-1.1) > 0.11 || !(e.GetLow() > 0.5 && e.GetHigh() < 1.7) || !strings.Contains(out.GetPooled()[0].GetSentence(), "Over 3 sites that asked the same, with by hand it was 1.1 kg/m2 more than with None") {
		t.Errorf("%v", out.GetPooled()[0])
	}
}

// A layout holds every arm in every bed, and says what it can tell; the crop's
// own harvests say how plots spread.
func TestATrialIsLaidOut(t *testing.T) {
	s := servertest.New(t)
	m := enterMelons(t, s, "Alder Bank", 1.0, freshetv1.Sharing_SHARING_PRIVATE)
	ask := func(change func(*freshetv1.PlanTrialRequest)) (*freshetv1.PlanTrialResponse, error) {
		in := &freshetv1.PlanTrialRequest{
			SiteId: m.site, Question: "Does mulch help?", Arms: []string{"bare", "mulched"}, Measure: freshetv1.TrialMeasure_TRIAL_MEASURE_HARVEST_KG_PER_M2, Seed: 3, PlotsCount: 2,
		}
		change(in)
		return m.p.Pool.PlanTrial(t.Context(), in)
	}
	out, err := ask(func(*freshetv1.PlanTrialRequest) {})
	if err != nil {
		t.Fatal(err)
	}
	counts := map[string]int{}
	for _, p := range out.GetPlots() {
		counts[p.GetBedName()+p.GetArm()]++
	}
	if len(out.GetPlots()) != 16 || len(counts) != 8 || counts["Bed 3mulched"] != 2 {
		t.Errorf("%v", counts)
	}
	if out.GetPower() <= 0.1 || out.GetPower() >= 0.8 || out.GetNoticedPercent() <= 20 || out.GetBedsWantedCount() <= 4 || !strings.Contains(strings.Join(out.GetCautions(), " "), "spread by 25 %") {
		t.Errorf("%v", out)
	}
	again, _ := ask(func(*freshetv1.PlanTrialRequest) {})
	if again.String() != out.String() {
		t.Error("the same seed draws another layout")
	}
	own, err := ask(func(in *freshetv1.PlanTrialRequest) { in.Crop = "Melon" })
	if err != nil || !strings.Contains(own.GetCautions()[0], "the 8 plantings of Melon harvested here") || own.GetPower() == out.GetPower() {
		t.Errorf("%v, %v", own, err)
	}
	lone, err := ask(func(in *freshetv1.PlanTrialRequest) { in.BedIds, in.PlotsCount = m.beds[:1], 1 })
	if err != nil || lone.GetPower() != 0 || !strings.HasPrefix(lone.GetSentence(), "One bed with one plot of each tells nothing of chance") {
		t.Errorf("%v, %v", lone, err)
	}
	for name, change := range map[string]func(*freshetv1.PlanTrialRequest){
		"no question": func(in *freshetv1.PlanTrialRequest) { in.Question = " " }, "one arm": func(in *freshetv1.PlanTrialRequest) { in.Arms = in.Arms[:1] },
		"two arms of one name": func(in *freshetv1.PlanTrialRequest) { in.Arms = []string{"a", "a"} }, "another's bed": func(in *freshetv1.PlanTrialRequest) { in.BedIds = []string{m.trial} },
		"a difference of nothing": func(in *freshetv1.PlanTrialRequest) { in.WorthwhilePercent = 0.5 }, "eleven plots": func(in *freshetv1.PlanTrialRequest) { in.PlotsCount = 11 },
	} {
		if out, err := ask(change); status.Code(err) != codes.InvalidArgument {
			t.Errorf("%s: %v, %v", name, out, err)
		}
	}
}

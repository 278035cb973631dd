package analysis_test

import (
	"math"
	"strings"
	"testing"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/quantity"
	"freshet.example/server/servertest"
)

// cohortOf makes a further cohort and weighs it at its stocking and again so many
// days after (never with 0), grown at a coefficient in water of 20 degC.
func (m *thinSite) cohortOf(name, species string, ago, days int, c fish.TGC1000) string {
	m.t.Helper()
	id := m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Cohort{Cohort: &freshetv1.Cohort{
		Name: name, Species: species, SystemId: m.system, VesselId: m.tanks[0], TargetWeightG: 250}}}, "name", "species", "system_id", "vessel_id", "target_weight_g")
	m.event(ago, 6, &freshetv1.Event{Kind: &freshetv1.Event_Stocking{Stocking: &freshetv1.Stocking{CohortId: id, Count: 40, MassG: 20 * 40}}})
	if days == 0 {
		return id
	}
	kind, err := fish.SpeciesByName(strings.ReplaceAll(species, "_", " "))
	if err != nil {
		m.t.Fatal(err)
	}
	units, err := fish.GrowthUnits(kind, 20)
	if err != nil {
		m.t.Fatal(err)
	}
	grown, err := fish.WeightByHeat(20, c, fish.DegreeDays(float64(units)*float64(days)))
	if err != nil {
		m.t.Fatal(err)
	}
	m.event(ago-days, 7, &freshetv1.Event{Kind: &freshetv1.Event_Weighing{Weighing: &freshetv1.Weighing{CohortId: id, SampleCount: 40, MassG: math.Round(40 * float64(quantity.Grams(grown)))}}})
	return id
}

// warm reads 20 degC every week of two years.
func (m *thinSite) warm() {
	for ago := 730; ago > 0; ago -= 7 {
		m.read(ago, warmth, 2000, exact)
	}
}

// ready is the day on which the cohort is ready, with its ends, in days from today.
func (m *thinSite) ready(cohort string) (low, middle, high float64, rests string) {
	m.t.Helper()
	m.flush()
	out, err := m.p.Analysis.ForecastFishHarvest(m.t.Context(), &freshetv1.ForecastFishHarvestRequest{SystemId: m.system})
	if err != nil {
		m.t.Fatal(err)
	}
	for _, f := range out.GetForecasts() {
		if f.GetCohortId() != cohort {
			continue
		}
		for _, in := range f.GetAnswer().GetInputs() {
			if in.GetName() == "growth coefficient x1000" {
				rests = in.GetFrom()
			}
		}
		e := f.GetAnswer().GetEstimate()
		return e.GetLow(), e.GetValue(), e.GetHigh(), rests
	}
	m.t.Fatalf("no forecast: %v", out)
	return 0, 0, 0, ""
}

// A cohort weighed once since its stocking, by luck a fast growth, is foretold
// nearer to how the site's earlier ones grew, and more surely; one of another
// loop counts too, one of another species does not.
func TestEarlierCohortsAreWeighedIn(t *testing.T) {
	s := servertest.New(t)
	const usual, fast = 0.9, 1.3
	site := func(name string) *thinSite {
		m := newThinSite(t, s, name)
		m.warm()
		return m
	}
	alone := site("alone")
	low, own, high, rests := alone.ready(alone.cohortOf("Own", "yellow_perch", 60, 50, fast))
	if rests != "1 interval between its weighings" {
		t.Errorf("it rests on %s", rests)
	}
	width := high / low

	kept := site("three before")
	for i, name := range []string{"First", "Second", "Third"} {
		kept.cohortOf(name, "yellow_perch", 600-30*i, 300, usual+0.03*fish.TGC1000(i-1))
	}
	cohort := kept.cohortOf("Own", "yellow_perch", 60, 50, fast)
	low, with, high, rests := kept.ready(cohort)
	if with < own+20 || high/low > 0.97*width {
		t.Errorf("ready in %g days with three before, in %g alone; ends %g times apart and %g", with, own, high/low, width)
	}
	if !strings.Contains(rests, "1 interval between its weighings, and 3 other cohorts of the species at the site, which carry") {
		t.Errorf("it rests on %s", rests)
	}
	_, unweighed, _, rests := kept.ready(kept.cohortOf("New", "yellow_perch", 1, 0, usual))
	if rests != "4 other cohorts of the species at the site" || unweighed < with {
		t.Errorf("one not weighed yet is ready in %g days by %s", unweighed, rests)
	}

	other := site("others elsewhere")
	mine := other.cohortOf("Own", "yellow_perch", 60, 50, fast)
	other.cohortOf("Tilapia", "nile_tilapia", 600, 300, usual)
	if _, v, _, rests := other.ready(mine); math.Abs(v-own) > 1 || strings.Contains(rests, "other cohort") {
		t.Errorf("ready in %g days beside tilapia, by %s; in %g alone", v, rests, own)
	}
	loop, tank := other.system, other.tanks
	other.system = other.edit(&freshetv1.Edit{Record: &freshetv1.Edit_System{System: &freshetv1.System{Name: "Second loop"}}}, "name")
	other.tanks = []string{other.vessel(freshetv1.VesselKind_VESSEL_KIND_FISH_TANK, 1000)}
	other.warm()
	other.cohortOf("There", "yellow_perch", 600, 300, usual)
	other.system, other.tanks = loop, tank
	if _, v, _, rests := other.ready(mine); v < own+5 || !strings.Contains(rests, "1 other cohort") {
		t.Errorf("ready in %g days with one in another loop, by %s; in %g alone", v, rests, own)
	}
}

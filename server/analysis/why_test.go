package analysis_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/server/servertest"
)

// weekOfWater is 1,000 L between two rounds of tests a week apart: 100 g of feed
// with 32 % protein, 40 g of potassium bicarbonate, 50 L added of a source with
// 80 mg/L of alkalinity and 4 of nitrate, 100 L let go.
func weekOfWater(t *testing.T) *thinSite {
	m := newThinSite(t, servertest.New(t), "Week of water")
	m.p.Push(t, &freshetv1.Operation{Change: &freshetv1.Operation_Edit{Edit: &freshetv1.Edit{RecordId: m.site, SiteId: m.site,
		Fields: &fieldmaskpb.FieldMask{Paths: []string{"source_alkalinity_mg_per_l", "source_nitrate_mg_per_l"}},
		Record: &freshetv1.Edit_Site{Site: &freshetv1.Site{SourceAlkalinityMgPerL: 80, SourceNitrateMgPerL: 4}}}}})
	feed := m.edit(&freshetv1.Edit{Record: &freshetv1.Edit_Feed{Feed: &freshetv1.Feed{Name: "Pellets", ProteinPercent: 32}}}, "name", "protein_percent")
	m.stock(30, 40)
	m.tested(10, 2000, 720, 20, 10, 2000, 10000)
	m.event(8, 8, &freshetv1.Event{Kind: &freshetv1.Event_Feeding{Feeding: &freshetv1.Feeding{VesselId: m.tanks[0], CohortId: m.cohort, FeedId: feed, MassG: 100}}})
	m.event(7, 8, &freshetv1.Event{Kind: &freshetv1.Event_Dosing{Dosing: &freshetv1.Dosing{VesselId: m.tanks[0], Substance: freshetv1.Substance_SUBSTANCE_POTASSIUM_BICARBONATE, MassG: 40}}})
	m.event(6, 8, &freshetv1.Event{Kind: &freshetv1.Event_WaterIn{WaterIn: &freshetv1.WaterIn{VesselId: m.tanks[0], SystemId: m.system, VolumeL: 50}}})
	m.event(5, 8, &freshetv1.Event{Kind: &freshetv1.Event_WaterOut{WaterOut: &freshetv1.WaterOut{VesselId: m.tanks[0], SystemId: m.system, VolumeL: 100}}})
	m.tested(3, 2150, 700, 50, 20, 2500, 6000)
	m.flush()
	return m
}

func (m *thinSite) tested(ago int, celsius, acid, ammonia, nitrites, nitrates, alkaline int64) {
	m.read(ago, warmth, celsius, exact)
	m.read(ago, ph, acid, exact)
	m.read(ago, tan, ammonia, exact)
	m.read(ago, freshetv1.Quantity_QUANTITY_NITRITE, nitrites, exact)
	m.read(ago, freshetv1.Quantity_QUANTITY_NITRATE, nitrates, exact)
	m.event(ago, 5, &freshetv1.Event{Kind: &freshetv1.Event_Reading{Reading: &freshetv1.Reading{Quantity: freshetv1.Quantity_QUANTITY_ALKALINITY,
		Digits: alkaline, Decimals: 2, Unit: freshetv1.Unit_UNIT_MG_PER_L, Basis: freshetv1.Basis_BASIS_AS_CACO3, PlaceId: m.tanks[0], Method: freshetv1.Method_METHOD_DROPS}}})
}

func (m *thinSite) why(figure string) (*freshetv1.ExplainChangeResponse, error) {
	return m.p.Analysis.ExplainChange(m.t.Context(), &freshetv1.ExplainChangeRequest{SystemId: m.system, Figure: figure,
		From: timestamppb.New(m.today.AddDate(0, 0, -9)), To: timestamppb.New(m.today)})
}

// By hand: 100 g of feed x 0.32 x 0.092 make 2.944 mg N of ammonia in each litre
// (Timmons & Ebeling). 0.3 and 0.1 of it stand as more ammonia and nitrite, so
// that 2.544 went all the way and used 7.14 times as much alkalinity (Ebeling).
// 40 g of KHCO3, 100.115 g/mol, bind as much acid as 40 x 50.0435 / 100.115 =
// 19.994 g of CaCO3.
func TestWhatCameAndWentBetweenTwoTests(t *testing.T) {
	m := weekOfWater(t)
	for figure, want := range map[string]map[string]float64{
		"total_ammonia":     {"made of feed": 2.944, "water let go": -0.1 * 0.35},
		"nitrite":           {"made of ammonia": 2.644, "water let go": -0.1 * 0.15},
		"nitrate":           {"made of ammonia": 2.544, "water added": 0.05 * 4, "water let go": -0.1 * 22.5},
		"alkalinity":        {"base put in": 19.994, "used by nitrification": -2.544 * 7.14, "water added": 0.05 * 80, "water let go": -0.1 * 80},
		"water_temperature": {},
	} {
		out, err := m.why(figure)
		if err != nil {
			t.Errorf("%s: %v", figure, err)
			continue
		}
		got := map[string]float64{}
		for _, p := range out.GetParts() {
			got[p.GetInput()] = p.GetShare()
		}
		for name, share := range want {
			if !(math.Abs(got[name]-share) < 0.001*math.Max(1, math.Abs(share))) {
				t.Errorf("%s, %s: %g; want %g", figure, name, got[name], share)
			}
		}
		if len(got) != len(want)+1 {
			t.Errorf("%s: %v", figure, got)
		}
	}
}

// The parts of each figure add up to its change, whatever it is split by.
func TestPartsOfAChangeAddUp(t *testing.T) {
	m := weekOfWater(t)
	for _, figure := range []string{"", "carbon_dioxide", "ph", "total_ammonia", "nitrite", "nitrate", "alkalinity", "water_temperature"} {
		out, err := m.why(figure)
		if err != nil {
			t.Errorf("%s: %v", figure, err)
			continue
		}
		sum := 0.0
		for _, p := range out.GetParts() {
			sum += p.GetShare()
		}
		if change := out.GetAfter().GetEstimate().GetValue() - out.GetBefore().GetEstimate().GetValue(); change == 0 || !(math.Abs(sum-change) < 1e-9) {
			t.Errorf("%s: parts sum to %g of a change of %g", figure, sum, change)
		}
	}
}

// What the pH was comes back from the carbon dioxide it is split by.
func TestThePHOfAChangeIsTheOneRead(t *testing.T) {
	out, err := weekOfWater(t).why("ph")
	if err != nil {
		t.Fatal(err)
	}
	if was, is := out.GetBefore().GetEstimate().GetValue(), out.GetAfter().GetEstimate().GetValue(); !(math.Abs(was-7.2) < 1e-9) || !(math.Abs(is-7) < 1e-9) {
		t.Errorf("from %g to %g", was, is)
	}
	fell := slices.IndexFunc(out.GetParts(), func(p *freshetv1.ChangePart) bool { return p.GetInput() == "alkalinity" && p.GetShare() < 0 })
	if fell < 0 || !strings.HasPrefix(out.GetSentence(), "pH fell from 7.2 to 7.0. Most of it came with alkalinity, 100 to 60.") {
		t.Error(out.GetSentence())
	}
}

func TestOneTestExplainsNothing(t *testing.T) {
	m := newThinSite(t, servertest.New(t), "One test")
	m.read(10, tan, 20, exact)
	m.flush()
	if out, err := m.why("total_ammonia"); err == nil {
		t.Error(out.GetSentence())
	}
	if _, err := m.why("colour"); err == nil || !strings.Contains(err.Error(), "alkalinity") {
		t.Error(err)
	}
}

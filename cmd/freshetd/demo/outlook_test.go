package demo

import (
	"strings"
	"testing"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	freshetv1 "freshet.example/api/freshet/v1"
)

// The barn's filter was hosed six days ago: its ammonia is foretold high or
// falling, fasting helps, and a night without the pump takes the oxygen.
func (o *opened) outlook(t *testing.T) {
	ask := func(in *freshetv1.GetOutlookRequest) *freshetv1.GetOutlookResponse {
		t.Helper()
		in.SystemId = o.barn
		m, err := o.Analysis.GetOutlook(t.Context(), in)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	m := ask(&freshetv1.GetOutlookRequest{Otherwise: &freshetv1.Otherwise{FeedShare: proto.Float64(0)}})
	if len(m.GetFigures()) != 8 || m.GetSentence() == "" || len(m.GetFish()) != 2 || len(m.GetCautions()) == 0 {
		t.Errorf("the barn's outlook: %v", m)
	}
	if a := m.GetAlarms()[0]; a.GetName() != "high_ammonia" || !strings.Contains(a.GetSentence(), "is above 0.050 mg/L now") {
		t.Errorf("ammonia is not safe already, and is told as if it came: %v", a)
	}
	for _, f := range m.GetFigures() {
		if len(f.GetDays()) != 7 || f.GetName() != "unionized_ammonia" && f.GetAskedCount() < 5 || f.GetHeldCount() > f.GetAskedCount() {
			t.Errorf("%s: %d days, %d of %d held", f.GetName(), len(f.GetDays()), f.GetHeldCount(), f.GetAskedCount())
		}
		for _, d := range f.GetDays() {
			if e := d.GetEstimate(); e.GetLow() > e.GetValue() || e.GetValue() > e.GetHigh() || e.GetConfidence() != 0.8 {
				t.Errorf("%s on %s: %v", f.GetName(), d.GetOn(), e)
			}
		}
		last := f.GetDays()[6]
		if f.GetName() == "total_ammonia" && last.GetOtherwise().GetValue() >= last.GetEstimate().GetValue() {
			t.Errorf("without feed ammonia is %v, with %v", last.GetOtherwise(), last.GetEstimate())
		}
	}
	if night := ask(&freshetv1.GetOutlookRequest{Days: 2, Otherwise: &freshetv1.Otherwise{StillHours: 6}}).GetChanges(); night[0].GetName() != "oxygen_lowest" || night[0].GetStanding() != freshetv1.Standing_STANDING_ACT {
		t.Errorf("a night without the pump: %v", night)
	}
	if plain := ask(&freshetv1.GetOutlookRequest{Days: 1}); len(plain.GetChanges()) != 0 || plain.GetFigures()[0].GetDays()[0].GetOtherwise() != nil {
		t.Errorf("nothing was asked: %v", plain.GetChanges())
	}
	first := func(seed uint64) *freshetv1.Estimate {
		return ask(&freshetv1.GetOutlookRequest{Days: 1, Seed: seed}).GetFigures()[0].GetDays()[0].GetEstimate()
	}
	if usual := first(0); !proto.Equal(first(1), usual) || proto.Equal(first(2), usual) {
		t.Errorf("chance by none, 1 and 2: %v, %v, %v", usual, first(1), first(2))
	}
	for name, in := range map[string]*freshetv1.GetOutlookRequest{
		"15 days": {Days: 15}, "feed below none": {Otherwise: &freshetv1.Otherwise{FeedShare: proto.Float64(-1)}}, "more than all water": {Otherwise: &freshetv1.Otherwise{ReplacedShare: 2}},
	} {
		in.SystemId = o.barn
		if _, err := o.Analysis.GetOutlook(t.Context(), in); status.Code(err) != codes.InvalidArgument {
			t.Errorf("%s: %v", name, err)
		}
	}
}

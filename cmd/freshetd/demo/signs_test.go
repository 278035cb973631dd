package demo

import (
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
)

// The story's troubles are found in its own records, on the day that they must
// be. A slow one shows on some mornings and not on others: weather hides it.
func (o *opened) signs(t *testing.T) {
	for _, c := range []struct {
		site     string
		from, to int // looked for on each of these mornings, days before the last
		hour     int
		kind     string
		of       freshetv1.Quantity
	}{
		{"Bracken Barn", 0, 0, 6, "weak_filter", freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA},
		{"Bracken Barn", 150, 150, 15, "still_pump", oxygen},
		{"Coldwell Race", 50, 38, 6, "foul", oxygen},
		{"Terrace Nine", 40, 40, 6, "sliding", ph},
		{"Saltbush Lane School", 300, 300, 6, "silent", freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA},
	} {
		shown := false
		for ago := c.from; ago >= c.to; ago-- {
			found := o.signsAt(t, c.site, ago, c.hour)
			for _, s := range found {
				shown = shown || s.GetKind() == c.kind && s.GetQuantity() == c.of
			}
			if c.kind == "weak_filter" && !strings.Contains(before(found), "hosed all the gravel") {
				t.Errorf("what came before it first of all: %v", found)
			}
		}
		if !shown {
			t.Errorf("%s, %d to %d days ago: no sign of %s", c.site, c.from, c.to, c.kind)
		}
	}
}

// signsAt are a site's signs so many days before its records' last morning, each told whole.
func (o *opened) signsAt(t *testing.T, site string, ago, hour int) []*freshetv1.LoopSign {
	t.Helper()
	own := o.loaded.Growers[site].Context(t.Context())
	conn := freshetv1.NewAnalysisServiceClient(o.stranger)
	m, err := conn.GetMorning(own, &freshetv1.GetMorningRequest{SiteId: o.sites[site]})
	if err != nil {
		t.Fatal(err)
	}
	zone := zoneOf(t, site)
	last := lastMorning(time.Now().In(zone))
	at := time.Date(last.Year(), last.Month(), last.Day()-ago, hour, 30, 0, 0, zone)
	found, err := conn.FindSigns(own, &freshetv1.FindSignsRequest{SystemId: m.GetSystems()[0].GetSystemId(), At: timestamppb.New(at)})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range found.GetSigns() {
		if a := s.GetAnswer(); a.GetSentence() == "" || len(a.GetCautions()) == 0 || a.GetSource() == "" || s.GetUntil().AsTime().Before(s.GetSince().AsTime()) {
			t.Errorf("%s: %v", site, s)
		}
	}
	return found.GetSigns()
}

// before is the first that happened before the first sign.
func before(found []*freshetv1.LoopSign) string {
	if len(found) == 0 || len(found[0].GetHappenings()) == 0 {
		return ""
	}
	return found[0].GetHappenings()[0].GetSentence()
}

func zoneOf(t *testing.T, site string) *time.Location {
	t.Helper()
	for _, g := range cast() {
		if g.site.Name == site {
			zone, err := time.LoadLocation(g.site.TimeZone)
			if err != nil {
				t.Fatal(err)
			}
			return zone
		}
	}
	t.Fatal(site)
	return nil
}

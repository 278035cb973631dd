package demo

import (
	"strings"
	"testing"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	freshetv1 "freshet.example/api/freshet/v1"
)

// The story's troubles are found in its own records, on the day that they must be.
func (o *opened) signs(t *testing.T) {
	for _, c := range []struct {
		site string
		days int // before today
		hour int
		kind string
		of   freshetv1.Quantity
	}{
		{"Bracken Barn", 0, 6, "weak_filter", freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA},
		{"Bracken Barn", 150, 15, "still_pump", oxygen},
		{"Coldwell Race", 45, 6, "foul", oxygen},
		{"Terrace Nine", 40, 6, "sliding", ph},
		{"Saltbush Lane School", 300, 6, "silent", freshetv1.Quantity_QUANTITY_TOTAL_AMMONIA},
	} {
		own := o.loaded.Growers[c.site].Context(t.Context())
		conn := freshetv1.NewAnalysisServiceClient(o.stranger)
		m, err := conn.GetMorning(own, &freshetv1.GetMorningRequest{SiteId: o.sites[c.site]})
		if err != nil {
			t.Fatal(err)
		}
		zone := zoneOf(t, c.site)
		today := time.Now().In(zone)
		at := time.Date(today.Year(), today.Month(), today.Day()-c.days, c.hour, 30, 0, 0, zone)
		found, err := conn.FindSigns(own, &freshetv1.FindSignsRequest{SystemId: m.GetSystems()[0].GetSystemId(), At: timestamppb.New(at)})
		if err != nil {
			t.Fatal(err)
		}
		shown := false
		for _, s := range found.GetSigns() {
			if a := s.GetAnswer(); a.GetSentence() == "" || len(a.GetCautions()) == 0 || a.GetSource() == "" || s.GetUntil().AsTime().Before(s.GetSince().AsTime()) {
				t.Errorf("%s: %v", c.site, s)
			}
			shown = shown || s.GetKind() == c.kind && s.GetQuantity() == c.of
		}
		if c.kind == "weak_filter" && (len(found.GetSigns()) == 0 || !strings.Contains(found.GetSigns()[0].GetHappenings()[0].GetSentence(), "hosed all the gravel")) {
			t.Errorf("what came before it first of all: %v", found)
		}
		if !shown {
			t.Errorf("%s, %d days ago: no sign of %s: %v", c.site, c.days, c.kind, found)
		}
	}
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

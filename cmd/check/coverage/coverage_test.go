package coverage

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/watch"
)

// TestScoreOfANormalForecast beside the closed form of watch.CRPSNormal.
func TestScoreOfANormalForecast(t *testing.T) {
	normal := spread(func(p float64) float64 { return 10 + 2*chance.NormalQuantile(p) })
	var s score
	for _, came := range []float64{10, 11.5, 15} {
		s.count(normal, came)
		want, err := watch.CRPSNormal(came, 10, 2)
		if got := crpsOf(normal, came); err != nil || math.Abs(got-want) > 0.02 {
			t.Errorf("%g: %g, want %g; %v", came, got, want, err)
		}
	}
	// 1.5 off is 0.75 spreads: within 60 % and not within 50; 5 off is within none.
	if s.held[0] != 1 || s.held[half] != 1 || s.held[5] != 2 || s.held[nine] != 2 || s.share(nine) < 66 || s.share(nine) > 67 {
		t.Errorf("held %v", s.held)
	}
	if wide := 3 * 2 * 2 * 1.2815515655; math.Abs(s.width-wide) > 1e-6 {
		t.Errorf("width %g, want %g", s.width, wide)
	}
}

// TestTwoSeasons writes a picture that is one, from two seasons that are the
// same each time.
func TestTwoSeasons(t *testing.T) {
	a, err := trySeasons(2)
	b, other := trySeasons(2)
	if err != nil || other != nil || *a != *b {
		t.Fatalf("%v, %v; the same seasons score alike: %v", err, other, *a == *b)
	}
	for f := range a {
		if n := a[f][0].n; n != 2 {
			t.Errorf("%s: %g seasons", tried[f].title, n)
		}
	}
	drawn := picture(seasonPanels(a))
	file := filepath.Join(t.TempDir(), "picture.svg")
	if err := os.WriteFile(file, []byte(drawn), 0o600); err != nil || strings.Count(drawn, "<polyline") != 8*4 || strings.Contains(drawn, "NaN") {
		t.Errorf("%v: %d lines", err, strings.Count(drawn, "<polyline"))
	}
}

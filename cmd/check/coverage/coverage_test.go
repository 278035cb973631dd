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

// TestDoubtOfGroups: four seasons whose two forecasts hold or fail together tell as
// much as four forecasts; where one of two holds in each, groups do not differ.
func TestDoubtOfGroups(t *testing.T) {
	for _, c := range []struct {
		held []float64
		want float64
	}{{[]float64{2, 0, 2, 0}, 100 * math.Sqrt(0.25/4)}, {[]float64{1, 1, 1, 1}, 0}} {
		var all score
		for _, h := range c.held {
			one := score{n: 2}
			one.held[half] = h
			all.join(&one)
		}
		if got := all.doubt(half); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %g, want %g", c.held, got, c.want)
		}
	}
}

// TestVerdict: shares are near or not by what was meant, beyond by their own error too,
// and a forecaster that keeps its word is as near as its errors say.
func TestVerdict(t *testing.T) {
	held := func(shares map[int]float64) score { // of 400 forecasts, each a season of its own
		s := score{n: 400}
		s.groups.all = 400
		for level, share := range shares {
			s.held[level], s.groups.held[level], s.groups.with[level] = 4*share, 4*share, 4*share
		}
		return s
	}
	s := &seasons{}
	s.by[0][0] = held(map[int]float64{half: 52, eight: 80, nine: 90})
	s.by[1][2] = held(map[int]float64{half: 46, eight: 70, nine: 90})
	v := s.judge()
	if v.shares != 6 || v.kept != 4 || len(v.beyond) != 1 || v.beyond[0] != "ammonia, mg/L as N at 7 days: 70.0 of 80" {
		t.Errorf("%+v", v)
	}
	// By the error function of Python 3: sum of erf(3/(100*sqrt(p*(1-p)/400))/sqrt(2)) for p of 0.52, 0.8, 0.9, 0.46, 0.7, 0.9.
	if want := 5.126544273; math.Abs(v.perfect-want) > 1e-8 || math.Abs(v.most-2.498) > 0.001 || math.Abs(v.least-2.492) > 0.001 {
		t.Errorf("perfect %g, errors %g to %g", v.perfect, v.least, v.most)
	}
	s.by[0][0].crps, s.by[0][0].usual, s.by[0][0].naive = 4, 3, 5
	s.all = s.by[0][0]
	var b strings.Builder
	s.writeWord(&b)
	for _, want := range []string{"Of 6 shares 4 lie", "together held 52.0, 80.0 and 90.0 of 100", "Worse by CRPS: water, degC at 1 days than as always.", "together: ammonia, mg/L as N at 7 days: 70.0 of 80."} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is not in %q", want, b.String())
		}
	}
}

// TestTwoSeasons writes a picture that is one, from two seasons that are the
// same each time.
func TestTwoSeasons(t *testing.T) {
	a, err := trySeasons(2, 2)
	b, other := trySeasons(2, 2)
	if err != nil || other != nil || *a != *b {
		t.Fatalf("%v, %v; the same seasons score alike: %v", err, other, *a == *b)
	}
	for f := range a.by {
		if n := a.by[f][0].n; n != 4 {
			t.Errorf("%s: %g forecasts", tried[f].title, n)
		}
	}
	drawn := picture(seasonPanels(a))
	file := filepath.Join(t.TempDir(), "picture.svg")
	if err := os.WriteFile(file, []byte(drawn), 0o600); err != nil || strings.Count(drawn, "<polyline") != 8*4 || strings.Contains(drawn, "NaN") {
		t.Errorf("%v: %d lines", err, strings.Count(drawn, "<polyline"))
	}
}

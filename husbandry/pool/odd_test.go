package pool

import (
	"math"
	"testing"
)

// Groups as they come in life: no method leaves the span of the sites, and none
// answers with what is no number.
func TestOddGroupsStayWithinTheirSites(t *testing.T) {
	for _, c := range []struct {
		name       string
		means, ses []float64
	}{
		{"two sites", []float64{1, 3}, []float64{0.5, 0.5}},
		{"all equal", []float64{2, 2, 2, 2}, []float64{0.1, 0.2, 0.3, 0.4}},
		{"one site with nearly all the data", []float64{8, 2, 3, 2.5}, []float64{0.001, 1, 1.2, 0.9}},
		{"an outlier set to mislead", []float64{8, 8.2, 7.9, 1e9}, []float64{0.5, 0.4, 0.6, 0.5}},
		{"an outlier that claims to be sure", []float64{8, 8.2, 7.9, 80}, []float64{0.5, 0.4, 0.6, 1e-9}},
	} {
		low, high := math.Inf(1), math.Inf(-1)
		for _, m := range c.means {
			low, high = math.Min(low, m), math.Max(high, m)
		}
		for by := REML; by <= EqualEffects; by++ {
			s, err := Meta(c.means, c.ses, by)
			if err != nil || !(s.Mu >= low && s.Mu <= high) || !(s.Tau2 >= 0) || !(s.SE > 0) || math.IsInf(s.SE, 0) {
				t.Errorf("%s, method %d: %+v, %v", c.name, by, s, err)
				continue
			}
			shrunk, err := s.Shrink(0.9)
			if err != nil {
				t.Errorf("%s, method %d: %v", c.name, by, err)
			}
			for i, one := range shrunk {
				if !(one.Mean >= low-1e-9*math.Abs(low) && one.Mean <= high*(1+1e-9)) {
					t.Errorf("%s, method %d: site %d is pulled to %g", c.name, by, i, one.Mean)
				}
			}
		}
	}
}

// A site that claims to be sure does not carry the others with it where sites
// differ: by random effects each counts about alike.
func TestNoSiteOutvotesAGroupThatDiffers(t *testing.T) {
	means, ses := []float64{8, 2, 3, 2.5, 2.8}, []float64{0.001, 0.3, 0.3, 0.3, 0.3}
	alone, err := Meta(means, ses, EqualEffects)
	if err != nil || !(math.Abs(alone.Mu-8) <= 0.01) {
		t.Errorf("%+v, %v", alone, err)
	}
	if s, err := Meta(means, ses, REML); err != nil || s.Mu > 4.5 {
		t.Errorf("%+v, %v", s, err)
	}
}

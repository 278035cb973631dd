package pool

import (
	"math"
	"testing"
)

// TestEfronMorrisBaseball: 18 players' first 45 tries, and how they fared over
// the rest of the season (Efron & Morris 1975; the later figures from memory,
// they give the printed 16 of 18 and, with shares rounded to three places, the
// printed sums of squares).
func TestEfronMorrisBaseball(t *testing.T) {
	hits := []float64{18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7}
	later := []float64{.346, .298, .276, .222, .273, .270, .263, .210, .269, .230, .264, .256, .303, .264, .226, .286, .316, .200}
	s, err := JamesSteinShares(hits, 45)
	if err != nil {
		t.Fatal(err)
	}
	shares := make([]float64, len(hits))
	for i, h := range hits {
		shares[i] = h / 45
	}
	g, err := s.Against(shares, later)
	if err != nil || g.Nearer != 16 || !(math.Abs(g.Before-0.0753) <= 3e-4) || !(math.Abs(g.After-0.0213) <= 1e-4) {
		t.Errorf("%+v %v; want 16, 0.0753 and 0.0213", g, err)
	}
	later[3] = math.NaN()
	if g, err := s.Against(shares, later); err == nil {
		t.Errorf("not a number was taken: %+v", g)
	}
	if g, err := s.Against(shares, later[:3]); err == nil {
		t.Errorf("too few were taken: %+v", g)
	}
}

package pool

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"freshet.example/husbandry/quantity"
)

func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(1e-3, math.Abs(want))) {
		t.Errorf("%s is %.12g, want %.12g", name, got, want)
	}
}

var (
	siteMeans = []float64{323.583333333333, 160.2, 218.75, 276.909090909091, 246.428571428571, 328.916666666667}
	siteSEs   = []float64{18.6004473444630, 12.2145632568486, 15.0791472510279, 19.5682742052512, 14.4666020394662, 14.0978497894845}
)

// TestRanksAgainstDrawing: ranks computed and ranks drawn a hundred thousand
// times from the same model agree.
func TestRanksAgainstDrawing(t *testing.T) {
	means, ses := []float64{3.2, 2.9, 4.1, 3.6, 3.3}, []float64{0.3, 0.2, 0.5, 0.4, 0.25}
	s, err := Meta(means, ses, DerSimonianLaird)
	if err != nil {
		t.Fatal(err)
	}
	places, err := s.Rank(0.9)
	if err != nil {
		t.Fatal(err)
	}
	const draws = 100000
	r := rand.New(rand.NewSource(5))
	counts := make([][]float64, len(means))
	for i := range counts {
		counts[i] = make([]float64, len(means)+1)
	}
	theta := make([]float64, len(means))
	for range draws {
		shift := s.SE * r.NormFloat64()
		for i := range theta {
			one := s.site(i, 0)
			theta[i] = one.Mean + (1-one.Weight)*shift + one.CondSE*r.NormFloat64()
		}
		for i := range theta {
			rank := 1
			for j := range theta {
				if theta[j] > theta[i] {
					rank++
				}
			}
			counts[i][rank] += 1.0 / draws
		}
	}
	for i, p := range places {
		expected, below, low, high := 0.0, 0.0, 0, 0
		for rank, c := range counts[i] {
			expected += float64(rank) * c
			below += c
			if low == 0 && below > 0.05 {
				low = rank
			}
			if high == 0 && below >= 0.95 {
				high = rank
			}
		}
		if !(math.Abs(expected-p.Expected) <= 0.02) || low != p.Low || high != p.High {
			t.Errorf("site %d: computed %+v, drawn %.3f %d %d", i, p, expected, low, high)
		}
		sum := 0.0
		for _, c := range s.rankChances(i) {
			sum += c
		}
		near(t, "chances of all ranks", sum, 1, 1e-6)
	}
}

// TestRanksWithoutDifference: where sites do not differ every rank is possible.
func TestRanksWithoutDifference(t *testing.T) {
	s, err := Meta([]float64{3, 3.1, 2.9}, []float64{1, 1, 1}, REML)
	if err != nil || s.Tau2 != 0 {
		t.Fatal(s, err)
	}
	places, err := s.Rank(0.95)
	for _, p := range places {
		if err != nil || p != (Place{2, 1, 3}) {
			t.Errorf("%+v %v", p, err)
		}
	}
	sites, _ := s.Shrink(0.95)
	for _, one := range sites {
		if one.Mean != s.Mu || one.Weight != 0 || one.CondSE != 0 || one.SE != s.SE || one.Effect != 0 {
			t.Errorf("%+v", one)
		}
	}
}

// TestShrinkInterval: Student's t with one degree of freedom less than sites.
func TestShrinkInterval(t *testing.T) {
	s, _ := Meta(siteMeans, siteSEs, REML)
	sites, err := s.Shrink(0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "reach", (sites[0].High-sites[0].Mean)/sites[0].SE, 2.570581835636314, 1e-9) // t of 5 at 0.975
	near(t, "reach below", (sites[0].Mean-sites[0].Low)/sites[0].SE, 2.570581835636314, 1e-9)
}

// TestProperties over a thousand random sets of sites.
func TestProperties(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	for n := range 1000 {
		k := 2 + r.Intn(8)
		means, ses := make([]float64, k), make([]float64, k)
		for i := range means {
			means[i], ses[i] = 5+r.NormFloat64(), 0.1+r.Float64()
		}
		for by := REML; by <= EqualEffects; by++ {
			s, err := Meta(means, ses, by)
			if err != nil || s.Tau2 < 0 {
				t.Fatal(s, err)
			}
			sites, _ := s.Shrink(0.9)
			for i, one := range sites {
				between := math.Min(means[i], s.Mu)-1e-12 <= one.Mean && one.Mean <= math.Max(means[i], s.Mu)+1e-12
				if !between || one.Weight < 0 || one.Weight >= 1 || one.SE < one.CondSE || one.SE > math.Hypot(ses[i], s.SE) {
					t.Fatalf("site %v of %+v in %+v", means[i], one, s)
				}
			}
			if by == PauleMandel && s.Tau2 > 0 {
				near(t, "weighted spread", spread(s.y, s.v, s.Tau2), float64(k-1), 1e-9)
			}
			if n%50 == 0 {
				total := 0.0
				places, _ := s.Rank(0.9)
				for _, p := range places {
					total += p.Expected
				}
				near(t, "ranks in all", total, float64(k*(k+1))/2, 2e-3)
			}
		}
	}
}

// TestRemlIsLowest: no variance nearby makes the restricted likelihood larger.
func TestRemlIsLowest(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	for range 300 {
		groups := make([][]float64, 2+r.Intn(5))
		for i := range groups {
			shift := 2 * r.Float64() * r.NormFloat64()
			for range 2 + r.Intn(5) {
				groups[i] = append(groups[i], 10+shift+r.NormFloat64())
			}
		}
		m, err := RandomIntercept(groups)
		if err != nil {
			t.Fatal(err)
		}
		g, _ := counted(groups)
		ratio := m.Between / m.Within
		for _, other := range []float64{0, ratio * 0.9, ratio * 1.1, ratio * 10, 1e-3, 1} {
			if g.criterion(other) < m.Criterion-1e-9 {
				t.Fatalf("ratio %v beats %v: %v < %v", other, ratio, g.criterion(other), m.Criterion)
			}
		}
		if m.Undetectable != (m.Between == 0) {
			t.Fatalf("%+v", m)
		}
	}
}

// TestBalancedIntercept: with groups of one size the estimates are those of the
// analysis of variance: within 2, between (12-2)/3 (worked by hand).
func TestBalancedIntercept(t *testing.T) {
	m, err := RandomIntercept([][]float64{{8, 10, 9}, {11, 13, 12}, {9.5, 11.5, 10.5}})
	if err != nil {
		t.Fatal(err)
	}
	// group means 9, 12, 10.5; squares within 2 each: MS within 1, between 3*4.5/2 = 6.75
	near(t, "within", m.Within, 1, 1e-7)
	near(t, "between", m.Between, (6.75-1)/3, 1e-7)
	near(t, "mean", m.Mu, 10.5, 1e-12)
	near(t, "its standard error", m.SE, math.Sqrt(6.75/9), 1e-7)
}

// TestSlopesBalanced: lines through the same four times, worked by hand: the
// mean line is the mean of the lines.
func TestSlopesBalanced(t *testing.T) {
	x := [][]float64{{-1, 0, 1, 2}, {-1, 0, 1, 2}, {-1, 0, 1, 2}}
	y := [][]float64{{1, 2.2, 2.9, 4}, {3, 5.1, 6.8, 9}, {0, 0.4, 1.1, 1.4}}
	s, err := RandomSlopes(x, y)
	if err != nil {
		t.Fatal(err)
	}
	slopes := []float64{(-1.5*1 - 0.5*2.2 + 0.5*2.9 + 1.5*4) / 5, (-1.5*3 - 0.5*5.1 + 0.5*6.8 + 1.5*9) / 5, (-0.5*0.4 + 0.5*1.1 + 1.5*1.4) / 5}
	near(t, "slope", s.Slope, (slopes[0]+slopes[1]+slopes[2])/3, 1e-6)
	if !(s.VarSlope > 0.1 && s.Within < 0.1 && s.Within > 0) {
		t.Errorf("%+v", s)
	}
	for i, own := range s.Own {
		if !(math.Abs(own-slopes[i]) <= math.Abs(s.Slope-slopes[i])/5) {
			t.Errorf("slope %d: own %v, drawn to %v", i, slopes[i], own)
		}
	}
	if len(s.OwnIntercepts) != 3 || s.OwnIntercepts[1] < s.OwnIntercepts[0] || s.OwnIntercepts[0] < s.OwnIntercepts[2] {
		t.Errorf("%v", s.OwnIntercepts)
	}
}

func outside(err error) bool {
	var r *quantity.RangeError
	return errors.As(err, &r)
}

func second[T any](_ T, err error) error { return err }

func TestRefusals(t *testing.T) {
	one, two := []float64{1}, []float64{1, 2}
	s, _ := Meta(siteMeans, siteSEs, REML)
	pair, _ := Meta(two, two, REML)
	lines := [][]float64{{1, 2}, {1, 2}}
	for name, err := range map[string]error{
		"one site":                 second(Meta(one, one, REML)),
		"errors missing":           second(Meta(two, one, REML)),
		"no error":                 second(Meta(two, []float64{1, 0}, REML)),
		"no mean":                  second(Meta([]float64{1, math.NaN()}, two, REML)),
		"no method":                second(Meta(two, two, EqualEffects+1)),
		"below methods":            second(Meta(two, two, -1)),
		"unsure interval":          second(s.NormalInterval(0.49)),
		"sure interval":            second(s.HKSJ(1)),
		"unsure prediction":        second(s.Predict(HKSJPrediction, quantity.Fraction(math.NaN()))),
		"two sites after Higgins":  second(pair.Predict(HigginsPrediction, 0.95)),
		"unsure shrinking":         second(s.Shrink(0.4)),
		"unsure rank":              second(s.Rank(0.4)),
		"201 sites ranked":         second(Summary{y: make([]float64, 201)}.Rank(0.9)),
		"one group":                second(RandomIntercept([][]float64{two})),
		"an empty group":           second(RandomIntercept([][]float64{two, nil})),
		"no number in a group":     second(RandomIntercept([][]float64{two, {math.Inf(1)}})),
		"groups without spread":    second(RandomIntercept([][]float64{{1, 1}, {2, 2}})),
		"one group of lines":       second(RandomSlopes(lines[:1], lines[:1])),
		"groups of lines missing":  second(RandomSlopes(lines, lines[:1])),
		"an empty line":            second(RandomSlopes([][]float64{{1, 2, 3, 4}, nil}, [][]float64{{1, 2, 3, 4}, nil})),
		"a line of unlike length":  second(RandomSlopes(lines, [][]float64{{1, 2}, {1}})),
		"no number on a line":      second(RandomSlopes(lines, [][]float64{{1, 2}, {1, math.NaN()}})),
		"three points":             second(RandomSlopes([][]float64{{1, 2}, {1}}, [][]float64{{1, 2}, {1}})),
		"points at one time":       second(RandomSlopes([][]float64{{1, 1}, {1, 1}}, lines)),
		"three means":              second(JamesStein([]float64{1, 2, 3}, 1)),
		"no variance":              second(JamesStein([]float64{1, 2, 3, 4}, 0)),
		"no mean to shrink":        second(JamesStein([]float64{1, 2, 3, math.Inf(-1)}, 1)),
		"hits above tries":         second(JamesSteinShares([]float64{1, 2, 3, 11}, 10)),
		"tries of nothing":         second(JamesSteinShares([]float64{1, 2, 3, 1}, 0)),
		"hits of none":             second(JamesSteinShares([]float64{0, 0, 0, 0}, 10)),
		"variance past all bounds": second(JamesStein([]float64{1, 2, 3, 4}, 1.1e300)),
	} {
		if !outside(err) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (Summary{y: make([]float64, 200), Tau2: 0}).Rank(0.9); err != nil {
		t.Error(err)
	}
	if _, err := JamesStein([]float64{1, 2, 3, 4}, 1e-300); err != nil {
		t.Error(err)
	}
}

// TestJamesSteinNeverOvershoots: the factor stops at 0, and equal means stay.
func TestJamesSteinNeverOvershoots(t *testing.T) {
	s, err := JamesStein([]float64{1, 2, 3, 4}, 100)
	if err != nil || s.Factor != 0 || s.Estimates[0] != 2.5 {
		t.Errorf("%+v %v", s, err)
	}
	s, err = JamesStein([]float64{2, 2, 2, 2}, 1)
	if err != nil || s.Factor != 0 || s.Estimates[3] != 2 {
		t.Errorf("%+v %v", s, err)
	}
	s, _ = JamesStein([]float64{1, 2, 3, 4}, 1)
	near(t, "factor", s.Factor, 1-1.0/5, 1e-12)
}

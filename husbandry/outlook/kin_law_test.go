package outlook

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// few others that bend, measured at unlike ages, one of them once.
var unlike = []Curve{
	{[]float64{0, 4, 10, 20}, []float64{1, 1.9, 5, 8}},
	{[]float64{0, 5, 10}, []float64{1.1, 2.2, 4}},
	{[]float64{2}, []float64{1.5}},
	{[]float64{0, 4, 10, 20}, []float64{0.9, 1.6, 4.4, 9}},
}

func kinOf(t *testing.T, others []Curve, s spreads) *Kin {
	t.Helper()
	k := &Kin{others: others, spreads: s}
	k.regrid()
	if k.misfit() == unfit {
		t.Fatal("the others fit no spreads")
	}
	return k
}

// TestDriftIsTheRatesIntegral: the covariance of two sizes is that of a level and of an
// integrated rate whose memory fades by exp(-|s-t|/memory) (Taylor, Cumberland & Sy
// 1994), here integrated by the midpoints of a fine grid.
func TestDriftIsTheRatesIntegral(t *testing.T) {
	s := spreads{math.Log(0.08), math.Log(0.5), math.Log(0.4), math.Log(0.03), math.Atanh(0.3)}
	k := &Kin{spreads: s}
	near(t, "error", k.noise(), 0.03*0.03, 1e-15)
	const n = 300
	for _, at := range [][2]float64{{0, 0}, {0, 0.7}, {0.3, 0.3}, {0.3, 0.7}, {1, 0.2}, {1, 1}} {
		double, single := 0.0, 0.0
		for i := range n {
			x := (float64(i) + 0.5) / n
			for _, end := range at {
				single += math.Exp(-x*end/0.4) * end / n // level now, rate then
			}
			for j := range n {
				y := (float64(j) + 0.5) / n
				double += math.Exp(-math.Abs(x*at[0]-y*at[1])/0.4) * at[0] * at[1] / n / n
			}
		}
		want := 0.08*0.08 + 0.5*0.5*double + 0.3*0.08*0.5*single
		near(t, "covariance", k.drift(at[0], at[1]), want, 1e-5)
	}
}

// joint is the covariance of the logarithms of all points of some curves, each of which
// begins at its first age: the mean curve's own, and what each adds for itself.
func joint(k *Kin, curves []Curve, begins []float64) matrix {
	type point struct {
		curve int
		at    float64
	}
	var all []point
	for i, c := range curves {
		for _, at := range c.At {
			all = append(all, point{i, at})
		}
	}
	c := newMatrix(len(all))
	for i, p := range all {
		for j, q := range all {
			u, v := k.along(p.at), k.along(q.at)
			c[i][j] = math.Min(u, v) + 100*(1+u*v) // bends by one, level and slope unknown by ten
			if p.at == q.at {
				c[i][j] += 1e-6
			}
			if p.curve == q.curve {
				begin := k.along(begins[p.curve])
				c[i][j] += k.drift(u-begin, v-begin)
			}
			if i == j {
				c[i][j] += k.noise()
			}
		}
	}
	return c
}

func begun(curves []Curve) (begins []float64) {
	for _, c := range curves {
		begins = append(begins, c.At[0])
	}
	return begins
}

func allLogs(curves []Curve) (logs []float64) {
	for _, c := range curves {
		logs = append(logs, c.logs()...)
	}
	return logs
}

// TestMisfitIsTheLikelihood: minus the logarithm of the likelihood of all sizes at once,
// by their whole covariance, and what the spreads lie off the usual ones. Kin goes
// another way: curve by curve, the mean curve weighed in at the end.
func TestMisfitIsTheLikelihood(t *testing.T) {
	for _, s := range []spreads{usual, {-2, -1, -1, -3, 0.4}, {-3, -0.2, 1, -4, -0.6}} {
		k := kinOf(t, unlike, s)
		root, ok := joint(k, unlike, begun(unlike)).root()
		if !ok {
			t.Fatal("no covariance")
		}
		half := root.forth(allLogs(unlike))
		want := root.logRoot() + dot(half, half)/2
		for i, width := range []float64{1.5, 1.5, 1.5, 1.5, 0.5} { // to a fifth and to fourfold; of the tangent a half
			off := (s[i] - []float64{-2.5, -0.7, 0, -3.5, 0}[i]) / width
			want += off * off / 2
		}
		near(t, "misfit", k.misfit(), want, 1e-6*math.Abs(want))
	}
	for i, share := range map[int]float64{0: 0.08, 1: 0.5, 2: 1, 3: 0.03} { // as is said of the usual values
		near(t, "usual", math.Exp(usual[i]), share, 0.005)
	}
}

// foretold is the law of one's logarithms at later ages given all that is known: the
// textbook's conditional normal distribution, from the whole covariance.
func foretold(t *testing.T, k *Kin, others []Curve, own Curve, at, begin float64) (middle, variance float64) {
	t.Helper()
	curves := append(slices.Clone(others), Curve{append(slices.Clone(own.At), at), append(slices.Clone(own.Size), 1)})
	c := joint(k, curves, append(begun(others), begin))
	n := len(c) - 1
	known := newMatrix(n)
	for i := range known {
		copy(known[i], c[i])
	}
	root, ok := known.root()
	if !ok {
		t.Fatal("no covariance")
	}
	gain := root.forth(c[n][:n])
	return dot(gain, root.forth(allLogs(curves)[:n])), c[n][n] - dot(gain, gain)
}

// TestAheadIsTheConditionalLaw: the middle and the spread of a forecast are those of the
// conditional distribution, before and after one's own first points; the spread is drawn
// as the others' own forecasts by the rest would have had to be, ten others counting as
// drawn by nothing, and Student's t has as many degrees of freedom as there are others
// less one, and four for the usual values.
func TestAheadIsTheConditionalLaw(t *testing.T) {
	s := spreads{-2.2, -0.9, -0.5, -3.2, 0.2}
	k := kinOf(t, unlike, s)
	for _, own := range []Curve{{}, {[]float64{4}, []float64{2.4}}, {[]float64{0, 4}, []float64{1.2, 2.4}}, {[]float64{3, 4, 6}, []float64{1.5, 2.4, 3}}} {
		list, err := k.Ahead(own, []float64{12, 20})
		if err != nil {
			t.Fatal(err)
		}
		here, _ := k.asking(append(slices.Clone(own.At), 12, 20)) // the clock that all are told by
		begin, drawn := 0.0, 1.0
		if n := len(own.At); n > 0 {
			begin, drawn = own.At[0], drawnBy(t, here, n)
		}
		for _, p := range list {
			middle, variance := foretold(t, here, unlike, own, p.At, begin)
			near(t, "middle", p.Middle, middle, 1e-6)
			near(t, "spread", p.Spread, drawn*math.Sqrt(variance), 1e-6)
			near(t, "degrees of freedom", p.Few, 4-1+4, 0)
		}
	}
}

// drawnBy forecasts each of the others from as many first points by the rest.
func drawnBy(t *testing.T, k *Kin, points int) float64 {
	t.Helper()
	squares, count := 10.0, 10.0
	for i, c := range k.others {
		if len(c.At) <= points {
			continue
		}
		rest := slices.Delete(slices.Clone(k.others), i, i+1)
		mean := 0.0
		for j := points; j < len(c.At); j++ {
			middle, variance := foretold(t, k, rest, Curve{c.At[:points], c.Size[:points]}, c.At[j], c.At[0])
			off := math.Log(c.Size[j]) - middle
			mean += off * off / variance / float64(len(c.At)-points)
		}
		squares, count = squares+mean, count+1
	}
	return math.Sqrt(squares / count)
}

// TestOthersMeasuredOnce say something of the level: they are kept, and move the middle.
func TestOthersMeasuredOnce(t *testing.T) {
	k, err := LearnKin(unlike)
	if err != nil || len(k.others) != len(unlike) {
		t.Fatal(len(k.others), err)
	}
	if k, err := LearnKin(append(slices.Clone(unlike), Curve{})); err != nil || len(k.others) != len(unlike) {
		t.Error("one never measured is kept", err)
	}
	if k.along(20) != 1 || k.along(0) != 0 {
		t.Errorf("the clock runs from %g to %g", k.along(0), k.along(20))
	}
}

// TestKinThatNothingFits is refused as a whole, not at one of its points.
func TestKinThatNothingFits(t *testing.T) {
	torn := &Kin{others: unlike, spreads: usual, grid: []float64{0, 2, 4, 5, 10, 20}, clock: []float64{0, 0.1, math.NaN(), 0.3, 0.5, 1}}
	if misfit := torn.misfit(); !math.IsInf(misfit, 1) {
		t.Errorf("a torn clock fits: %g", misfit)
	}
	var refused *CurveError
	if err := torn.fit(); !errors.As(err, &refused) || refused.Point != -1 || !strings.Contains(err.Error(), "curve: no spread fits") {
		t.Error(err)
	}
	lost := kinOf(t, unlike, usual)
	lost.spreads[0] = math.NaN()
	if list, err := lost.Ahead(Curve{}, []float64{21}); !errors.As(err, &refused) || refused.Point != -1 || list != nil {
		t.Error(list, err)
	}
	for _, others := range [][]Curve{unlike[:1], unlike[1:3]} { // one alone, and one beside one measured once
		if _, err := LearnKin(others); !errors.As(err, &refused) || refused.Point != -1 || !strings.Contains(err.Error(), "measured twice") {
			t.Error(err)
		}
	}
	if err := (Curve{[]float64{1, 2}, []float64{1}}).check(); !errors.As(err, &refused) || refused.Point != -1 {
		t.Error(err)
	}
	k := kinOf(t, unlike, usual)
	if list, err := k.Ahead(Curve{[]float64{5}, []float64{2}}, []float64{4}); err == nil {
		t.Error("a forecast of what was before", list)
	}
}

// TestSpeedIsTheMeanOfThoseFollowed: over a stretch where two were followed, the mean of
// both; where one was, that one's; where none was, the clock runs as it does on the whole.
func TestSpeedIsTheMeanOfThoseFollowed(t *testing.T) {
	grid := []float64{0, 1, 2, 4}
	e := math.E
	two := []Curve{{[]float64{0, 1}, []float64{1, e}}, {[]float64{0, 2}, []float64{1, math.Pow(e, 6)}}}
	speed := meanSpeed(grid, two)
	near(t, "of both", speed[0], (1.0+3)/2, 1e-12)
	near(t, "of one", speed[1], 3, 1e-12)
	if !math.IsNaN(speed[2]) {
		t.Errorf("nobody was followed, at %g", speed[2])
	}
	clock := meanGrowth(grid, two) // 2 and 3 in two days: 2.5 a day for the two that nobody knows
	for i, want := range []float64{0, 0.2, 0.5, 1} {
		near(t, "clock", clock[i], want, 1e-12)
	}
}

// TestMoreOthersNarrow: whoever has more kin is told more narrowly, on a thousand random
// families, as long as the spreads are known.
func TestMoreOthersNarrow(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9)) // #nosec G404 -- the same case each time
	grid := []float64{0, 1, 2, 3}
	for range 1000 {
		s := spreads{-3 + 2*r.Float64(), -2 + 2*r.Float64(), -1 + 2*r.Float64(), -4 + 2*r.Float64(), r.Float64() - 0.5}
		var others []Curve
		for range 4 {
			size := 1 + r.Float64()
			c := Curve{At: grid}
			for range grid {
				c.Size = append(c.Size, size)
				size *= 1 + r.Float64()
			}
			others = append(others, c)
		}
		variance := func(n int) float64 {
			k := &Kin{others: others[:n], spreads: s, grid: grid, clock: []float64{0, 0.4, 0.7, 1}}
			if k.misfit() == unfit {
				t.Fatal("no fit")
			}
			root, ok := k.sum.root()
			if !ok {
				t.Fatal("no mean curve")
			}
			spread := k.condition(root, Curve{grid[:2], others[3].Size[:2]}, grid[2:])[1].Spread
			return spread * spread
		}
		if few, many := variance(2), variance(3); !(many < few) {
			t.Fatalf("%v: %g of two others, %g of three", s, few, many)
		}
	}
}

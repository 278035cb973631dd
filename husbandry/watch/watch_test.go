package watch

import (
	"errors"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

func near(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Max(1e-3, math.Abs(want))) {
		t.Errorf("%s is %.12g, want %.12g", name, got, want)
	}
}

func outside(err error) bool {
	var r *quantity.RangeError
	return errors.As(err, &r)
}

// second is the error, beside which no value may stand: where one does, an error
// that is none of those wanted.
func second[T any](value T, err error) error {
	if v := reflect.ValueOf(value); err != nil && v.IsValid() && !v.IsZero() {
		return errors.New(fmt.Sprint(value, " stands beside ", err))
	}
	return err
}

// TestChartByHand: readings 10, 12, 11, 13, 30: moving ranges 2, 1, 2, 17.
func TestChartByHand(t *testing.T) {
	c, err := Individuals([]float64{10, 12, 11, 13, 30})
	if err != nil {
		t.Fatal(err)
	}
	sigma := 5.5 / 1.1283791671
	near(t, "centre", c.Centre, 15.2, 1e-12)
	near(t, "sigma", c.Sigma, sigma, 1e-9)
	near(t, "upper", c.Upper, 15.2+3*sigma, 1e-9)
	near(t, "lower", c.Lower, 15.2-3*sigma, 1e-9)
	near(t, "range", c.RangeUpper, (1.1283791671+3*0.8525024664)*sigma, 1e-9)
}

// TestEWMAByHand: base 10, 12 (centre 11), then 20: weights of a quarter.
func TestEWMAByHand(t *testing.T) {
	s, err := EWMA([]float64{10, 12, 20, 11}, 0.25, 2, 2)
	if err != nil {
		t.Fatal(err)
	}
	sigma := 2 / 1.1283791671
	for i, want := range []float64{10.75, 11.0625, 13.296875, 12.72265625} {
		near(t, "average", s.Value[i], want, 1e-12)
		near(t, "half width", s.HalfWidth[i], 2*sigma*math.Sqrt(0.25/1.75*(1-math.Pow(0.75, 2*float64(i+1)))), 1e-9)
	}
	if !slices.Equal(s.Signals, []int{2, 3}) {
		t.Errorf("signals at %v", s.Signals)
	}
}

// TestCUSUMByHand: base 0, 1 (centre a half); readings in standard deviations.
func TestCUSUMByHand(t *testing.T) {
	sigma := 1 / (2 / math.Sqrt(math.Pi))
	values := []float64{0, 1, 0.5 + 3*sigma, 0.5 + 2*sigma, 0.5 - 4*sigma, 0.5 - 4*sigma}
	s, err := CUSUM(values, 1, 2.5, 2)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{0, 0, 2, 3, 0, 0} {
		near(t, "up", s.Up[i], want, 1e-9)
	}
	for i, want := range []float64{0, 0, 0, 0, 3, 6} {
		near(t, "down", s.Down[i], want, 1e-9)
	}
	if s.FirstUp != 3 || s.FirstDown != 4 {
		t.Errorf("%+v", s)
	}
	near(t, "largest", s.LargestUp, 3, 1e-9)
	near(t, "largest", s.LargestDown, 6, 1e-9)
	none, _ := CUSUM(values, 1, 20, 2)
	if none.FirstUp != -1 || none.FirstDown != -1 {
		t.Errorf("%+v", none)
	}
}

// TestModifiedZFloor: where most readings agree the floor stands in.
func TestModifiedZFloor(t *testing.T) {
	z, err := ModifiedZ([]float64{7, 7, 7, 7, 8}, 0.05)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "z", z[4], 1/0.05*0.6744897501960817, 1e-9)
	if z[0] != 0 || Beyond(z, 3.5) != 1 {
		t.Errorf("%v", z)
	}
	near(t, "farthest", Farthest(z), z[4], 1e-12)
	z, _ = ModifiedZ([]float64{1, 2, 3, 4, 100}, 0.05) // raw median distance 1
	near(t, "z", z[0], -2*0.6744897501960817, 1e-9)
}

// TestTrendByHand: 1, 3, 2, 6 at 0, 1, 2, 4: slopes 2, -1, 1.5, 0.5, 1.25, 1.
func TestTrendByHand(t *testing.T) {
	x, y := []float64{0, 1, 2, 4}, []float64{1, 3, 2, 6}
	s, err := TheilSen(x, y, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	// slopes in order: -1, 0.5, 1, 1.25, 5/3... worked below
	slopes := []float64{2, 0.5, 1.25, -1, 1, 2}
	slices.Sort(slopes)
	near(t, "slope", s.Slope, (slopes[2]+slopes[3])/2, 1e-12)
	near(t, "intercept", s.Intercept, 2.5-s.Slope*1.5, 1e-12)
	near(t, "residual", s.MedianResidual, median([]float64{1, 3 - s.Slope, 2 - 2*s.Slope, 6 - 4*s.Slope}), 1e-12)
	// variance 4*3*13/18 = 8.667, reach 0.6745*2.944 = 1.986: ranks round(2.007) = 2 and round(3.993)+1 = 5
	near(t, "low", s.Low, slopes[1], 1e-12)
	near(t, "high", s.High, slopes[4], 1e-12)
	wide, _ := TheilSen(x, y, 0.9999)
	near(t, "the least slope", wide.Low, slopes[0], 1e-12)
	near(t, "the largest slope", wide.High, slopes[5], 1e-12)
	if n := len(slopes); s.Slopes != n {
		t.Errorf("%d slopes", s.Slopes)
	}
}

// TestKendallByHand: 1, 2, 2, 4: five rises, one tie.
func TestKendallByHand(t *testing.T) {
	k, err := MannKendall([]float64{1, 2, 2, 4})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "S", k.S, 5, 1e-12)
	near(t, "variance", k.Variance, (4*3*13-2*1*9)/18.0, 1e-12)
	near(t, "z", k.Z, 4/math.Sqrt(138/18.0), 1e-12)
	near(t, "tau", k.Tau, 5/math.Sqrt(30), 1e-12)
	flat, _ := MannKendall([]float64{1, 2, 1, 2, 1, 1, 2, 0, 2}) // S as it falls
	near(t, "p of both sides", flat.P, math.Erfc(math.Abs(flat.Z)/math.Sqrt2), 1e-12)
}

// TestBreaksByHand: 1, 1, 1, 5, 5, 5, 9, 9 with a little noise.
func TestBreaksByHand(t *testing.T) {
	values := []float64{1, 1.1, 0.9, 5, 5.1, 4.9, 9, 9.1}
	b, err := OneBreak(values, 1)
	if err != nil || b.Last != 3 {
		t.Fatal(b, err)
	}
	near(t, "before", b.Before, 1, 1e-12)
	near(t, "after", b.After, 33.1/5, 1e-12)
	far, _ := OneBreak(values, 4)
	if far.Last != 4 {
		t.Errorf("%+v", far)
	}
	p, err := Segments(values, 0.5, 1)
	if err != nil || !slices.Equal(p.Breaks, []int{3, 6}) {
		t.Fatal(p, err)
	}
	near(t, "cost", p.Cost, 0.02+0.02+0.005+2*0.5, 1e-9)
	p, _ = Segments(values, 1000, 1)
	if p.Breaks != nil {
		t.Errorf("%+v", p)
	}
	p, _ = Segments(values, 0.5, 4)
	if !slices.Equal(p.Breaks, []int{4}) {
		t.Errorf("%+v", p)
	}
	penalty, _ := SegmentPenalty([]float64{1, 3, 2})
	near(t, "penalty", penalty, 2*math.Log(3)*1.5*1.5*math.Pi/4, 1e-12)
}

// TestSegmentsAgainstTrying: no other cut of a short series costs less.
func TestSegmentsAgainstTrying(t *testing.T) {
	r := rand.New(rand.NewSource(10))
	for range 200 {
		values := make([]float64, 9)
		for i := range values {
			values[i] = float64(r.Intn(3)) + 0.3*r.NormFloat64()
		}
		got, err := Segments(values, 0.7, 1)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for cuts := range 1 << 8 {
			cost, from := -0.7, 0
			for to := 1; to <= 9; to++ {
				if to == 9 || cuts>>(to-1)&1 == 1 {
					cost += 0.7 + squaresAbout(mean(values[from:to]), values[from:to])
					from = to
				}
			}
			least = min(least, cost)
		}
		near(t, "cost", got.Cost, least, 1e-9)
	}
}

// TestPettittByHand: 1, 2, 2, 9: ranks 1, 2.5, 2.5, 4.
func TestPettittByHand(t *testing.T) {
	p, err := Pettitt([]float64{1, 2, 2, 9})
	if err != nil || p.K != 3 || p.Last != 1 {
		t.Fatal(p, err)
	}
	near(t, "p", p.P, 1, 1e-12)
	q, _ := Pettitt([]float64{1, 2, 3, 4, 5, 6, 7, 8})
	near(t, "p of a climb", q.P, 2*math.Exp(-6*256.0/(512+64)), 1e-12)
}

// TestSmoothingByHand: 2, 4, 3 with alpha a half; Holt on 1, 2, 4.
func TestSmoothingByHand(t *testing.T) {
	f, err := Simple([]float64{2, 4, 3}, 0.5, 2)
	if err != nil || len(f.Next) != 2 || f.Next[1] != 3 {
		t.Fatal(f, err)
	}
	near(t, "squares", f.SSE, 4, 1e-12)
	near(t, "mean square", f.MSE, 2, 1e-12)
	near(t, "mean size", f.MAE, 1, 1e-12)
	h, err := Holt([]float64{1, 2, 4}, 0.5, 0.5, 2)
	if err != nil {
		t.Fatal(err)
	}
	// expected 3, error 1; level 3.5, trend 1.25
	near(t, "next", h.Next[0], 4.75, 1e-12)
	near(t, "after", h.Next[1], 6, 1e-12)
	near(t, "squares", h.SSE, 1, 1e-12)
	best, err := SimpleBest([]float64{5, 1, 5, 1, 5, 1, 5, 1})
	if err != nil || best != 0 {
		// alternating readings are forecast best by a level that hardly moves
		a, _ := Simple([]float64{5, 1, 5, 1, 5, 1, 5, 1}, best, 1)
		b, _ := Simple([]float64{5, 1, 5, 1, 5, 1, 5, 1}, best+0.01, 1)
		if err != nil || a.SSE > b.SSE {
			t.Error(best, err)
		}
	}
}

// TestSimpleBestIsBest: no alpha nearby makes fewer squares.
func TestSimpleBestIsBest(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	for range 100 {
		values := make([]float64, 12)
		for i := range values {
			values[i] = r.NormFloat64()
			if i > 0 {
				values[i] += 0.8 * values[i-1]
			}
		}
		best, err := SimpleBest(values)
		if err != nil {
			t.Fatal(err)
		}
		least, _ := Simple(values, best, 1)
		for _, step := range []quantity.Fraction{-0.05, -1e-3, -1e-5, 1e-5, 1e-3, 0.05} {
			if at := best + step; at >= 0 && at <= 1 {
				if other, _ := Simple(values, at, 1); other.SSE < least.SSE-1e-12 {
					t.Fatalf("alpha %v beats %v", at, best)
				}
			}
		}
	}
}

// TestSeasonsAreFollowed: a series of level, trend and season without noise is
// forecast as it goes on, for odd and even periods. The start that R chose lags
// a little, so not to the last digit.
func TestSeasonsAreFollowed(t *testing.T) {
	for _, season := range [][]float64{{-1, 1}, {-1, 0, 1}, {1, 2, -4, 3, 0, -2}, {-2, 1, 3, -2}, {4, -1, -3, 1, -1}} {
		n := len(season)
		var plain, times []float64
		for i := range 5 * n {
			plain = append(plain, 20+0.5*float64(i)+season[i%n])
			times = append(times, (20+0.5*float64(i))*(1+season[i%n]/10))
		}
		s, err := HoltWinters(plain, n, Additive, Shares{0.3, 0.1, 0.2}, 2*n)
		if err != nil {
			t.Fatal(err)
		}
		for h := range 2 * n {
			near(t, "added season", s.Next[h], 20+0.5*float64(5*n+h)+season[h%n], 0.02)
		}
		m, err := HoltWinters(times, n, Multiplicative, Shares{0.3, 0.1, 0.2}, 2*n)
		if err != nil {
			t.Fatal(err)
		}
		for h := range 2 * n {
			near(t, "season as a factor", m.Next[h], (20+0.5*float64(5*n+h))*(1+season[h%n]/10), 0.02)
		}
		best, err := HoltWintersBest(plain, n, Additive, 1)
		if err != nil || best.SSE > s.SSE {
			t.Error(best, err)
		}
	}
}

// TestETSAhead: mean and variance ahead agree with a hundred thousand futures
// drawn from the model, past a whole period.
func TestETSAhead(t *testing.T) {
	for _, f := range []ETSFit{
		{Alpha: 0.3, Beta: 0.05, Gamma: 0.4, Sigma: 0.1, Level: 50, Trend: 1, Season: []float64{0.8, 1.2, 1}, how: Multiplicative},
		{Alpha: 0.3, Beta: 0.05, Gamma: 0.4, Sigma: 2, Level: 50, Trend: 1, Season: []float64{-3, 2, 1}, how: Additive},
	} {
		const draws, ahead = 100000, 8
		r := rand.New(rand.NewSource(12))
		sum, square := 0.0, 0.0
		for range draws {
			g := f
			g.Season = slices.Clone(f.Season)
			var y float64
			for range ahead {
				e := f.Sigma * r.NormFloat64()
				mu := f.how.join(g.Level+g.Trend, g.Season[0])
				y = mu + e
				if f.how == Multiplicative {
					y = mu * (1 + e)
				}
				g.step(y)
			}
			sum, square = sum+y, square+y*y
		}
		mean := sum / draws
		sd := math.Sqrt(square/draws - mean*mean)
		s, err := f.Forecast(ahead, 0.9)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mean ahead", s.Value, mean, 3e-3)
		near(t, "spread ahead", (s.High-s.Low)/2/1.6448536269514722, sd, 0.01)
		now, _ := f.Forecast(1, 0.9)
		near(t, "spread of the next", (now.High-now.Low)/2/1.6448536269514722, math.Sqrt(f.variance1()), 1e-9)
	}
}

// variance1 is the variance of the next reading.
func (f ETSFit) variance1() float64 {
	if f.how == Multiplicative {
		mu := (f.Level + f.Trend) * f.Season[0]
		return mu * mu * f.Sigma * f.Sigma
	}
	return f.Sigma * f.Sigma
}

// TestNaiveByHand: 3, 5, 4, 8 with a season of two.
func TestNaiveByHand(t *testing.T) {
	s, err := Naive([]float64{3, 5, 4, 8}, 2, 3, 0.9)
	if err != nil || s.Value != 4 {
		t.Fatal(s, err)
	}
	near(t, "reach", s.High-s.Value, 1.6448536269514722*math.Sqrt((1+9)/2.0)*math.Sqrt2, 1e-9)
	d, err := Drift([]float64{3, 5, 4, 9}, 2, 0.9)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "drift", d.Value, 13, 1e-12)
	near(t, "reach", d.High-d.Value, 1.6448536269514722*math.Sqrt((0+9+9)/2.0)*math.Sqrt(2*(1+2.0/3)), 1e-9)
	m, err := MASE([]float64{1, 2, 4}, []float64{5, 7}, []float64{4, 4}, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "MASE", m, 2/1.5, 1e-12)
	r, err := Rolling([]float64{1, 2, 4, 3}, 1, 1, 2, 0.9)
	if err != nil || r.Forecasts != 2 {
		t.Fatal(r, err)
	}
	near(t, "mean distance", r.MAE, 1.5, 1e-12)
	near(t, "share inside", r.Coverage, 0.5, 1e-12) // 2 steps off where the only step was 1; then 1 where steps were 1 and 2
}

// TestScoresByHand: where a forecast cannot be beaten, and what a miss costs.
func TestScoresByHand(t *testing.T) {
	below, _ := Pinball(3, 5, 0.9)
	above, _ := Pinball(7, 5, 0.9)
	near(t, "below", below, 0.2, 1e-12)
	near(t, "above", above, 1.8, 1e-12)
	in, _ := IntervalScore(5, 4, 7, 0.1)
	under, _ := IntervalScore(3, 4, 7, 0.1)
	over, _ := IntervalScore(9, 4, 7, 0.1)
	near(t, "inside", in, 3, 1e-12)
	near(t, "under", under, 23, 1e-12)
	near(t, "over", over, 43, 1e-12)
	sure, _ := CRPSNormal(5, 3, 1e-9)
	near(t, "a sure forecast", sure, 2, 1e-8)
	none, _ := CRPSNormal(3, 3, 2)
	near(t, "a forecast of what came", none, 2*(math.Sqrt(2)-1)/math.Sqrt(math.Pi), 1e-12)
}

func TestRefusals(t *testing.T) {
	nan := []float64{1, 2, math.NaN()}
	three, same := []float64{1, 3, 2}, []float64{2, 2, 2, 2}
	long := make([]float64, 5001)
	for i := range long {
		long[i] = float64(i % 7)
	}
	ok := []float64{1, 3, 2, 4, 1, 3, 2, 5, 1, 4, 2, 4}
	for name, err := range map[string]error{
		"mean of nothing":           second(Mean(nil)),
		"spread of one":             second(SD(three[:1])),
		"median of no number":       second(Median(nan)),
		"MAD of one":                second(MAD(three[:1])),
		"z of one":                  second(ModifiedZ(three[:1], 1)),
		"z without floor":           second(ModifiedZ(three, 0)),
		"chart of one":              second(Individuals(three[:1])),
		"chart of alike":            second(Individuals(same)),
		"EWMA of alike":             second(EWMA(same, 0.2, 3, 4)),
		"EWMA of one":               second(EWMA(three[:1], 0.2, 3, 2)),
		"EWMA on a base of one":     second(EWMA(three, 0.2, 3, 1)),
		"EWMA on more than all":     second(EWMA(three, 0.2, 3, 4)),
		"CUSUM on a base of one":    second(CUSUM(three, 0.5, 5, 1)),
		"trend of two":              second(TheilSen(three[:2], three[:2], 0.9)),
		"trend, times missing":      second(TheilSen(three, same, 0.9)),
		"trend at one time":         second(TheilSen(same, []float64{1, 2, 3, 4}, 0.9)),
		"trend of 3001":             second(TheilSen(long[:3001], long[:3001], 0.9)),
		"unsure trend":              second(TheilSen(three, three, 0.4)),
		"trend of no number":        second(TheilSen(three, nan, 0.9)),
		"Kendall of two":            second(MannKendall(three[:2])),
		"Kendall of alike":          second(MannKendall(same)),
		"Kendall of 3001":           second(MannKendall(long[:3001])),
		"break of two":              second(OneBreak(three[:2], 1)),
		"break too short":           second(OneBreak(three, 0)),
		"break too long":            second(OneBreak(same, 3)),
		"break of alike":            second(OneBreak(same, 1)),
		"segments of one":           second(Segments(three[:1], 1, 1)),
		"segments of 5001":          second(Segments(long, 1, 1)),
		"segments for nothing":      second(Segments(three, 0, 1)),
		"segments too short":        second(Segments(three, 1, 0)),
		"segments too long":         second(Segments(three, 1, 4)),
		"penalty of alike":          second(SegmentPenalty(same)),
		"penalty of one":            second(SegmentPenalty(three[:1])),
		"Pettitt of two":            second(Pettitt(three[:2])),
		"smoothing one":             second(Simple(three[:1], 0.5, 1)),
		"smoothing ahead 0":         second(Simple(three, 0.5, 0)),
		"smoothing ahead 1001":      second(Simple(three, 0.5, 1001)),
		"smoothing above 1":         second(Simple(three, 1.01, 1)),
		"best of two":               second(SimpleBest(three[:2])),
		"Holt of two":               second(Holt(three[:2], 0.5, 0.5, 1)),
		"Holt above 1":              second(Holt(three, 0.5, 1.01, 1)),
		"season of one":             second(HoltWinters(ok, 1, Additive, Shares{}, 1)),
		"season of 367":             second(HoltWinters(long, 367, Additive, Shares{}, 1)),
		"season of no kind":         second(HoltWinters(ok, 3, 2, Shares{}, 1)),
		"two seasons only":          second(HoltWinters(ok[:6], 3, Additive, Shares{}, 1)),
		"best of two seasons":       second(HoltWintersBest(ok[:6], 3, Additive, 1)),
		"season times nothing":      second(HoltWinters([]float64{1, 2, 0, 1, 2, 1, 2}, 3, Multiplicative, Shares{}, 1)),
		"gamma above 1":             second(HoltWinters(ok, 3, Additive, Shares{0, 0, 1.1}, 1)),
		"ETS of 25":                 second(ETS(long[:100], 25, Additive)),
		"ETS of two seasons":        second(ETS(ok[:11], 4, Additive)),
		"ETS of one":                second(ETS(ok, 1, Additive)),
		"ETS ahead 0":               second(ETSFit{Season: same}.Forecast(0, 0.9)),
		"ETS ahead 1001":            second(ETSFit{Season: same}.Forecast(1001, 0.9)),
		"ETS unsure":                second(ETSFit{Season: same}.Forecast(1, 0.4)),
		"naive of a season":         second(Naive(three, 3, 1, 0.9)),
		"naive of no season":        second(Naive(three, 0, 1, 0.9)),
		"naive of 367":              second(Naive(long, 367, 1, 0.9)),
		"naive unsure":              second(Naive(three, 1, 1, 0.4)),
		"drift of two":              second(Drift(three[:2], 1, 0.9)),
		"rolling from too few":      second(Rolling(ok, 3, 1, 3, 0.9)),
		"rolling past the end":      second(Rolling(ok, 3, 1, 12, 0.9)),
		"rolling unsure":            second(Rolling(ok, 3, 1, 5, 0.4)),
		"MASE of no season":         second(MASE(ok, three, three, 0)),
		"MASE of 367":               second(MASE(long, three, three, 367)),
		"MASE of short history":     second(MASE(three, three, three, 3)),
		"MASE of nothing":           second(MASE(ok, nil, nil, 3)),
		"MASE of unlike":            second(MASE(ok, three[:2], three, 3)),
		"MASE of a still history":   second(MASE(same, three, three, 1)),
		"last season of two":        second(LastSeasonMASE(ok[:6], 3)),
		"pinball at 0":              second(Pinball(1, 1, 0)),
		"pinball at 1":              second(Pinball(1, 1, 1)),
		"pinball of no number":      second(Pinball(1, math.NaN(), 0.5)),
		"interval turned round":     second(IntervalScore(1, 3, 2, 0.1)),
		"interval of no alpha":      second(IntervalScore(1, 2, 3, 0)),
		"interval of all":           second(IntervalScore(1, 2, 3, 0.51)),
		"interval of no number":     second(IntervalScore(math.NaN(), 2, 3, 0.1)),
		"score of no spread":        second(CRPSNormal(1, 1, 0)),
		"log score of nothing":      second(CRPSLogNormal(0, 1, 1)),
		"log score of a far mean":   second(CRPSLogNormal(1, 301, 1)),
		"log score too wide":        second(CRPSNormalOfLog(1, 1, 20.1)),
		"pinball of a lognormal, 0": second(PinballLogNormal(1, 1, 1, 0)),
		"EWMA of wide limits":       second(EWMA(ok, 0.2, 6.1, 3)),
		"log score of too much":     second(CRPSLogNormal(1.5e150, 1, 1)),
		"log score of a low mean":   second(CRPSLogNormal(1, -301, 1)),
		"score of a spread too far": second(CRPSNormal(1, 1, 1.5e150)),
		"segments without price":    second(Segments(three, 1.5e150, 1)),
		"CUSUM that passes all":     second(CUSUM(ok, 3.1, 5, 3)),
		"CUSUM that never tells":    second(CUSUM(ok, 0.5, 20.1, 3)),
		"z of a floor beyond all":   second(ModifiedZ(three, 1.5e150)),
		"trend too sure":            second(TheilSen(three, three, 0.99995)),
		"last season of none":       second(LastSeasonMASE(ok, 0)),
		"weight above one":          second(EWMA(three, 1.5, 3, 2)),
		"pinball of nothing":        second(PinballLogNormal(0, 1, 1, 0.5)),
		"lognormal of nothing":      second(IntervalScoreLogNormal(0, 1, 1, 0.9)),
		"interval of a lognormal":   second(IntervalScoreLogNormal(1, 1, 1, 0.4)),
	} {
		if !outside(err) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, err := range map[string]error{
		"trend of 3000":    second(MannKendall(long[:3000])),
		"segments of 5000": second(Segments(long[:5000], 1, 2500)),
		"season of 366":    second(HoltWinters(long[:800], 366, Additive, Shares{}, 1)),
		"naive of 366":     second(Naive(long[:400], 366, 1000, 0.9)),
	} {
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

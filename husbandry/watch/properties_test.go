package watch

import (
	"math"
	"math/rand"
	"testing"
)

// thousand calls for random readings and a change of unit, the same each time.
func thousand(each func(r *rand.Rand, values []float64, add, times float64)) {
	r := rand.New(rand.NewSource(1000))
	for range 1000 {
		values := make([]float64, 5+r.Intn(20))
		for i := range values {
			values[i] = 20 + 5*r.NormFloat64()
		}
		each(r, values, 100*r.NormFloat64(), 0.1+3*r.Float64())
	}
}

func changed(values []float64, add, times float64) (list []float64) {
	for _, v := range values {
		list = append(list, add+times*v)
	}
	return list
}

// TestUnitsChangeNothing: readings in another unit (32 + 1.8 times, say) have their
// middles there, their spreads times as large, and the same ranks.
func TestUnitsChangeNothing(t *testing.T) {
	thousand(func(_ *rand.Rand, values []float64, add, times float64) {
		other, order := changed(values, add, times), make([]float64, len(values))
		for i := range order {
			order[i] = float64(i)
		}
		for name, each := range map[string]func([]float64) (float64, error){"mean": Mean, "median": Median} {
			a, err := each(values)
			b, second := each(other)
			if err != nil || second != nil {
				t.Fatal(err, second)
			}
			near(t, name, b, add+times*a, 1e-9)
		}
		for name, each := range map[string]func([]float64) (float64, error){"sd": SD, "mad": MAD} {
			a, err := each(values)
			b, second := each(other)
			if err != nil || second != nil {
				t.Fatal(err, second)
			}
			near(t, name, b, times*a, 1e-9)
		}
		a, err := TheilSen(order, values, 0.9)
		b, second := TheilSen(order, other, 0.9)
		c, third := MannKendall(values)
		d, fourth := MannKendall(other)
		if err != nil || second != nil || third != nil || fourth != nil {
			t.Fatal(err, second, third, fourth)
		}
		near(t, "slope", b.Slope, times*a.Slope, 1e-8)
		near(t, "lower end", b.Low, times*a.Low, 1e-8)
		near(t, "upper end", b.High, times*a.High, 1e-8)
		near(t, "tau", d.Tau, c.Tau, 1e-12)
		near(t, "p", d.P, c.P, 1e-12)
	})
}

// TestReadingsBackwards: read backwards a trend has the other sign and the same
// chance, and a change of level the same size.
func TestReadingsBackwards(t *testing.T) {
	thousand(func(_ *rand.Rand, values []float64, _, _ float64) {
		backwards := make([]float64, len(values))
		for i, v := range values {
			backwards[len(values)-1-i] = v
		}
		a, err := MannKendall(values)
		b, second := MannKendall(backwards)
		c, third := Pettitt(values)
		d, fourth := Pettitt(backwards)
		if err != nil || second != nil || third != nil || fourth != nil {
			t.Fatal(err, second, third, fourth)
		}
		near(t, "S", b.S, -a.S, 0)
		near(t, "p", b.P, a.P, 1e-12)
		near(t, "K", d.K, c.K, 1e-12)
	})
}

// TestScoresAreDistances: a score of a forecast is no more than the distance and the
// doubt in it, nothing where there is neither; an interval's is its width at least.
func TestScoresAreDistances(t *testing.T) {
	thousand(func(r *rand.Rand, values []float64, _, times float64) {
		came, mean, sd := values[0], values[1], times
		score, err := CRPSNormal(came, mean, sd)
		exact, second := CRPSNormal(came, came, 1e-6*sd)
		width, third := IntervalScore(came, mean-sd, mean+sd, 0.2)
		half, fourth := Pinball(came, mean, 0.5)
		if err != nil || second != nil || third != nil || fourth != nil {
			t.Fatal(err, second, third, fourth)
		}
		if !(score >= 0 && score <= math.Abs(came-mean)+sd) || !(exact <= 1e-6*sd) || !(width >= 2*sd-1e-12) {
			t.Fatalf("%v of %v +- %v: %v; exact %v; width %v", came, mean, sd, score, exact, width)
		}
		near(t, "half the distance", half, math.Abs(came-mean)/2, 1e-12)
		inside, err := IntervalScore(mean, mean-sd, mean+sd, 0.01+0.4*r.Float64())
		if err != nil {
			t.Fatal(err)
		}
		near(t, "inside", inside, 2*sd, 1e-9)
	})
}

// TestAveragesLieBetween: an average that forgets lies between its centre and the
// readings so far, whatever the weight.
func TestAveragesLieBetween(t *testing.T) {
	thousand(func(r *rand.Rand, values []float64, _, _ float64) {
		lambda := 0.01 + 0.99*r.Float64()
		s, err := EWMA(values, lambda, 3, 3)
		if err != nil {
			t.Fatal(err)
		}
		low, high := s.Centre, s.Centre
		for i, v := range s.Value {
			low, high = math.Min(low, values[i]), math.Max(high, values[i])
			if !(v >= low-1e-9 && v <= high+1e-9) {
				t.Fatalf("average %v outside %v to %v", v, low, high)
			}
		}
	})
}

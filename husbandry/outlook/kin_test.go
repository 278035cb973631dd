package outlook

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/watch"
)

// grown reads the curves of a published set: columns of who, age and size, and
// those rows that a test of one more column keeps.
func grown(t *testing.T, file, who, age, size, column, keep string, change func(float64) float64) []Curve {
	t.Helper()
	f, err := os.Open(published + "data/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := func(row []string, name string) string { return row[slices.Index(rows[0], name)] }
	curves, order := map[string]*Curve{}, []string{}
	for _, row := range rows[1:] {
		if at(row, column) != keep {
			continue
		}
		x, err := strconv.ParseFloat(at(row, age), 64)
		y, other := strconv.ParseFloat(at(row, size), 64)
		if err != nil || other != nil {
			t.Fatal(err, other)
		}
		c := curves[at(row, who)]
		if c == nil {
			c = &Curve{}
			curves[at(row, who)] = c
			order = append(order, at(row, who))
		}
		c.At, c.Size = append(c.At, x), append(c.Size, change(y))
	}
	var list []Curve
	for _, name := range order {
		list = append(list, *curves[name])
	}
	return list
}

// scored is how forecasts of the rest of each curve did, by its first points
// and the others.
type scored struct {
	n                               int
	coverage, width, crps, interval float64
}

func heldOut(t *testing.T, curves []Curve, first int) (s scored) {
	t.Helper()
	for i, own := range curves {
		if len(own.At) <= first {
			continue
		}
		kin, err := LearnKin(slices.Delete(slices.Clone(curves), i, i+1))
		if err != nil {
			t.Fatal(err)
		}
		list, err := kin.Ahead(Curve{own.At[:first], own.Size[:first]}, own.At[first:])
		if err != nil {
			t.Fatal(err)
		}
		for j, p := range list {
			came := own.Size[first+j]
			low, high, err := p.Between(0.9)
			interval, other := watch.IntervalScore(came, low, high, 0.1)
			if err != nil || other != nil {
				t.Fatal(err, other)
			}
			s.n, s.width, s.interval, s.crps = s.n+1, s.width+high-low, s.interval+interval, s.crps+spreadScore(t, p, came)
			if low <= came && came <= high {
				s.coverage++
			}
		}
	}
	n := float64(s.n)
	s.coverage, s.width, s.crps, s.interval = s.coverage/n, s.width/n, s.crps/n, s.interval/n
	return s
}

// spreadScore is the continuous ranked probability score as the mean pinball
// loss of many quantiles (Gneiting & Raftery 2007).
func spreadScore(t *testing.T, p Prospect, came float64) float64 {
	const quantiles = 200
	sum := 0.0
	for i := range quantiles {
		share := (float64(i) + 0.5) / quantiles
		q, err := p.Quantile(quantity.Fraction(share))
		loss, other := watch.Pinball(came, q, share)
		if err != nil || other != nil {
			t.Fatal(err, other)
		}
		sum += 2 * loss / quantiles
	}
	return sum
}

func unchanged(v float64) float64 { return v }

// TestForecastsStayAsTheyWere: nobody publishes this method's figures, so that a
// change of any number in it shows only against what it gave when its intervals
// were found to hold.
func TestForecastsStayAsTheyWere(t *testing.T) {
	chicks := grown(t, "chickweight.csv", "chick", "x", "y", "diet", "2", unchanged)[:5]
	kin, err := LearnKin(chicks[1:])
	if err != nil {
		t.Fatal(err)
	}
	for first, want := range map[int][3]float64{
		0: {51.11272671, 467.534372, 0.1468639833}, 1: {54.45898922, 431.9941035, 0.1296664074}, 6: {289.2079051, 580.4861196, 0.9330826812},
	} {
		list, err := kin.Ahead(Curve{chicks[0].At[:first], chicks[0].Size[:first]}, chicks[0].At[max(first, 9):])
		if err != nil {
			t.Fatal(err)
		}
		last := list[len(list)-1]
		low, high, err := last.Between(0.9)
		above, other := last.Above(300)
		if err != nil || other != nil {
			t.Fatal(err, other)
		}
		for i, got := range []float64{low, high, float64(above)} {
			if !(math.Abs(got/want[i]-1) <= 1e-6) {
				t.Errorf("from %d points: figure %d is %.10g", first, i, got)
			}
		}
	}
}

// TestGrowthThatIsNone: what is no growth curve is refused, and named.
func TestGrowthThatIsNone(t *testing.T) {
	grows := Curve{[]float64{0, 10, 20}, []float64{1, 2, 3}}
	for _, others := range [][]Curve{
		nil, {grows}, {grows, {[]float64{5}, []float64{1}}},
		{grows, {[]float64{0, 0}, []float64{1, 2}}}, {grows, {[]float64{0, 1}, []float64{1, 0}}}, {grows, {[]float64{0, 1}, []float64{1}}},
		{grows, {[]float64{0, math.NaN()}, []float64{1, 2}}}, {grows, {[]float64{0, 2e9}, []float64{1, 2}}},
	} {
		if _, err := LearnKin(others); err == nil {
			t.Errorf("%v teaches something", others)
		}
	}
	kin, err := LearnKin([]Curve{grows, {[]float64{0, 12}, []float64{1.1, 2}}, {[]float64{5}, []float64{1.4}}})
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range [][]float64{{20}, {40, 30}, {math.Inf(1)}} {
		if list, err := kin.Ahead(grows, at); err == nil {
			t.Errorf("forecast at %v: %v", at, list)
		}
	}
	if _, err := kin.Ahead(Curve{[]float64{1, 1}, []float64{1, 1}}, []float64{5}); err == nil {
		t.Error("an age twice is believed")
	}
	if list, err := kin.Ahead(grows, nil); len(list) != 0 || err != nil {
		t.Error(list, err)
	}
}

// TestNothingKnownIsWide: one's own points narrow a forecast, and the nearer
// they are the more.
func TestNothingKnownIsWide(t *testing.T) {
	chicks := grown(t, "chickweight.csv", "chick", "x", "y", "diet", "2", unchanged)[:5]
	kin, err := LearnKin(chicks[1:])
	if err != nil {
		t.Fatal(err)
	}
	before := math.Inf(1)
	for _, first := range []int{0, 3, 6, 9, 11} {
		list, err := kin.Ahead(Curve{chicks[0].At[:first], chicks[0].Size[:first]}, []float64{21})
		if err != nil {
			t.Fatal(err)
		}
		low, high, err := list[0].Between(0.9)
		if err != nil || math.Log(high/low) >= before {
			t.Errorf("from %d points %g to %g: no narrower", first, low, high)
		}
		before = math.Log(high / low)
	}
}

// TestHeldOutChicks: the rest of each chick's curve on diet 2 from its first six
// weights and the other nine chicks. The yardstick is a sound simple method
// (empirical Bayes on polynomials, widened by nested errors) in R 4.2.2:
// coverage 0.917, CRPS 21.146, interval score 186.69. All published sets are
// asked by make coverage.
func TestHeldOutChicks(t *testing.T) {
	s := heldOut(t, grown(t, "chickweight.csv", "chick", "x", "y", "diet", "2", unchanged), 6)
	if !(s.n == 60 && math.Abs(s.coverage-0.9) <= 0.07 && s.crps <= 0.9*21.146 && s.interval <= 0.9*186.69) {
		t.Errorf("%+v", s)
	}
}

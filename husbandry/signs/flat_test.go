package signs

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"freshet.example/husbandry/quantity"
)

// Records without chance, for the edges at which each sign begins to show.

func flat(hours int) *Record {
	return &Record{Hours: make([]Hour, hours), Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]Test{}, Pressure: 1}
}

// says lets a probe say something in each hour.
func (r *Record) says(q quantity.Quantity, v func(hour int) float64) *Record {
	series := make([]float64, len(r.Hours))
	for h := range series {
		series[h] = v(h)
	}
	r.Probe[q] = series
	return r
}

// tested adds tests, each so many hours before now, oldest first.
func (r *Record) tested(q quantity.Quantity, ago []int, values ...float64) *Record {
	for i, v := range values {
		r.Tests[q] = append(r.Tests[q], Test{Hour: r.now() - ago[i], Value: v})
	}
	return r
}

// same holds signs against those wanted, all their fields, numbers within 1e-6.
func same(t *testing.T, what string, got []Sign, want ...Sign) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %+v, want %+v", what, got, want)
		return
	}
	for i, g := range got {
		w := want[i]
		if math.Abs(g.Is-w.Is) <= 1e-6 && math.Abs(g.Was-w.Was) <= 1e-6 {
			g.Is, g.Was = w.Is, w.Was
		}
		if !reflect.DeepEqual(g, w) {
			t.Errorf("%s: %+v, want %+v", what, got[i], w)
		}
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g", what, got, want)
	}
}

// steadily are n numbers from one on by a step, or down.
func steadily(from, step, n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = from + i*step
	}
	return list
}

var nan = math.NaN()

func TestQuantiles(t *testing.T) {
	near(t, "between two", quantileOf([]float64{10, 0}, 0.25), 2.5, 1e-12)
	near(t, "the last", quantileOf([]float64{10, 0}, 1), 10, 0)
	near(t, "of one", middleOf([]float64{3}), 3, 0)
	near(t, "spread", spreadOf([]float64{1, 2, 4, 8, 16}), 1.4826*3, 1e-12)
	if list := flat(1).says(ph, func(int) float64 { return 7 }).probed(); len(list) != 1 || list[0] != ph {
		t.Errorf("%v speak", list)
	}
}

func TestEdgesOfRecords(t *testing.T) {
	for name, c := range map[string]struct {
		r  Record
		ok bool
	}{
		"400 days":                 {Record{Hours: make([]Hour, 400*Day)}, true},
		"thin air":                 {Record{Pressure: 0.5}, true},
		"thinner air":              {Record{Pressure: 0.499}, false},
		"thick air":                {Record{Pressure: 1.1}, true},
		"thicker air":              {Record{Pressure: 1.101}, false},
		"a death in the first":     {Record{Hours: make([]Hour, 1), Deaths: []Death{{}}}, true},
		"a death before":           {Record{Hours: make([]Hour, 1), Deaths: []Death{{Hour: -1}}}, false},
		"a test of minus infinity": {Record{Hours: make([]Hour, 1), Tests: map[quantity.Quantity][]Test{ph: {{Value: math.Inf(-1)}}}}, false},
		"a test before":            {Record{Hours: make([]Hour, 1), Tests: map[quantity.Quantity][]Test{ph: {{Hour: -1}}}}, false},
	} {
		if err := c.r.check(); (err == nil) != c.ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// lively is a loop whose warmth, light and fish change by the hour, and whose
// oxygen is its balance with something more: 0.01 mg/L less for each kg of fish
// at 25 degC, 0.4 more at noon.
func lively(t *testing.T, hours int, more func(hour int) float64) *Record {
	t.Helper()
	lots := rand.New(rand.NewPCG(3, 5)) // #nosec G404 -- the same case each time
	r := flat(hours)
	for h := range r.Hours {
		r.Hours[h] = Hour{Fish: 30 + 10*lots.Float64(), Sun: lots.Float64()}
	}
	r.says(warmth, func(int) float64 { return 20 + 8*lots.Float64() })
	return r.says(oxygen, func(h int) float64 {
		terms := r.breathes(h, r.Probe[warmth][h])
		return terms[1] - 0.01*terms[2] + 0.4*terms[3] + more(h)
	})
}

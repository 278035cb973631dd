package signs

import (
	"maps"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

// thousand calls for a thousand random cases, the same each time.
func thousand(each func(r *rand.Rand)) {
	r := rand.New(rand.NewPCG(19, 1000)) // #nosec G404 -- the same case each time
	for range 1000 {
		each(r)
	}
}

// anyRecord is some days of anything that may come: probes that rest, leap, fall silent
// or speak seldom, tests of any value, deaths.
func anyRecord(r *rand.Rand) Record {
	n := 1 + r.IntN(16*Day)
	rec := Record{Hours: make([]Hour, n), Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]Test{}, Litres: 3000}
	for i := range rec.Hours {
		rec.Hours[i] = Hour{Fish: 30, Sun: r.Float64(), Calibrated: r.IntN(400) == 0}
	}
	for _, q := range []quantity.Quantity{warmth, ph, oxygen, quantity.Conductivity, quantity.AirTemperature} {
		if r.IntN(3) == 0 {
			continue
		}
		series, step, silent, rests, v := make([]float64, n), math.Exp(4*r.Float64()-5), r.Float64(), r.Float64(), 1+20*r.Float64()
		for i := range series {
			if r.Float64() > rests {
				v = math.Abs(v + step*r.NormFloat64())
			}
			if series[i] = v; r.Float64() < silent*silent {
				series[i] = math.NaN()
			}
		}
		rec.Probe[q] = series
	}
	for _, q := range []quantity.Quantity{quantity.TotalAmmonia, quantity.Nitrite, quantity.Nitrate, quantity.Alkalinity, ph, quantity.Appetite} {
		every := 5 + r.IntN(60)
		v := 4 * r.Float64()
		for at := r.IntN(every); at < n; at += 1 + r.IntN(2*every) {
			v *= math.Exp(0.3 * r.NormFloat64())
			if r.IntN(12) == 0 {
				v *= []float64{0.1, 10, 4.43, 0}[r.IntN(4)]
			}
			rec.test(q, at, v)
			rec.Tests[q][len(rec.Tests[q])-1].Below = r.IntN(9) == 0
		}
	}
	for at := r.IntN(n); at < n; at += 1 + r.IntN(4*Day) {
		rec.Deaths = append(rec.Deaths, Death{Hour: at, Cohort: r.IntN(3), Count: r.IntN(4), Sentinel: r.IntN(5) == 0})
	}
	return rec
}

// copied shares nothing with the record.
func copied(r Record) Record {
	r.Hours, r.Deaths = slices.Clone(r.Hours), slices.Clone(r.Deaths)
	r.Probe, r.Tests = maps.Clone(r.Probe), maps.Clone(r.Tests)
	for q := range r.Probe {
		r.Probe[q] = slices.Clone(r.Probe[q])
	}
	for q := range r.Tests {
		r.Tests[q] = slices.Clone(r.Tests[q])
	}
	return r
}

// TestSignsAreQuestionsOnly: no reading is changed by looking, the same record shows the
// same, and each sign lies within it: since no later than until, until no later than now,
// of at least one reading, the most pressing first.
func TestSignsAreQuestionsOnly(t *testing.T) {
	kinds := map[Kind]int{}
	thousand(func(r *rand.Rand) {
		rec := anyRecord(r)
		before := copied(rec)
		list, again := look(t, &rec), look(t, &before)
		for _, q := range rec.probed() {
			for i, v := range rec.Probe[q] {
				if was := before.Probe[q][i]; v != was && !(math.IsNaN(v) && math.IsNaN(was)) {
					t.Fatalf("%v in hour %d was %g and is %g", q, i, was, v)
				}
			}
		}
		if !reflect.DeepEqual(rec.Tests, before.Tests) || !slices.Equal(rec.Deaths, before.Deaths) || !slices.Equal(rec.Hours, before.Hours) || !slices.Equal(list, again) {
			t.Fatal("looking changed the record, or what it shows")
		}
		for i, s := range list {
			kinds[s.Kind]++
			if s.Since < 0 || s.Since > s.Until || s.Until > rec.now() || s.Count < 1 || math.IsNaN(s.Is) || math.IsNaN(s.Was) || i > 0 && s.Kind < list[i-1].Kind {
				t.Fatalf("%d hours: %+v", len(rec.Hours), s)
			}
		}
	})
	if len(kinds) < 7 {
		t.Errorf("a thousand records show little: %v", kinds)
	}
}

// TestWhoDiedIsToldWhateverTheName: cohorts by other numbers show the same deaths; one
// death more of late never hides a sign, and one long ago never makes one.
func TestWhoDiedIsToldWhateverTheName(t *testing.T) {
	thousand(func(r *rand.Rand) {
		rec := Record{Hours: make([]Hour, 10*Day+r.IntN(30*Day))}
		for at := r.IntN(4 * Day); at < len(rec.Hours); at += 1 + r.IntN(3*Day) {
			rec.Deaths = append(rec.Deaths, Death{Hour: at, Cohort: r.IntN(3), Count: 1 + r.IntN(3)})
		}
		shown := dying(&rec)
		renamed := copied(rec)
		for i := range renamed.Deaths {
			renamed.Deaths[i].Cohort = 7 - renamed.Deaths[i].Cohort
		}
		for i, s := range dying(&renamed) {
			if s.Cohort = 7 - s.Cohort; i >= len(shown) || s != shown[i] {
				t.Fatalf("%+v by other numbers, %+v before", s, shown)
			}
		}
		worse, better := copied(rec), copied(rec)
		worse.Deaths = append(worse.Deaths, Death{Hour: rec.now(), Cohort: 1, Count: 1})
		better.Deaths = slices.Insert(better.Deaths, 0, Death{Hour: 0, Cohort: 1, Count: 1})
		of := func(list []Sign) bool { return slices.ContainsFunc(list, func(s Sign) bool { return s.Cohort == 1 }) }
		if before := of(shown); before && !of(dying(&worse)) || !before && of(dying(&better)) {
			t.Fatalf("%+v: shown before %v", rec.Deaths, before)
		}
	})
}

// TestUpIsAsDown: a probe that reads too much by so much shows as one that reads too
// little, mirrored; and what stands higher by a constant stands out as much.
func TestUpIsAsDown(t *testing.T) {
	shown := 0
	thousand(func(r *rand.Rand) {
		rec := Record{Hours: make([]Hour, 14*Day), Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]Test{}}
		off, since := 0.8*r.Float64(), 5*Day+r.IntN(6*Day)
		for i := range rec.Hours {
			v := 7 + 0.03*r.NormFloat64()
			if i >= since {
				v += off
			}
			rec.Probe[ph] = append(rec.Probe[ph], v)
		}
		for at := 10; at < len(rec.Hours); at += Day {
			rec.Tests[ph] = append(rec.Tests[ph], Test{Hour: at, Value: 7 + 0.05*r.NormFloat64()})
		}
		mirrored, raised := copied(rec), copied(rec)
		for i := range rec.Hours {
			mirrored.Probe[ph][i] = 14 - rec.Probe[ph][i]
			raised.Probe[ph][i]++
		}
		for i := range rec.Tests[ph] {
			mirrored.Tests[ph][i].Value = 14 - rec.Tests[ph][i].Value
			raised.Tests[ph][i].Value++
		}
		a, b, c := adrift(&rec), adrift(&mirrored), adrift(&raised)
		if len(a) != len(b) || len(a) != len(c) {
			t.Fatalf("%+v; mirrored %+v; raised %+v", a, b, c)
		}
		for i := range a {
			shown++
			if math.Abs(a[i].Is+b[i].Is) > 1e-9 || math.Abs(a[i].Is-c[i].Is) > 1e-9 || a[i].Since != b[i].Since || a[i].Since != c[i].Since {
				t.Fatalf("%+v; mirrored %+v; raised %+v", a[i], b[i], c[i])
			}
		}
	})
	if shown < 200 || shown > 900 {
		t.Errorf("%d of a thousand probes are adrift", shown)
	}
}

// TestMiddlesKnowNoOrder, lie among what they are the middle of, and follow it where it is
// measured in another unit.
func TestMiddlesKnowNoOrder(t *testing.T) {
	thousand(func(r *rand.Rand) {
		values := make([]float64, 1+r.IntN(12))
		for i := range values {
			values[i] = math.Round(10*r.NormFloat64()) / 4
		}
		middle, spread := middleOf(values), spreadOf(values)
		low, high := quantileOf(values, 0), quantileOf(values, 1)
		turned := slices.Clone(values)
		slices.Reverse(turned)
		for i := range turned {
			turned[i] = 32 - 1.8*turned[i]
		}
		if low != slices.Min(values) || high != slices.Max(values) || middle < low || middle > high || spread < 0 || spread > 1.4826*(high-low) {
			t.Fatalf("%v: %g to %g, middle %g, spread %g", values, low, high, middle, spread)
		}
		if math.Abs(middleOf(turned)-(32-1.8*middle)) > 1e-9 || math.Abs(spreadOf(turned)-1.8*spread) > 1e-9 {
			t.Fatalf("%v: middle %g, spread %g; in another unit %g and %g", values, middle, spread, middleOf(turned), spreadOf(turned))
		}
		p := r.Float64()
		if a, b := quantileOf(values, p), quantileOf(values, p+(1-p)*r.Float64()); a > b {
			t.Fatalf("%v: %g of more below %g", values, b, a)
		}
	})
}

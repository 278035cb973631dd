package signs

import (
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
)

const (
	warmth = quantity.WaterTemperature
	ph     = quantity.Acidity
	oxygen = quantity.DissolvedOxygen
	weeks  = 42 * Day
)

// calm is six weeks of a heated loop in which nothing is wrong: probes read each
// hour, drops every other evening.
func calm() *Record {
	r := rand.New(rand.NewPCG(1, 2))
	rec := &Record{Probe: map[quantity.Quantity][]float64{}, Tests: map[quantity.Quantity][]Test{}, Litres: 5000}
	for h := range weeks {
		sun := math.Max(0, -math.Cos(2*math.Pi*float64(h%Day)/Day))
		rec.Hours = append(rec.Hours, Hour{Fish: 40, Sun: sun})
		tell := func(q quantity.Quantity, v, spread, step float64) {
			rec.Probe[q] = append(rec.Probe[q], math.Round((v+spread*r.NormFloat64())/step)*step)
		}
		tell(warmth, 25, 0.05, 0.1)
		tell(quantity.AirTemperature, 18, 0.1, 0.1)
		tell(ph, 7.2, 0.02, 0.01)
		tell(oxygen, 6.5+0.5*sun, 0.06, 0.1)
		tell(quantity.Conductivity, 600, 4, 1)
		if h%(2*Day) != 18 {
			continue
		}
		for i, q := range []quantity.Quantity{quantity.TotalAmmonia, quantity.Nitrite, quantity.Nitrate, quantity.Alkalinity} {
			rec.test(q, h, []float64{0.2, 0.1, 12, 80}[i]*math.Exp(0.05*r.NormFloat64()))
		}
		rec.test(ph, h, 7.2+0.05*r.NormFloat64())
		rec.test(quantity.Appetite, h, 3)
	}
	return rec
}

func (r *Record) test(q quantity.Quantity, hour int, v float64) {
	typed := quantity.Measure{Digits: int64(math.Round(v * 100)), Decimals: 2, Unit: q.Unit(), Basis: q.Basis()}
	r.Tests[q] = append(r.Tests[q], Test{Hour: hour, Value: typed.Value(), Typed: typed})
}

// last changes the last hours of a probe, counted from 0 for the first of them.
func (r *Record) last(q quantity.Quantity, hours int, to func(i int, was float64) float64) {
	series := r.Probe[q]
	for i := range hours {
		at := len(series) - hours + i
		series[at] = to(i, series[at])
	}
}

// tests changes the tests of a quantity from an hour on.
func (r *Record) tests(q quantity.Quantity, from, to int, change func(t Test) Test) {
	for i, t := range r.Tests[q] {
		if t.Hour >= from && t.Hour < to {
			r.Tests[q][i] = change(t)
		}
	}
}

func look(t *testing.T, r *Record) []Sign {
	t.Helper()
	list, err := Look(*r)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestNothingShowsWhereNothingIsWrong(t *testing.T) {
	if list := look(t, calm()); len(list) != 0 {
		t.Errorf("%+v", list)
	}
}

// planted are faults, with the one sign that tells each: what is read, what was
// to be expected, and for how many hours at most and at least it shows.
var planted = []struct {
	name          string
	plant         func(r *Record)
	want          Sign
	near          float64
	least, longer int // hours back to Since
}{
	{"pump stands since an hour", func(r *Record) { r.last(oxygen, 1, func(_ int, was float64) float64 { return was - 0.5 }) },
		Sign{Kind: StillPump, Quantity: oxygen, Is: 6.0, Was: 6.5, Count: 1}, 0.15, 0, 0},
	{"heater failed three hours ago", func(r *Record) { r.last(warmth, 4, func(i int, _ float64) float64 { return 24.9 - 0.1*float64(i) }) },
		Sign{Kind: Cooling, Quantity: warmth, Is: 24.6, Was: 25, Count: 3}, 0.05, 2, 2},
	{"filter cannot follow", func(r *Record) {
		r.tests(quantity.TotalAmmonia, weeks-2*Day, weeks, func(t Test) Test { t.Value = 0.6; return t })
	},
		Sign{Kind: WeakFilter, Quantity: quantity.TotalAmmonia, Hand: true, Is: 0.6, Was: 0.2, Count: 14}, 0.03, 5, 30},
	{"five died of one cohort", func(r *Record) {
		r.Deaths = []Death{{Hour: 9, Cohort: 1, Count: 1}, {Hour: weeks - 20, Cohort: 1, Count: 5}}
	},
		Sign{Kind: Dying, Is: 5, Was: 1.5 * 3 / 39, Count: 5, Cohort: 1}, 1e-9, 19, 19},
	{"one goldfish too many", func(r *Record) { r.Deaths = []Death{{Hour: weeks - 2, Cohort: 0, Count: 2, Sentinel: true}} },
		Sign{Kind: Dying, Is: 2, Was: 0.5 * 3 / 39, Count: 2}, 1e-9, 1, 1},
	{"fish turn slow", func(r *Record) {
		r.tests(quantity.Appetite, weeks-2*Day, weeks, func(t Test) Test { t.Value = 1; return t })
	},
		Sign{Kind: Hungerless, Quantity: quantity.Appetite, Hand: true, Is: 1, Was: 3, Count: 1}, 0, 5, 30},
	{"pH slides by three tenths a fortnight", func(r *Record) {
		r.last(ph, 28*Day, func(i int, was float64) float64 { return was - 0.6*float64(i)/(28*Day) })
		r.tests(ph, 14*Day, weeks, func(t Test) Test { t.Value -= 0.6 * float64(t.Hour-14*Day) / (28 * Day); return t })
	}, Sign{Kind: Sliding, Quantity: ph, Is: 6.67, Was: 7.13, Count: 28}, 0.02, 27 * Day, 28 * Day},
	{"alkalinity slides", func(r *Record) {
		r.tests(quantity.Alkalinity, 14*Day, weeks, func(t Test) Test { t.Value -= 40 * float64(t.Hour-14*Day) / (28 * Day); return t })
	}, Sign{Kind: Sliding, Quantity: quantity.Alkalinity, Hand: true, Is: 46, Was: 71.7, Count: 14}, 0.5, 26 * Day, 28 * Day},
	{"pH probe leaves the tests", func(r *Record) {
		r.last(ph, 12*Day, func(i int, was float64) float64 { return was + 0.03*float64(i)/Day })
	},
		Sign{Kind: Adrift, Quantity: ph, Is: 0.19, Was: -0.025, Count: 21}, 0.01, 5 * Day, 14 * Day},
	{"oxygen lacks more each day", func(r *Record) {
		r.last(oxygen, 10*Day, func(i int, was float64) float64 { return was - 0.05*float64(i)/Day })
	},
		Sign{Kind: Foul, Quantity: oxygen, Is: 6.3, Was: 6.7, Count: 14}, 0.2, 5 * Day, 12 * Day},
	{"nitrate of the ion noted as nitrogen", func(r *Record) {
		r.tests(quantity.Nitrate, 30*Day, weeks, func(t Test) Test {
			t.Typed.Digits *= 4
			t.Value = t.Typed.Value()
			return t
		})
	}, Sign{Kind: Misread, Quantity: quantity.Nitrate, Hand: true, Is: 48, Was: 12, Count: 6, As: quantity.Measure{Unit: quantity.UnitMgPerL, Basis: quantity.AsNO3}}, 2, 11 * Day, 12 * Day},
	{"alkalinity typed with the point moved", func(r *Record) {
		r.tests(quantity.Alkalinity, 20*Day, 22*Day, func(t Test) Test {
			t.Value, t.Typed.Decimals = t.Value/10, 3
			return t
		})
	}, Sign{Kind: Misread, Quantity: quantity.Alkalinity, Hand: true, Is: 8, Was: 80, Count: 1, Times: 10}, 6, 21 * Day, 22 * Day},
	{"ammonia ten times too high between two that agree", func(r *Record) {
		r.tests(quantity.TotalAmmonia, 20*Day, 22*Day, func(t Test) Test {
			t.Value, t.Typed.Decimals = t.Value*10, 1
			return t
		})
	}, Sign{Kind: Misread, Quantity: quantity.TotalAmmonia, Hand: true, Is: 2, Was: 0.2, Count: 1, Times: 0.1}, 0.2, 21 * Day, 22 * Day},
	{"ammonia that fits nothing", func(r *Record) {
		r.tests(quantity.TotalAmmonia, 20*Day, 22*Day, func(t Test) Test { t.Value, t.Typed = 0.8, quantity.Measure{}; return t })
	}, Sign{Kind: Outlier, Quantity: quantity.TotalAmmonia, Hand: true, Is: 0.8, Was: 0.2, Count: 1}, 0.03, 21 * Day, 22 * Day},
	{"conductivity stands higher", func(r *Record) {
		r.last(quantity.Conductivity, 6*Day, func(_ int, was float64) float64 { return was + 130 })
	},
		Sign{Kind: Shifted, Quantity: quantity.Conductivity, Is: 730, Was: 600, Count: 6}, 2, 6*Day - 1, 6*Day - 1},
	{"pH says the same for a day", func(r *Record) { r.last(ph, Day, func(int, float64) float64 { return 7.21 }) },
		Sign{Kind: Stuck, Quantity: ph, Is: 7.21, Was: 7.21, Count: Day}, 1e-9, Day - 1, Day - 1},
	{"oxygen probe fell silent", func(r *Record) { r.last(oxygen, 7, func(int, float64) float64 { return math.NaN() }) },
		Sign{Kind: Silent, Quantity: oxygen, Is: 7, Was: 1, Count: weeks - 7}, 0, 7, 7},
	{"nobody tests nitrite any more", func(r *Record) { r.Tests[quantity.Nitrite] = r.Tests[quantity.Nitrite][:17] },
		Sign{Kind: Silent, Quantity: quantity.Nitrite, Hand: true, Is: 9*Day + 5, Was: 2 * Day, Count: 17}, 0, 9*Day + 5, 9*Day + 5},
}

func TestEachPlantedFaultIsFoundAndNothingElse(t *testing.T) {
	for _, c := range planted {
		t.Run(c.name, func(t *testing.T) {
			r := calm()
			c.plant(r)
			list := look(t, r)
			if len(list) != 1 {
				t.Fatalf("%+v", list)
			}
			got, want := list[0], c.want
			if got.Kind != want.Kind || got.Quantity != want.Quantity || got.Hand != want.Hand || got.Count != want.Count || got.Cohort != want.Cohort ||
				got.As.Unit != want.As.Unit || got.As.Basis != want.As.Basis || got.Times != want.Times {
				t.Errorf("%v %+v", got.Kind, got)
			}
			if !(math.Abs(got.Is-want.Is) <= c.near && math.Abs(got.Was-want.Was) <= c.near) {
				t.Errorf("%g where %g was to be expected", got.Is, got.Was)
			}
			if back := len(r.Hours) - 1 - got.Since; back < c.least || back > c.longer || got.Until < got.Since {
				t.Errorf("shows for %d hours, until %d", back, got.Until)
			}
		})
	}
}

// What lies just short of each threshold is let pass.
func TestWhatMayBeIsNoSign(t *testing.T) {
	for name, plant := range map[string]func(r *Record){
		"oxygen dips a little":          func(r *Record) { r.last(oxygen, 1, func(_ int, was float64) float64 { return was - 0.15 }) },
		"a night as cold as the heater": func(r *Record) { r.last(warmth, 4, func(int, float64) float64 { return 24.9 }) },
		"air warmer than the water": func(r *Record) {
			r.last(warmth, 4, func(i int, _ float64) float64 { return 24.9 - 0.1*float64(i) })
			r.last(quantity.AirTemperature, 4, func(int, float64) float64 { return 26 })
		},
		"ammonia a third of a mg higher": func(r *Record) {
			r.tests(quantity.TotalAmmonia, weeks-2*Day, weeks, func(t Test) Test { t.Value = 0.38; return t })
		},
		"two of many die": func(r *Record) {
			r.Deaths = []Death{{Hour: 9, Count: 6}, {Hour: 300, Count: 7}, {Hour: weeks - 20, Count: 2}}
		},
		"an old death of a goldfish": func(r *Record) { r.Deaths = []Death{{Hour: weeks - 4*Day, Count: 2, Sentinel: true}} },
		"usual appetite": func(r *Record) {
			r.tests(quantity.Appetite, weeks-2*Day, weeks, func(t Test) Test { t.Value = 2; return t })
		},
		"slow fish in water that cooled": func(r *Record) {
			r.tests(quantity.Appetite, weeks-2*Day, weeks, func(t Test) Test { t.Value = 1; return t })
			for i := range r.Probe[warmth] {
				r.Probe[warmth][i] = math.Round(250-40*float64(i)/weeks+float64(i%3)) / 10
				r.Probe[oxygen][i] += (25 - r.Probe[warmth][i]) * 0.15
			}
		},
		"nitrate doubled within a month": func(r *Record) {
			r.tests(quantity.Nitrate, 0, weeks, func(t Test) Test { t.Value *= 1 + float64(t.Hour)/weeks; return t })
		},
		"a calibrated probe": func(r *Record) {
			r.last(ph, 12*Day, func(i int, was float64) float64 { return was + 0.02*float64(i)/Day })
			r.Hours[weeks-2].Calibrated = true
		},
		"half a day of one pH": func(r *Record) { r.last(ph, 5, func(int, float64) float64 { return 7.21 }) },
		"five quiet hours":     func(r *Record) { r.last(oxygen, 5, func(int, float64) float64 { return math.NaN() }) },
	} {
		r := calm()
		plant(r)
		if list := look(t, r); len(list) != 0 {
			t.Errorf("%s: %v %+v", name, list[0].Kind, list)
		}
	}
}

// A probe that said one thing from the first hour on has no record to be held against.
func TestOneValueThroughoutIsStuck(t *testing.T) {
	r := calm()
	for i := range r.Probe[warmth] {
		r.Probe[warmth][i] = 25
	}
	if list := look(t, r); len(list) != 1 || list[0].Kind != Stuck || list[0].Count != weeks || list[0].Since != 0 {
		t.Errorf("%+v", list)
	}
}

func TestKindsHaveNames(t *testing.T) {
	seen := map[string]bool{}
	for k := StillPump; k <= Silent; k++ {
		seen[k.String()] = true
	}
	if len(seen) != int(Silent)+1 || seen["unknown"] || Kind(-1).String() != "unknown" || (Silent+1).String() != "unknown" {
		t.Errorf("%v", seen)
	}
}

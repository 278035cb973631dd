package water

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
)

// Equivalent weights as printed, SEEN in the dosing literature; carbon by
// counting atoms.
func TestBases(t *testing.T) {
	for formula, want := range map[string][2]float64{
		"KOH": {56.11, 0}, "Ca(OH)2": {37.05, 0}, "NaHCO3": {84.01, 1}, "Na2CO3": {52.99, 0.5},
		"KHCO3": {100.12, 1}, "K2CO3": {69.10, 0.5}, "CaCO3": {50.04, 0.5},
	} {
		b, err := BaseNamed(formula)
		if err != nil {
			t.Fatal(err)
		}
		is(t, formula, b.Equivalent, want[0], 2e-4)
		if b.Carbon != want[1] || b.Caution == "" || b.Brings == "" || b.DissolvesFully == (formula == "CaCO3") {
			t.Errorf("%+v", b)
		}
		if again, err := BaseNamed(b.Name); err != nil || again.Formula != formula {
			t.Errorf("%s is not found by its name: %v", b.Name, err)
		}
	}
	for name, formula := range map[string]string{
		"Baking soda": "NaHCO3", "washing soda": "Na2CO3", "soda ash": "Na2CO3", "slaked lime": "Ca(OH)2", "hydrated lime": "Ca(OH)2", "limestone": "CaCO3",
	} {
		if b, err := BaseNamed(name); err != nil || b.Formula != formula {
			t.Errorf("%s is %s: %v", name, b.Formula, err)
		}
	}
	var wrong *NameError
	if _, err := BaseNamed("HCl"); !errors.As(err, &wrong) || len(wrong.Known) != len(Bases) {
		t.Errorf("HCl is a base: %v", err)
	}
}

func TestBaseMass(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 4))
	for range 1000 {
		b := Bases[random.IntN(len(Bases))]
		volume, rise := quantity.Litres(1+1e4*random.Float64()), quantity.AlkalinityCaCO3(200*random.Float64())
		dose := must(BaseForAlkalinity(b, volume, rise))
		is(t, b.Formula, float64(must(AlkalinityOfBase(b, volume, dose))), float64(rise), 1e-12)
	}
	is(t, "14.007 g of N takes two equivalents", float64(must(BaseForNitrification(Bases[0], 14.007))), 112.21, 1e-9)
	is(t, "50.043 mg/L is one equivalent in 1000 L", float64(must(BaseForAlkalinity(Bases[0], 1000, 50.043))), 56.105, 1e-9)
}

// TestPHAfterBase: what goes in stays in, closed; carbon dioxide stays as it
// was, open.
func TestPHAfterBase(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	for range 1000 {
		w := Water{PH: quantity.PH(5.5 + 2.5*random.Float64()), Temperature: quantity.Celsius(40 * random.Float64()), Alkalinity: quantity.AlkalinityCaCO3(10 + 100*random.Float64())}
		b, rise := Bases[random.IntN(len(Bases))], quantity.AlkalinityCaCO3(10*random.Float64())
		closed, open, err := PHAfterBase(w, b, rise)
		if err != nil {
			t.Fatal(err)
		}
		if open < w.PH {
			t.Fatalf("%s lowers the pH of %+v to %v", b.Formula, w, open)
		}
		after := w.Alkalinity + rise
		carbon := float64(must(InorganicCarbon(w.PH, w.Temperature, w.Alkalinity))) + float64(rise.Milliequivalents())*b.Carbon
		if closed < 9.5 {
			is(t, "carbon", float64(must(InorganicCarbon(closed, w.Temperature, after))), carbon, 1e-7)
		}
		is(t, "carbon dioxide", float64(must(CarbonDioxide(open, w.Temperature, after))), float64(must(CarbonDioxide(w.PH, w.Temperature, w.Alkalinity))), 1e-9)
	}
}

func TestPlanBase(t *testing.T) {
	random := rand.New(rand.NewPCG(6, 6))
	for range 300 {
		w := Water{
			Volume: quantity.Litres(100 + 5000*random.Float64()), PH: quantity.PH(5.8 + 1.5*random.Float64()),
			Temperature: quantity.Celsius(5 + 30*random.Float64()), Alkalinity: quantity.AlkalinityCaCO3(10 + 30*random.Float64()), Ammonia: 1,
		}
		b, wanted, most := Bases[random.IntN(len(Bases))], quantity.AlkalinityCaCO3(50+100*random.Float64()), 0.05+0.25*random.Float64()
		steps, err := PlanBase(w, b, wanted, most)
		if err != nil {
			t.Fatal(err)
		}
		checkPlan(t, w, b, wanted, most, steps)
	}
}

func checkPlan(t *testing.T, w Water, b Base, wanted quantity.AlkalinityCaCO3, most float64, steps []BaseStep) {
	t.Helper()
	var all quantity.Grams
	before := w.PH
	for i, s := range steps {
		highest := max(s.PHClosed, s.PHOpen)
		if s.Day != i+1 || float64(highest-before) > most+1e-9 {
			t.Fatalf("day %d raises pH from %v to %v, limit %v", s.Day, before, highest, most)
		}
		if i < len(steps)-1 && float64(highest-before) < most-0.001 {
			t.Fatalf("day %d could take more: %v to %v, limit %v", s.Day, before, highest, most)
		}
		is(t, "NH3", float64(s.Unionized), float64(must(UnionizedAmmonia(w.Ammonia, highest, w.Temperature))), 1e-12)
		all += s.Dose
		before = s.PHOpen
	}
	if last := steps[len(steps)-1]; last.Alkalinity != wanted {
		t.Fatalf("ends at %v, not %v", last.Alkalinity, wanted)
	}
	is(t, "doses", float64(all), float64(must(BaseForAlkalinity(b, w.Volume, wanted-w.Alkalinity))), 1e-9)
}

func TestPlanBaseEnds(t *testing.T) {
	enough := Water{Volume: 1000, PH: 7, Temperature: 25, Alkalinity: 80}
	if steps, err := PlanBase(enough, Bases[0], 80, 0.2); err != nil || len(steps) != 0 {
		t.Errorf("water that has enough gets %v, %v", steps, err)
	}
	if steps, err := PlanBase(enough, Bases[4], 81, 0.2); err != nil || len(steps) != 1 || steps[0].Day != 1 {
		t.Errorf("a small rise takes %v, %v", steps, err)
	}
	// Most of a year is a plan still, more is not. The bound is our own.
	weak := Water{Volume: 1000, PH: 7, Temperature: 25, Alkalinity: 20}
	if steps, err := PlanBase(weak, Bases[0], 200, 0.05); err != nil || len(steps) < 300 || len(steps) > 365 {
		t.Errorf("a long plan takes %d days, %v", len(steps), err)
	}
	var wrong *quantity.RangeError
	if _, err := PlanBase(weak, Bases[0], 220, 0.05); !errors.As(err, &wrong) || wrong.Value != 366 {
		t.Errorf("more than a year: %v", err)
	}
	if _, err := PlanBase(Water{Volume: 1, PH: 10, Temperature: 25, Alkalinity: 1}, Bases[0], 10, 0.2); err == nil {
		t.Error("a water that cannot be is planned for")
	}
}

func TestDoses(t *testing.T) {
	is(t, "2 mg/L in 500 L", float64(must(Dose(2, 500))), 1, 1e-12)
	doses := must(DailyDoses(100, 1000, 30))
	if len(doses) != 4 || doses[0] != 25 || doses[3] != 25 {
		t.Errorf("100 g by at most 30 a day: %v", doses)
	}
	if doses := must(DailyDoses(90, 1000, 30)); len(doses) != 3 {
		t.Errorf("90 g by at most 30 a day: %v", doses)
	}
	if doses := must(DailyDoses(0, 1000, 30)); len(doses) != 0 {
		t.Errorf("nothing takes %v", doses)
	}
	random := rand.New(rand.NewPCG(7, 7))
	for range 1000 {
		all, volume, most := quantity.Grams(1000*random.Float64()), quantity.Litres(1000+1000*random.Float64()), quantity.MgPerL(10+90*random.Float64())
		sum := quantity.Grams(0)
		for _, d := range must(DailyDoses(all, volume, most)) {
			sum += d
			if float64(d) > float64(most)*float64(volume)/1000*(1+1e-9) {
				t.Fatalf("a day gets %v g", d)
			}
		}
		is(t, "doses", float64(sum), float64(all), 1e-9)
	}
	is(t, "iron target", float64(must(IronTarget(2.5))), 2, 0)
}

func TestNitrite(t *testing.T) {
	if len(Ratios) != 5 {
		t.Error("a ratio is not pinned")
	}
	for fish, want := range map[string]float64{"Catfish": 10, "warm-water fish": 6, "ornamental fish": 5, "Atlantic salmon": 104, "rainbow trout": 104} {
		r, err := ChlorideRatioFor(fish)
		if err != nil || r.Chloride != want || r.Source == "" || r.AsNitrogen != (want == 104) {
			t.Errorf("%s: %+v, %v", fish, r, err)
		}
	}
	var wrong *NameError
	if _, err := ChlorideRatioFor("koi"); !errors.As(err, &wrong) || err.Error() != `no chloride ratio for "koi" is known; known are catfish, warm-water fish, ornamental fish, salmon, trout` {
		t.Errorf("koi: %v", err)
	}
	catfish, salmon := must(ChlorideRatioFor("catfish")), must(ChlorideRatioFor("salmon"))
	is(t, "catfish, nitrite as the ion", float64(must(ChlorideNeeded(catfish, 14.007, 60))), 460.05-60, 1e-9)
	is(t, "salmon, nitrite as N", float64(must(ChlorideNeeded(salmon, 1, 4))), 100, 1e-9)
	is(t, "enough", float64(must(ChlorideNeeded(catfish, 1, 1000))), 0, 0)
	is(t, "at ratio", float64(must(ChlorideAtRatio(6, 3, 8))), 10, 1e-12)
	is(t, "enough at ratio", float64(must(ChlorideAtRatio(6, 3, 20))), 0, 0)
	is(t, "ratio", must(ChlorideToNitrite(60, 5)), 12, 1e-12)
	is(t, "salt", float64(must(SaltForChloride(35.45))), 58.44, 1e-12)
	is(t, "chloride", float64(must(ChlorideOfSalt(58.44))), 35.45, 1e-12)
	is(t, "insurance", float64(InsuranceChloride), 100, 0)
}

func TestChlorine(t *testing.T) {
	is(t, "top-up", float64(must(ChlorineAfterTopUp(2, 0.25))), 0.5, 1e-12)
	least, most, err := Thiosulfate(1000, 1)
	if least != 2 || most != 7 || err != nil {
		t.Errorf("thiosulfate: %v to %v, %v", least, most, err)
	}
	// NH2Cl is 51.473 g/mol; the trade's 17/51.5 counts the ammonia as NH3.
	is(t, "chloramine", float64(must(AmmoniaOfChloramine(5.1473))), 1.4007, 1e-9)
	is(t, "chloramine, as NH3", float64(must(AmmoniaOfChloramine(1)).NH3()), 17/51.5, 0.003)
	is(t, "total chlorine", float64(must(AmmoniaOfTotalChlorine(7.090))), 1.4007, 1e-9)
	is(t, "harmful", float64(HarmfulChlorine), 0.05, 0)
}

func TestHardness(t *testing.T) {
	is(t, "calcium and magnesium", float64(must(Hardness(40.078, 2*24.305))), 3*100.086, 1e-12)
}

func TestNameErrorReads(t *testing.T) {
	err := &NameError{Name: "x", Of: "base", Known: []string{"a", "b"}}
	if err.Error() != `no base "x" is known; known are a, b` {
		t.Error(err)
	}
	_, e := Tolerance(Plants, NitrateMgPerL)
	if e == nil || e.Error() != `no range for plants of "nitrate_mg_L" is known` {
		t.Error(e)
	}
	if _, e := Tolerance("bees", PHValue); e == nil {
		t.Error("bees are tabled")
	}
	if _, e := Tolerance(Plants, "noise"); e == nil {
		t.Error("noise is tabled")
	}
	if s, _ := Tolerance(NitrifyingBacteria, NitrateMgPerL); !math.IsNaN(s.Low) || !math.IsNaN(s.High) {
		t.Error("a blank cell holds a range")
	}
	if s := must(Tolerance(ColdWaterFish, AmmoniaMgPerL)); !math.IsNaN(s.Low) || s.High != 1 {
		t.Error("an open bound is closed")
	}
	if TemperatureCelsius.Unit() != "degC" || PHValue.Unit() != "" || OxygenMgPerL.Unit() != "mg/L" {
		t.Error("units of the parameters")
	}
}

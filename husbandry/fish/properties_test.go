package fish

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

func same(got, want float64) bool { return math.Abs(got-want) <= 1e-9*max(1, math.Abs(want)) }

// TestGrowthThereAndBack: weight from coefficient and coefficient from weight
// undo each other, and so do the other pairs.
func TestGrowthThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 1000 {
		w0, c, heat := quantity.Grams(1+500*r.Float64()), TGC1000(0.1+2*r.Float64()), DegreeDays(10+5000*r.Float64())
		w1, err := WeightByHeat(w0, c, heat)
		if err != nil {
			t.Fatal(err)
		}
		back, err := GrowthCoefficient(w0, w1, heat)
		if err != nil || !same(float64(back), float64(c)) {
			t.Fatalf("%v came back as %v, %v", c, back, err)
		}
		again, err := HeatToWeight(w0, w1, c)
		if err != nil || !same(float64(again), float64(heat)) {
			t.Fatalf("%v degree days came back as %v, %v", heat, again, err)
		}
		days := quantity.Days(30 + 300*r.Float64())
		rate, err := SpecificGrowthRate(w0, w1, days)
		if err != nil {
			t.Fatal(err)
		}
		w2, err := WeightByRate(w0, rate, days)
		if err != nil || !same(float64(w2), float64(w1)) {
			t.Fatalf("%v g came back as %v, %v", w1, w2, err)
		}
		gain, err := DailyGainOfRate(w0, rate, days)
		direct, err2 := DailyGain(w0, w1, days)
		if err != nil || err2 != nil || !same(float64(gain), float64(direct)) {
			t.Fatalf("%v and %v g/d, %v, %v", gain, direct, err, err2)
		}
		if c.Per100().Per1000() != c && !same(float64(c.Per100().Per1000()), float64(c)) {
			t.Fatalf("%v changed form to %v", c, c.Per100().Per1000())
		}
	}
}

// TestIwamaTautzIsCoefficientOne with the cube root.
func TestIwamaTautzIsCoefficientOne(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 1000 {
		w0, temp, days := quantity.Grams(1+100*r.Float64()), quantity.Celsius(1+14*r.Float64()), quantity.Days(1+300*r.Float64())
		model, err := IwamaTautz(w0, temp, days, ExponentCubeRoot)
		if err != nil {
			t.Fatal(err)
		}
		heat, _ := Heat(temp, days)
		ours, err := WeightByHeat(w0, 1, heat)
		if err != nil || !same(float64(model), float64(ours)) {
			t.Fatalf("%v g and %v g, %v", model, ours, err)
		}
	}
	for _, e := range []IwamaExponent{0.329, 0.334} {
		var out *quantity.RangeError
		if w, err := IwamaTautz(1, 10, 10, e); w != 0 || !errors.As(err, &out) {
			t.Errorf("exponent %v gave %v", e, err)
		}
	}
}

// TestBellStaysBetween nothing and one, and rises to the optimum.
func TestBellStaysBetween(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 1000 {
		s := species[r.IntN(len(species))]
		low, high := float64(s.LethalLow.Value), float64(s.LethalHigh.Value)
		at := low + (high-low)*r.Float64()
		here, err := GrowthResponse(s, quantity.Celsius(at))
		if err != nil || here < 0 || here > 1+1e-12 {
			t.Fatalf("%s at %v degC: %v, %v", s.Name, at, here, err)
		}
		next, err := GrowthResponse(s, quantity.Celsius(at+(s.optimum()-at)/2))
		if err != nil || next < here {
			t.Fatalf("%s grows less nearer its optimum than at %v degC", s.Name, at)
		}
	}
}

// TestShareAndWeightUndoEachOther within a cohort.
func TestShareAndWeightUndoEachOther(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 1000 {
		mean, cv, below := quantity.Grams(10+900*r.Float64()), quantity.Fraction(0.05+0.5*r.Float64()), quantity.Fraction(0.01+0.98*r.Float64())
		weight, err := WeightAtShare(mean, cv, below)
		if err != nil {
			t.Fatal(err)
		}
		above, err := ShareAbove(mean, cv, weight)
		if err != nil || !(math.Abs(float64(above+below)-1) <= 1e-9) {
			t.Fatalf("%v below and %v above, %v", below, above, err)
		}
	}
}

// TestCohortKeepsItsMean: drawn sizes average to the mean and vary as told.
func TestCohortKeepsItsMean(t *testing.T) {
	middle, spread := logShape(500, 0.3)
	r := rand.New(rand.NewPCG(15, 16))
	sum, squares, n := 0.0, 0.0, 20000.0
	for range int(n) {
		w := math.Exp(middle + spread*r.NormFloat64())
		sum, squares = sum+w, squares+w*w
	}
	mean := sum / n
	if cv := math.Sqrt(squares/n-mean*mean) / mean; !(math.Abs(mean-500) <= 5) || !(math.Abs(cv-0.3) <= 0.01) {
		t.Errorf("mean %v, variation %v", mean, cv)
	}
}

// TestFanHolds: coefficients drawn from the stated uncertainty reach the target
// inside the fan as often as it says.
func TestFanHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	fan, err := HeatFan(10, 500, 1.2, 0.2, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	inside := 0
	for range 1000 {
		c := 1.2 * math.Exp(math.Sqrt(math.Log1p(0.04))*r.NormFloat64())
		heat, err := HeatToWeight(10, 500, TGC1000(c))
		if err != nil {
			t.Fatal(err)
		}
		if heat >= fan.Low && heat <= fan.High {
			inside++
		}
	}
	if inside < 760 || inside > 840 {
		t.Errorf("%d of 1000 fell into a fan of 80 %%", inside)
	}
}

func TestDayOfHeat(t *testing.T) {
	daily := []DegreeDays{10, 0, 20, 30}
	for _, c := range []struct {
		heat    DegreeDays
		day     quantity.Days
		reached bool
	}{{0, 0, true}, {1, 0.1, true}, {5, 0.5, true}, {10, 1, true}, {20, 2.5, true}, {30, 3, true}, {60, 4, true}, {60.1, 0, false}, {200000, 0, false}} {
		day, reached, err := DayOfHeat(daily, c.heat)
		if err != nil || day != c.day || reached != c.reached {
			t.Errorf("%v degree days: day %v, %v, %v", c.heat, day, reached, err)
		}
	}
	if day, reached, err := DayOfHeat(nil, 0); day != 0 || !reached || err != nil {
		t.Errorf("fish that are there wait until day %v, %v, %v", day, reached, err)
	}
	var out *quantity.RangeError
	for _, bad := range []DegreeDays{-1e-9, 200000.1, DegreeDays(math.NaN())} {
		if day, _, err := DayOfHeat(daily, bad); day != 0 || !errors.As(err, &out) {
			t.Errorf("%v degree days gave %v", bad, err)
		}
	}
	for _, bad := range []DegreeDays{-1e-9, 45.1, DegreeDays(math.NaN())} {
		if day, _, err := DayOfHeat([]DegreeDays{bad}, 100); day != 0 || !errors.As(err, &out) {
			t.Errorf("a day of %v gave %v", bad, err)
		}
	}
	if _, reached, err := DayOfHeat([]DegreeDays{45}, 45); err != nil || !reached {
		t.Errorf("a day of 45 gave %v, %v", reached, err)
	}
}

// TestDaysToWeightAgreesWithItsFan and with a steady series.
func TestDaysToWeightAgreesWithItsFan(t *testing.T) {
	days, err := DaysToWeight(1, 8, 1, 10)
	if err != nil || !same(float64(days), 100) {
		t.Errorf("got %v, %v", days, err)
	}
	var out *quantity.RangeError
	for _, at := range []quantity.Celsius{0.0999, 45.001} {
		if days, err := DaysToWeight(1, 8, 1, at); days != 0 || !errors.As(err, &out) {
			t.Errorf("%v degC gave %v", at, err)
		}
	}
}

// TestPumpStopIsTheShorter of the two reckonings, and never longer than the
// plain mass balance.
func TestPumpStopIsTheShorter(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	for range 1000 {
		s := species[r.IntN(len(species))]
		volume, biomass := quantity.Litres(100+5000*r.Float64()), quantity.Kilograms(1+100*r.Float64())
		now, share, use := quantity.MgPerL(4+8*r.Float64()), quantity.Percent(0.1+4*r.Float64()), MgPerKgHour(50+900*r.Float64())
		got, err := PumpStopMinutes(s, volume, biomass, now, share, use)
		if err != nil {
			t.Fatal(err)
		}
		plain, _ := OxygenMinutes(volume, biomass, now, s.OxygenMinimum.Value, use)
		cautious, _ := CautiousUse(share)
		other, _ := OxygenMinutes(volume, biomass, now, s.OxygenMinimum.Value, cautious)
		if got != min(plain, other) {
			t.Fatalf("%v min, of %v and %v", got, plain, other)
		}
	}
}

// TestCoolingBySmallSteps holds the closed form against Euler's method.
func TestCoolingBySmallSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 100 {
		now, air, constant := 20+10*r.Float64(), -5+10*r.Float64(), 5+20*r.Float64()
		limit := 12.0
		water, steps := now, 0
		for ; water > limit; steps++ {
			water += (air - water) / constant * 0.001
		}
		hours, reached, err := HoursToTemperature(quantity.Celsius(now), quantity.Celsius(air), quantity.Celsius(limit), quantity.Hours(constant))
		if err != nil || !reached || !(math.Abs(float64(hours)-0.001*float64(steps)) <= 0.01) {
			t.Fatalf("%v h, by steps %v h, %v", hours, 0.001*float64(steps), err)
		}
	}
}

func TestTemperatureNeverReached(t *testing.T) {
	for _, c := range [][3]quantity.Celsius{{25, 15, 12}, {25, 25, 12}, {25, 12, 12}, {25, 30, 12}, {25, 30, 36}, {10, 5, 15}, {12.1, 12.05, 12}} {
		if hours, reached, err := HoursToTemperature(c[0], c[1], c[2], 10); err != nil || reached || hours != 0 {
			t.Errorf("water %v, air %v, limit %v: reached %v, %v", c[0], c[1], c[2], reached, err)
		}
	}
	a, err := ask(t, "hours_to_lethal", "species=Nile tilapia;T_C=25;air_celsius=15;time_constant_hours=10")
	if err != nil || a.Text != "not reached at this air temperature" {
		t.Errorf("got %+v, %v", a, err)
	}
	s, _ := SpeciesByName("Nile tilapia")
	for _, c := range []struct {
		now, air, limit quantity.Celsius
		zero            bool
	}{{25, 5, 12, false}, {25, 40, 36, false}, {12, 20, 12, true}, {36, 20, 36, true}, {12.1, 40, 36, false}, {35.9, 20, 12, false}} {
		hours, _, limit, err := HoursToLethal(s, c.now, c.air, 10)
		if err != nil || limit != c.limit || (hours == 0 && c.zero) != c.zero {
			t.Errorf("water %v, air %v: limit %v, %v h, %v", c.now, c.air, limit, hours, err)
		}
	}
}

// TestReadingsOfTheTimeConstant that say nothing are refused: beyond 0.001 to
// 0.999 of the difference left.
func TestReadingsOfTheTimeConstant(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 1000 {
		constant, elapsed := 1+50*r.Float64(), 1+5*r.Float64()
		second := 10 + 15*math.Exp(-elapsed/constant)
		back, err := TimeConstantFromReadings(25, quantity.Celsius(second), 10, quantity.Hours(elapsed))
		if err != nil || !(math.Abs(float64(back)-constant) <= 1e-6*constant) {
			t.Fatalf("%v h came back as %v, %v", constant, back, err)
		}
	}
	for _, c := range []struct {
		left float64
		ok   bool
	}{{0.0011, true}, {0.0009, false}, {0.9989, true}, {0.9991, false}, {1.5, false}, {-0.1, false}} {
		constant, err := TimeConstantFromReadings(20, quantity.Celsius(10+10*c.left), 10, 1)
		if (err == nil) != c.ok || (constant != 0) != c.ok {
			t.Errorf("%v of the difference left: %v", c.left, err)
		}
	}
}

// TestFlowIndexNeedsOxygen: with 0.1 mg/L or less to spare nothing is told.
func TestFlowIndexNeedsOxygen(t *testing.T) {
	for _, c := range []struct {
		inflow quantity.MgPerL
		ok     bool
	}{{0.11, true}, {0.09, false}} {
		if index, err := FlowIndexAt(1, c.inflow, 8, 0); (err == nil) != c.ok || (index != 0) != c.ok {
			t.Errorf("inflow %v: %v", c.inflow, err)
		}
	}
}

// TestNumberToWeighIsEnough: more varied fish or finer wishes take more.
func TestNumberToWeighIsEnough(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for range 1000 {
		cv, precision, fish := quantity.Fraction(0.05+0.5*r.Float64()), quantity.Fraction(0.02+0.2*r.Float64()), math.Floor(2+5000*r.Float64())
		n, err := NumberToWeigh(cv, precision, 0.9, fish)
		more, err2 := NumberToWeigh(cv*1.5, precision, 0.9, fish)
		finer, err3 := NumberToWeigh(cv, precision/2, 0.9, fish)
		if errors.Join(err, err2, err3) != nil || n > fish || n < 2 || n != math.Trunc(n) || more < n || finer < n {
			t.Fatalf("%v of %v, %v, %v", n, fish, more, finer)
		}
	}
}

// TestRationIsNeverAboveTheTable and scales with appetite.
func TestRationIsNeverAboveTheTable(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	for range 1000 {
		s := species[r.IntN(len(species))]
		low, high := float64(s.LethalLow.Value), float64(s.LethalHigh.Value)
		at, weight := quantity.Celsius(low+(high-low)*r.Float64()), quantity.Grams(1+900*r.Float64())
		full, err := RationPercent(s, weight, at, 1)
		half, err2 := RationPercent(s, weight, at, 0.5)
		if err != nil || err2 != nil || full < 0 || full > 20 || !same(float64(half), float64(full)/2) {
			t.Fatalf("%s of %v g at %v degC: %v and %v, %v", s.Name, weight, at, full, half, err)
		}
	}
}

func TestWholeFishNitrogen(t *testing.T) {
	if WholeFishN != 0.0285 || WholeFishNError != 0.002 || OxygenOfFish != 274 || OxygenOfLoop != 500 {
		t.Error("a published constant changed")
	}
}

func TestFiguresThatNeedAWord(t *testing.T) {
	var several *formula.AmbiguousError
	if _, err := ask(t, "published_mean_weight_at_day", ""); !errors.As(err, &several) || err.Error() != "several figures are published for mean weight at day: say which day" {
		t.Errorf("got %v", err)
	}
	var unknown *formula.UnknownFactError
	if _, err := ask(t, "published_mean_weight_at_day", "day=29"); !errors.As(err, &unknown) {
		t.Errorf("got %v", err)
	}
	if a, err := ask(t, "published_channel_catfish_upper_lethal", "acclimated_C=30.0"); err != nil || a.Value != 37.3 || a.Unit != "degC" {
		t.Errorf("got %+v, %v", a, err)
	}
	if f, err := formula.FactOf(facts, "channel catfish upper lethal", map[string]string{"acclimated_C": "30"}); err != nil || f.Low != 37.3 {
		t.Errorf("got %+v, %v", f, err)
	}
}

// TestNearTheLimit: a tenth of a degree above it and as much warmer than the
// air, half the difference is left.
func TestNearTheLimit(t *testing.T) {
	hours, reached, err := HoursToTemperature(12.1, 11.9, 12, 10)
	if err != nil || !reached || !same(float64(hours), 10*math.Ln2) {
		t.Errorf("got %v, %v, %v", hours, reached, err)
	}
}

func TestRefusedSteps(t *testing.T) {
	if heat, err := Heat(-1, 10); heat != 0 || err == nil {
		t.Errorf("ice brings %v degree days, %v", heat, err)
	}
	if weight, err := EndWeight(0, 10); weight != 0 || err == nil {
		t.Errorf("no fish weighs %v, %v", weight, err)
	}
	if a := formulatest.Worked(Formulas, "feed_per_fish", "fish_g=100;pct=some"); !formulatest.NoNumber(a) {
		t.Errorf("some percent is %+v", a)
	}
}

func TestUnknownWords(t *testing.T) {
	if _, err := YieldOf("Nile tilapia", "wing"); err == nil {
		t.Error("tilapia has wings")
	}
	for name, inputs := range map[string]string{
		"iwama_tautz_weight": "W0_g=1;T_C=10;days=10;exponent=0.5",
		"feed_per_fish":      "fish_g=100;pct=some",
		"fish_yield":         "species=rainbow trout;cut=fillet",
	} {
		if _, err := ask(t, name, inputs); err == nil {
			t.Errorf("%s answers %s", name, inputs)
		}
	}
	if _, err := ask(t, "feed_per_fish", "fish_g=100;pct=1-40"); err == nil {
		t.Error("a fish eats 40 % of its weight")
	}
}

func TestFormulasAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Formulas {
		if seen[f.Name] || f.Title == "" || f.Source == "" || f.Range == "" || f.Work == nil {
			t.Errorf("%s is listed twice or lacks words", f.Name)
		}
		seen[f.Name] = true
		for _, i := range f.Inputs {
			if i.Name == "" || i.Meaning == "" {
				t.Errorf("%s has an input without words", f.Name)
			}
		}
	}
}

func TestNoAllocation(t *testing.T) {
	tilapia, events := species[0], []Event{{1, Counted, 50}, {2, Died, 3}}
	if n := testing.AllocsPerRun(100, func() {
		_, _ = WeightByHeat(10, 1.2, 300)
		_, _ = GrowthResponse(tilapia, 25)
		_, _ = RationPercent(tilapia, 100, 25, 1)
		_, _ = PumpStopMinutes(tilapia, 1000, 20, 7, 1.5, 200)
		_, _, _, _ = HoursToLethal(tilapia, 25, 5, 10)
		_, _ = ShareAbove(500, 0.3, 600)
		_, _ = Alive(events, 5)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkPumpStopMinutes(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = PumpStopMinutes(species[0], 1000, 20, 7, 1.5, 200)
	}
}

func BenchmarkRationPercent(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = RationPercent(species[0], 100, 25, 1)
	}
}

package loop

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

// cases runs a property on 1,000 cases from one seed.
func cases(t *testing.T, property func(r *rand.Rand) bool) {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 2))
	for i := range 1000 {
		if !property(r) {
			t.Fatalf("case %d", i)
		}
	}
}

func within(r *rand.Rand, low, high float64) float64 { return low + r.Float64()*(high-low) }

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) }

func TestRetentionAndFlowAreInverse(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		volume, flow := quantity.CubicMetres(within(r, 0.1, 100)), quantity.LitresPerMinute(within(r, 1, 1000))
		hours, err := RetentionTime(volume, flow)
		back, err2 := FlowForRetention(volume, hours)
		return err == nil && err2 == nil && near(float64(back), float64(flow))
	})
}

func TestSettlerAreaFlowAndDiameterAreInverse(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		flow, loading := quantity.LitresPerMinute(within(r, 1, 1000)), MetresPerSecond(within(r, 0.0005, 0.01))
		area, err := SettlerArea(flow, loading)
		back, err2 := SettlerFlow(area, loading)
		same, err3 := SettlerLoading(flow, area)
		d, err4 := SettlerDiameter(area)
		return errors.Join(err, err2, err3, err4) == nil && near(float64(back), float64(flow)) && near(float64(same), float64(loading)) && near(circle(float64(d)), float64(area))
	})
}

func TestBothHazenWilliamsAgree(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		length, d, flow, c := quantity.Metres(within(r, 1, 100)), quantity.Metres(within(r, 0.02, 0.2)), quantity.LitresPerMinute(within(r, 5, 500)), within(r, 100, 150)
		si, err := HazenWilliams(length, d, flow, c)
		us, err2 := HazenWilliamsUS(length.Feet(), d.Feet(), CubicFeetPerSecond(quantity.Litres(flow).CubicFeet()/60), c)
		return err == nil && err2 == nil && math.Abs(float64(us.Metres()/si)-1) < 0.001
	})
}

func TestFrictionRisesWithFlowAndFallsWithWidth(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		d, flow := quantity.Metres(within(r, 0.02, 0.2)), quantity.LitresPerMinute(within(r, 5, 500))
		h, err := HazenWilliams(10, d, flow, 150)
		more, err2 := HazenWilliams(10, d, flow*1.1, 150)
		wider, err3 := HazenWilliams(10, d*1.1, flow, 150)
		return errors.Join(err, err2, err3) == nil && more > h && wider < h
	})
}

// A duty point lies on both curves.
func TestDutyPointLiesOnBothCurves(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		top := within(r, 3, 6)
		curve := []PumpPoint{{0, quantity.Metres(top)}, {50, quantity.Metres(top * 0.8)}, {100, quantity.Metres(top * 0.3)}, {120, 0}}
		run := Run{Static: quantity.Metres(within(r, 0, 2)), Length: quantity.Metres(within(r, 1, 50)), Diameter: quantity.Metres(within(r, 0.02, 0.06)), C: 150, K: within(r, 0, 20)}
		p, err := DutyPoint(curve, run)
		asked, err2 := SystemHead(run, p.Flow)
		return err == nil && err2 == nil && math.Abs(float64(asked-p.Head)) < 1e-6 && math.Abs(float64(p.Head)-onCurve(curve, float64(p.Flow))) < 1e-6
	})
}

func onCurve(curve []PumpPoint, flow float64) float64 {
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if flow <= float64(b.Flow) {
			return float64(a.Head) + (flow-float64(a.Flow))/float64(b.Flow-a.Flow)*float64(b.Head-a.Head)
		}
	}
	return math.NaN()
}

func TestDutyPointRefusals(t *testing.T) {
	run := Run{Static: 5, Length: 1, Diameter: 0.05, C: 150}
	for _, q := range []struct {
		reason string
		curve  []PumpPoint
	}{
		{"needs two points", nil},
		{"needs two points", []PumpPoint{{0, 4}}},
		{"cannot lift so high", []PumpPoint{{0, 4}, {50, 0}}},
		{"beyond the maker's curve", []PumpPoint{{0, 10}, {10, 9}}},
		{"must rise in flow and fall in head", []PumpPoint{{0, 9}, {10, 9}}},
		{"must rise in flow and fall in head", []PumpPoint{{10, 9}, {10, 8}}},
	} {
		var duty *DutyError
		if _, err := DutyPoint(q.curve, run); !errors.As(err, &duty) || !strings.Contains(err.Error(), q.reason) {
			t.Errorf("%v: %v", q.curve, err)
		}
	}
	for _, broken := range []Run{{Static: 5, Length: 0, Diameter: 0.05, C: 150}, {Static: 5, Length: 1, Diameter: 0, C: 150}, {Static: -1, Length: 1, Diameter: 0.05, C: 150}} {
		if _, err := DutyPoint([]PumpPoint{{0, 8}, {50, 0}}, broken); err == nil {
			t.Errorf("%+v was taken", broken)
		}
	}
}

// The pump and the siphon meet at the bottom of the bed: just below it breaks,
// at it and above it stalls.
func TestSiphonStalls(t *testing.T) {
	f := Flood{Area: 1, Void: 0.4, HighHead: 0.5, LowHead: 0.2, Diameter: 0.025, Cd: 0.6}
	lowest, err := OutletFlow(f.Cd, f.Diameter, f.LowHead)
	if err != nil {
		t.Fatal(err)
	}
	f.Inflow = lowest * 0.999
	if _, err := Siphon(f); err != nil {
		t.Error(err)
	}
	var stall *StallError
	f.Inflow = lowest
	if _, err := Siphon(f); !errors.As(err, &stall) || stall.Outflow != lowest || stall.Inflow != lowest {
		t.Error(err)
	}
}

// Water is kept: what the siphon passes over a cycle is what the pump brings.
func TestSiphonPassesWhatThePumpBrings(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		f := Flood{Area: quantity.SquareMetres(within(r, 0.2, 4)), Void: quantity.Fraction(within(r, 0.2, 1)), HighHead: 0.6, LowHead: 0.3,
			Diameter: 0.03, Cd: 0.6, Inflow: quantity.LitresPerMinute(within(r, 1, 40))}
		c, err := Siphon(f)
		return err == nil && near(float64(c.Exchanged), float64(f.Inflow)*float64(c.Fill+c.Drain)) && near(c.PerDay*float64(c.Fill+c.Drain), 1440)
	})
}

func TestDrainDownAddsUp(t *testing.T) {
	got, err := DrainDown([]Bed{{1, 0.25, 0.4}, {2, 0.1, 1}}, 12, 8)
	if err != nil || !near(float64(got), 100+200+12+8) {
		t.Error(got, err)
	}
}

// Cooling: the heat that left between two temperatures is that of the time.
func TestCoolingTimes(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		air := quantity.Celsius(within(r, -10, 10))
		first, err := CoolingTime(500, 3, 5, 25, 20, air)
		second, err2 := CoolingTime(500, 3, 5, 20, 15, air)
		both, err3 := CoolingTime(500, 3, 5, 25, 15, air)
		return errors.Join(err, err2, err3) == nil && near(float64(first+second), float64(both))
	})
	for _, limit := range []quantity.Celsius{5, 4, 26, quantity.Celsius(math.NaN())} {
		var outside *quantity.RangeError
		if _, err := CoolingTime(500, 3, 5, 25, limit, 5); !errors.As(err, &outside) || outside.Low != 5 || outside.High != 25 {
			t.Errorf("limit %v: %v", limit, err)
		}
	}
}

func TestBatteryAndBackupAreInverse(t *testing.T) {
	cases(t, func(r *rand.Rand) bool {
		load, hours := quantity.Watts(within(r, 1, 500)), quantity.Hours(within(r, 0.1, 48))
		usable, efficiency := quantity.Fraction(within(r, 0.3, 1)), quantity.Fraction(within(r, 0.5, 1))
		battery, err := BatteryFor(load, hours, usable, efficiency)
		back, err2 := BackupTime(battery, usable, efficiency, load)
		return err == nil && err2 == nil && near(float64(back), float64(hours))
	})
}

func TestNoEvaporationIntoWetterAir(t *testing.T) {
	got, err := Evaporation(10, 5, 30, 90, 1)
	if err != nil || got != 0 {
		t.Error(got, err)
	}
}

// Scalar formulas do not allocate.
func TestNoAllocations(t *testing.T) {
	curve := []PumpPoint{{0, 4}, {100, 0}}
	for name, call := range map[string]func(){
		"HazenWilliams": func() { _, _ = HazenWilliams(10, 0.05, 100, 150) },
		"SwameeJain":    func() { _, _ = SwameeJain(1e5, 1e-4) },
		"Siphon":        func() { _, _ = Siphon(Flood{1, 0.4, 0.5, 0.2, 0.025, 0.6, 10}) },
		"RetentionTime": func() { _, _ = RetentionTime(1, 1) },
		"Evaporation":   func() { _, _ = Evaporation(1, 25, 20, 50, 0) },
		"DutyPoint":     func() { _, _ = DutyPoint(curve, Run{2, 1, 1, 150, 0}) },
	} {
		if n := testing.AllocsPerRun(100, call); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

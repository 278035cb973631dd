package loop

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/quantity"
)

// The bounds again, independent of the code: what each function must take at
// both ends and refuse just outside, and for NaN and the infinities.
func TestBounds(t *testing.T) {
	const d = 0.05
	run := Run{Static: 1, Length: 10, Diameter: d, C: 150, K: 5}
	flood := Flood{Area: 1, Void: 0.4, HighHead: 0.5, LowHead: 0.2, Diameter: 0.025, Cd: 0.6, Inflow: 10}
	for _, b := range []struct {
		name      string
		low, high float64
		call      func(v float64) error
	}{
		{"RectangularTank length", 0.001, 10000, func(v float64) error { _, err := RectangularTank(quantity.Metres(v), 1, 1); return err }},
		{"RectangularTank width", 0.001, 10000, func(v float64) error { _, err := RectangularTank(1, quantity.Metres(v), 1); return err }},
		{"RectangularTank depth", 0.001, 20, func(v float64) error { _, err := RectangularTank(1, 1, quantity.Metres(v)); return err }},
		{"RoundTank diameter", 0.01, 100, func(v float64) error { _, err := RoundTank(quantity.Metres(v), 1); return err }},
		{"RoundTank depth", 0.001, 20, func(v float64) error { _, err := RoundTank(1, quantity.Metres(v)); return err }},
		{"PipeVolume diameter", 0.001, 2, func(v float64) error { _, err := PipeVolume(quantity.Metres(v), 1); return err }},
		{"PipeVolume length", 0.001, 10000, func(v float64) error { _, err := PipeVolume(d, quantity.Metres(v)); return err }},
		{"RetentionTime volume", 0.0001, 100000, func(v float64) error { _, err := RetentionTime(quantity.CubicMetres(v), 1); return err }},
		{"RetentionTime flow", 0.001, 1e6, func(v float64) error { _, err := RetentionTime(1, quantity.LitresPerMinute(v)); return err }},
		{"FlowForRetention volume", 0.0001, 100000, func(v float64) error { _, err := FlowForRetention(quantity.CubicMetres(v), 1); return err }},
		{"FlowForRetention time", 0.0001, 8760, func(v float64) error { _, err := FlowForRetention(1, quantity.Hours(v)); return err }},
		{"Turnovers volume", 0.0001, 100000, func(v float64) error { _, err := Turnovers(quantity.CubicMetres(v), 1); return err }},
		{"SettlerLoading flow", 0.001, 1e6, func(v float64) error { _, err := SettlerLoading(quantity.LitresPerMinute(v), 1); return err }},
		{"SettlerLoading area", 0.0001, 100000, func(v float64) error { _, err := SettlerLoading(1, quantity.SquareMetres(v)); return err }},
		{"SettlerArea flow", 0.001, 1e6, func(v float64) error { _, err := SettlerArea(quantity.LitresPerMinute(v), 0.003); return err }},
		{"SettlerArea loading", 0.00001, 0.1, func(v float64) error { _, err := SettlerArea(1, MetresPerSecond(v)); return err }},
		{"SettlerFlow area", 0.0001, 100000, func(v float64) error { _, err := SettlerFlow(quantity.SquareMetres(v), 0.003); return err }},
		{"SettlerFlow loading", 0.00001, 0.1, func(v float64) error { _, err := SettlerFlow(1, MetresPerSecond(v)); return err }},
		{"SettlerDiameter area", 0.0001, 100000, func(v float64) error { _, err := SettlerDiameter(quantity.SquareMetres(v)); return err }},
		{"OutletFlow cd", 0.1, 1, func(v float64) error { _, err := OutletFlow(quantity.Fraction(v), d, 1); return err }},
		{"OutletFlow diameter", 0.001, 2, func(v float64) error { _, err := OutletFlow(0.6, quantity.Metres(v), 1); return err }},
		{"OutletFlow head", 0, 100, func(v float64) error { _, err := OutletFlow(0.6, d, quantity.Metres(v)); return err }},
		{"Siphon area", 0.0001, 100000, func(v float64) error { f := flood; f.Area = quantity.SquareMetres(v); _, err := Siphon(f); return err }},
		{"Siphon void", 0, 1, func(v float64) error { f := flood; f.Void = quantity.Fraction(v); _, err := Siphon(f); return err }},
		{"Siphon low head", 0.1, 0.5, func(v float64) error {
			f := flood
			f.Inflow, f.LowHead = 1, quantity.Metres(v)
			if v < 0.1 {
				f.LowHead = -1
			}
			_, err := Siphon(f)
			return err
		}},
		{"Siphon high head", 0.2, 100, func(v float64) error { f := flood; f.HighHead = quantity.Metres(v); _, err := Siphon(f); return err }},
		{"Siphon cd", 0.5, 1, func(v float64) error {
			f := flood
			f.Cd = quantity.Fraction(v)
			if v < 0.5 {
				f.Cd = 0.05
			}
			_, err := Siphon(f)
			return err
		}},
		{"Timer on", 0, 1440, func(v float64) error { _, err := Timer(quantity.Minutes(v), other(v, 1440), 1); return err }},
		{"Timer off", 0, 1440, func(v float64) error { _, err := Timer(other(v, 1440), quantity.Minutes(v), 1); return err }},
		{"Timer together", 1, 1440, func(v float64) error { _, err := Timer(0, quantity.Minutes(v), 1); return err }},
		{"Timer flow", 0.001, 1e6, func(v float64) error { _, err := Timer(1, 1, quantity.LitresPerMinute(v)); return err }},
		{"Bed area", 0.0001, 100000, func(v float64) error { _, err := Bed{quantity.SquareMetres(v), 1, 1}.Water(); return err }},
		{"Bed depth", 0.001, 20, func(v float64) error { _, err := Bed{1, quantity.Metres(v), 1}.Water(); return err }},
		{"Bed void", 0, 1, func(v float64) error { _, err := Bed{1, 1, quantity.Fraction(v)}.Water(); return err }},
		{"DrainDown pipes", 0, 1e7, func(v float64) error { _, err := DrainDown(nil, quantity.Litres(v), 0); return err }},
		{"DrainDown films", 0, 1e7, func(v float64) error { _, err := DrainDown(nil, 0, quantity.Litres(v)); return err }},
		{"DrainDown beds", 0, 1, func(v float64) error {
			_, err := DrainDown([]Bed{{1, 1, quantity.Fraction(v)}}, 0, 0)
			return err
		}},
		{"FreeBoard height", 0.001, 20, func(v float64) error { _, err := FreeBoard(1, quantity.Metres(v)); return err }},
		{"DrainDownMargin free board", 0, 1e7, func(v float64) error { _, err := DrainDownMargin(quantity.Litres(v), 0); return err }},
		{"DrainDownMargin drain-down", 0, 1e7, func(v float64) error { _, err := DrainDownMargin(0, quantity.Litres(v)); return err }},
		{"HazenWilliams length", 0.001, 10000, func(v float64) error { _, err := HazenWilliams(quantity.Metres(v), d, 10, 150); return err }},
		{"HazenWilliams diameter", 0.001, 2, func(v float64) error { _, err := HazenWilliams(1, quantity.Metres(v), 10, 150); return err }},
		{"HazenWilliams flow", 0.001, 1e6, func(v float64) error { _, err := HazenWilliams(1, d, quantity.LitresPerMinute(v), 150); return err }},
		{"HazenWilliams C", 60, 160, func(v float64) error { _, err := HazenWilliams(1, d, 10, v); return err }},
		{"HazenWilliamsUS C", 60, 160, func(v float64) error { _, err := HazenWilliamsUS(100, 0.2, 0.1, v); return err }},
		{"DarcyWeisbach f", 0.001, 64, func(v float64) error { _, err := DarcyWeisbach(v, 1, d, 1); return err }},
		{"DarcyWeisbach length", 0.001, 10000, func(v float64) error { _, err := DarcyWeisbach(0.02, quantity.Metres(v), d, 1); return err }},
		{"DarcyWeisbach diameter", 0.001, 2, func(v float64) error { _, err := DarcyWeisbach(0.02, 1, quantity.Metres(v), 1); return err }},
		{"DarcyWeisbach speed", 0.0001, 20, func(v float64) error { _, err := DarcyWeisbach(0.02, 1, d, MetresPerSecond(v)); return err }},
		{"PipeSpeed flow", 0.001, 1e6, func(v float64) error { _, err := PipeSpeed(quantity.LitresPerMinute(v), d); return err }},
		{"PipeSpeed diameter", 0.001, 2, func(v float64) error { _, err := PipeSpeed(1, quantity.Metres(v)); return err }},
		{"Reynolds speed", 0.0001, 20, func(v float64) error { _, err := Reynolds(MetresPerSecond(v), d, 1e-6); return err }},
		{"Reynolds diameter", 0.001, 2, func(v float64) error { _, err := Reynolds(1, quantity.Metres(v), 1e-6); return err }},
		{"Reynolds viscosity", 5e-7, 2e-6, func(v float64) error { _, err := Reynolds(1, d, SquareMetresPerSecond(v)); return err }},
		{"LaminarFactor", 1, 2000, func(v float64) error { _, err := LaminarFactor(v); return err }},
		{"SwameeJain Reynolds", 5000, 1e8, func(v float64) error { _, err := SwameeJain(v, 1e-4); return err }},
		{"SwameeJain roughness", 1e-6, 0.01, func(v float64) error { _, err := SwameeJain(1e5, v); return err }},
		{"FrictionFactor laminar", 1, 2000, func(v float64) error { _, err := FrictionFactor(v, 1e-4); return err }},
		{"FrictionFactor turbulent", 5000, 1e8, func(v float64) error { _, err := FrictionFactor(v, 1e-4); return err }},
		{"FittingLoss K", 0, 1000, func(v float64) error { _, err := FittingLoss(v, 1); return err }},
		{"FittingLoss speed", 0.0001, 20, func(v float64) error { _, err := FittingLoss(1, MetresPerSecond(v)); return err }},
		{"TradeFriction length", 0.01, 30000, func(v float64) error {
			if v < 0.01 {
				v = 0.003
			}
			if v > 30000 {
				v = 33000
			}
			_, err := TradeFriction(1, 10, quantity.Feet(v))
			return err
		}},
		{"SystemHead static", 0, 100, func(v float64) error {
			r := run
			r.Static = quantity.Metres(v)
			_, err := SystemHead(r, 10)
			return err
		}},
		{"SystemHead K", 0, 1000, func(v float64) error { r := run; r.K = v; _, err := SystemHead(r, 10); return err }},
		{"DutyPoint first head", 10, 100, func(v float64) error {
			if v < 10 {
				v = -1
			}
			_, err := DutyPoint([]PumpPoint{{0, quantity.Metres(v)}, {1000, 0}}, run)
			return err
		}},
		{"DutyPoint last flow", 1000, 1e6, func(v float64) error {
			if v < 1000 {
				v = -1
			}
			_, err := DutyPoint([]PumpPoint{{0, 5}, {quantity.LitresPerMinute(v), 0}}, Run{Static: 1, Length: 1, Diameter: 2, C: 150})
			return err
		}},
		{"WaterPower flow", 0.001, 1e6, func(v float64) error { _, err := WaterPower(quantity.LitresPerMinute(v), 1, 1); return err }},
		{"WaterPower head", 0, 100, func(v float64) error { _, err := WaterPower(1, quantity.Metres(v), 1); return err }},
		{"WaterPower efficiency", 0.01, 1, func(v float64) error { _, err := WaterPower(1, 1, quantity.Fraction(v)); return err }},
		{"CoverLoss U", 0.01, 20, func(v float64) error { _, err := CoverLoss(WattsPerSquareMetreKelvin(v), 1, 20, 0); return err }},
		{"CoverLoss area", 0.0001, 100000, func(v float64) error { _, err := CoverLoss(1, quantity.SquareMetres(v), 20, 0); return err }},
		{"CoverLoss inside", -60, 60, func(v float64) error { _, err := CoverLoss(1, 1, quantity.Celsius(v), 0); return err }},
		{"CoverLoss outside", -60, 60, func(v float64) error { _, err := CoverLoss(1, 1, 0, quantity.Celsius(v)); return err }},
		{"AirChangeLoss changes", 0, 60, func(v float64) error { _, err := AirChangeLoss(v, 1, 20, 0); return err }},
		{"AirChangeLoss volume", 0.0001, 100000, func(v float64) error { _, err := AirChangeLoss(1, quantity.CubicMetres(v), 20, 0); return err }},
		{"AirChangeLoss inside", -60, 60, func(v float64) error { _, err := AirChangeLoss(1, 1, quantity.Celsius(v), 0); return err }},
		{"AirChangeLoss outside", -60, 60, func(v float64) error { _, err := AirChangeLoss(1, 1, 0, quantity.Celsius(v)); return err }},
		{"WarmingEnergy water", 0, 1e7, func(v float64) error { _, err := WarmingEnergy(quantity.Kilograms(v), 1); return err }},
		{"WarmingEnergy rise", 0, 100, func(v float64) error { _, err := WarmingEnergy(1, v); return err }},
		{"WarmingTime rise", 0, 100, func(v float64) error { _, err := WarmingTime(1, v, 100); return err }},
		{"WarmingTime heater", 0.1, 1e6, func(v float64) error { _, err := WarmingTime(1, 1, quantity.Watts(v)); return err }},
		{"TankLoss U", 0.01, 20, func(v float64) error { _, err := TankLoss(WattsPerSquareMetreKelvin(v), 1, 20, 0); return err }},
		{"TankLoss area", 0.0001, 100000, func(v float64) error { _, err := TankLoss(1, quantity.SquareMetres(v), 20, 0); return err }},
		{"TankLoss water", 0, 45, func(v float64) error { _, err := TankLoss(1, 1, quantity.Celsius(v), 0); return err }},
		{"TankLoss air", -60, 60, func(v float64) error { _, err := TankLoss(1, 1, 20, quantity.Celsius(v)); return err }},
		{"CoolingTime water", 0, 1e7, func(v float64) error { _, err := CoolingTime(quantity.Kilograms(v), 1, 1, 25, 20, 5); return err }},
		{"CoolingTime U", 0.01, 20, func(v float64) error {
			_, err := CoolingTime(1, WattsPerSquareMetreKelvin(v), 1, 25, 20, 5)
			return err
		}},
		{"CoolingTime area", 0.0001, 100000, func(v float64) error { _, err := CoolingTime(1, 1, quantity.SquareMetres(v), 25, 20, 5); return err }},
		{"CoolingTime start", 20, 45, func(v float64) error { _, err := CoolingTime(1, 1, 1, quantity.Celsius(v), 20, 5); return err }},
		{"CoolingTime air warm", 25, 60, func(v float64) error {
			_, err := CoolingTime(1, 1, 1, 10, 24, quantity.Celsius(v))
			return skip(v < 25, err)
		}},
		{"CoolingTime air cold", -60, 15, func(v float64) error {
			_, err := CoolingTime(1, 1, 1, 25, 20, quantity.Celsius(v))
			return skip(v > 15, err)
		}},
		{"Evaporation area", 0.0001, 100000, func(v float64) error { _, err := Evaporation(quantity.SquareMetres(v), 25, 20, 50, 0); return err }},
		{"Evaporation water", 0, 45, func(v float64) error { _, err := Evaporation(1, quantity.Celsius(v), 20, 50, 0); return err }},
		{"Evaporation air", -60, 60, func(v float64) error { _, err := Evaporation(1, 25, quantity.Celsius(v), 50, 0); return err }},
		{"Evaporation humidity", 0, 100, func(v float64) error { _, err := Evaporation(1, 25, 20, quantity.Percent(v), 0); return err }},
		{"Evaporation air speed", 0, 10, func(v float64) error { _, err := Evaporation(1, 25, 20, 50, MetresPerSecond(v)); return err }},
		{"MakeUp volume", 0.0001, 100000, func(v float64) error { _, err := MakeUp(quantity.CubicMetres(v), 1); return err }},
		{"MakeUp percent", 0, 100, func(v float64) error { _, err := MakeUp(1, quantity.Percent(v)); return err }},
		{"MakeUpBalance evaporation", 0, 1e6, func(v float64) error { _, err := MakeUpBalance(Balance{Evaporation: quantity.Litres(v)}); return err }},
		{"MakeUpBalance plants", 0, 1e6, func(v float64) error { _, err := MakeUpBalance(Balance{Plants: quantity.Litres(v)}); return err }},
		{"MakeUpBalance solids", 0, 1e6, func(v float64) error { _, err := MakeUpBalance(Balance{Solids: quantity.Litres(v)}); return err }},
		{"MakeUpBalance exchange", 0, 1e6, func(v float64) error { _, err := MakeUpBalance(Balance{Exchange: quantity.Litres(v)}); return err }},
		{"MakeUpBalance rain", 0, 1e6, func(v float64) error { _, err := MakeUpBalance(Balance{Rain: quantity.Litres(v)}); return err }},
		{"DailyEnergy power", 0, 1e6, func(v float64) error { _, err := DailyEnergy(quantity.Watts(v), 1); return err }},
		{"DailyEnergy hours", 0, 24, func(v float64) error { _, err := DailyEnergy(1, quantity.Hours(v)); return err }},
		{"BackupTime battery", 0, 1e7, func(v float64) error { _, err := BackupTime(WattHours(v), 1, 1, 1); return err }},
		{"BackupTime usable", 0.01, 1, func(v float64) error { _, err := BackupTime(1, quantity.Fraction(v), 1, 1); return err }},
		{"BackupTime efficiency", 0.01, 1, func(v float64) error { _, err := BackupTime(1, 1, quantity.Fraction(v), 1); return err }},
		{"BackupTime load", 0.1, 1e6, func(v float64) error { _, err := BackupTime(1, 1, 1, quantity.Watts(v)); return err }},
		{"BatteryFor load", 0.1, 1e6, func(v float64) error { _, err := BatteryFor(quantity.Watts(v), 1, 1, 1); return err }},
		{"BatteryFor hours", 0, 8760, func(v float64) error { _, err := BatteryFor(1, quantity.Hours(v), 1, 1); return err }},
		{"BatteryFor usable", 0.01, 1, func(v float64) error { _, err := BatteryFor(1, 1, quantity.Fraction(v), 1); return err }},
		{"BatteryFor efficiency", 0.01, 1, func(v float64) error { _, err := BatteryFor(1, 1, 1, quantity.Fraction(v)); return err }},
		{"MonthlyCost energy", 0, 1e6, func(v float64) error { _, err := MonthlyCost(KilowattHours(v), 1, 1); return err }},
		{"MonthlyCost price", 0, 1e6, func(v float64) error { _, err := MonthlyCost(1, v, 1); return err }},
		{"MonthlyCost days", 0, 366, func(v float64) error { _, err := MonthlyCost(1, 1, quantity.Days(v)); return err }},
	} {
		t.Run(b.name, func(t *testing.T) { holds(t, b.low, b.high, b.call) })
	}
}

// holds asks at both ends and just outside them.
func holds(t *testing.T, low, high float64, call func(float64) error) {
	t.Helper()
	for _, v := range []float64{low, high} {
		if err := call(v); err != nil {
			t.Errorf("%v: %v", v, err)
		}
	}
	for _, v := range []float64{math.Nextafter(low, math.Inf(-1)), math.Nextafter(high, math.Inf(1)), math.NaN(), math.Inf(1), math.Inf(-1)} {
		var outside *quantity.RangeError
		if err := call(v); !errors.As(err, &outside) {
			t.Errorf("%v: got %v, want a RangeError", v, err)
		}
	}
}

// other completes a pair that must not exceed the day together.
func other(v, day float64) quantity.Minutes {
	if v >= day {
		return 0
	}
	return 1
}

// skip stands in a RangeError for the side of a bound that another input sets.
func skip(over bool, err error) error {
	if over {
		return &quantity.RangeError{}
	}
	return err
}

// US lengths and flows are held to the same metric bounds.
func TestHazenWilliamsUSBounds(t *testing.T) {
	for _, b := range []struct {
		length, diameter quantity.Feet
		flow             CubicFeetPerSecond
	}{
		{0.003, 0.2, 0.1}, {33000, 0.2, 0.1}, {100, 0.003, 0.1}, {100, 6.6, 0.1}, {100, 0.2, 5e-7}, {100, 0.2, 600},
		{quantity.Feet(math.NaN()), 0.2, 0.1}, {100, quantity.Feet(math.Inf(1)), 0.1}, {100, 0.2, CubicFeetPerSecond(math.NaN())},
	} {
		if _, err := HazenWilliamsUS(b.length, b.diameter, b.flow, 150); err == nil {
			t.Errorf("%+v was taken", b)
		}
	}
}

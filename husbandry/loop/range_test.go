package loop

import (
	"errors"
	"fmt"
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
		{"RectangularTank length", 0.001, 10000, func(v float64) error { return zero(RectangularTank(quantity.Metres(v), 1, 1)) }},
		{"RectangularTank width", 0.001, 10000, func(v float64) error { return zero(RectangularTank(1, quantity.Metres(v), 1)) }},
		{"RectangularTank depth", 0.001, 20, func(v float64) error { return zero(RectangularTank(1, 1, quantity.Metres(v))) }},
		{"RoundTank diameter", 0.01, 100, func(v float64) error { return zero(RoundTank(quantity.Metres(v), 1)) }},
		{"RoundTank depth", 0.001, 20, func(v float64) error { return zero(RoundTank(1, quantity.Metres(v))) }},
		{"PipeVolume diameter", 0.001, 2, func(v float64) error { return zero(PipeVolume(quantity.Metres(v), 1)) }},
		{"PipeVolume length", 0.001, 10000, func(v float64) error { return zero(PipeVolume(d, quantity.Metres(v))) }},
		{"RetentionTime volume", 0.0001, 100000, func(v float64) error { return zero(RetentionTime(quantity.CubicMetres(v), 1)) }},
		{"RetentionTime flow", 0.001, 1e6, func(v float64) error { return zero(RetentionTime(1, quantity.LitresPerMinute(v))) }},
		{"FlowForRetention volume", 0.0001, 100000, func(v float64) error { return zero(FlowForRetention(quantity.CubicMetres(v), 1)) }},
		{"FlowForRetention time", 0.0001, 8760, func(v float64) error { return zero(FlowForRetention(1, quantity.Hours(v))) }},
		{"Turnovers volume", 0.0001, 100000, func(v float64) error { return zero(Turnovers(quantity.CubicMetres(v), 1)) }},
		{"SettlerLoading flow", 0.001, 1e6, func(v float64) error { return zero(SettlerLoading(quantity.LitresPerMinute(v), 1)) }},
		{"SettlerLoading area", 0.0001, 100000, func(v float64) error { return zero(SettlerLoading(1, quantity.SquareMetres(v))) }},
		{"SettlerArea flow", 0.001, 1e6, func(v float64) error { return zero(SettlerArea(quantity.LitresPerMinute(v), 0.003)) }},
		{"SettlerArea loading", 0.00001, 0.1, func(v float64) error { return zero(SettlerArea(1, MetresPerSecond(v))) }},
		{"SettlerFlow area", 0.0001, 100000, func(v float64) error { return zero(SettlerFlow(quantity.SquareMetres(v), 0.003)) }},
		{"SettlerFlow loading", 0.00001, 0.1, func(v float64) error { return zero(SettlerFlow(1, MetresPerSecond(v))) }},
		{"SettlerDiameter area", 0.0001, 100000, func(v float64) error { return zero(SettlerDiameter(quantity.SquareMetres(v))) }},
		{"OutletFlow cd", 0.1, 1, func(v float64) error { return zero(OutletFlow(quantity.Fraction(v), d, 1)) }},
		{"OutletFlow diameter", 0.001, 2, func(v float64) error { return zero(OutletFlow(0.6, quantity.Metres(v), 1)) }},
		{"OutletFlow head", 0, 100, func(v float64) error { return zero(OutletFlow(0.6, d, quantity.Metres(v))) }},
		{"Siphon area", 0.0001, 100000, func(v float64) error { f := flood; f.Area = quantity.SquareMetres(v); return zero(Siphon(f)) }},
		{"Siphon void", 0, 1, func(v float64) error { f := flood; f.Void = quantity.Fraction(v); return zero(Siphon(f)) }},
		{"Siphon low head", 0.1, 0.5, func(v float64) error {
			f := flood
			f.Inflow, f.LowHead = 1, quantity.Metres(v)
			if v < 0.1 {
				f.LowHead = -1
			}
			return zero(Siphon(f))
		}},
		{"Siphon high head", 0.2, 100, func(v float64) error { f := flood; f.HighHead = quantity.Metres(v); return zero(Siphon(f)) }},
		{"Siphon cd", 0.5, 1, func(v float64) error {
			f := flood
			f.Cd = quantity.Fraction(v)
			if v < 0.5 {
				f.Cd = 0.05
			}
			return zero(Siphon(f))
		}},
		{"Timer on", 0, 1440, func(v float64) error { return zero(Timer(quantity.Minutes(v), other(v, 1440), 1)) }},
		{"Timer off", 0, 1440, func(v float64) error { return zero(Timer(other(v, 1440), quantity.Minutes(v), 1)) }},
		{"Timer together", 1, 1440, func(v float64) error { return zero(Timer(0, quantity.Minutes(v), 1)) }},
		{"Timer flow", 0.001, 1e6, func(v float64) error { return zero(Timer(1, 1, quantity.LitresPerMinute(v))) }},
		{"Bed area", 0.0001, 100000, func(v float64) error { return zero(Bed{quantity.SquareMetres(v), 1, 1}.Water()) }},
		{"Bed depth", 0.001, 20, func(v float64) error { return zero(Bed{1, quantity.Metres(v), 1}.Water()) }},
		{"Bed void", 0, 1, func(v float64) error { return zero(Bed{1, 1, quantity.Fraction(v)}.Water()) }},
		{"DrainDown pipes", 0, 1e7, func(v float64) error { return zero(DrainDown(nil, quantity.Litres(v), 0)) }},
		{"DrainDown films", 0, 1e7, func(v float64) error { return zero(DrainDown(nil, 0, quantity.Litres(v))) }},
		{"DrainDown beds", 0, 1, func(v float64) error {
			return zero(DrainDown([]Bed{{1, 1, quantity.Fraction(v)}}, 0, 0))
		}},
		{"FreeBoard height", 0.001, 20, func(v float64) error { return zero(FreeBoard(1, quantity.Metres(v))) }},
		{"DrainDownMargin free board", 0, 1e7, func(v float64) error { return zero(DrainDownMargin(quantity.Litres(v), 0)) }},
		{"DrainDownMargin drain-down", 0, 1e7, func(v float64) error { return zero(DrainDownMargin(0, quantity.Litres(v))) }},
		{"HazenWilliams length", 0.001, 10000, func(v float64) error { return zero(HazenWilliams(quantity.Metres(v), d, 10, 150)) }},
		{"HazenWilliams diameter", 0.001, 2, func(v float64) error { return zero(HazenWilliams(1, quantity.Metres(v), 10, 150)) }},
		{"HazenWilliams flow", 0.001, 1e6, func(v float64) error { return zero(HazenWilliams(1, d, quantity.LitresPerMinute(v), 150)) }},
		{"HazenWilliams C", 60, 160, func(v float64) error { return zero(HazenWilliams(1, d, 10, v)) }},
		{"HazenWilliamsUS C", 60, 160, func(v float64) error { return zero(HazenWilliamsUS(100, 0.2, 0.1, v)) }},
		{"DarcyWeisbach f", 0.001, 64, func(v float64) error { return zero(DarcyWeisbach(v, 1, d, 1)) }},
		{"DarcyWeisbach length", 0.001, 10000, func(v float64) error { return zero(DarcyWeisbach(0.02, quantity.Metres(v), d, 1)) }},
		{"DarcyWeisbach diameter", 0.001, 2, func(v float64) error { return zero(DarcyWeisbach(0.02, 1, quantity.Metres(v), 1)) }},
		{"DarcyWeisbach speed", 0.0001, 20, func(v float64) error { return zero(DarcyWeisbach(0.02, 1, d, MetresPerSecond(v))) }},
		{"PipeSpeed flow", 0.001, 1e6, func(v float64) error { return zero(PipeSpeed(quantity.LitresPerMinute(v), d)) }},
		{"PipeSpeed diameter", 0.001, 2, func(v float64) error { return zero(PipeSpeed(1, quantity.Metres(v))) }},
		{"Reynolds speed", 0.0001, 20, func(v float64) error { return zero(Reynolds(MetresPerSecond(v), d, 1e-6)) }},
		{"Reynolds diameter", 0.001, 2, func(v float64) error { return zero(Reynolds(1, quantity.Metres(v), 1e-6)) }},
		{"Reynolds viscosity", 5e-7, 2e-6, func(v float64) error { return zero(Reynolds(1, d, SquareMetresPerSecond(v))) }},
		{"LaminarFactor", 1, 2000, func(v float64) error { return zero(LaminarFactor(v)) }},
		{"SwameeJain Reynolds", 5000, 1e8, func(v float64) error { return zero(SwameeJain(v, 1e-4)) }},
		{"SwameeJain roughness", 1e-6, 0.01, func(v float64) error { return zero(SwameeJain(1e5, v)) }},
		{"FrictionFactor laminar", 1, 2000, func(v float64) error { return zero(FrictionFactor(v, 1e-4)) }},
		{"FrictionFactor turbulent", 5000, 1e8, func(v float64) error { return zero(FrictionFactor(v, 1e-4)) }},
		{"FittingLoss K", 0, 1000, func(v float64) error { return zero(FittingLoss(v, 1)) }},
		{"FittingLoss speed", 0.0001, 20, func(v float64) error { return zero(FittingLoss(1, MetresPerSecond(v))) }},
		{"TradeFriction length", 0.01, 30000, func(v float64) error {
			if v < 0.01 {
				v = 0.003
			}
			if v > 30000 {
				v = 33000
			}
			return zero(TradeFriction(1, 10, quantity.Feet(v)))
		}},
		{"SystemHead static", 0, 100, func(v float64) error {
			r := run
			r.Static = quantity.Metres(v)
			return zero(SystemHead(r, 10))
		}},
		{"SystemHead K", 0, 1000, func(v float64) error { r := run; r.K = v; return zero(SystemHead(r, 10)) }},
		{"DutyPoint first head", 10, 100, func(v float64) error {
			if v < 10 {
				v = -1
			}
			return zero(DutyPoint([]PumpPoint{{0, quantity.Metres(v)}, {1000, 0}}, run))
		}},
		{"DutyPoint last flow", 1000, 1e6, func(v float64) error {
			if v < 1000 {
				v = -1
			}
			return zero(DutyPoint([]PumpPoint{{0, 5}, {quantity.LitresPerMinute(v), 0}}, Run{Static: 1, Length: 1, Diameter: 2, C: 150}))
		}},
		{"WaterPower flow", 0.001, 1e6, func(v float64) error { return zero(WaterPower(quantity.LitresPerMinute(v), 1, 1)) }},
		{"WaterPower head", 0, 100, func(v float64) error { return zero(WaterPower(1, quantity.Metres(v), 1)) }},
		{"WaterPower efficiency", 0.01, 1, func(v float64) error { return zero(WaterPower(1, 1, quantity.Fraction(v))) }},
		{"CoverLoss U", 0.01, 20, func(v float64) error { return zero(CoverLoss(WattsPerSquareMetreKelvin(v), 1, 20, 0)) }},
		{"CoverLoss area", 0.0001, 100000, func(v float64) error { return zero(CoverLoss(1, quantity.SquareMetres(v), 20, 0)) }},
		{"CoverLoss inside", -60, 60, func(v float64) error { return zero(CoverLoss(1, 1, quantity.Celsius(v), 0)) }},
		{"CoverLoss outside", -60, 60, func(v float64) error { return zero(CoverLoss(1, 1, 0, quantity.Celsius(v))) }},
		{"AirChangeLoss changes", 0, 60, func(v float64) error { return zero(AirChangeLoss(v, 1, 20, 0)) }},
		{"AirChangeLoss volume", 0.0001, 100000, func(v float64) error { return zero(AirChangeLoss(1, quantity.CubicMetres(v), 20, 0)) }},
		{"AirChangeLoss inside", -60, 60, func(v float64) error { return zero(AirChangeLoss(1, 1, quantity.Celsius(v), 0)) }},
		{"AirChangeLoss outside", -60, 60, func(v float64) error { return zero(AirChangeLoss(1, 1, 0, quantity.Celsius(v))) }},
		{"WarmingEnergy water", 0, 1e7, func(v float64) error { return zero(WarmingEnergy(quantity.Kilograms(v), 1)) }},
		{"WarmingEnergy rise", 0, 100, func(v float64) error { return zero(WarmingEnergy(1, v)) }},
		{"WarmingTime rise", 0, 100, func(v float64) error { return zero(WarmingTime(1, v, 100)) }},
		{"WarmingTime heater", 0.1, 1e6, func(v float64) error { return zero(WarmingTime(1, 1, quantity.Watts(v))) }},
		{"TankLoss U", 0.01, 20, func(v float64) error { return zero(TankLoss(WattsPerSquareMetreKelvin(v), 1, 20, 0)) }},
		{"TankLoss area", 0.0001, 100000, func(v float64) error { return zero(TankLoss(1, quantity.SquareMetres(v), 20, 0)) }},
		{"TankLoss water", 0, 45, func(v float64) error { return zero(TankLoss(1, 1, quantity.Celsius(v), 0)) }},
		{"TankLoss air", -60, 60, func(v float64) error { return zero(TankLoss(1, 1, 20, quantity.Celsius(v))) }},
		{"CoolingTime water", 0, 1e7, func(v float64) error { return zero(CoolingTime(quantity.Kilograms(v), 1, 1, 25, 20, 5)) }},
		{"CoolingTime U", 0.01, 20, func(v float64) error {
			return zero(CoolingTime(1, WattsPerSquareMetreKelvin(v), 1, 25, 20, 5))
		}},
		{"CoolingTime area", 0.0001, 100000, func(v float64) error { return zero(CoolingTime(1, 1, quantity.SquareMetres(v), 25, 20, 5)) }},
		{"CoolingTime start", 20, 45, func(v float64) error { return zero(CoolingTime(1, 1, 1, quantity.Celsius(v), 20, 5)) }},
		{"CoolingTime air warm", 25, 60, func(v float64) error {
			return skip(v < 25, zero(CoolingTime(1, 1, 1, 10, 24, quantity.Celsius(v))))
		}},
		{"CoolingTime air cold", -60, 15, func(v float64) error {
			return skip(v > 15, zero(CoolingTime(1, 1, 1, 25, 20, quantity.Celsius(v))))
		}},
		{"Evaporation area", 0.0001, 100000, func(v float64) error { return zero(Evaporation(quantity.SquareMetres(v), 25, 20, 50, 0)) }},
		{"Evaporation water", 0, 45, func(v float64) error { return zero(Evaporation(1, quantity.Celsius(v), 20, 50, 0)) }},
		{"Evaporation air", -60, 60, func(v float64) error { return zero(Evaporation(1, 25, quantity.Celsius(v), 50, 0)) }},
		{"Evaporation humidity", 0, 100, func(v float64) error { return zero(Evaporation(1, 25, 20, quantity.Percent(v), 0)) }},
		{"Evaporation air speed", 0, 10, func(v float64) error { return zero(Evaporation(1, 25, 20, 50, MetresPerSecond(v))) }},
		{"MakeUp volume", 0.0001, 100000, func(v float64) error { return zero(MakeUp(quantity.CubicMetres(v), 1)) }},
		{"MakeUp percent", 0, 100, func(v float64) error { return zero(MakeUp(1, quantity.Percent(v))) }},
		{"MakeUpBalance evaporation", 0, 1e6, func(v float64) error { return zero(MakeUpBalance(Balance{Evaporation: quantity.Litres(v)})) }},
		{"MakeUpBalance plants", 0, 1e6, func(v float64) error { return zero(MakeUpBalance(Balance{Plants: quantity.Litres(v)})) }},
		{"MakeUpBalance solids", 0, 1e6, func(v float64) error { return zero(MakeUpBalance(Balance{Solids: quantity.Litres(v)})) }},
		{"MakeUpBalance exchange", 0, 1e6, func(v float64) error { return zero(MakeUpBalance(Balance{Exchange: quantity.Litres(v)})) }},
		{"MakeUpBalance rain", 0, 1e6, func(v float64) error { return zero(MakeUpBalance(Balance{Rain: quantity.Litres(v)})) }},
		{"DailyEnergy power", 0, 1e6, func(v float64) error { return zero(DailyEnergy(quantity.Watts(v), 1)) }},
		{"DailyEnergy hours", 0, 24, func(v float64) error { return zero(DailyEnergy(1, quantity.Hours(v))) }},
		{"BackupTime battery", 0, 1e7, func(v float64) error { return zero(BackupTime(WattHours(v), 1, 1, 1)) }},
		{"BackupTime usable", 0.01, 1, func(v float64) error { return zero(BackupTime(1, quantity.Fraction(v), 1, 1)) }},
		{"BackupTime efficiency", 0.01, 1, func(v float64) error { return zero(BackupTime(1, 1, quantity.Fraction(v), 1)) }},
		{"BackupTime load", 0.1, 1e6, func(v float64) error { return zero(BackupTime(1, 1, 1, quantity.Watts(v))) }},
		{"BatteryFor load", 0.1, 1e6, func(v float64) error { return zero(BatteryFor(quantity.Watts(v), 1, 1, 1)) }},
		{"BatteryFor hours", 0, 8760, func(v float64) error { return zero(BatteryFor(1, quantity.Hours(v), 1, 1)) }},
		{"BatteryFor usable", 0.01, 1, func(v float64) error { return zero(BatteryFor(1, 1, quantity.Fraction(v), 1)) }},
		{"BatteryFor efficiency", 0.01, 1, func(v float64) error { return zero(BatteryFor(1, 1, 1, quantity.Fraction(v))) }},
		{"MonthlyCost energy", 0, 1e6, func(v float64) error { return zero(MonthlyCost(KilowattHours(v), 1, 1)) }},
		{"MonthlyCost price", 0, 1e6, func(v float64) error { return zero(MonthlyCost(1, v, 1)) }},
		{"MonthlyCost days", 0, 366, func(v float64) error { return zero(MonthlyCost(1, 1, quantity.Days(v))) }},
	} {
		t.Run(b.name, func(t *testing.T) { holds(t, b.low, b.high, b.call) })
	}
}

// zero passes an error on, and complains of a value beside it.
func zero[T comparable](value T, err error) error {
	var none T
	if err != nil && value != none {
		return fmt.Errorf("%v beside the error %v", value, err) //nolint:errorlint // it must not pass for the error
	}
	return err
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
		var outside *quantity.RangeError
		if err := zero(HazenWilliamsUS(b.length, b.diameter, b.flow, 150)); !errors.As(err, &outside) {
			t.Errorf("%+v: %v", b, err)
		}
	}
}

package outlook

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/loop"
	"freshet.example/husbandry/quantity"
)

const tankCaution = loop.HeatCaution

var tankInputs = []formula.Input{
	volumeBound.input("V", "volume of water"), densityBound.usual("rho", "density", "998"), heatBound.usual("cp", "specific heat", "4186"), lossBound.input("UA", "heat lost for each kelvin"),
	heaterBound.usual("P", "power of a heater that is always on", "0"),
	{Name: "air", Meaning: "mean of the air, and its daily swing from mean to top, degC: 14+7"},
	phaseBound.usual("air_rising_h", "hour at which the air passes its mean, rising", "9"), waterBound.input("T0", "water at the start"), timeInput(), caseInput,
}

// tankOf reads a tank. The air is written as its mean and its swing, 14.0+7.0.
func tankOf(in *formula.Given) (DailyTank, error) {
	air := strings.TrimSpace(in.Word("air"))
	at := strings.LastIndex(air, "+")
	mean, err := strconv.ParseFloat(air[:max(0, at)], 64)
	swing, swingErr := strconv.ParseFloat(air[at+1:], 64)
	if firstError(err, swingErr) != nil {
		return DailyTank{}, &formula.InputError{Formula: "tank under a daily wave", Input: "air", Reason: "not a mean and a swing", Hint: "write it like 14+7"}
	}
	return DailyTank{
		Volume: quantity.CubicMetres(in.Float("V")), Density: in.Float("rho"), Heat: in.Float("cp"), Loss: in.Float("UA"), Heater: quantity.Watts(in.Float("P")),
		AirMean: quantity.Celsius(mean), AirSwing: swing, Rising: quantity.Hours(in.Float("air_rising_h")), Start: quantity.Celsius(in.Float("T0")),
	}, nil
}

func swingOf(in *formula.Given) (Swing, error) {
	d, err := tankOf(in)
	if err != nil {
		return Swing{}, err
	}
	return d.Swing()
}

const sineSource = "Newton's cooling under a sine, closed form"

var tankFormulas = slices.Concat(
	[]formula.Formula{{
		Name: "daily_tank_temperature", Title: "How warm is the tank some hours later, under a daily wave of the air?", Unit: "degC", Also: cases("sim.tank_heat", "t={t}h T"),
		Source: sineSource, Range: "mixed water, one heat loss for all of it, without sun and evaporation", Cautions: []string{tankCaution, loop.ElectricityCaution}, Inputs: tankInputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			d, err := tankOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			t, err := d.After(quantity.Hours(in.Float("t")))
			return formula.Number(float64(t)), err
		},
	}},
	formula.Outputs(formula.Formula{Inputs: timeless(tankInputs), Source: sineSource, Range: "mixed water, one heat loss for all of it, without sun and evaporation", Cautions: []string{tankCaution, loop.ElectricityCaution}}, swingOf,
		formula.Output[Swing]{Name: "daily_tank_time_constant", Title: "How slowly does the tank follow the air?", Unit: "h", Also: cases("sim.tank_heat", "time_constant"), Value: func(s Swing) float64 { return float64(s.TimeConstant) }},
		formula.Output[Swing]{Name: "daily_tank_gain", Title: "How far does the water swing for each kelvin of the air?", Also: cases("sim.tank_heat", "swing_gain"), Value: func(s Swing) float64 { return float64(s.Gain) }},
		formula.Output[Swing]{Name: "daily_tank_lag", Title: "How long after the air is the water warmest?", Unit: "h", Also: cases("sim.tank_heat", "lag"), Value: func(s Swing) float64 { return float64(s.Lag) }},
		formula.Output[Swing]{Name: "daily_tank_mean", Title: "How warm is the water on average, once settled?", Unit: "degC", Also: cases("sim.tank_heat", "mean_T_periodic"), Value: func(s Swing) float64 { return float64(s.Mean) }},
		formula.Output[Swing]{Name: "daily_tank_amplitude", Title: "How far does the water swing from its mean?", Unit: "degC", Also: cases("sim.tank_heat", "amplitude_periodic"), Value: func(s Swing) float64 { return s.Amplitude }},
	),
	[]formula.Formula{{
		Name: "daily_tank_heater", Title: "What heater holds the tank at a mean temperature?", Unit: "W", Also: cases("sim.tank_heat", "power_for_mean_{mean_celsius}C"),
		Source: sineSource, Range: "on average; the coldest days need more", Cautions: []string{tankCaution, loop.ElectricityCaution}, Inputs: append(timeless(tankInputs), waterBound.usual("mean_celsius", "mean wanted", "26")),
		Work: func(in *formula.Given) (formula.Answer, error) {
			d, err := tankOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			w, err := d.PowerFor(quantity.Celsius(in.Float("mean_celsius")))
			return formula.Number(float64(w)), err
		},
	}},
)

var bedInputs = []formula.Input{
	areaBound.input("bed_area_m2", "bed", "bed area"), voidBound.usual("void_fraction", "share of the bed that water can fill", "0.4", "void fraction"),
	levelBound.input("low_level_m", "water above the outlet when the siphon breaks", "low level"), levelBound.input("trip_level_m", "when it starts", "trip level"),
	pumpBound.input("pump_l_per_s", "what the pump brings", "pump"), dischargeBound.usual("discharge_coefficient", "of the siphon", "0.6", "Cd"),
	outletBound.input("outlet_area_m2", "opening of the siphon", "outlet area"), gravityBound.usual("g", "gravity: always 9.80665 here", "9.80665"),
	areaBound.usual("sump_area_m2", "surface of the pump tank", "1", "sump area"),
	volumeBound.usual("sump_m3", "water in the pump tank while the bed is at its low level", "1", "sump volume when bed is at low level"), caseInput,
}

// A flooded is a bed with the pump tank that feeds it.
type flooded struct {
	loop.Cycle
	still     float64 // min to drain with the pump off
	displaced float64 // L from low level to high
	swing     float64 // m in the pump tank
	least     float64 // L in the pump tank
	pumped    float64 // L a day
	stall     float64 // L/s
}

func floodedOf(in *formula.Given) (flooded, error) {
	f := loop.Flood{
		Area: quantity.SquareMetres(in.Float("bed_area_m2")), Void: quantity.Fraction(in.Float("void_fraction")),
		HighHead: quantity.Metres(in.Float("trip_level_m")), LowHead: quantity.Metres(in.Float("low_level_m")),
		Diameter: quantity.Metres(2 * math.Sqrt(in.Float("outlet_area_m2")/math.Pi)), Cd: quantity.Fraction(in.Float("discharge_coefficient")),
		Inflow: quantity.LitresPerMinute(in.Float("pump_l_per_s") * secondsPerMinute),
	}
	sumpArea, sump := in.Float("sump_area_m2"), in.Float("sump_m3")
	if err := firstError(areaBound.check(float64(f.Area)), levelBound.check(float64(f.HighHead)), pumpBound.check(in.Float("pump_l_per_s")), outletBound.check(in.Float("outlet_area_m2")),
		gravityBound.check(in.Float("g")), areaBound.check(sumpArea), volumeBound.check(sump)); err != nil {
		return flooded{}, err
	}
	cycle, err := loop.Siphon(f)
	if err != nil {
		return flooded{}, err
	}
	still, err := loop.DrainTime(f)
	if err != nil {
		return flooded{}, err
	}
	lowest, err := loop.OutletFlow(f.Cd, f.Diameter, f.LowHead)
	displaced := float64(f.Inflow) * float64(cycle.Fill)
	return flooded{
		Cycle: cycle, still: float64(still), displaced: displaced, swing: displaced / litresPerCubic / sumpArea, least: sump*litresPerCubic - displaced,
		pumped: float64(f.Inflow) * minutesPerDay, stall: float64(lowest) / secondsPerMinute,
	}, err
}

const (
	secondsPerMinute = 60.0
	minutesPerDay    = 1440.0
	litresPerCubic   = 1000.0
)

func flood(name, title, unit string, value func(flooded) float64, rows ...string) formula.Output[flooded] {
	return formula.Output[flooded]{Name: "flooded_bed_" + name, Title: title, Unit: unit, Also: cases("sim.flood_drain", rows...), Value: value}
}

var bedFormulas = formula.Outputs(formula.Formula{
	Inputs: bedInputs, Source: "orifice equation (Torricelli), integrated over the fall of the water with the pump on", Range: "refused where the siphon cannot break: it would drain for ever",
	Cautions: []string{loop.OverflowCaution},
}, floodedOf,
	flood("fill_time", "How long does the bed take to fill?", "s", func(f flooded) float64 { return float64(f.Fill) * secondsPerMinute }, "fill_time"),
	flood("drain_time", "How long does the bed drain, the pump running?", "s", func(f flooded) float64 { return float64(f.Drain) * secondsPerMinute }, "drain_time_pump_on"),
	flood("drain_time_still", "How long does the bed drain, the pump off?", "s", func(f flooded) float64 { return f.still * secondsPerMinute }, "drain_time_pump_off"),
	flood("cycle_time", "How long is one flood and drain?", "s", func(f flooded) float64 { return float64(f.Fill+f.Drain) * secondsPerMinute }, "cycle_time"),
	flood("cycles", "How often a day does the bed flood?", "1/day", func(f flooded) float64 { return f.PerDay }, "cycles_per_day"),
	flood("displaced", "How much water moves between bed and pump tank?", "L", func(f flooded) float64 { return f.displaced }, "volume_per_cycle_displaced"),
	flood("sump_least", "How little water is left in the pump tank?", "L", func(f flooded) float64 { return f.least }, "sump_min_volume"),
	flood("sump_swing", "How far does the pump tank's level swing?", "m", func(f flooded) float64 { return f.swing }, "sump_level_swing"),
	flood("pumped", "How much does the pump move in a day?", "L/day", func(f flooded) float64 { return f.pumped }, "pumped_per_day"),
	flood("stall_flow", "What is the largest pump flow at which the siphon still breaks?", "L/s", func(f flooded) float64 { return f.stall }, "siphon_stall_flow",
		"siphon_stall_flow (largest pump flow that still drains to low level)"),
)

package loop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var pumpFormulas = []formula.Formula{
	{
		Name: "duty_point", Title: "What flow does this pump give through this pipe?", Unit: "L/min", Source: "maker's curve, Hazen-Williams and fittings' K",
		Range: "within the maker's points; refused outside", Cautions: []string{OversizeCaution, ElectricityCaution},
		Inputs: append([]formula.Input{{Name: "curve", Meaning: "points of the pump's curve, L/min:m, like 0:4.5 20:4 40:2.5"}}, runInputs...),
		Work: func(in *formula.Given) (formula.Answer, error) {
			curve, err := pumpCurve(in.Word("curve"))
			if err != nil {
				return formula.Answer{}, err
			}
			p, err := DutyPoint(curve, runGiven(in))
			answer := formula.Number(float64(p.Flow))
			answer.Text = "at a head of " + short(float64(p.Head)) + " m"
			return answer, err
		},
	},
	{
		Name: "system_head", Title: "What head does this run of pipe ask for?", Unit: "m", Source: "lift, Hazen-Williams and fittings' K", Range: "no flow: the lift alone",
		Cautions: []string{OversizeCaution}, Inputs: append([]formula.Input{flowInput}, runInputs...),
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SystemHead(runGiven(in), litresAMinute(in)))
		},
	},
	{
		Name: "water_power", Title: "What power does this flow and head take?", Unit: "W", Source: "density x g x flow x head over efficiency", Range: "efficiency of pump and motor together, 0.01 to 1",
		Cautions: []string{ElectricityCaution},
		Inputs:   []formula.Input{flowInput, headBound.input("head_m", "head"), efficiencyBound.given("efficiency", "of pump and motor together; 1 for the water alone", "1")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(WaterPower(litresAMinute(in), quantity.Metres(in.Float("head_m")), quantity.Fraction(in.Float("efficiency"))))
		},
	},
}

var runInputs = []formula.Input{
	headBound.input("static_m", "height from the water the pump draws to the water it feeds"),
	lengthInput, diameterInput, cInput, lossBound.given("k", "sum of the fittings' K", "0", also("K")...),
}

func runGiven(in *formula.Given) Run {
	return Run{Static: quantity.Metres(in.Float("static_m")), Length: quantity.Metres(in.Float("length_m")),
		Diameter: quantity.Metres(in.Float("diameter_m")), C: in.Float("c"), K: in.Float("k")}
}

var (
	usableInput     = usableBound.given("usable", "share of the battery that may be used; 0.5 lead, 0.8 lithium", "0.5")
	efficiencyInput = efficiencyBound.given("efficiency", "of the inverter", "0.85")
	loadInput       = loadBound.input("load_w", "power of what must keep running", also("power_w")...)
)

var powerFormulas = []formula.Formula{
	{
		Name: "daily_energy", Title: "What energy does this take a day?", Unit: "kWh", Source: "power times hours", Range: "0 to 24 h", Cautions: []string{ElectricityCaution},
		Inputs: []formula.Input{powerBound.input("power_w", "power"), dayBound.given("hours_per_day", "hours a day", "24")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(DailyEnergy(quantity.Watts(in.Float("power_w")), quantity.Hours(in.Float("hours_per_day"))))
		},
	},
	{
		Name: "backup_time", Figures: formula.Rough, Title: "How long does the battery keep the air on?", Unit: "h", Source: "battery times usable share times efficiency over load; usable share is common practice, no source",
		Range: "a new battery, warm", Cautions: []string{BackupCaution, ElectricityCaution},
		Inputs: []formula.Input{batteryBound.input("battery_wh", "energy of the battery", from("battery_kwh", kilowattHoursToWattHours)), usableInput, efficiencyInput, loadInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(BackupTime(WattHours(in.Float("battery_wh")), quantity.Fraction(in.Float("usable")), quantity.Fraction(in.Float("efficiency")), quantity.Watts(in.Float("load_w"))))
		},
	},
	{
		Name: "battery_for", Figures: formula.Rough, Title: "What battery keeps the air on for so long?", Unit: "Wh", Source: "load times hours over usable share and efficiency; usable share is common practice, no source",
		Range: "a new battery, warm", Cautions: []string{BackupCaution, ElectricityCaution},
		Inputs: []formula.Input{loadInput, backupBound.input("hours", "hours to bridge"), usableInput, efficiencyInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(BatteryFor(quantity.Watts(in.Float("load_w")), quantity.Hours(in.Float("hours")), quantity.Fraction(in.Float("usable")), quantity.Fraction(in.Float("efficiency"))))
		},
	},
	{
		Name: "monthly_cost", Title: "What does this cost a month?", Unit: "in the currency of the price", Source: "energy times price times days", Range: "up to 366 days",
		Inputs: []formula.Input{energyBound.input("kwh_per_day", "energy a day"), priceBound.input("price_per_kwh", "price of energy"), daysBound.given("days", "days to pay for", "30")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(MonthlyCost(KilowattHours(in.Float("kwh_per_day")), in.Float("price_per_kwh"), quantity.Days(in.Float("days"))))
		},
	},
}

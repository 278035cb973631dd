package loop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var (
	nominalInput = formula.Input{Name: "nominal_in", Meaning: "trade name of schedule 40 pipe in inches, instead of its inside diameter",
		Unit: "in", Low: float64(schedule40[0].nominal), High: float64(schedule40[len(schedule40)-1].nominal), Default: notGiven}
	cInput = roughnessBound.given("c", "Hazen-Williams C, 140 to 150 for plastic", "150", also("C")...)
)

var pipeFormulas = []formula.Formula{
	{
		Name: "friction_hazen_williams", Title: "What head does this pipe cost?", Unit: "m",
		Source: "Hazen-Williams; Illinois 77/906 App. A Exh. I and EPANET 2.2 agree", Cautions: []string{OversizeCaution},
		Range:  "turbulent water near 15 degC, 1 to 3 m/s; give the inside diameter, not the trade name",
		Inputs: []formula.Input{lengthInput, feetOf.instead("length_ft", "length of pipe, instead of metres; the answer comes in feet"), diameterInput, nominalInput, flowInput, cInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			d, err := insideGiven(in)
			if err != nil {
				return formula.Answer{}, err
			}
			h, err := HazenWilliams(metresOrFeet(in, "length_m", "length_ft"), d, litresAMinute(in), in.Float("c"))
			if in.Has("length_ft") {
				return withUnit(h.Feet(), "ft", err)
			}
			return number(h, err)
		},
	},
	{
		Name: "friction_trade_table", Figures: formula.Rough, Title: "What head does a pump maker's table print for this pipe?", Unit: "ft",
		Source: "a pump maker's friction table, schedule 40 plastic", Range: "printed sizes and flows only", Cautions: []string{OversizeCaution},
		Inputs: []formula.Input{required(nominalInput),
			{Name: "gpm", Meaning: "flow, as printed", Unit: "gpm", Low: float64(tradeTable[0].gpm), High: float64(tradeTable[len(tradeTable)-1].gpm)},
			withDefault(feetOf.input("length_ft", "length of pipe"), "100")},
		Work: tradeAnswer,
	},
	{
		Name: "trade_table_margin", Title: "How many times what smooth plastic pipe costs does a pump maker's table print?", Unit: "times",
		Source: "a pump maker's friction table over Hazen-Williams at C 150", Range: "printed sizes and flows only; size by the larger figure", Cautions: []string{OversizeCaution},
		Inputs: []formula.Input{required(nominalInput), {Name: "gpm", Meaning: "flow, as printed", Unit: "gpm", Low: float64(tradeTable[0].gpm), High: float64(tradeTable[len(tradeTable)-1].gpm)}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(TradeBias(NominalInches(in.Float("nominal_in")), quantity.USGallonsPerMinute(in.Float("gpm"))))
		},
	},
	{
		Name: "friction_darcy", Title: "What head does this pipe cost, by Darcy and Weisbach?", Unit: "m", Also: []string{"friction_laminar", "friction_darcy_laminar"},
		Source: "Darcy-Weisbach; 64/Re up to Re 2000, Swamee & Jain 1976 from Re 5000", Range: "not between Re 2000 and 5000", Cautions: []string{OversizeCaution},
		Inputs: []formula.Input{
			factorBound.instead("friction_factor", "when it is known", also("f")...),
			(&bound{"Reynolds number", laminarBound.low, turbulentBound.high, "", ""}).instead("reynolds", "when it is known", also("Re")...),
			lengthInput, diameterInput, speedBound.instead("speed_m_s", "speed of the water, instead of a flow", also("v_m_s")...), flowInput,
			{Name: "roughness_mm", Meaning: "roughness of the wall; 0.0015 for plastic", Unit: "mm", High: 10, Default: "0.0015"},
			viscosityBound.given("nu_m2_s", "kinematic viscosity; 1.004e-6 at 20 degC (from memory)", "1.004e-6"),
		},
		Work: darcyAnswer,
	},
	{
		Name: "minor_loss_k", Title: "What loss coefficient has this fitting?", Also: []string{"minor_loss_K"}, Source: workedK + "; " + epanetK, Range: "typical values",
		Inputs:   []formula.Input{{Name: "fitting", Meaning: "the fitting", Choices: Fittings()}},
		Cautions: []string{OversizeCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			f, err := FittingK(in.Word("fitting"))
			answer := formula.Number(f.K)
			answer.Source = f.Source
			return answer, err
		},
	},
	{
		Name: "fitting_loss", Title: "What head do the fittings cost?", Unit: "m", Source: "K v2/2g", Range: "sum of K up to 1000",
		Inputs:   []formula.Input{lossBound.input("k", "sum of the fittings' K", also("K")...), flowInput, diameterInput},
		Cautions: []string{OversizeCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := PipeSpeed(litresAMinute(in), quantity.Metres(in.Float("diameter_m")))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(FittingLoss(in.Float("k"), v))
		},
	},
	{
		Name: "pipe_speed", Title: "How fast does the water run in this pipe?", Unit: "m/s", Source: "flow over cross-section", Range: "full pipe",
		Inputs: []formula.Input{flowInput, diameterInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PipeSpeed(litresAMinute(in), quantity.Metres(in.Float("diameter_m"))))
		},
	},
	{
		Name: "reynolds_number", Title: "Is the flow in this pipe laminar or turbulent?", Source: "v D / nu", Range: "laminar to 2000, turbulent from 5000 here",
		Inputs: []formula.Input{flowInput, diameterInput, viscosityBound.given("nu_m2_s", "kinematic viscosity", "1.004e-6")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			d := quantity.Metres(in.Float("diameter_m"))
			v, err := PipeSpeed(litresAMinute(in), d)
			if err != nil {
				return formula.Answer{}, err
			}
			return number(Reynolds(v, d, SquareMetresPerSecond(in.Float("nu_m2_s"))))
		},
	},
	{
		Name: "inside_diameter", Title: "How wide is a pipe of this trade name inside?", Also: []string{"pipe_inside_diameter"}, Unit: "m", Source: "schedule 40 dimensions, ASTM D1785 (from memory, confirmed by the fit of a friction table)",
		Range: "schedule 40, 0.5 to 6 inches", Inputs: []formula.Input{required(nominalInput)},
		Cautions: []string{OversizeCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(InsideDiameter(NominalInches(in.Float("nominal_in"))))
		},
	},
	{
		Name: "nominal_error", Title: "How far does the trade name mislead about friction?", Source: "(inside over nominal) to the power 4.871", Range: "schedule 40, 0.5 to 6 inches",
		Inputs:   []formula.Input{required(nominalInput)},
		Cautions: []string{OversizeCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(NominalError(NominalInches(in.Float("nominal_in"))))
		},
	},
}

func required(i formula.Input) formula.Input { return withDefault(i, "") }

func withDefault(i formula.Input, value string) formula.Input {
	i.Default = value
	return i
}

// insideGiven reads the inside diameter, or finds it by the pipe's trade name.
func insideGiven(in *formula.Given) (quantity.Metres, error) {
	if in.Has("nominal_in") && !in.Has("diameter_m") {
		return InsideDiameter(NominalInches(in.Float("nominal_in")))
	}
	return quantity.Metres(in.Float("diameter_m")), nil
}

func tradeAnswer(in *formula.Given) (formula.Answer, error) {
	nominal, gpm, length := NominalInches(in.Float("nominal_in")), quantity.USGallonsPerMinute(in.Float("gpm")), quantity.Feet(in.Float("length_ft"))
	answer, err := number(TradeFriction(nominal, gpm, length))
	if err != nil {
		return answer, err
	}
	d, err := InsideDiameter(nominal)
	if err != nil {
		return answer, err
	}
	smooth, err := HazenWilliams(length.Metres(), d, gpm.LitresPerMinute(), smoothPlastic)
	answer.Others = []formula.Other{{Basis: "Hazen-Williams, C 150, true inside diameter", Value: float64(smooth.Feet()), Unit: "ft", Source: "Illinois 77/906 App. A Exh. I"}}
	return answer, err
}

func darcyAnswer(in *formula.Given) (formula.Answer, error) {
	d := quantity.Metres(in.Float("diameter_m"))
	v, err := speedGiven(in, d)
	if err != nil {
		return formula.Answer{}, err
	}
	f, err := factorGiven(in, v, d)
	if err != nil {
		return formula.Answer{}, err
	}
	return number(DarcyWeisbach(f, quantity.Metres(in.Float("length_m")), d, v))
}

func speedGiven(in *formula.Given, d quantity.Metres) (MetresPerSecond, error) {
	if in.Has("speed_m_s") {
		return MetresPerSecond(in.Float("speed_m_s")), nil
	}
	return PipeSpeed(litresAMinute(in), d)
}

func factorGiven(in *formula.Given, v MetresPerSecond, d quantity.Metres) (float64, error) {
	if in.Has("friction_factor") {
		return in.Float("friction_factor"), nil
	}
	relative := millimetresToMetres(in.Float("roughness_mm")) / float64(d)
	if in.Has("reynolds") {
		return FrictionFactor(in.Float("reynolds"), relative)
	}
	re, err := Reynolds(v, d, SquareMetresPerSecond(in.Float("nu_m2_s")))
	if err != nil {
		return re, err
	}
	return FrictionFactor(re, relative)
}

package loop

import (
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const davidson = "Davidson & Summerfelt 2005, Aquacultural Engineering 33:47-61, abstract"

var loadingInput = loadingBound.given("loading_m_s", "flow over the surface", "0.0031", append(also("loading_m3_s_m2"), perDay("loading_m3_m2_d"))...)

// perDay is an alias for metres a second in metres a day, as loadings are told too.
func perDay(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(v float64) float64 { return v / (secondsPerHour * hoursPerDay) }}
}

var settlerFormulas = []formula.Formula{
	{
		Name: "settler_surface_loading", Title: "How hard is this settler loaded?", Unit: "m3/s/m2", Source: davidson + " (0.0031 for both settlers)",
		Range: "0.00001 to 0.1 m/s", Cautions: []string{SludgePitCaution},
		Inputs: []formula.Input{
			loadingBound.converted(func(v float64) float64 { return v / loadingFromUS(1) }, "gpm/ft2").instead("value_gpm_ft2", "loading in gallons a minute on a square foot, to change"),
			loadingBound.instead("value_m3_s_m2", "loading in cubic metres a second on a square metre, to change", perDay("value_m3_m2_d")),
			flowInput, surfaceInput,
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			if in.Has("value_m3_s_m2") {
				v := MetresPerSecond(in.Float("value_m3_s_m2"))
				return number(v, loadingBound.check(float64(v)))
			}
			if in.Has("value_gpm_ft2") {
				v := loadingFromUS(in.Float("value_gpm_ft2"))
				return number(v, loadingBound.check(v))
			}
			return number(SettlerLoading(litresAMinute(in), quantity.SquareMetres(in.Float("area_m2"))))
		},
	},
	{
		Name: "settler_area", Title: "What surface does a settler need for this flow?", Unit: "m2", Source: davidson + " (flow and loading)",
		Range: "0.00001 to 0.1 m/s", Inputs: []formula.Input{flowInput, loadingInput}, Cautions: []string{SludgePitCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SettlerArea(litresAMinute(in), MetresPerSecond(in.Float("loading_m_s"))))
		},
	},
	{
		Name: "settler_diameter", Title: "How wide must a round settler be for this flow?", Unit: "m", Source: davidson + " (flow and loading)",
		Range: "0.00001 to 0.1 m/s", Inputs: []formula.Input{flowInput, loadingInput}, Cautions: []string{SludgePitCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			area, err := SettlerArea(litresAMinute(in), MetresPerSecond(in.Float("loading_m_s")))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(SettlerDiameter(area))
		},
	},
	{
		Name: "settler_flow", Title: "What flow does this settler serve?", Unit: "L/min", Source: davidson + " (loading)",
		Range: "0.00001 to 0.1 m/s", Inputs: []formula.Input{surfaceInput, loadingInput}, Cautions: []string{SludgePitCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(SettlerFlow(quantity.SquareMetres(in.Float("area_m2")), MetresPerSecond(in.Float("loading_m_s"))))
		},
	},
	{
		Name: "settler_removal", Figures: formula.Rough, Title: "What share of the suspended solids did such a settler hold back?", Unit: "%", Source: davidson,
		Range: "at a loading of 0.0031 m/s, in their trial", Cautions: []string{SludgePitCaution},
		Inputs: []formula.Input{{Name: "settler", Meaning: "kind of settler", Choices: []string{"swirl", "radial"}, Also: also("type", "kind")}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SettlerRemoval(in.Word("settler"))
			return number(s.Removal, err)
		},
	},
}

var floodFormulas = []formula.Formula{
	{
		Name: "outlet_flow", Title: "What runs out of an opening under this head?", Unit: "L/min", Source: "orifice equation (Torricelli)",
		Range: "discharge coefficient 0.1 to 1",
		Inputs: []formula.Input{dischargeBound.given("discharge_coefficient", "0.6 for a sharp edge, up to 0.8 for a short pipe", "0.6", also("Cd")...),
			diameterInput, headBound.input("head_m", "water above the outlet")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(OutletFlow(quantity.Fraction(in.Float("discharge_coefficient")), quantity.Metres(in.Float("diameter_m")), quantity.Metres(in.Float("head_m"))))
		},
	},
	{
		Name: "siphon_cycle", Figures: formula.Rough, Title: "How often does this siphon flood the bed, and does it break?", Unit: "min", Source: "orifice equation, integrated over the fall of the water",
		Range: "refused where the pump brings as much as the siphon takes at its lowest head",
		Inputs: []formula.Input{
			surfaceInput, voidBound.given("void_fraction", "share of the bed that water can fill", "0.4"),
			headBound.input("high_head_m", "water above the outlet when the siphon starts"), headBound.input("low_head_m", "water above the outlet when it should break"),
			diameterInput, dischargeBound.given("discharge_coefficient", "of the siphon", "0.6", also("Cd")...), flowInput,
		},
		Cautions: []string{OverflowCaution},
		Work:     siphonAnswer,
	},
	{
		Name: "timer_cycle", Figures: formula.Rough, Title: "How often a day does a timer flood the bed?", Unit: "1/d", Source: "arithmetic", Range: "on and off together 1 to 1440 min",
		Inputs:   []formula.Input{minutesBound.input("on_min", "minutes on"), minutesBound.input("off_min", "minutes off"), flowInput},
		Cautions: []string{OverflowCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Timer(quantity.Minutes(in.Float("on_min")), quantity.Minutes(in.Float("off_min")), litresAMinute(in))
			answer := formula.Number(c.PerDay)
			answer.Text = short(float64(c.Exchanged)) + " L a flood"
			return answer, err
		},
	},
	{
		Name: "drain_down", Title: "What runs into the pump tank when the power fails?", Unit: "L", Also: []string{"drain_down_volume", "drain_down_bed"},
		Source: "sum of bed area x depth x void, pipes and films; void about 0.4 in gravel (trade rule, from memory)", Range: "beds of one kind",
		Cautions: []string{OverflowCaution, ElectricityCaution},
		Inputs: []formula.Input{
			areaBound.input("bed_area_m2", "surface of the flooded beds together", also("area_m2")...), depthBound.input("depth_m", "depth of the water that drains", also("flood_depth_m")...),
			voidBound.given("void_fraction", "share of that depth which is water", "0.4", also("void")...),
			litresBound.given("pipes_l", "water in pipes above the tank", "0"), litresBound.given("films_l", "films and weirs that run empty", "0"),
		},
		Work: func(in *formula.Given) (formula.Answer, error) { return number(drainDownGiven(in)) },
	},
	{
		Name: "drain_down_margin", Title: "Does the pump tank hold what drains into it?", Unit: "L",
		Source: "free board less drain-down", Range: "below zero it overflows by that much", Cautions: []string{OverflowCaution, ElectricityCaution},
		Inputs: []formula.Input{
			areaBound.input("tank_area_m2", "surface of the pump tank"), depthBound.input("free_height_m", "from the running level to the rim"),
			litresBound.input("drain_down_l", "what drains into it"),
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			free, err := FreeBoard(quantity.SquareMetres(in.Float("tank_area_m2")), quantity.Metres(in.Float("free_height_m")))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(DrainDownMargin(free, litres(in, "drain_down_l")))
		},
	},
}

func siphonAnswer(in *formula.Given) (formula.Answer, error) {
	c, err := Siphon(Flood{
		Area: quantity.SquareMetres(in.Float("area_m2")), Void: quantity.Fraction(in.Float("void_fraction")),
		HighHead: quantity.Metres(in.Float("high_head_m")), LowHead: quantity.Metres(in.Float("low_head_m")),
		Diameter: quantity.Metres(in.Float("diameter_m")), Cd: quantity.Fraction(in.Float("discharge_coefficient")), Inflow: litresAMinute(in),
	})
	answer := formula.Number(float64(c.Fill + c.Drain))
	answer.Text = "fills in " + short(float64(c.Fill)) + " min, drains in " + short(float64(c.Drain)) + " min, " + short(c.PerDay) + " floods a day"
	return answer, err
}

func drainDownGiven(in *formula.Given) (quantity.Litres, error) {
	bed := Bed{Area: quantity.SquareMetres(in.Float("bed_area_m2")), Depth: quantity.Metres(in.Float("depth_m")), Void: quantity.Fraction(in.Float("void_fraction"))}
	return DrainDown([]Bed{bed}, litres(in, "pipes_l"), litres(in, "films_l"))
}

// pumpCurve reads a curve typed as flow:head pairs, "0:4.5 20:4 40:2.5".
func pumpCurve(text string) ([]PumpPoint, error) {
	var curve []PumpPoint
	for pair := range strings.FieldsSeq(text) {
		flow, head, _ := strings.Cut(pair, ":")
		q, err := strconv.ParseFloat(flow, 64)
		if err != nil {
			return nil, &DutyError{"a pump curve is typed as flow:head pairs, like 0:4.5 20:4 40:2.5"}
		}
		h, err := strconv.ParseFloat(head, 64)
		if err != nil {
			return nil, &DutyError{"a pump curve is typed as flow:head pairs, like 0:4.5 20:4 40:2.5"}
		}
		curve = append(curve, PumpPoint{quantity.LitresPerMinute(q), quantity.Metres(h)})
	}
	return curve, nil
}

package fish

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const fhm = "Piper et al. 1982, Fish Hatchery Management"

func gallonsInput() formula.Input {
	return gallonsBound.input("flow_gpm", "flow in US gallons a minute")
}

func indexInput() formula.Input {
	return indexBound.input("flow_index", "pounds of fish for each inch and gallon a minute")
}

func inchesInput() formula.Input {
	return inchesBound.input("length_in", "length of the fish", named("L_in")...)
}

var hatcheryFormulas = []formula.Formula{
	{
		Name: "flow_index", Title: "How heavily is my flow of water loaded?",
		Inputs: []formula.Input{poundsBound.input("load_lb", "fish"), inchesInput(), gallonsInput()},
		Source: fhm, Range: "salmonids in passing water",
		Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FlowIndexOf(quantity.Pounds(in.Float("load_lb")), quantity.Inches(in.Float("length_in")), quantity.USGallonsPerMinute(in.Float("flow_gpm"))))
		},
	},
	{
		Name: "load_by_flow_index", Figures: formula.Rough, Title: "How many pounds of fish does my flow carry?", Unit: "lb",
		Inputs: []formula.Input{indexInput(), inchesInput(), gallonsInput()},
		Source: fhm, Range: "salmonids in passing water", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(LoadByFlowIndex(FlowIndex(in.Float("flow_index")), quantity.Inches(in.Float("length_in")), quantity.USGallonsPerMinute(in.Float("flow_gpm"))))
		},
	},
	{
		Name: "flow_index_scaling", Title: "What flow index holds when the inflow has less oxygen?",
		Inputs: []formula.Input{indexInput(), oxygenBound.input("do_in", "oxygen of the inflow for which it was found"),
			oxygenBound.input("do_in_new", "oxygen of the inflow now"), oxygenBound.input("do_min", "least the fish should have")},
		Source: fhm + ", p. 70", Range: "inflow above the least", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FlowIndexAt(FlowIndex(in.Float("flow_index")), quantity.MgPerL(in.Float("do_in")), quantity.MgPerL(in.Float("do_in_new")), quantity.MgPerL(in.Float("do_min"))))
		},
	},
	{
		Name: "load_temperature_factor", Title: "How many pounds of fish may stay when the water is warmer?", Unit: "lb",
		Inputs: []formula.Input{poundsBound.input("load_lb", "fish carried before"), warmerBound.input("delta_F", "rise in temperature, degF")},
		Source: fhm + ", p. 356: 5.56 % for each degF", Range: "within 15 degF", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(LoadAt(quantity.Pounds(in.Float("load_lb")), in.Float("delta_F")))
		},
	},
	{
		Name: "trout_feed_by_flow", Figures: formula.Rough, Title: "How many pounds of feed a day does the oxygen of my flow support?", Unit: "lb/d",
		Inputs: []formula.Input{gallonsInput(), oxygenBound.input("do_in", "oxygen of the inflow"), oxygenBound.input("do_out", "oxygen of the outflow")},
		Source: "Willoughby 1968 (from memory)", Range: "trout in passing water", Cautions: []string{stockCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TroutFeedByFlow(quantity.USGallonsPerMinute(in.Float("flow_gpm")), quantity.MgPerL(in.Float("do_in")), quantity.MgPerL(in.Float("do_out"))))
		},
	},
}

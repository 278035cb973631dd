package outlook

import (
	"slices"
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = slices.Concat(chainFormulas, saturatingFormulas, leftFormulas, tankFormulas, bedFormulas)

// caseInput takes the words by which a check file tells its cases apart.
var caseInput = formula.Input{Name: "case", Meaning: "a name for this case; nothing is computed from it", Default: "-"}

// cases lists names of a figure with up to five words for the case in them.
func cases(topic string, figures ...string) []string {
	var names []string
	for _, figure := range figures {
		for n := range 6 {
			names = append(names, strings.Join(strings.Fields(topic+strings.Repeat(" {case}", n)+" "+figure), " "))
		}
	}
	return names
}

// poolsInput are the pools at the start.
var poolsInput = formula.Input{Name: "y0", Meaning: "ammonia, nitrite and nitrate at the start, mg/L as N: three numbers", Default: "[0 0 0]"}

// pools reads three numbers, with or without the names between them.
func pools(in *formula.Given) (Pools, error) {
	var v []float64
	for _, word := range in.Labels("y0") {
		if number, err := strconv.ParseFloat(word, 64); err == nil {
			v = append(v, number)
		}
	}
	if len(v) != 3 {
		return Pools{}, &formula.InputError{Formula: "three pools", Input: "y0", Reason: "not three numbers", Hint: "write it like [1.0 0.2 10]"}
	}
	return Pools{quantity.AmmoniaN(v[0]), quantity.NitriteN(v[1]), quantity.NitrateN(v[2])}, nil
}

func timeInput() formula.Input { return hoursBound.usual("t", "hours later", "24") }

// timeless takes the time out of a list of inputs: what comes in the end has none.
func timeless(inputs []formula.Input) []formula.Input {
	return slices.DeleteFunc(slices.Clone(inputs), func(in formula.Input) bool { return in.Name == "t" })
}

var chainInputs = []formula.Input{
	feedBound.input("F", "ammonia set free, as N"), rateBound.input("k1", "rate of ammonia to nitrite"), rateBound.input("k2", "rate of nitrite to nitrate"),
	rateBound.usual("q", "share of the water replaced", "0"), rateBound.usual("u", "share of the nitrate that plants take", "0"), poolsInput, timeInput(), caseInput,
}

func chainOf(in *formula.Given) Chain {
	return Chain{Feed: in.Float("F"), First: in.Float("k1"), Second: in.Float("k2"), Dilution: in.Float("q"), Uptake: in.Float("u")}
}

var chainFormulas = slices.Concat(
	formula.Outputs(formula.Formula{Inputs: chainInputs, Source: "Bateman 1910, Proc. Cambridge Phil. Soc. 15:423, by matrix exponential", Range: "each step in proportion to what is there; rates up to 100 /h"},
		func(in *formula.Given) (Pools, error) {
			start, err := pools(in)
			if err != nil {
				return Pools{}, err
			}
			return chainOf(in).After(start, quantity.Hours(in.Float("t")))
		}, poolOutputs("chain", "after some hours", "t={t}h ", "sim.nitrif_linear")...),
	formula.Outputs(formula.Formula{Inputs: timeless(chainInputs), Source: "closed form, feed over the rates that take away", Range: "every step must take something away"},
		func(in *formula.Given) (Pools, error) {
			return chainOf(in).Steady()
		}, poolOutputs("chain_steady", "in the end", "steady ", "sim.nitrif_linear")...),
	formula.Outputs(formula.Formula{Inputs: timeless(chainInputs), Source: "where the rise of nitrite turns to a fall", Range: "where there is a peak"}, peakOf,
		formula.Output[peak]{Name: "chain_nitrite_peak_time", Title: "When is nitrite highest?", Unit: "h", Also: cases("sim.nitrif_linear", "NO2 peak time"), Value: func(p peak) float64 { return float64(p.at) }},
		formula.Output[peak]{Name: "chain_nitrite_peak", Title: "How high does nitrite rise?", Unit: "mg/L as N", Also: cases("sim.nitrif_linear", "NO2 peak"), Value: func(p peak) float64 { return float64(p.nitrite) }}),
)

type peak struct {
	at      quantity.Hours
	nitrite quantity.NitriteN
}

func peakOf(in *formula.Given) (p peak, err error) {
	start, err := pools(in)
	if err == nil {
		p.at, p.nitrite, err = chainOf(in).NitritePeak(start)
	}
	return p, err
}

// poolOutputs names the three pools at one time.
func poolOutputs(name, when, rowTime, row string) []formula.Output[Pools] {
	const unit = "mg/L as N"
	return []formula.Output[Pools]{
		{Name: name + "_ammonia", Title: "How much ammonia is there " + when + "?", Unit: unit, Also: cases(row, rowTime+"NH4"), Value: func(p Pools) float64 { return float64(p.Ammonia) }},
		{Name: name + "_nitrite", Title: "How much nitrite is there " + when + "?", Unit: unit, Also: cases(row, rowTime+"NO2"), Value: func(p Pools) float64 { return float64(p.Nitrite) }},
		{Name: name + "_nitrate", Title: "How much nitrate is there " + when + "?", Unit: unit, Also: cases(row, rowTime+"NO3"), Value: func(p Pools) float64 { return float64(p.Nitrate) }},
	}
}

var saturatingInputs = []formula.Input{
	feedBound.input("F", "ammonia set free, as N"), speedBound.input("v1", "greatest speed of ammonia to nitrite"), halfBound.input("K1", "ammonia at half that speed"),
	speedBound.input("v2", "greatest speed of nitrite to nitrate"), halfBound.input("K2", "nitrite at half that speed"),
	rateBound.usual("u", "share of the nitrate that plants take", "0"), poolsInput, timeInput(), caseInput,
}

func saturatingOf(in *formula.Given) Saturating {
	return Saturating{Feed: in.Float("F"), FirstSpeed: in.Float("v1"), FirstHalf: in.Float("K1"), SecondSpeed: in.Float("v2"), SecondHalf: in.Float("K2"), Uptake: in.Float("u")}
}

var saturatingFormulas = slices.Concat(
	formula.Outputs(formula.Formula{Inputs: saturatingInputs, Source: "Monod 1949, Ann. Rev. Microbiol. 3:371, integrated by Dormand & Prince 1980", Range: "a given surface of bacteria, neither growing nor starving"},
		func(in *formula.Given) (Pools, error) {
			start, err := pools(in)
			if err != nil {
				return Pools{}, err
			}
			return saturatingOf(in).After(start, quantity.Hours(in.Float("t")))
		}, poolOutputs("monod", "after some hours, with a filter of given speed", "t={t}h ", "sim.nitrif_monod")...),
	formula.Outputs(formula.Formula{Inputs: timeless(saturatingInputs), Source: "closed form F K/(v - F)", Range: "only where the filter's greatest speed is above the feed"},
		func(in *formula.Given) (Pools, error) {
			return saturatingOf(in).Steady()
		}, poolOutputs("monod_steady", "in the end, with a filter of given speed", "steady ", "sim.nitrif_monod")...),
)

var leftFormulas = []formula.Formula{{
	Name: "substrate_left", Title: "How much is left of what bacteria use up?", Unit: "mg/L", Also: cases("sim.michaelis_menten_decay", "t={t}", "t={t}h"),
	Source: "Michaelis & Menten 1913, closed form by Lambert's W", Range: "nothing added meanwhile",
	Inputs: []formula.Input{poolBound.input("S0", "at the start"), speedBound.input("Vmax", "greatest speed"), halfBound.input("Km", "concentration at half speed"), timeInput(), caseInput,
		{Name: "dS", Meaning: "the equation, where it is written beside the numbers; nothing is computed from it", Default: "-"}},
	Work: func(in *formula.Given) (formula.Answer, error) {
		left, err := Left(quantity.MgPerL(in.Float("S0")), in.Float("Vmax"), quantity.MgPerL(in.Float("Km")), quantity.Hours(in.Float("t")))
		return formula.Number(float64(left)), err
	},
}}

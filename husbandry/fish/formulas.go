package fish

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package by name.
var Formulas = slices.Concat(speciesFormulas, growthFormulas, heatFormulas, readyFormulas, rationFormulas, oxygenFormulas, coolingFormulas,
	limitFormulas, hatcheryFormulas, harvestFormulas, careFormulas, countFormulas, formula.Facts(facts))

// Cautions that more than one formula gives.
const (
	tgcCaution     = "Not above the optimum temperature: growth falls again there, and this formula does not."
	feedCaution    = "Stop feeding when ammonia or nitrite rises, oxygen is low or fish leave feed; take uneaten feed out."
	oxygenCaution  = "Fish may be in trouble sooner. Keep back-up air that starts by itself, and watch oxygen, not the power alone. No wet hands on anything electric; a residual-current breaker on every circuit."
	stockCaution   = "Fish grow: stock so that the fish at harvest stay within the limit, and start new filters with few."
	coolingCaution = "Wind, an open top and wet walls cool a tank sooner: reckon with less time than this, and try it once with fish you can move."
	gasCaution     = "Carbon dioxide stuns fish however much oxygen there is: keep it below about 20 mg/L, and blow air through the water to drive it out."
	limitCaution   = "A limit, not an aim: judge ammonia at the afternoon peak of pH, when more of it is poisonous, and stop feeding when it rises."
	phCaution      = "Do not force pH: test ammonia first, and change little in a day."
	coldCaution    = "Fish stop eating and sicken well before the temperature that kills."
)

func one[T ~float64](v T, err error) (formula.Answer, error) { return formula.Number(float64(v)), err }

func word(name, meaning string, choices ...string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Choices: choices}
}

func named(names ...string) []formula.Alias {
	aliases := make([]formula.Alias, len(names))
	for i, n := range names {
		aliases[i] = formula.Alias{Name: n}
	}
	return aliases
}

// input declares an input with this bound.
func (b bound) input(name, meaning string, also ...formula.Alias) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Unit: b.unit, Low: b.low, High: b.high, Also: also}
}

// inputOr declares an input that need not be given.
func (b bound) inputOr(preset, name, meaning string, also ...formula.Alias) formula.Input {
	i := b.input(name, meaning, also...)
	i.Default = preset
	return i
}

// remark declares an input that some people give and nothing is computed from.
func remark(name, meaning string) formula.Input { return formula.Input{Name: name, Meaning: meaning} }

func inFahrenheit(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(f float64) float64 { return float64(quantity.Fahrenheit(f).Celsius()) }}
}

func inCelsius(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(c float64) float64 { return float64(quantity.Celsius(c).Fahrenheit()) }}
}

func inKilograms(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(kg float64) float64 { return float64(quantity.Kilograms(kg).Grams()) }}
}

func inCubicMetres(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(m float64) float64 { return float64(quantity.CubicMetres(m).Litres()) }}
}

func temperatureInput() formula.Input {
	return waterBound.input("temperature_celsius", "water temperature", append(named("T_C", "temp_C"), inFahrenheit("T_F"))...)
}

func startInput() formula.Input {
	return weightBound.input("start_g", "weight at the start", named("W0_g")...)
}

func daysInput() formula.Input { return daysBound.input("days", "time between") }

func speciesInput() formula.Input { return word("species", "kind of fish", SpeciesNames()...) }

func volumeInput() formula.Input {
	return volumeBound.input("volume_litres", "water in the tank", append(named("volume_L", "tank_L"), inCubicMetres("volume_m3"))...)
}

func levelInput() formula.Input {
	return levelBound.inputOr("0.8", "level", "chance that the interval holds")
}

func grams(in *formula.Given, name string) quantity.Grams { return quantity.Grams(in.Float(name)) }

func waterTemperature(in *formula.Given) quantity.Celsius {
	return quantity.Celsius(in.Float("temperature_celsius"))
}

package nitrogen

import (
	"slices"

	"freshet.example/husbandry/formula"
)

// Formulas lists every computation of this package by name.
var Formulas = slices.Concat(ammoniaFormulas, nitrificationFormulas, filterFormulas, plantFormulas, waterFormulas, budgetFormulas, formula.Facts(facts))

const startUpCaution = "Size for the day of most feed, not for the average; a new filter needs weeks to ripen, and fish added before that are fish lost."

const (
	alkalinityCaution = "When alkalinity is spent pH falls, the filter stops, and the ammonia that gathers turns poisonous the moment base is added: test alkalinity weekly, and add base little by little before it is gone."
	oxygenCaution     = "Fish can die within minutes of oxygen failing: count fish, filter and solids together, measure, and keep back-up air."
	ammoniaCaution    = "Total ammonia as N: how much of it is poisonous goes by pH and warmth. Test the water before relying on the figure."
)

func number(name, meaning, unit string, low, high float64, also ...formula.Alias) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Unit: unit, Low: low, High: high, Also: also}
}

func word(name, meaning, preset string, choices ...string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Default: preset, Choices: choices}
}

func named(name string) formula.Alias { return formula.Alias{Name: name} }

func inGrams(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(kg float64) float64 { return kg * gramsPerKg }}
}

func inKilograms(name string) formula.Alias {
	return formula.Alias{Name: name, Change: func(g float64) float64 { return g / gramsPerKg }}
}

func one[T ~float64](v T, err error) (formula.Answer, error) { return formula.Number(float64(v)), err }

func span[T ~float64](low, high T, err error) (formula.Answer, error) {
	return formula.Span(float64(low), float64(high)), err
}

func proteinInput() formula.Input {
	return number("protein_fraction", "protein in the feed", "", minProtein, maxProtein, named("protein"), named("PC"),
		formula.Alias{Name: "protein_pct", Change: func(p float64) float64 { return p / percent }})
}

func areaInput(meaning string) formula.Input {
	return number("area_m2", meaning, "m2", 0, maxArea)
}

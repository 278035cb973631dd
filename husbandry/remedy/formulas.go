package remedy

import (
	"math"
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = slices.Concat(judgeFormulas, testFormulas, copperFormulas, bathFormulas, waitingFormulas)

// notGiven is the default of an input that may be left out.
const notGiven = "-"

// chemical are the cautions of every answer about a substance.
var chemical = []string{LabelCaution, TrialCaution}

func number[T ~float64](v T, err error) (formula.Answer, error) {
	return formula.Number(float64(v)), err
}

func also(names ...string) []formula.Alias {
	aliases := make([]formula.Alias, len(names))
	for i, n := range names {
		aliases[i].Name = n
	}
	return aliases
}

// remark describes an input of check files that changes nothing here.
func remark(names ...string) formula.Input {
	return formula.Input{Name: names[0], Meaning: "a remark in check files; changes nothing", Default: notGiven, Also: also(names[1:]...)}
}

// optional reads a number that may be left out; zero then.
func optional(in *formula.Given, name string) float64 {
	if !in.Has(name) {
		return 0
	}
	return in.Float(name)
}

// wordOr reads a word that may be left out; empty then.
func wordOr(in *formula.Given, name string) string {
	if !in.Has(name) {
		return ""
	}
	return in.Word(name)
}

// celsiusGiven reads a temperature, also as "<10", "<=21" or ">21": the end
// that is named stands for all that lies beyond it.
func celsiusGiven(in *formula.Given) quantity.Celsius {
	low, high := in.Band("water_celsius")
	if math.IsInf(high, 1) {
		return quantity.Celsius(low)
	}
	return quantity.Celsius(high)
}

func celsiusInput(value string) formula.Input {
	return formula.Input{Name: "water_celsius", Meaning: "water temperature, or <10, >10", Unit: "degC", Low: coldest, High: warmest, Default: value,
		Also: also("T_C")}
}

func litresFromGallons(v float64) float64 { return float64(quantity.USGallons(v).Litres()) }
func litresFromCubicM(v float64) float64  { return float64(quantity.CubicMetres(v).Litres()) }
func litresFromMillionGallons(v float64) float64 {
	return litresFromGallons(v * 1e6)
}

var loopInput = formula.Input{Name: "volume_l", Meaning: "water in the loop", Unit: "L", Low: leastLitres, High: mostLitres,
	Also: []formula.Alias{{Name: "volume_gal", Change: litresFromGallons}, {Name: "volume_m3", Change: litresFromCubicM}}}

var activeInput = formula.Input{Name: "active_fraction", Meaning: "share of the product that is the substance", Low: leastActive, High: 1, Default: "1"}

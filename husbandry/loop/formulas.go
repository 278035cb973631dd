package loop

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = slices.Concat(waterFormulas, settlerFormulas, floodFormulas, pipeFormulas, pumpFormulas, heatFormulas, powerFormulas, formula.Facts(facts))

// number makes an answer of one number.
func number[T ~float64](v T, err error) (formula.Answer, error) {
	return formula.Number(float64(v)), err
}

// withUnit makes an answer of one number with its unit.
func withUnit[T ~float64](v T, unit string, err error) (formula.Answer, error) {
	answer := formula.Number(float64(v))
	answer.Unit = unit
	return answer, err
}

// also lists aliases that need no change of unit.
func also(names ...string) []formula.Alias {
	aliases := make([]formula.Alias, len(names))
	for i, n := range names {
		aliases[i].Name = n
	}
	return aliases
}

// from lists one alias in another unit.
func from(name string, change func(float64) float64) formula.Alias {
	return formula.Alias{Name: name, Change: change}
}

// metresOrFeet reads a length given in metres, or instead in feet.
func metresOrFeet(given *formula.Given, metres, feet string) quantity.Metres {
	if given.Has(feet) {
		return quantity.Feet(given.Float(feet)).Metres()
	}
	return quantity.Metres(given.Float(metres))
}

func litresAMinute(given *formula.Given) quantity.LitresPerMinute {
	return quantity.LitresPerMinute(given.Float("flow_l_per_min"))
}

func cubicMetres(given *formula.Given) quantity.CubicMetres {
	return quantity.CubicMetres(given.Float("volume_m3"))
}

func celsius(given *formula.Given, name string) quantity.Celsius {
	return quantity.Celsius(given.Float(name))
}

// Inputs that several formulas share.
var (
	feetOf    = lengthBound.converted(metresToFeet, "ft")
	flowInput = flowBound.input("flow_l_per_min", "flow of water",
		append(also("flow_L_min", "L_min"), from("gpm", gpmToLitres), from("flow_gpm", gpmToLitres))...)
	volumeInput = volumeBound.input("volume_m3", "volume of water",
		from("volume_l", litresToCubicM), from("volume_L", litresToCubicM), from("volume_gal", gallonsToCubicM))
	surfaceInput  = areaBound.input("area_m2", "surface", from("area_ft2", squareFeetToSquareM))
	diameterInput = diameterBound.input("diameter_m", "inside diameter of the pipe",
		append(also("D_m"), from("D_mm", millimetresToMetres), from("diameter_mm", millimetresToMetres), from("id_in", inchesToMetres))...)
	lengthInput = lengthBound.input("length_m", "length of pipe", also("L_m")...)
)

package water

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = slices.Concat(ammoniaFormulas, safetyFormulas, criteriaFormulas, oxygenFormulas,
	carbonateFormulas, baseFormulas, doseFormulas, nitriteFormulas, chlorineFormulas, rangeFormulas, formula.Facts(facts))

// notGiven is the default of an input that may be left out.
const notGiven = "-"

// number makes an answer of one number.
func number[T ~float64](v T, err error) (formula.Answer, error) {
	return formula.Number(float64(v)), err
}

// also lists other names of an input, in the same unit.
func also(names ...string) []formula.Alias {
	aliases := make([]formula.Alias, len(names))
	for i, name := range names {
		aliases[i].Name = name
	}
	return aliases
}

// from is another name of an input, in another unit.
func from(name string, change func(float64) float64) formula.Alias {
	return formula.Alias{Name: name, Change: change}
}

// Inputs that several formulas share.
var (
	phInput = formula.Input{Name: "ph", Meaning: "pH of the water", Low: lowestPH, High: highestPH, Also: also("pH")}

	ammoniaInput = formula.Input{
		Name: "tan_mg_n_per_l", Meaning: "total ammonia", Unit: "mg/L as N", Low: 0, High: mostLoad,
		Also: append(also("tan_mg_N_L", "tan_mg_L"),
			from("total_NH4_mg_L_as_NH4", func(v float64) float64 { return float64(quantity.AmmoniaNH4(v).N()) }),
			from("total_NH3_mg_L_as_NH3", func(v float64) float64 { return float64(quantity.AmmoniaNH3(v).N()) })),
	}

	alkalinityInput = formula.Input{
		Name: "alkalinity_mg_per_l", Meaning: "alkalinity", Unit: "mg/L as CaCO3", Low: 0, High: mostLoad,
		Also: append(also("alkalinity_mg_CaCO3_L", "alkalinity_mg_L"),
			from("alkalinity_dkh", func(v float64) float64 { return float64(quantity.DegreesKH(v).CaCO3()) }),
			from("alkalinity_meq_per_l", func(v float64) float64 { return float64(quantity.MilliequivalentsPerL(v).CaCO3()) })),
	}

	ionicInput = formula.Input{
		Name: "ionic_strength", Meaning: "ionic strength of the water", Unit: "mol/kg", Low: 0, High: 0.1,
		Also: []formula.Alias{from("conductivity_us_per_cm", func(v float64) float64 {
			i, _ := IonicStrengthOfConductivity(Microsiemens(v)) // NaN where out of range, which is refused next
			return float64(i)
		})},
	}

	volumeInput = formula.Input{
		Name: "volume_litres", Meaning: "water in the loop", Unit: "L", Low: 0, High: mostVolume,
		Also: append(also("volume_L", "volume_l"),
			from("volume_m3", func(v float64) float64 { return float64(quantity.CubicMetres(v).Litres()) }),
			from("volume_gal", func(v float64) float64 { return float64(quantity.USGallons(v).Litres()) })),
	}
)

// celsiusInput is the water temperature, from freezing up to where a source ends.
func celsiusInput(high float64) formula.Input {
	return formula.Input{
		Name: "temperature_celsius", Meaning: "water temperature", Unit: "degC", Low: 0, High: high,
		Also: append(also("temp_C"), from("temperature_fahrenheit", func(v float64) float64 { return float64(quantity.Fahrenheit(v).Celsius()) })),
	}
}

// optional gives the input a default.
func optional(input formula.Input, value string) formula.Input {
	input.Default = value
	return input
}

// named gives the input other names, in the same unit.
func named(input formula.Input, names ...string) formula.Input {
	input.Also = append(slices.Clone(input.Also), also(names...)...)
	return input
}

// within gives the input bounds of its own.
func within(input formula.Input, low, high float64) formula.Input {
	input.Low, input.High = low, high
	return input
}

// load is a concentration in mg/L.
func load(name, meaning string, names ...string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Unit: "mg/L", Low: 0, High: mostLoad, Also: also(names...)}
}

func ph(in *formula.Given) quantity.PH { return quantity.PH(in.Float("ph")) }

func celsius(in *formula.Given) quantity.Celsius {
	return quantity.Celsius(in.Float("temperature_celsius"))
}

func total(in *formula.Given) quantity.AmmoniaN { return quantity.AmmoniaN(in.Float("tan_mg_n_per_l")) }

func alkalinity(in *formula.Given) quantity.AlkalinityCaCO3 {
	return quantity.AlkalinityCaCO3(in.Float("alkalinity_mg_per_l"))
}

func litres(in *formula.Given) quantity.Litres { return quantity.Litres(in.Float("volume_litres")) }

func mgPerL(in *formula.Given, name string) quantity.MgPerL { return quantity.MgPerL(in.Float(name)) }

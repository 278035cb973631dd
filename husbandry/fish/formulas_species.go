package fish

import (
	"strings"

	"freshet.example/husbandry/formula"
)

// speciesFormula asks one column of the species table.
func speciesFormula(name, title, unit string, of func(Species) (float64, string), warned ...string) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: unit, Inputs: []formula.Input{speciesInput()}, Cautions: warned,
		Source: "species table", Range: strings.Join(SpeciesNames(), ", "),
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SpeciesByName(in.Word("species"))
			value, source := of(s)
			a := formula.Number(value)
			a.Source = source
			return a, err
		},
	}
}

func column[T ~float64](of func(Species) Sourced[T]) func(Species) (float64, string) {
	return func(s Species) (float64, string) { return float64(of(s).Value), of(s).Source }
}

var speciesFormulas = []formula.Formula{
	speciesFormula("species_lethal_low", "At which cold does this fish die?", "degC", column(lethalLow), coldCaution),
	speciesFormula("species_feeding_low", "Below which temperature is this fish not fed?", "degC", column(feedLow), feedCaution),
	speciesFormula("species_growth_low", "Below which temperature does this fish not grow?", "degC", column(growthLow)),
	speciesFormula("species_optimum_low", "From which temperature does this fish grow best?", "degC", column(optimumLow)),
	speciesFormula("species_optimum_high", "Up to which temperature does this fish grow best?", "degC", column(optimumHigh)),
	speciesFormula("species_feeding_high", "Above which temperature is this fish not fed?", "degC", column(feedHigh), feedCaution),
	speciesFormula("species_lethal_high", "At which heat does this fish die?", "degC", column(lethalHigh), coldCaution),
	speciesFormula("species_oxygen_minimum", "How much oxygen does this fish need at least?", "mg/L", column(oxygenMinimum), oxygenCaution),
	speciesFormula("species_unionized_ammonia_limit", "How much un-ionized ammonia may this fish have at most?", "mg/L as N", column(ammoniaLimit), limitCaution),
	speciesFormula("species_feed_conversion", "How much feed makes a kilogram of this fish?", "kg/kg", column(conversion)),
	speciesFormula("species_density", "How dense may this fish be kept in a small loop?", "kg/m3", column(guidance), stockCaution),
	{
		Name: "species_class", Title: "Is this a fish of warm, cool or cold water?", Inputs: []formula.Input{speciesInput()},
		Source: "species table", Range: "species of the table",
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := SpeciesByName(in.Word("species"))
			return formula.Words(s.Class.String()), err
		},
	},
}

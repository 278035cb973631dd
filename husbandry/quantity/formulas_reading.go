package quantity

import (
	"freshet.example/husbandry/formula"
)

var readingFormulas = []formula.Formula{
	{
		Name: "reading_canonical", Title: "What is this reading in the unit that records are kept in?",
		Inputs: []formula.Input{
			{Name: "quantity", Meaning: "what was read", Choices: symbols(Quantities())},
			{Name: "value", Meaning: "the value as read; each quantity has bounds of its own", Low: -76, High: 7e6},
			{Name: "unit", Meaning: "unit it was read in, with its basis if it has one: mg/L as NO3"},
		},
		Source: defined + "; " + weights, Range: "plausible readings of the quantity",
		Work: func(in *formula.Given) (formula.Answer, error) {
			name, value, text := in.Word("quantity"), in.Float("value"), in.Word("unit")
			q, errQuantity := ParseQuantity(name)
			unit, basis, errUnit := ParseUnit(text)
			if err := firstError(errQuantity, errUnit); err != nil {
				return formula.Answer{}, err
			}
			v, err := Canonical(q, value, unit, basis)
			return inUnit(v, canonicalUnit(q)), err
		},
	},
	{
		Name: "photon_flux_from_lux", Title: "How much light for plants is this reading of a lux meter?",
		Unit: "umol/m2/s", Source: "Thimijan & Heins 1983, HortScience 18:818-822", Range: "the lamps named",
		Cautions: []string{"Other lamps, LEDs above all, need a quantum meter."},
		Inputs: []formula.Input{
			{Name: "lux", Meaning: "reading of the lux meter", Unit: "lux", Low: 0, High: 3000 * luxPerFluxSodium},
			{Name: "lamp", Meaning: "what shines", Choices: symbols([]Basis{UnderSun, UnderFluorescent, UnderHalide, UnderSodium})},
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			lux, lamp := Lux(in.Float("lux")), in.Word("lamp")
			basis, err := ParseBasis(lamp)
			if err != nil {
				return formula.Answer{}, err
			}
			v, err := lux.PhotonFlux(basis)
			return formula.Number(float64(v)), err
		},
	},
}

// canonicalUnit writes unit and basis of the canonical value.
func canonicalUnit(q Quantity) string {
	if q.Basis() == NoBasis {
		return q.Unit().String()
	}
	return q.Unit().String() + " as " + q.Basis().String()
}

var (
	celsiusInput  = formula.Input{Name: "temperature_celsius", Meaning: "water temperature", Unit: "degC", Low: -2, High: 40, Also: []formula.Alias{{Name: "temp_C"}}}
	salinityInput = formula.Input{Name: "salinity_g_per_kg", Meaning: "salinity", Unit: "g/kg", Low: 0, High: 42, Also: []formula.Alias{{Name: "salinity"}, {Name: "salinity_g_kg"}}}
)

var saltFormulas = []formula.Formula{
	{
		Name: "salinity_from_specific_gravity", Title: "How salty is water in which the hydrometer stands so?",
		Unit: "g/kg", Source: eos80, Range: "-2 to 40 degC, to 42 g/kg",
		Inputs: []formula.Input{
			{Name: "specific_gravity", Meaning: "over fresh water at the same temperature", Low: 1, High: highestGravity, Also: []formula.Alias{{Name: "sg"}}},
			celsiusInput,
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := SpecificGravity(in.Float("specific_gravity")).Salinity(Celsius(in.Float("temperature_celsius")))
			return formula.Number(float64(v)), err
		},
	},
	{
		Name: "specific_gravity_from_salinity", Title: "Where does a hydrometer stand in water so salty?",
		Source: eos80, Range: "-2 to 40 degC, to 42 g/kg",
		Inputs: []formula.Input{salinityInput, celsiusInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := Salinity(in.Float("salinity_g_per_kg")).SpecificGravity(Celsius(in.Float("temperature_celsius")))
			return formula.Number(float64(v)), err
		},
	},
	{
		Name: "sea_water_density", Title: "How heavy is salt water?",
		Unit: "kg/m3", Source: eos80, Range: "-2 to 40 degC, to 42 g/kg",
		Inputs: []formula.Input{salinityInput, celsiusInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := SeaWaterDensity(Celsius(in.Float("temperature_celsius")), Salinity(in.Float("salinity_g_per_kg")))
			return formula.Number(v), err
		},
	},
}

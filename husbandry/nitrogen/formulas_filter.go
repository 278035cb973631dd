package nitrogen

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func nitrificationFormula(name, title, unit string, cautions []string, of func(NitrificationBasis, GramsN) (quantity.Grams, error), also ...string) formula.Formula {
	bases := NitrificationBases()
	choices := make([]string, len(bases))
	for i, b := range bases {
		choices[i] = b.Name
	}
	return formula.Formula{
		Name: name, Title: title, Unit: unit, Also: also, Cautions: cautions,
		Inputs: []formula.Input{
			number("tan_g", "ammonia oxidized, as N", "g N", 0, maxGrams),
			word("basis", "whose figures", EbelingSlides.Name, choices...),
		},
		Source: EbelingSlides.Source, Range: "complete nitrification; bases are never mixed",
		Work: func(in *formula.Given) (formula.Answer, error) {
			return nitrified(GramsN(in.Float("tan_g")), in.Word("basis"), unit, of)
		},
	}
}

// nitrified answers from the basis asked for, and lists the others that state
// the figure.
func nitrified(tan GramsN, basis, unit string, of func(NitrificationBasis, GramsN) (quantity.Grams, error)) (a formula.Answer, err error) {
	var others []formula.Other
	for _, b := range NitrificationBases() {
		v, e := of(b, tan)
		if b.Name == basis {
			a, err = formula.Number(float64(v)), e
			a.Source = b.Source
		} else if e == nil {
			others = append(others, formula.Other{Basis: b.Name, Value: float64(v), Unit: unit, Source: b.Source})
		}
	}
	a.Others = others
	return a, err
}

var nitrificationFormulas = []formula.Formula{
	nitrificationFormula("nitrification_oxygen", "How much oxygen do the bacteria use?", "g O2", []string{oxygenCaution}, NitrificationBasis.OxygenUsed, "nitrification_o2"),
	nitrificationFormula("nitrification_alkalinity", "How much alkalinity do the bacteria use?", "g CaCO3", []string{alkalinityCaution}, NitrificationBasis.AlkalinityUsed),
	nitrificationFormula("nitrification_nitrate", "How much nitrate do the bacteria make?", "g NO3-", nil, NitrificationBasis.NitrateMade),
	nitrificationFormula("nitrification_co2", "How much carbon dioxide do the bacteria set free?", "g CO2", nil, NitrificationBasis.CarbonDioxideMade),
	nitrificationFormula("nitrification_cells", "How much bacteria grow on the ammonia?", "g dry", nil, NitrificationBasis.CellsMade),
	{
		Name: "nitrification_alkalinity_range", Title: "How much alkalinity were real filters seen to use?", Unit: "g CaCO3",
		Inputs: []formula.Input{number("tan_g", "ammonia oxidized, as N", "g N", 0, maxGrams)},
		Source: "EPA 1975 via a Wisconsin thesis", Range: "keep alkalinity above 40 mg/L and oxygen above 2 mg/L",
		Cautions: []string{alkalinityCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return span(AlkalinityObserved(GramsN(in.Float("tan_g"))))
		},
	},
}

func rateInput(unit, preset string) formula.Input {
	i := number("rate_g_m2_d", "ammonia oxidized on a square metre in a day", unit, minArealRate, maxArealRate)
	i.Default = preset
	return i
}

func surfaceInput() formula.Input {
	return number("specific_surface_m2_m3", "surface in a cubic metre of media", "m2/m3", minSurface, maxSurface, named("ssa_m2_m3"))
}

var filterFormulas = []formula.Formula{
	{
		Name: "fao_biofilter_area", Figures: formula.Rough, Title: "How much filter surface does FAO's design rate ask for?", Unit: "m2",
		Inputs: []formula.Input{
			number("ammonia_g_d", "ammonia in a day, counted as NH3", "g NH3/d", 0, maxGrams),
			rateInput("g NH3/m2/d", "0.57"),
		},
		Source: "FAO TP 589 Appendix 4 (from memory); design rate 0.57 second hand", Range: "warm, ripe, aerated media",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FilterAreaFAO(GramsNH3(in.Float("ammonia_g_d")), ArealNH3(in.Float("rate_g_m2_d"))))
		},
	},
	{
		Name: "biofilter_area", Figures: formula.Rough, Title: "How much filter surface does my ammonia need?", Unit: "m2",
		Inputs: []formula.Input{
			number("tan_g", "ammonia in a day, as N", "g N/d", 0, maxGrams, named("tan_g_d")),
			rateInput("g N/m2/d", "0.56"),
		},
		Source: "area = load / rate; default rate from UVI rafts", Range: "warm, ripe, aerated media",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FilterArea(GramsN(in.Float("tan_g")), ArealN(in.Float("rate_g_m2_d"))))
		},
	},
	{
		Name: "fao_biofilter_volume", Figures: formula.Rough, Title: "How much media holds this surface?", Unit: "L", Also: []string{"media_volume", "biofilter_volume"},
		Inputs: []formula.Input{areaInput("surface wanted"), surfaceInput()},
		Source: "volume = area / specific surface", Range: "clean media; fouling hides surface",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FilterVolume(quantity.SquareMetres(in.Float("area_m2")), SpecificSurface(in.Float("specific_surface_m2_m3"))))
		},
	},
	{
		Name: "media_surface", Title: "How much surface is in this volume of media?", Unit: "m2",
		Inputs: []formula.Input{
			number("volume_litres", "volume of media", "L", 0, maxGrams, named("volume_L")),
			surfaceInput(),
		},
		Source: "area = volume x specific surface", Range: "clean media",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(MediaArea(quantity.Litres(in.Float("volume_litres")), SpecificSurface(in.Float("specific_surface_m2_m3"))))
		},
	},
	{
		Name: "media_specific_surface", Title: "How much surface has this filter material?", Unit: "m2/m3",
		Also:   []string{"specific_surface", "biofilter_specific_surface"},
		Inputs: []formula.Input{{Name: "media", Meaning: "filter material", Choices: MediaNames(), Also: []formula.Alias{named("medium"), named("material")}}},
		Source: "FAO TP 589, second hand, and trade figures", Range: "clean media",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			m, err := MediaByName(in.Word("media"))
			a := formula.Number(float64(m.Surface))
			a.Source = m.Source
			return a, err
		},
	},
	{
		Name: "biofilter_capacity", Figures: formula.Rough, Title: "How much ammonia can my filter handle in a day?", Unit: "g N/d",
		Inputs: []formula.Input{
			areaInput("surface of the media"), rateInput("g N/m2/d", "0.56"),
			number("temperature_celsius", "water temperature", "degC", minFilterC, maxFilterC, named("temp_C"), named("T_C")),
			number("age_days", "days since the filter was started", "d", 0, maxAge),
		},
		Source: "areal rate of UVI rafts; Wortman & Wheaton 1991 for temperature (from memory); five weeks to ripen (common practice)",
		Range:  "7 to 35 degC, pH 6.5 to 8.5, oxygen above 2 mg/L", Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(FilterCapacity(quantity.SquareMetres(in.Float("area_m2")), ArealN(in.Float("rate_g_m2_d")),
				quantity.Celsius(in.Float("temperature_celsius")), quantity.Days(in.Float("age_days"))))
		},
	},
	{
		Name: "biofilter_temperature_factor", Figures: formula.Rough, Title: "How fast is a filter at this temperature, against 25 degC?",
		Inputs: []formula.Input{number("temperature_celsius", "water temperature", "degC", minFilterC, maxFilterC, named("temp_C"), named("T_C"))},
		Source: "Wortman & Wheaton 1991 (from memory)", Range: "7 to 35 degC",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(TemperatureFactor(quantity.Celsius(in.Float("temperature_celsius"))))
		},
	},
	{
		Name: "biofilter_age_factor", Figures: formula.Rough, Title: "How ripe is a filter of this age?",
		Inputs: []formula.Input{number("age_days", "days since the filter was started", "d", 0, maxAge)},
		Source: "common practice, no source for the line; FAO TP 589 has three to five weeks", Range: "warm water, no disinfection since",
		Cautions: []string{startUpCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return one(AgeFactor(quantity.Days(in.Float("age_days"))))
		},
	},
}

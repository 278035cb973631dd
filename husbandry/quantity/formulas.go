package quantity

import (
	"slices"
	"strings"

	"freshet.example/husbandry/formula"
)

// Formulas lists every computation of this package that can be asked for by name.
var Formulas = formula.Finely(slices.Concat(unitFormulas, readingFormulas, saltFormulas))

const (
	weights  = "IUPAC standard atomic weights 2021"
	defined  = "exact by definition"
	nitrates = "Drinking-water limits for nitrate are near 10 mg/L as N and 45 to 50 mg/L as NO3: say which basis you mean."
)

var unitFormulas = []formula.Formula{
	change("unit_no3n_from_no3", "How much nitrogen is this nitrate?", "no3_mg_L", "mg/L as NO3", "mg/L as N", weights,
		func(v float64) float64 { return float64(NitrateIon(v).N()) }, "unit_no3_n_from_no3"),
	change("unit_no3_from_no3n", "How much nitrate ion is this nitrogen?", "no3n_mg_L n_mg_L", "mg/L as N", "mg/L as NO3", weights,
		func(v float64) float64 { return float64(NitrateN(v).Ion()) }, "unit_no3_from_n"),
	change("unit_no2n_from_no2", "How much nitrogen is this nitrite?", "no2_mg_L", "mg/L as NO2", "mg/L as N", weights,
		func(v float64) float64 { return float64(NitriteIon(v).N()) }, "unit_no2_n_from_no2"),
	change("unit_no2_from_no2n", "How much nitrite ion is this nitrogen?", "no2n_mg_L n_mg_L", "mg/L as N", "mg/L as NO2", weights,
		func(v float64) float64 { return float64(NitriteN(v).Ion()) }, "unit_no2_from_n"),
	change("unit_nh3n_from_nh3", "How much nitrogen is this ammonia?", "nh3_mg_L", "mg/L as NH3", "mg/L as N", weights,
		func(v float64) float64 { return float64(AmmoniaNH3(v).N()) }, "unit_n_from_nh3"),
	change("unit_nh3_from_nh3n", "How much ammonia is this nitrogen?", "nh3n_mg_L n_mg_L", "mg/L as N", "mg/L as NH3", weights,
		func(v float64) float64 { return float64(AmmoniaN(v).NH3()) }, "unit_nh3_from_n"),
	change("unit_nh4n_from_nh4", "How much nitrogen is this ammonium?", "nh4_mg_L", "mg/L as NH4", "mg/L as N", weights,
		func(v float64) float64 { return float64(AmmoniaNH4(v).N()) }, "unit_n_from_nh4"),
	change("unit_nh4_from_nh4n", "How much ammonium is this nitrogen?", "nh4n_mg_L n_mg_L", "mg/L as N", "mg/L as NH4", weights,
		func(v float64) float64 { return float64(AmmoniaN(v).NH4()) }, "unit_nh4_from_n"),
	change("unit_caco3_from_dkh", "How many mg/L of alkalinity are these German degrees?", "dkh dKH", "dKH", "mg/L as CaCO3", weights,
		func(v float64) float64 { return float64(DegreesKH(v).CaCO3()) }, "unit_alkalinity_from_dkh"),
	change("unit_dkh_from_caco3", "How many German degrees is this alkalinity?", "caco3_mg_L alkalinity_mg_L", "mg/L as CaCO3", "dKH", weights,
		func(v float64) float64 { return float64(AlkalinityCaCO3(v).KH()) }, "unit_dkh_from_alkalinity"),
	change("unit_caco3_from_meq", "How many mg/L of alkalinity are these milliequivalents?", "meq_L alkalinity_meq_L", "meq/L", "mg/L as CaCO3", weights,
		func(v float64) float64 { return float64(MilliequivalentsPerL(v).CaCO3()) }, "unit_alkalinity_from_meq"),
	change("unit_meq_from_caco3", "How many milliequivalents is this alkalinity?", "caco3_mg_L alkalinity_mg_L", "mg/L as CaCO3", "meq/L", weights,
		func(v float64) float64 { return float64(AlkalinityCaCO3(v).Milliequivalents()) }, "unit_meq_from_alkalinity"),
	change("unit_caco3_from_dgh", "How many mg/L of hardness are these German degrees?", "dgh dGH", "dGH", "mg/L as CaCO3", weights,
		func(v float64) float64 { return float64(DegreesGH(v).CaCO3()) }),
	change("unit_dgh_from_caco3", "How many German degrees is this hardness?", "caco3_mg_L alkalinity_mg_L", "mg/L as CaCO3", "dGH", weights,
		func(v float64) float64 { return float64(HardnessCaCO3(v).GH()) }),
	change("unit_celsius_from_fahrenheit", "What is this temperature in degrees Celsius?", "temperature_fahrenheit", "degF", "degC", defined,
		func(v float64) float64 { return float64(Fahrenheit(v).Celsius()) }),
	change("unit_fahrenheit_from_celsius", "What is this temperature in degrees Fahrenheit?", "temperature_celsius", "degC", "degF", defined,
		func(v float64) float64 { return float64(Celsius(v).Fahrenheit()) }),
	{
		Name: "unit_convert", Title: "What is this value in another unit of the same kind?",
		Inputs: []formula.Input{
			{Name: "value", Meaning: "the value", Low: -mostTyped, High: mostTyped},
			{Name: "from", Meaning: "unit it is in, such as gal or degF"},
			{Name: "to", Meaning: "unit wanted, such as L or degC"},
		},
		Source: defined + "; " + weights, Range: "units of one kind",
		Work: func(in *formula.Given) (formula.Answer, error) {
			from, _, errFrom := ParseUnit(in.Word("from"))
			to, _, errTo := ParseUnit(in.Word("to"))
			if errFrom != nil || errTo != nil {
				return formula.Answer{}, firstError(errFrom, errTo)
			}
			value := in.Float("value")
			v, err := Convert(value, from, to)
			err = firstError(err, Within("value", value, -mostTyped, mostTyped, from.String(), ofPackage))
			return inUnit(v, to.String()), err
		},
	},
}

// No one types more than this.
const (
	mostTyped = 1e12
	ofPackage = OwnBounds
)

// change describes a conversion of one number. Inputs holds the names that the
// number may be given by, the chief one first.
func change(name, title, inputs, from, to, source string, work func(float64) float64, also ...string) formula.Formula {
	var cautions []string
	if to == "mg/L as NO3" || from == "mg/L as NO3" {
		cautions = []string{nitrates}
	}
	input := strings.ToLower(strings.Fields(inputs)[0])
	return formula.Formula{
		Name: name, Title: title, Unit: to, Source: source, Range: "-1e12 to 1e12", Also: also, Cautions: cautions,
		Inputs: []formula.Input{{
			Name: input, Meaning: "the value in " + from, Unit: from, Low: -mostTyped, High: mostTyped,
			Also: otherNames(inputs),
		}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			v := in.Float(input)
			return formula.Number(work(v)), Within(name, v, -mostTyped, mostTyped, from, ofPackage)
		},
	}
}

// otherNames gives the names but the chief one in lower case, and "value".
func otherNames(inputs string) []formula.Alias {
	names := strings.Fields(inputs)
	also := []formula.Alias{{Name: "value"}}
	for _, name := range names {
		if name != strings.ToLower(names[0]) {
			also = append(also, formula.Alias{Name: name})
		}
	}
	return also
}

func inUnit(v float64, unit string) formula.Answer {
	answer := formula.Number(v)
	answer.Unit = unit
	return answer
}

// firstError gives the first error there is.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

package water

import (
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// A criterion of ammonia by pH and temperature.
type criterion func(quantity.PH, quantity.Celsius) (quantity.AmmoniaN, error)

// anyTemperature fits criteria that have no term of temperature.
func anyTemperature(f func(quantity.PH) (quantity.AmmoniaN, error)) criterion {
	return func(ph quantity.PH, _ quantity.Celsius) (quantity.AmmoniaN, error) { return f(ph) }
}

var criteriaPH = formula.Input{Name: "ph", Meaning: "pH of the water", Low: 6.5, High: 9, Also: also("pH")}

// The tables of 2013 round to two figures; those of 1999 print three.
var criteriaFormulas = []formula.Formula{
	criterionFormula("epa2013_acute_salmonid", "What ammonia does EPA 2013 allow for an hour in wild water with trout or salmon?", epa2013, EPA2013AcuteSalmonid, "epa1999_acute_salmonid", anyTemperature(EPA1999AcuteSalmonid)),
	criterionFormula("epa2013_acute_no_salmonid", "What ammonia does EPA 2013 allow for an hour in wild water without trout and salmon?", epa2013, EPA2013AcuteNoSalmonid, "epa1999_acute_no_salmonid", anyTemperature(EPA1999AcuteNoSalmonid)),
	criterionFormula("epa2013_chronic", "What ammonia does EPA 2013 allow for thirty days in wild water?", epa2013, EPA2013Chronic, "epa1999_chronic_early_life", EPA1999ChronicEarlyLife),
	fourDayFormula,
	plainCriterion("epa1999_acute_salmonid", "What ammonia did EPA 1999 allow for an hour in wild water with trout or salmon?", anyTemperature(EPA1999AcuteSalmonid), criteriaPH),
	plainCriterion("epa1999_acute_no_salmonid", "What ammonia did EPA 1999 allow for an hour in wild water without trout and salmon?", anyTemperature(EPA1999AcuteNoSalmonid), criteriaPH),
	plainCriterion("epa1999_chronic_early_life", "What ammonia did EPA 1999 allow for thirty days in wild water with eggs and larvae?", EPA1999ChronicEarlyLife, criteriaPH, celsiusInput(30)),
	plainCriterion("epa1999_chronic_no_early_life", "What ammonia did EPA 1999 allow for thirty days in wild water without eggs and larvae?", EPA1999ChronicNoEarlyLife, criteriaPH, celsiusInput(30)),
	criterion1986("epa1986_acute_salmonid", "What ammonia did EPA 1986 allow for an hour in wild water with trout or salmon?", EPA1986AcuteSalmonid),
	criterion1986("epa1986_acute_no_salmonid", "What ammonia did EPA 1986 allow for an hour in wild water without trout and salmon?", EPA1986AcuteNoSalmonid),
	criterion1986("epa1986_chronic_salmonid", "What ammonia did EPA 1986 allow for four days in wild water with trout or salmon?", EPA1986ChronicSalmonid),
	criterion1986("epa1986_chronic_no_salmonid", "What ammonia did EPA 1986 allow for four days in wild water without trout and salmon?", EPA1986ChronicNoSalmonid),
}

// criterionFormula rounds to two figures as the source does, and names the
// criterion of 1999 beside it.
func criterionFormula(name, title, source string, work criterion, olderName string, older criterion) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: "mg/L as N", Source: source, Range: "pH 6.5 to 9, 0 to 30 degC",
		Cautions: []string{cautionWild},
		Inputs:   []formula.Input{criteriaPH, celsiusInput(30)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			a, err := twoFigures(work(ph(in), celsius(in)))
			if err != nil {
				return a, err
			}
			v, err := older(ph(in), celsius(in))
			a.Others = []formula.Other{{Basis: olderName, Value: float64(v), Unit: "mg/L as N", Source: epa1999}}
			return a, err
		},
	}
}

func twoFigures(v quantity.AmmoniaN, err error) (formula.Answer, error) {
	if err != nil {
		return formula.Answer{}, err
	}
	return number(RoundFigures(float64(v), 2))
}

var fourDayFormula = formula.Formula{
	Name: "epa2013_four_day", Also: []string{"epa2013_4day"}, Title: "What mean of four days does EPA 2013 allow within its thirty days?",
	Unit: "mg/L as N", Source: epa2013, Range: "pH 6.5 to 9, 0 to 30 degC",
	Cautions: []string{cautionWild},
	Inputs: []formula.Input{criteriaPH, celsiusInput(30),
		{Name: "chronic_mg_n_per_l", Meaning: "thirty-day criterion, when it is known", Unit: "mg/L as N", Low: 0, High: mostLoad, Default: notGiven, Also: also("ccc")}},
	Work: func(in *formula.Given) (formula.Answer, error) {
		chronic, err := twoFigures(EPA2013Chronic(ph(in), celsius(in)))
		if err != nil {
			return formula.Answer{}, err
		}
		if in.Has("chronic_mg_n_per_l") {
			chronic.Value = in.Float("chronic_mg_n_per_l")
		}
		return twoFigures(EPA2013FourDay(quantity.AmmoniaN(chronic.Value)))
	},
}

// criterion1986 is of NH3, which the tables of its time print as total ammonia
// counted as NH3; as nitrogen it is a sixth less.
func criterion1986(name, title string, work criterion) formula.Formula {
	f := plainCriterion(name, title, work, criteriaPH, celsiusInput(30))
	f.Source = epa1986
	f.Work = func(in *formula.Given) (formula.Answer, error) {
		v, err := work(ph(in), celsius(in))
		a, err := number(v, err)
		a.Others = []formula.Other{{Basis: "counted as NH3, as its tables print it", Value: float64(v.NH3()), Unit: "mg/L as NH3", Source: "EPA 1986"}}
		return a, err
	}
	if short, found := strings.CutSuffix(name, "_salmonid"); found && !strings.HasSuffix(short, "_no") { // where nothing is said, the stricter one
		f.Also = []string{short}
	}
	return f
}

func plainCriterion(name, title string, work criterion, inputs ...formula.Input) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Unit: "mg/L as N", Source: epa1999, Range: "pH 6.5 to 9, 0 to 30 degC",
		Cautions: []string{cautionWild, "Superseded by the criteria of 2013."},
		Inputs:   inputs,
		Work: func(in *formula.Given) (formula.Answer, error) {
			t := quantity.Celsius(nan)
			if len(inputs) > 1 {
				t = celsius(in)
			}
			return number(work(ph(in), t))
		},
	}
}

package crop

import (
	"math"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const methodCaution = "Degree days of one method cannot be held against a total found by another: the same weather counts differently."

// fahrenheitBound is the believed range of air temperature on the other scale.
var fahrenheitBound = func() *bound {
	low, high, unit := airLimits[quantity.Fahrenheit]()
	return &bound{airBound.name, low, high, unit, ""}
}()

var (
	highF = fahrenheitBound.input("tmax_fahrenheit", "the day's highest air temperature", also("Tmax_F")...)
	lowF  = fahrenheitBound.input("tmin_fahrenheit", "the day's lowest air temperature", also("Tmin_F")...)
)

func baseF(value string) formula.Input {
	return fahrenheitBound.given("base_fahrenheit", "temperature below which the crop does not grow", value, also("base_F", "lower_F")...)
}

func upperF(value string) formula.Input {
	return fahrenheitBound.given("upper_fahrenheit", "temperature above which more warmth does not count", value, also("upper_F", "ceiling_F")...)
}

func ruleF(in *formula.Given, m Method) Rule[quantity.Fahrenheit] {
	return Rule[quantity.Fahrenheit]{m, fahrenheit(in, "base_fahrenheit"), fahrenheit(in, "upper_fahrenheit")}
}

// warmestDay reads highest and lowest temperatures that may be comparisons:
// beyond the upper threshold more warmth counts for nothing.
func warmestDay(in *formula.Given, upper quantity.Fahrenheit) (Temperatures[quantity.Fahrenheit], error) {
	names := [...]string{"tmax_fahrenheit", "tmin_fahrenheit"}
	var t [len(names)]quantity.Fahrenheit
	for i, name := range names {
		low, high := in.Band(name)
		if low != high && !(math.IsInf(high, 1) && low >= float64(upper)) {
			return Temperatures[quantity.Fahrenheit]{}, &formula.InputError{Formula: "growing_degree_days", Input: name, Reason: "not one temperature",
				Hint: "write a number, or >= the temperature above which more warmth does not count"}
		}
		t[i] = quantity.Fahrenheit(low)
	}
	return Temperatures[quantity.Fahrenheit]{t[0], t[1]}, nil
}

func dayF(in *formula.Given) Temperatures[quantity.Fahrenheit] {
	return Temperatures[quantity.Fahrenheit]{fahrenheit(in, "tmax_fahrenheit"), fahrenheit(in, "tmin_fahrenheit")}
}

// otherMethods says what the other methods would count on the same day.
func otherMethods(r Rule[quantity.Fahrenheit], t Temperatures[quantity.Fahrenheit]) []formula.Other {
	others := []formula.Other{}
	for _, m := range []Method{SimpleMean, Modified, SingleSine, SingleSineTo} {
		if m == r.Method {
			continue
		}
		if d, err := (Rule[quantity.Fahrenheit]{m, r.Base, r.Upper}).Day(t); err == nil {
			others = append(others, formula.Other{Basis: m.String(), Value: float64(d.Total), Unit: "degF day", Source: "see DegreeDays"})
		}
	}
	return others
}

var heatFormulas = []formula.Formula{
	{
		Name: "growing_degree_days", Title: "How many degree days did this day bring (86/50)?", Unit: "degF day",
		Also:   []string{"GDD 86/50 day", "GDD day", "GDD day maximum possible 86/50", "GDD 86/50 day lower clamp"},
		Source: "Iowa State University, Agronomy 541; Peet (NCSU), appendix 2", Range: "temperatures outside base and upper are replaced by them before averaging",
		Cautions: []string{methodCaution},
		Inputs:   []formula.Input{highF, lowF, baseF("50"), upperF("86")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			rule := ruleF(in, Modified)
			day, err := warmestDay(in, rule.Upper)
			if err != nil {
				return formula.Answer{}, err
			}
			d, err := rule.Day(day)
			answer := formula.Number(float64(d.Total))
			answer.Others = otherMethods(rule, day)
			return answer, err
		},
	},
	{
		Name: "growing_degree_days_sum", Title: "How many degree days did these days bring (86/50)?", Unit: "degF day",
		Also:   []string{"GDD 86/50 sum of three days", "GDD 86/50 sum"},
		Source: "Iowa State University, Agronomy 541", Range: "as growing_degree_days", Cautions: []string{methodCaution},
		Inputs: []formula.Input{word("days", "highest/lowest of each day, like 90/65,72/46", ""), baseF("50"), upperF("86")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			days, err := pairsOf[quantity.Fahrenheit](in, "days")
			if err != nil {
				return formula.Answer{}, err
			}
			sum, err := ruleF(in, Modified).Sum(days)
			return number(sum.Total, err)
		},
	},
	{
		Name: "days_for_degree_days", Title: "How many such days does the crop need?", Unit: "d",
		Also:   []string{"days for a GDD total"},
		Source: "Peet (NCSU), appendix 2 (simple mean)", Range: "the same weather every day", Cautions: []string{methodCaution},
		Inputs: []formula.Input{heatBound.input("degree_days_fahrenheit", "degree days needed, degF day", also("GDD")...), highF, lowF, baseF("50"), upperF("86")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			need := DegreeDays[quantity.Fahrenheit]{fahrenheit(in, "degree_days_fahrenheit"), ruleF(in, SimpleMean)}
			return number(need.DaysAt(dayF(in)))
		},
	},
	{
		Name: "degree_days_to_harvest", Title: "How many degree days does the crop need to harvest?", Unit: "degF day",
		Also:   []string{"Jubilee sweet corn to fresh-market maturity"},
		Source: "see the answer", Range: "for the method and thresholds named in the answer", Cautions: []string{methodCaution},
		Inputs: []formula.Input{word("crop", "crop and kind: corn early, corn midseason, sweet corn Jubilee, pea earliest", "sweet corn Jubilee"),
			baseF(notGiven), upperF(notGiven), word("method", "the method meant; the answer names its own", notGiven)},
		Work: func(in *formula.Given) (formula.Answer, error) {
			h, err := HeatNeedOf(in.Word("crop"))
			answer := formula.Number(float64(h.Need.Total))
			answer.Source = h.Source
			answer.Text = h.Need.Rule.Method.String()
			return answer, err
		},
	},
	{
		Name: "cucumber_heat_units", Title: "How many heat units did this day bring to cucumbers?", Unit: "degF day",
		Also:   []string{"cucumber heat unit day"},
		Source: "Perry and Wehner 1996, HortTechnology 6:27 (abstract)", Range: "counts the highest temperature only", Cautions: []string{methodCaution},
		Inputs: []formula.Input{highF, baseF("60"), upperF("90")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			high := fahrenheit(in, "tmax_fahrenheit")
			d, err := ruleF(in, CucumberHeat).Day(Temperatures[quantity.Fahrenheit]{high, high})
			return number(d.Total, err)
		},
	},
	{
		Name: "degree_day_base", Title: "Below which temperature does the crop not grow?", Unit: "degF",
		Also:   []string{"degree-day base temperature"},
		Source: "Peet (NCSU), Sustainable Practices for Vegetable Production in the South, appendix 2", Range: "corn, bean, turnip, cabbage, pea, pepper",
		Inputs: []formula.Input{cropInput()},
		Work:   func(in *formula.Given) (formula.Answer, error) { return number(BaseTemperature(in.Word("crop"))) },
	},
	seasonSum("degree_days_simple_mean", "by the simple mean", SimpleMean, "Peet (NCSU), appendix 2",
		"weather.degree_days mean method base {base}"),
	seasonSum("degree_days_single_sine", "by the single sine", SingleSine, "Baskerville and Emin 1969, Ecology 50:514, from memory",
		"weather.degree_days single sine base {base}"),
	seasonSum("degree_days_modified", "with temperatures kept within base and upper", Modified, "Iowa State University, Agronomy 541"),
	seasonSum("degree_days_single_sine_to", "by the single sine cut off at the upper limit", SingleSineTo,
		"Baskerville and Emin 1969, Ecology 50:514, from memory"),
	{
		Name: "sowing_interval_by_heat", Title: "How many days after this sowing do I sow again?", Unit: "d",
		Source: "Ottoson (ISHS); University of Connecticut", Range: "weather of the days between the harvests and of the days from the first sowing on",
		Cautions: []string{methodCaution},
		Inputs: []formula.Input{word("at_harvest", "highest/lowest of each day between the two harvests, degF", ""),
			word("at_sowing", "highest/lowest of each day from the first sowing on, degF", ""), baseF("50"), upperF("86")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			harvest, err := pairsOf[quantity.Fahrenheit](in, "at_harvest")
			if err != nil {
				return formula.Answer{}, err
			}
			sowing, err := pairsOf[quantity.Fahrenheit](in, "at_sowing")
			if err != nil {
				return formula.Answer{}, err
			}
			return number(ruleF(in, Modified).SowingInterval(harvest, sowing))
		},
	},
}

// seasonSum describes a season's degree days in degC by one method.
func seasonSum(name, how string, m Method, source string, names ...string) formula.Formula {
	return formula.Formula{
		Name: name, Title: "How many degree days did the season bring, " + how + "?", Unit: "degC day",
		Also: names, Source: source, Range: "one highest and one lowest temperature for each day", Cautions: []string{methodCaution},
		Inputs: []formula.Input{
			{Name: "tmax_celsius", Meaning: "highest temperature of each day", Unit: "degC", Low: airBound.low, High: airBound.high, Also: also("tmax", "tmax_C")},
			{Name: "tmin_celsius", Meaning: "lowest temperature of each day", Unit: "degC", Low: airBound.low, High: airBound.high, Also: also("tmin", "tmin_C")},
			airBound.input("base_celsius", "temperature below which the crop does not grow", also("base")...),
			airBound.given("upper_celsius", "upper limit, where the method has one", "30", also("upper")...),
		},
		Work: func(in *formula.Given) (formula.Answer, error) {
			days, err := daysOf(in, "tmax_celsius", "tmin_celsius")
			if err != nil {
				return formula.Answer{}, err
			}
			sum, err := Rule[quantity.Celsius]{m, celsius(in, "base_celsius"), celsius(in, "upper_celsius")}.Sum(days)
			return number(sum.Total, err)
		},
	}
}

package crop

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const frostCaution = "From past years alone: the frost of one clear still night in a hollow comes weeks outside it."

// dosingCaution goes with what the leaves seem to tell.
const dosingCaution = "Check pH, nitrate and roots first, and test before dosing: copper and zinc kill fish."

// dayList describes a list of frost days, one for each year.
func dayList(name, meaning string) formula.Input {
	return seasonDayBound.input(name, meaning+", one for each year, days from one fixed date (1 January in the north, 1 July in the south)")
}

var sureInput = shareBound.given("chance", "how sure, 0 to 1", "0.9")

// seasonFormulas holds frost, bearing and perennials.
var seasonFormulas = []formula.Formula{
	{
		Name: "last_frost", Title: "After which day am I this sure that no frost comes in spring?", Unit: "day of the season",
		Source: "Hyndman and Fan 1996, quantile type 8", Range: "three years or more; no surer than their number allows", Cautions: []string{frostCaution},
		Inputs: []formula.Input{dayList("days", "days of the last frost"), sureInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(LastFrost(in.Numbers("days"), fraction(in, "chance")))
		},
	},
	{
		Name: "first_frost", Title: "Before which day am I this sure that no frost comes in autumn?", Unit: "day of the season",
		Source: "Hyndman and Fan 1996, quantile type 8", Range: "three years or more; no surer than their number allows", Cautions: []string{frostCaution},
		Inputs: []formula.Input{dayList("days", "days of the first frost"), sureInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(FirstFrost(in.Numbers("days"), fraction(in, "chance")))
		},
	},
	{
		Name: "frost_free_days", Title: "How many days am I this sure to be free of frost?", Unit: "d",
		Source: "Hyndman and Fan 1996, quantile type 8", Range: "the chance holds at each end", Cautions: []string{frostCaution},
		Inputs: []formula.Input{dayList("last", "days of the last frost"), dayList("first", "days of the first frost"), sureInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(FrostFreeDays(in.Numbers("last"), in.Numbers("first"), fraction(in, "chance")))
		},
	},
	{
		Name: "frost_chance_after", Figures: formula.Rough, Title: "How likely is frost after this day of spring?",
		Source: "Hyndman and Fan 1996, type 8 plotting positions", Range: "three years or more", Cautions: []string{frostCaution},
		Inputs: []formula.Input{dayList("days", "days of the last frost"), seasonDayBound.input("day", "day of the season")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(FrostChanceAfter(in.Numbers("days"), in.Float("day")))
		},
	},
	{
		Name: "bearing_window", Title: "When does this planting bear?", Unit: "d",
		Source: "days of the crop table drawn towards your own plantings; with the air of the year, at the pace of warmth and light", Range: "8 plantings in 10 first bear within the range",
		Inputs: []formula.Input{cropInput(), {Name: "planted", Meaning: "day of sowing or setting out, like 2026-05-01"},
			yesNo("transplant", "set out as a seedling", "no"), areaBound.given("area_m2", "area", "1"),
			valueBound.maybe("own_days", "days to the first harvest of your own past plantings, like [52 60]; good days where the air is given"),
			valueBound.maybe("own_bearing", "days that their harvests lasted"), airOfYear, latitudeOfAir},
		Work: func(in *formula.Given) (formula.Answer, error) {
			w, err := windowOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			from := w.Planting.Planted
			return formula.Answer{Value: float64(w.First - from), Low: float64(w.Early - from), High: float64(w.Late - from),
				Text: "bears from " + w.First.String() + " to " + w.Last.String() + ", " + kg(w.PerWeek) + " a week; 8 in 10 begin between " +
					w.Early.String() + " and " + w.Late.String()}, nil
		},
	},
	{
		Name: "growth_pace", Title: "How much of a good day is a day to this crop?",
		Source: "NDSU H-912, degree days; nothing under ten hours of light is common practice, no source", Range: "0, too cold or dark, to 1, as in the crop table",
		Inputs: []formula.Input{cropInput(), airBound.input("air_celsius", "mean of the day"), dayLengthBound.input("daylight_h", "hours from sunrise to sunset")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			c, err := Find(in.Word("crop"))
			if err != nil {
				return formula.Answer{}, err
			}
			return number(Pace(c, quantity.Celsius(in.Float("air_celsius")), quantity.Hours(in.Float("daylight_h"))))
		},
	},
	{
		Name: "good_days", Title: "How many good days were there for this crop between two days?", Unit: "d",
		Source: "NDSU H-912, degree days; nothing under ten hours of light is common practice, no source", Range: "none to as many as there were days",
		Inputs: []formula.Input{cropInput(), {Name: "from", Meaning: "first day, like 2026-05-01"}, {Name: "to", Meaning: "day after the last"}, airOfYear, latitudeOfAir},
		Work:   goodDays,
	},
	{
		Name: "stands_open", Title: "Can this crop be sown in the open today?", Source: "common practice, no source", Range: "tender, half-hardy and hardy crops of the crop table", Cautions: []string{frostCaution},
		Inputs: []formula.Input{cropInput(), {Name: "today", Meaning: "day of sowing, like 2026-05-01"}, {Name: "first", Meaning: "day of the first harvest"},
			{Name: "last_frost", Meaning: "usual last frost of spring"}, {Name: "first_frost", Meaning: "usual first frost of autumn, after it"}},
		Work: openToday,
	},
	{
		Name: "shrunk_days", Figures: formula.Rough, Title: "What should I expect, from the books and from my own plantings?", Unit: "d",
		Source: "normal theory; equal spread among places and within one, an assumption", Range: "0 to 5000",
		Inputs: []formula.Input{valueBound.input("published_low", "lowest published value"), valueBound.input("published_high", "highest published value"),
			valueBound.maybe("own", "own values, like [52 60]")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			e, err := Shrink(Figure{in.Float("published_low"), in.Float("published_high"), Memory}, numbersOf(in, "own"))
			answer := formula.Number(e.Mean)
			answer.Low, answer.High = e.Within80()
			return answer, err
		},
	},
	{
		Name: "first_bearing_years", Title: "In which years may this perennial first bear?", Unit: "year",
		Source: "the crop table", Range: "from a nursery plant",
		Inputs: []formula.Input{cropInput(), {Name: "planted", Meaning: "day of planting, like 2026-05-01"}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			planted, err := ParseDay(in.Word("planted"))
			if err != nil {
				return formula.Answer{}, err
			}
			return span(FirstBearingYears(in.Word("crop"), planted))
		},
	},
	{
		Name: "perennial_yield", Figures: formula.Rough, Title: "What may this perennial give at its age?", Unit: "kg/yr",
		Source: "the crop table; half in the first bearing year is common practice, no source", Range: "whole years since planting",
		Inputs: []formula.Input{cropInput(), ageBound.input("age_years", "age"), areaInput},
		Work: func(in *formula.Given) (formula.Answer, error) {
			return number(PerennialYield(in.Word("crop"), in.Whole("age_years"), area(in)))
		},
	},
}

// numbersOf reads a list that need not be given.
func numbersOf(in *formula.Given, name string) []float64 {
	if !in.Has(name) {
		return nil
	}
	return in.Numbers(name)
}

func windowOf(in *formula.Given) (Window, error) {
	planted, err := ParseDay(in.Word("planted"))
	if err != nil {
		return Window{}, err
	}
	transplant := yes(in, "transplant")
	past := []Past{}
	for _, d := range numbersOf(in, "own_days") {
		past = append(past, Past{Transplant: transplant, ToFirst: d})
	}
	for _, d := range numbersOf(in, "own_bearing") {
		past = append(past, Past{Transplant: transplant, Bearing: d})
	}
	where, err := climeOf(in)
	if err != nil {
		return Window{}, err
	}
	return BearingWindow(Planting{in.Word("crop"), planted, transplant, area(in)}, past, where)
}

// Inputs of a clime: either both are given or neither.
var (
	airOfYear     = airBound.maybe("air_of_year_celsius", "usual mean air temperature of the 53 weeks of the year from 1 January, like [-3 -3 -2 ...]")
	latitudeOfAir = latitudeBound.given("latitude_degrees", "latitude, for the length of days; south is negative", "0")
)

func climeOf(in *formula.Given) (Clime, error) {
	where := Clime{}
	for _, t := range numbersOf(in, "air_of_year_celsius") {
		where.Air = append(where.Air, quantity.Celsius(t))
	}
	var err error
	where.Latitude, err = latitudeOf(in)
	return where, err
}

func goodDays(in *formula.Given) (formula.Answer, error) {
	days, err := datesIn(in, "from", "to")
	if err != nil {
		return formula.Answer{}, err
	}
	where, err := climeOf(in)
	if err != nil {
		return formula.Answer{}, err
	}
	return number(GoodDays(in.Word("crop"), days[0], days[1], where))
}

func openToday(in *formula.Given) (formula.Answer, error) {
	days, err := datesIn(in, "today", "first", "last_frost", "first_frost")
	if err != nil {
		return formula.Answer{}, err
	}
	open, err := StandsOpen(in.Word("crop"), days[1], Season{days[0], days[2], days[3]})
	if !open {
		return formula.Words("no: frost would reach it"), err
	}
	return formula.Words("yes"), err
}

// datesIn reads several days.
func datesIn(in *formula.Given, names ...string) ([]Day, error) {
	days := make([]Day, len(names))
	for i, name := range names {
		var err error
		if days[i], err = ParseDay(in.Word(name)); err != nil {
			return nil, err
		}
	}
	return days, nil
}

// signFormulas holds what is seen and said of plants.
var signFormulas = []formula.Formula{
	{
		Name: "pollination_warning", Title: "Will the crop set fruit where it stands?", Source: "common knowledge of horticulture, no source", Range: "crops of the crop table",
		Inputs: []formula.Input{cropInput(), yesNo("covered", "under a closed cover", "yes"), yesNo("bees", "bees kept under the cover", "no"), yesNo("by_hand", "pollinated by hand", "no")},
		Work: func(in *formula.Given) (formula.Answer, error) {
			text, err := PollinationWarning(in.Word("crop"), Flowering{yes(in, "covered"), yes(in, "bees"), yes(in, "by_hand")})
			if text == "" {
				text = "Nothing to warn of."
			}
			return formula.Words(text), err
		},
	},
	{
		Name: "companions", Title: "What is claimed of growing the crop beside others?", Source: "each with its own", Range: "evidence first, custom after",
		Inputs: []formula.Input{cropInput()},
		Work: func(in *formula.Given) (formula.Answer, error) {
			text := ""
			for _, c := range CompanionsOf(in.Word("crop")) {
				text = listed(text, c.Crop+" with "+c.With+": "+c.Claim+" ("+c.Source+")")
			}
			return formula.Words(text), nil
		},
	},
	{
		Name: "deficiency_suspects", Title: "Which nutrient may be short?", Source: "IPNI 4R manual; Green, Maloy and Capizzi key", Range: "a suspicion, not a finding",
		Cautions: []string{dosingCaution},
		Inputs: []formula.Input{word("leaves", "where it shows first", "", OldLeaves.String(), YoungLeaves.String(), AnyLeaves.String(), FruitOnly.String()),
			{Name: "signs", Meaning: "what is seen, joined by +, like: yellow between veins+dead spots"}},
		Work: func(in *formula.Given) (formula.Answer, error) {
			signs, err := signsOf(in.Word("signs"))
			answer := formula.Words("")
			for _, s := range Suspects(leafAgeOf(in.Word("leaves")), signs...) {
				answer.Text = listed(answer.Text, s.Nutrient)
				answer.Cautions = append(answer.Cautions, s.Nutrient+": "+s.Beside)
			}
			if answer.Text == "" {
				answer.Text = "nothing in the key fits"
			}
			return answer, err
		},
	},
	{
		Name: "deficiency_signs", Title: "What does the lack of this nutrient look like?", Source: "IPNI 4R manual; Green, Maloy and Capizzi key", Range: "12 nutrients",
		Inputs:   []formula.Input{{Name: "nutrient", Meaning: "name of the nutrient"}},
		Cautions: []string{dosingCaution},
		Work: func(in *formula.Given) (formula.Answer, error) {
			rows, err := DeficiencySigns(in.Word("nutrient"))
			text := ""
			for _, s := range rows {
				for _, sign := range s.Signs {
					text = listed(text, s.Leaves.String()+": "+string(sign))
				}
			}
			return formula.Words(text), err
		},
	},
}

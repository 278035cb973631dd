package pool

import (
	"math"
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var seasonFormulas = slices.Concat(formula.Outputs(seasonBase(formula.Input{Name: "site", Meaning: "which site"}), func(in *formula.Given) (Yearly, error) {
	sites, _, y, err := yearOf(in)
	if err != nil {
		return Yearly{}, err
	}
	at, err := placeAmong(sites, in.Word("site"))
	if err != nil {
		return Yearly{}, err
	}
	return y.Sites[at], quantity.Within("ties of the site to others", one(y.Sites[at].Joined), one(true), one(true), "", "by definition: a season in which both bore")
},
	formula.Output[Yearly]{Name: "yearly_rate", Title: "What would a site come to over the same year as the others?", Value: func(s Yearly) float64 { return s.Rate }},
	formula.Output[Yearly]{Name: "yearly_rate_se", Title: "How uncertain is that?", Value: func(s Yearly) float64 { return s.SE }},
), formula.Outputs(seasonBase(formula.Input{Name: "of", Meaning: "which season"}), func(in *formula.Given) (float64, error) {
	_, seasons, y, err := yearOf(in)
	if err != nil {
		return math.NaN(), err
	}
	at, err := placeAmong(seasons, in.Word("of"))
	return y.Effect[at], err
},
	formula.Output[float64]{Name: "season_effect", Title: "How much does a season give, in mean seasons?", Value: func(v float64) float64 { return v }},
))

func seasonBase(more formula.Input) formula.Formula {
	return formula.Formula{
		Inputs: []formula.Input{
			ranged(list("amount", "what a site came to in a season"), 0, 1e100), ranged(list("exposure", "what it came from: time, or area and time"), 0, 1e100),
			{Name: "group", Meaning: "the site of each amount, a list of words"}, {Name: "season", Meaning: "the season of each amount, a list of words"}, more},
		Source: "Andersen 1977, Scand. J. Stat. 4:153; errors after White 1980 and MacKinnon & White 1985",
		Range:  "two sites and two seasons or more, sites tied by seasons in which both bore", Cautions: []string{apart},
	}
}

// yearOf lays amounts out by site and season, both in the order of the alphabet.
func yearOf(in *formula.Given) (sites, seasons []string, y Year, err error) {
	amounts, exposures := in.Numbers("amount"), in.Numbers("exposure")
	groups, times := in.Labels("group"), in.Labels("season")
	n := float64(len(amounts))
	for _, other := range []int{len(exposures), len(groups), len(times)} {
		if err := quantity.Within("length of a list", float64(other), n, n, "", "by definition: one an amount"); err != nil {
			return nil, nil, Year{}, err
		}
	}
	sites, seasons = alphabet(groups), alphabet(times)
	amount, exposure := empty(sites, seasons), empty(sites, seasons)
	for i := range amounts {
		if err := cell(amounts[i], exposures[i]); err != nil {
			return nil, nil, Year{}, err
		}
		s, _ := slices.BinarySearch(sites, groups[i])
		t, _ := slices.BinarySearch(seasons, times[i])
		amount[s][t] += amounts[i]
		exposure[s][t] += exposures[i]
	}
	y, err = Standardise(amount, exposure)
	return sites, seasons, y, err
}

func alphabet(words []string) []string {
	names := slices.Clone(words)
	slices.Sort(names)
	return slices.Compact(names)
}

func empty(rows, columns []string) [][]float64 {
	t := make([][]float64, len(rows))
	for i := range t {
		t[i] = make([]float64, len(columns))
	}
	return t
}

package pool

import (
	"slices"
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every way of pooling that can be asked for by name.
var Formulas = formula.Finely(slices.Concat(metaFormulas, shrinkFormulas, rankFormulas, interceptFormulas, slopeFormulas, steinFormulas, seasonFormulas))

// apart is beneath every comparison of sites.
const apart = "A figure is compared only across one definition, and a rank shown only with its interval."

func list(name, meaning string, also ...string) formula.Input {
	i := formula.Input{Name: name, Meaning: meaning + ", a list", Low: -1e150, High: 1e150}
	for _, a := range also {
		i.Also = append(i.Also, formula.Alias{Name: a})
	}
	return i
}

// ranged narrows the range of an input.
func ranged(i formula.Input, low, high float64) formula.Input {
	i.Low, i.High = low, high
	return i
}

func confidenceInput() formula.Input {
	return formula.Input{Name: "confidence", Meaning: "how often such an interval is to hold the true value", Low: 0.5, High: 0.9999, Default: "0.95",
		Also: []formula.Alias{{Name: "conf"}, {Name: "percent", Change: func(p float64) float64 { return p / 100 }}}}
}

func confidenceOf(in *formula.Given) quantity.Fraction {
	return quantity.Fraction(in.Float("confidence"))
}

var methods = []string{"REML", "PM", "DL", "EE"}

func metaInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		list("mean", "each site's mean", "yi"),
		ranged(list("se", "its standard error"), 1e-150, 1e150),
		{Name: "method", Meaning: "how the variance between sites is estimated: REML, Paule-Mandel, DerSimonian-Laird, none", Choices: methods, Default: "REML"},
		confidenceInput(),
	}, more...)
}

func metaOf(in *formula.Given) (Summary, error) {
	if err := sensible(confidenceOf(in)); err != nil {
		return Summary{}, err
	}
	return Meta(in.Numbers("mean"), in.Numbers("se"), Method(slices.Index(methods, in.Word("method"))))
}

const metaSource = "REML (Viechtbauer 2005), Paule & Mandel 1982, DerSimonian & Laird 1986, as method says"

func metaBase(source string, more ...formula.Input) formula.Formula {
	return formula.Formula{Inputs: metaInputs(more...), Source: source,
		Range:    "two sites or more, standard errors above 0; confidence 0.5 to 0.9999",
		Cautions: []string{apart, "A standard error from fewer than five values is unreliable: pool the values instead."}}
}

var metaFormulas = slices.Concat(formula.Outputs(metaBase(metaSource), metaOf,
	formula.Output[Summary]{Name: "between_sites", Title: "How much do sites truly differ (variance)?", Also: []string{"pool.meta.{method}.tau2"}, Value: func(s Summary) float64 { return s.Tau2 }},
	formula.Output[Summary]{Name: "pooled_mean", Title: "What is the mean of sites?", Also: []string{"pool.meta.{method}.mu"}, Value: func(s Summary) float64 { return s.Mu }},
	formula.Output[Summary]{Name: "pooled_mean_se", Title: "How uncertain is the mean of sites?", Also: []string{"pool.meta.{method}.se"}, Value: func(s Summary) float64 { return s.SE }},
	formula.Output[Summary]{Name: "pooled_mean_hksj_se", Title: "How uncertain is the mean of sites, as they really scatter?", Also: []string{"pool.meta.{method}.hksj_se"}, Value: Summary.HKSJSE},
	formula.Output[Summary]{Name: "sites_q", Title: "How much do sites scatter, in weighted squares?", Also: []string{"pool.meta.Q"}, Value: func(s Summary) float64 { return s.Q }},
	formula.Output[Summary]{Name: "sites_q_p", Title: "How often would sites that are alike scatter so much?", Also: []string{"pool.meta.Q_p"}, Value: func(s Summary) float64 { return s.QP }},
	formula.Output[Summary]{Name: "sites_i2", Title: "What percentage of the scatter does chance not explain?", Unit: "%", Also: []string{"pool.meta.I2_percent"}, Value: func(s Summary) float64 { return float64(s.I2) }},
	formula.Output[Summary]{Name: "sites_h2", Title: "How many times what chance alone would give is the scatter?", Also: []string{"pool.meta.H2"}, Value: func(s Summary) float64 { return s.H2 }},
),
	intervalFormulas("pooled_mean_normal", "the mean of sites be, by the normal curve (too narrow for few)?", "normal curve", "pool.meta.{method}.ci{percent}_lo_z", "pool.meta.{method}.ci{percent}_hi_z", Summary.NormalInterval),
	intervalFormulas("pooled_mean_hksj", "the mean of sites be?", "Hartung & Knapp 2001; Sidik & Jonkman 2002", "pool.meta.{method}.hksj_ci{percent}_lo", "pool.meta.{method}.hksj_ci{percent}_hi", Summary.HKSJ),
	predictionFormulas("next_site_normal", "by the normal curve (too narrow for few)", "normal curve", "z", NormalPrediction),
	predictionFormulas("next_site_higgins", "by Higgins", "Higgins, Thompson & Spiegelhalter 2009", "t_k-2", HigginsPrediction),
	predictionFormulas("next_site", "by Hartung and Knapp", "Partlett & Riley 2017", "hksj_t_k-1", HKSJPrediction),
)

func predictionFormulas(name, how, source, row string, by Prediction) []formula.Formula {
	low, high := "pool.meta.{method}.pi{percent}_lo_"+row, "pool.meta.{method}.pi{percent}_hi_"+row
	return intervalFormulas(name, "the true mean of one more site be, "+how+"?", source, low, high, func(s Summary, c quantity.Fraction) (Interval, error) {
		return s.Predict(by, c)
	})
}

func intervalFormulas(name, what, source, low, high string, of func(Summary, quantity.Fraction) (Interval, error)) []formula.Formula {
	return formula.Outputs(metaBase(source+"; "+metaSource), func(in *formula.Given) (Interval, error) {
		s, err := metaOf(in)
		if err != nil {
			return Interval{}, err
		}
		return of(s, confidenceOf(in))
	},
		formula.Output[Interval]{Name: name + "_low", Title: "How low may " + what, Also: []string{low}, Value: func(i Interval) float64 { return i.Low }},
		formula.Output[Interval]{Name: name + "_high", Title: "How high may " + what, Also: []string{high}, Value: func(i Interval) float64 { return i.High }},
	)
}

func siteInputs() []formula.Input {
	return []formula.Input{
		{Name: "site", Meaning: "which site: its label, or row1, row2 and so on"},
		{Name: "labels", Meaning: "what the sites are called, a list of words; row1, row2 and so on when not given", Default: "row1"},
	}
}

// placeOf finds the site asked for among labels, or by its row.
func placeOf(in *formula.Given, sites int) (int, error) {
	asked := in.Word("site")
	at := slices.Index(in.Labels("labels"), asked)
	if row, found := strings.CutPrefix(asked, "row"); found && !in.Has("labels") {
		n, err := strconv.Atoi(row)
		at = n - 1
		if err != nil {
			at = -1
		}
	}
	if at < 0 || at >= sites {
		return 0, &formula.InputError{Formula: "pooling", Input: "site", Reason: "unknown word", Hint: "one of the labels, or row1 and so on"}
	}
	return at, nil
}

func siteOf(in *formula.Given) (Site, error) {
	s, err := metaOf(in)
	if err != nil {
		return Site{}, err
	}
	sites, err := s.Shrink(confidenceOf(in))
	if err != nil {
		return Site{}, err
	}
	at, err := placeOf(in, len(sites))
	return sites[at], err
}

const shrunkenSource = "Raudenbush & Bryk 1985, J. Educ. Stat. 10:75"

var shrinkFormulas = formula.Outputs(metaBase(shrunkenSource, siteInputs()...), siteOf,
	formula.Output[Site]{Name: "shrunken_mean", Title: "What is a site's mean, drawn towards all as far as its own record leaves room?", Also: []string{"pool.meta.{method}.blup {site} value"}, Value: func(s Site) float64 { return s.Mean }, Span: siteSpan},
	formula.Output[Site]{Name: "shrunken_mean_se", Title: "How uncertain is that?", Also: []string{"pool.meta.{method}.blup {site} se"}, Value: func(s Site) float64 { return s.SE }},
	formula.Output[Site]{Name: "shrunken_weight", Title: "What share does the site's own record carry?", Value: func(s Site) float64 { return s.Weight }},
)

func siteSpan(s Site) (low, high float64) { return s.Low, s.High }

var rankFormulas = formula.Outputs(metaBase("Lin, Louis, Paddock & Ridgeway 2006, Bayesian Anal. 1:915", siteInputs()...), func(in *formula.Given) (Place, error) {
	s, err := metaOf(in)
	if err != nil {
		return Place{}, err
	}
	places, err := s.Rank(confidenceOf(in))
	if err != nil {
		return Place{}, err
	}
	at, err := placeOf(in, len(places))
	return places[at], err
},
	formula.Output[Place]{Name: "site_rank", Title: "Where does a site stand, 1 for the largest mean?", Value: func(p Place) float64 { return p.Expected }, Span: func(p Place) (l, h float64) { return float64(p.Low), float64(p.High) }},
)

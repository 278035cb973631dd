package pool

import (
	"slices"

	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func groupInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		list("value", "all values", "y"),
		{Name: "group", Meaning: "the group of each value, a list of words"},
	}, more...)
}

// grouped sorts a list by the group of each value, groups in the order of the
// alphabet.
func grouped(in *formula.Given, name string) (names []string, groups [][]float64, err error) {
	values, labels := in.Numbers(name), in.Labels("group")
	n := float64(len(values))
	if err := quantity.Within("number of labels", float64(len(labels)), n, n, "", "by definition: one a value"); err != nil {
		return nil, nil, err
	}
	names = alphabet(labels)
	groups = make([][]float64, len(names))
	for i, v := range values {
		at, _ := slices.BinarySearch(names, labels[i])
		groups[at] = append(groups[at], v)
	}
	return names, groups, nil
}

func interceptOf(in *formula.Given) ([]string, Intercept, error) {
	names, groups, err := grouped(in, "value")
	if err != nil {
		return nil, Intercept{}, err
	}
	m, err := RandomIntercept(groups)
	return names, m, err
}

func interceptBase(more ...formula.Input) formula.Formula {
	return formula.Formula{Inputs: groupInputs(more...), Source: "restricted maximum likelihood, Patterson & Thompson 1971, Biometrika 58:545",
		Range: "two groups or more, one at least with two values that differ", Cautions: []string{apart}}
}

var interceptFormulas = slices.Concat(formula.Outputs(interceptBase(), func(in *formula.Given) (Intercept, error) {
	_, m, err := interceptOf(in)
	return m, err
},
	formula.Output[Intercept]{Name: "groups_mean", Title: "What is the mean of groups?", Also: []string{"pool.random_intercept.mu"}, Value: func(m Intercept) float64 { return m.Mu }},
	formula.Output[Intercept]{Name: "groups_mean_se", Title: "How uncertain is the mean of groups?", Also: []string{"pool.random_intercept.se_mu"}, Value: func(m Intercept) float64 { return m.SE }},
	formula.Output[Intercept]{Name: "between_groups", Title: "How much do groups truly differ (variance)?", Also: []string{"pool.random_intercept.var_between"}, Value: func(m Intercept) float64 { return m.Between }},
	formula.Output[Intercept]{Name: "within_groups", Title: "How much do values within a group differ (variance)?", Also: []string{"pool.random_intercept.var_within"}, Value: func(m Intercept) float64 { return m.Within }},
	formula.Output[Intercept]{Name: "groups_criterion", Title: "How likely are the values under the fit (-2 log restricted likelihood)?", Also: []string{"pool.random_intercept.reml_criterion"}, Value: func(m Intercept) float64 { return m.Criterion }},
	formula.Output[Intercept]{Name: "no_difference_detectable", Title: "Can no difference between groups be told (1) or can one (0)?", Also: []string{"pool.random_intercept.singular"}, Value: func(m Intercept) float64 { return one(m.Undetectable) }},
), formula.Outputs(interceptBase(confidenceInput(), formula.Input{Name: "site", Meaning: "which group"}), func(in *formula.Given) (Site, error) {
	names, m, err := interceptOf(in)
	if err != nil {
		return Site{}, err
	}
	sites, err := m.Shrink(confidenceOf(in))
	if err != nil {
		return Site{}, err
	}
	at, err := placeAmong(names, in.Word("site"))
	return sites[at], err
},
	formula.Output[Site]{Name: "group_effect", Title: "How far does a group lie from the mean of groups?", Also: []string{"pool.random_intercept.blup_u {site}"}, Value: func(s Site) float64 { return s.Effect }},
	formula.Output[Site]{Name: "group_mean", Title: "What is a group's mean, drawn towards all?", Also: []string{"pool.random_intercept.group_mean {site}"}, Value: func(s Site) float64 { return s.Mean }, Span: siteSpan},
	formula.Output[Site]{Name: "group_effect_se", Title: "How uncertain is a group's distance, were the mean of groups known?", Also: []string{"pool.random_intercept.cond_se_u {site}"}, Value: func(s Site) float64 { return s.CondSE }},
	formula.Output[Site]{Name: "group_mean_se", Title: "How uncertain is a group's mean?", Also: []string{"pool.random_intercept.se_group_mean_incl_mu {site}"}, Value: func(s Site) float64 { return s.SE }},
	formula.Output[Site]{Name: "group_weight", Title: "What share does the group's own record carry?", Also: []string{"pool.random_intercept.shrink_factor {site}"}, Value: func(s Site) float64 { return s.Weight }},
))

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

func placeAmong(names []string, asked string) (int, error) {
	at := slices.Index(names, asked)
	if at < 0 {
		return 0, &formula.InputError{Formula: "pooling", Input: "site", Reason: "unknown word"}
	}
	return at, nil
}

func linesOf(in *formula.Given) (names []string, x, y [][]float64, err error) {
	names, x, err = grouped(in, "x")
	if err != nil {
		return nil, nil, nil, err
	}
	_, y, err = grouped(in, "value")
	return names, x, y, err
}

func slopeBase(source string, more ...formula.Input) formula.Formula {
	inputs := groupInputs(append([]formula.Input{list("x", "the time or dose of each value")}, more...)...)
	inputs[0], inputs[2] = ranged(inputs[0], -1e70, 1e70), ranged(inputs[2], -1e70, 1e70)
	return formula.Formula{Inputs: inputs, Source: source,
		Range: "two groups or more, four points at least", Cautions: []string{apart}}
}

var slopeFormulas = slices.Concat(formula.Outputs(slopeBase("restricted maximum likelihood, Laird & Ware 1982, Biometrics 38:963"), func(in *formula.Given) (Slopes, error) {
	_, x, y, err := linesOf(in)
	if err != nil {
		return Slopes{}, err
	}
	return RandomSlopes(x, y)
},
	formula.Output[Slopes]{Name: "slopes_intercept", Title: "Where do the lines of groups start?", Also: []string{"pool.slope.lmer_indep.intercept"}, Value: func(s Slopes) float64 { return s.Intercept }},
	formula.Output[Slopes]{Name: "slopes_mean", Title: "How steep are the lines of groups?", Also: []string{"pool.slope.lmer_indep.slope"}, Value: func(s Slopes) float64 { return s.Slope }},
	formula.Output[Slopes]{Name: "slopes_mean_se", Title: "How uncertain is how steep they are?", Also: []string{"pool.slope.lmer_indep.se_slope"}, Value: func(s Slopes) float64 { return s.SlopeSE }},
	formula.Output[Slopes]{Name: "slopes_var_intercept", Title: "How much do starts of lines differ (variance)?", Also: []string{"pool.slope.lmer_indep.var_int"}, Value: func(s Slopes) float64 { return s.VarIntercept }},
	formula.Output[Slopes]{Name: "slopes_var_slope", Title: "How much do slopes differ (variance)?", Also: []string{"pool.slope.lmer_indep.var_slope"}, Value: func(s Slopes) float64 { return s.VarSlope }},
	formula.Output[Slopes]{Name: "slopes_within", Title: "How much do values differ about their lines (variance)?", Also: []string{"pool.slope.lmer_indep.var_res"}, Value: func(s Slopes) float64 { return s.Within }},
	formula.Output[Slopes]{Name: "slopes_criterion", Title: "How likely are the values under the lines (-2 log restricted likelihood)?", Also: []string{"pool.slope.lmer_indep.reml"}, Value: func(s Slopes) float64 { return s.Criterion }},
), formula.Outputs(slopeBase("Laird & Ware 1982, Biometrics 38:963", formula.Input{Name: "site", Meaning: "which group"}), func(in *formula.Given) (float64, error) {
	names, x, y, err := linesOf(in)
	if err != nil {
		return 0, err
	}
	s, err := RandomSlopes(x, y)
	if err != nil {
		return 0, err
	}
	at, err := placeAmong(names, in.Word("site"))
	return s.Own[at], err
},
	formula.Output[float64]{Name: "group_slope", Title: "How steep is a group's line, drawn towards all?", Also: []string{"pool.slope.lmer_indep.slope_of {site}"}, Value: func(v float64) float64 { return v }},
), formula.Outputs(slopeBase("least squares", formula.Input{Name: "site", Meaning: "which group"}), func(in *formula.Given) (fit.Line, error) {
	names, x, y, err := linesOf(in)
	if err != nil {
		return fit.Line{}, err
	}
	if _, err := lined(x, y); err != nil {
		return fit.Line{}, err
	}
	at, err := placeAmong(names, in.Word("site"))
	if err != nil {
		return fit.Line{}, err
	}
	return fit.StraightLine(x[at], y[at])
},
	formula.Output[fit.Line]{Name: "group_own_slope", Title: "How steep is a group's line by itself?", Also: []string{"pool.slope.ols {site} slope"}, Value: func(l fit.Line) float64 { return l.Slope }},
	formula.Output[fit.Line]{Name: "group_own_slope_se", Title: "How uncertain is that?", Also: []string{"pool.slope.ols {site} se"}, Value: func(l fit.Line) float64 { return l.SlopeSE }},
))

var steinFormulas = append(formula.Outputs(formula.Formula{
	Inputs: []formula.Input{ranged(list("hits", "successes of each"), 0, 1e9), {Name: "n", Meaning: "tries of each", Low: 1, High: 1e9}},
	Source: "James & Stein 1961; Efron & Morris 1977, Sci. Am. 236:119", Range: "four or more, not all none or all", Cautions: []string{apart},
}, func(in *formula.Given) (Shrunken, error) {
	return JamesSteinShares(in.Numbers("hits"), in.Float("n"))
},
	formula.Output[Shrunken]{Name: "james_stein_factor", Title: "How far is each share drawn towards the common one?", Also: []string{"James-Stein shrink factor c"}, Value: func(s Shrunken) float64 { return s.Factor }},
	formula.Output[Shrunken]{Name: "james_stein_mean", Title: "What is the common share?", Also: []string{"grand mean"}, Value: func(s Shrunken) float64 { return s.Mean }},
), append(gainFormulas,
	drawnFormula("james_stein_estimate", "Where is one mean drawn to?", "James & Stein 1961", nil,
		formula.Input{Name: "mean", Meaning: "the common mean", Low: -1e150, High: 1e150},
		formula.Input{Name: "factor", Meaning: "the share of its distance that it keeps", Low: 0, High: 1}),
	drawnFormula("james_stein_batter", "Where is one of Efron & Morris' eighteen batters drawn to?", "Efron & Morris 1977, Sci. Am. 236:119: mean 0.265, factor 0.212", []string{"JS estimate {who}"},
		formula.Input{Name: "mean", Meaning: "their common mean", Low: -1e150, High: 1e150, Default: "0.265"},
		formula.Input{Name: "factor", Meaning: "the share of the distance that each keeps", Low: 0, High: 1, Default: "0.212"},
		formula.Input{Name: "who", Meaning: "a remark; it changes nothing", Default: "none"}),
)...)

func drawnFormula(name, title, source string, also []string, more ...formula.Input) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Source: source, Also: also, Range: "factor 0 to 1", Cautions: []string{apart},
		Inputs: append([]formula.Input{{Name: "y", Meaning: "the mean itself", Low: -1e150, High: 1e150}}, more...),
		Work: func(in *formula.Given) (formula.Answer, error) {
			s := Shrunken{Mean: in.Float("mean"), Factor: in.Float("factor")}
			return formula.Number(s.Estimate(in.Float("y"))), nil
		},
	}
}

// gainFormula is what the formulas share that say whether drawing shares
// together came nearer to what was found later.
var gainFormula = formula.Formula{
	Inputs: []formula.Input{ranged(list("hits", "successes of each at first"), 0, 1e9), {Name: "n", Meaning: "tries of each at first", Low: 1, High: 1e9},
		list("later", "share of each found later, from many more tries")},
	Source: "James & Stein 1961; Efron & Morris 1975, J. Am. Stat. Assoc. 70:311", Range: "four or more, not all none or all", Cautions: []string{apart},
}

func gained(in *formula.Given) (Gain, error) {
	hits, n := in.Numbers("hits"), in.Float("n")
	s, err := JamesSteinShares(hits, n)
	if err != nil {
		return Gain{}, err
	}
	for i := range hits {
		hits[i] /= n
	}
	return s.Against(hits, in.Numbers("later"))
}

var gainFormulas = append(formula.Outputs(gainFormula, gained,
	formula.Output[Gain]{Name: "james_stein_better", Title: "How many came nearer to what was found later?", Also: []string{"players better estimated by JS"}, Value: func(g Gain) float64 { return float64(g.Nearer) }},
	formula.Output[Gain]{Name: "james_stein_squares_before", Title: "How far off were the shares themselves, in squares?", Also: []string{"SSE of raw averages"}, Value: func(g Gain) float64 { return g.Before }},
	formula.Output[Gain]{Name: "james_stein_squares_after", Title: "How far off were they once drawn together, in squares?", Also: []string{"SSE of JS"}, Value: func(g Gain) float64 { return g.After }},
), bothSquares())

// bothSquares says how far off the shares were before and after, side by side.
func bothSquares() formula.Formula {
	f := gainFormula
	f.Name, f.Title, f.Also = "james_stein_squares", "How far off were the shares before and after, in squares?", []string{"SSE of raw averages / of JS"}
	f.Work = func(in *formula.Given) (formula.Answer, error) {
		g, err := gained(in)
		return formula.Words(quantity.Show(g.Before, 4) + " / " + quantity.Show(g.After, 4)), err
	}
	return f
}

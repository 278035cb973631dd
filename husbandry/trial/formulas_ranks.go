package trial

import (
	"math"
	"slices"

	"freshet.example/husbandry/formula"
)

var rankFormulas = slices.Concat([]formula.Formula{{
	Name: "mann_whitney_u", Title: "In how many pairs does the first treatment beat the second?", Inputs: twoLists(),
	Also:   []string{"trial.mannwhitney.U_x", "Mann-Whitney W", "Mann-Whitney W sleep"},
	Source: "Mann & Whitney 1947, Ann. Math. Stat. 18:50; ties count a half", Range: "one value or more in each group",
	Work: func(in *formula.Given) (formula.Answer, error) {
		u, err := MannWhitneyU(in.Numbers("x"), in.Numbers("y"))
		return formula.Number(u), err
	},
}}, exactRankFormulas, normalRankFormulas(true), normalRankFormulas(false), shiftFormulas, signedRankFormulas, walshFormulas)

var exactRankFormulas = formula.Outputs(formula.Formula{
	Inputs: twoLists(), Source: "Mann & Whitney 1947, exact given which values tie (midranks)",
	Range: "up to 100 values in all", Cautions: []string{aside},
}, func(in *formula.Given) (Tails, error) {
	return MannWhitneyExact(in.Numbers("x"), in.Numbers("y"))
},
	formula.Output[Tails]{Name: "mann_whitney_p", Title: "How often would chance alone rank two treatments so, either way?", Also: []string{"trial.mannwhitney.p_exact_conditional_midranks"}, Value: func(t Tails) float64 { return t.TwoSided }},
	formula.Output[Tails]{Name: "mann_whitney_p_upper", Title: "How often would chance alone rank the first treatment as high?", Also: []string{"Mann-Whitney exact p one-sided greater"}, Value: func(t Tails) float64 { return t.Upper }},
	formula.Output[Tails]{Name: "mann_whitney_p_lower", Title: "How often would chance alone rank the first treatment as low?", Value: func(t Tails) float64 { return t.Lower }},
)

func normalRankFormulas(continuity bool) []formula.Formula {
	how, suffix := "without correction for continuity", "_plain"
	two, one := []string{"trial.mannwhitney.p_normal_tiecorrected_nocontinuity"}, []string{"Mann-Whitney p normal no continuity"}
	if continuity {
		how, suffix = "with correction for continuity", "_continuity"
		two, one = []string{"trial.mannwhitney.p_normal_tiecorrected_continuity", "Mann-Whitney p sleep normal approx with continuity+ties"}, nil
	}
	return formula.Outputs(formula.Formula{
		Inputs: twoLists(), Source: "Lehmann 1975, Nonparametrics, 1.4: normal curve corrected for ties, " + how,
		Range: "one value or more in each group, not all tied", Cautions: []string{aside, "Prefer the exact chance up to 100 values."},
	}, func(in *formula.Given) (Tails, error) {
		return MannWhitneyNormal(in.Numbers("x"), in.Numbers("y"), continuity)
	},
		formula.Output[Tails]{Name: "mann_whitney_normal_p" + suffix, Title: join("How often would chance alone rank two treatments so, by the normal curve", how+"?"), Also: two, Value: func(t Tails) float64 { return t.TwoSided }},
		formula.Output[Tails]{Name: "mann_whitney_normal_p_upper" + suffix, Title: join("How often would chance alone rank the first as high, by the normal curve", how+"?"), Also: one, Value: func(t Tails) float64 { return t.Upper }},
	)
}

var shiftFormulas = formula.Outputs(formula.Formula{
	Inputs: twoLists(confidenceInput()), Source: "Hodges & Lehmann 1963, Ann. Math. Stat. 34:598; interval by ranks without ties",
	Range:    "up to 100 values in all; confidence 0.5 to 0.9999",
	Cautions: []string{aside, "The confidence comes in steps: show hodges_lehmann_achieved beside the interval."},
}, func(in *formula.Given) (Shift, error) {
	return HodgesLehmann(in.Numbers("x"), in.Numbers("y"), confidenceOf(in))
},
	formula.Output[Shift]{Name: "hodges_lehmann", Title: "How much more does the first treatment give, whatever the shape?", Also: []string{"trial.hodges_lehmann.shift", "Hodges-Lehmann shift"}, Value: func(s Shift) float64 { return s.Estimate }, Span: shiftSpan},
	formula.Output[Shift]{Name: "hodges_lehmann_low", Title: "What is the least that the shift may be?", Also: []string{"trial.hodges_lehmann.ci{percent}_lo_rankinversion", "Hodges-Lehmann exact CI low (nominal 95%, actual 96.0%)"}, Value: func(s Shift) float64 { return s.Low }},
	formula.Output[Shift]{Name: "hodges_lehmann_high", Title: "What is the most that the shift may be?", Also: []string{"trial.hodges_lehmann.ci{percent}_hi_rankinversion", "Hodges-Lehmann exact CI high"}, Value: func(s Shift) float64 { return s.High }},
	formula.Output[Shift]{Name: "hodges_lehmann_achieved", Title: "What confidence has the interval of the shift really?", Also: []string{"trial.hodges_lehmann.achieved_conf_noties"}, Value: func(s Shift) float64 { return float64(s.Achieved) }},
)

var permutationFormulas = append(formula.Outputs(formula.Formula{
	Inputs: twoLists(), Source: "Fisher 1935; Pitman 1937; all relabellings, the observed one included",
	Range: "up to fifty million ways (14 against 14)", Cautions: []string{aside},
}, func(in *formula.Given) (Permutation, error) {
	return PermuteMeans(in.Numbers("x"), in.Numbers("y"))
},
	formula.Output[Permutation]{Name: "permutation_p", Title: "How often does relabelling beds give so large a difference, either way?", Also: []string{"trial.permutation.mean_diff.p_two_sided_abs", "exact permutation p two-sided, difference in means"}, Value: Permutation.TwoSided},
	formula.Output[Permutation]{Name: "permutation_p_upper", Title: "How often does relabelling beds give a difference as high?", Also: []string{"trial.permutation.mean_diff.p_upper"}, Value: Permutation.Upper},
	formula.Output[Permutation]{Name: "permutation_count", Title: "How many ways are there to relabel the beds?", Also: []string{"trial.permutation.count_total"}, Value: func(p Permutation) float64 { return p.Arrangements }},
), formula.Formula{
	Name: "smallest_p", Title: "What is the smallest chance that so few beds can show?",
	Inputs: []formula.Input{
		{Name: "n", Meaning: "beds under the first treatment", Unit: "beds", Low: 1, High: 500},
		{Name: "m", Meaning: "beds under the second treatment", Unit: "beds", Low: 1, High: 500},
	}, Source: "counting", Range: "1 to 500 beds each",
	Work: func(in *formula.Given) (formula.Answer, error) {
		p, err := SmallestP(in.Whole("n"), in.Whole("m"))
		return formula.Number(p), err
	},
})

var ratioFormulas = slices.Concat(fiellerFormulas(true), fiellerFormulas(false), formula.Outputs(formula.Formula{
	Inputs: twoLists(confidenceInput()), Source: "delta method on the logarithm of the ratio of means, normal curve",
	Range:    "two values or more in each group, both means above 0; confidence 0.5 to 0.9999",
	Cautions: []string{aside, "Always finite, hence too sure where Fieller's method finds no bound."},
}, func(in *formula.Given) (Ratio, error) {
	return LogRatio(in.Numbers("x"), in.Numbers("y"), confidenceOf(in))
},
	formula.Output[Ratio]{Name: "ratio_log", Title: "How many times the second mean is the first, by logarithms?", Also: []string{"trial.ratio.logdelta_z.estimate"}, Value: ratioOf, Span: ratioSpan},
	formula.Output[Ratio]{Name: "ratio_log_low", Title: "What is the least that the ratio may be, by logarithms?", Also: []string{"trial.ratio.logdelta_z.ci{percent}_lo"}, Value: func(r Ratio) float64 { return r.Low }},
	formula.Output[Ratio]{Name: "ratio_log_high", Title: "What is the most that the ratio may be, by logarithms?", Also: []string{"trial.ratio.logdelta_z.ci{percent}_hi"}, Value: func(r Ratio) float64 { return r.High }},
), formula.Outputs(formula.Formula{
	Inputs:   []formula.Input{ranged(list("x", "values under the first treatment"), 1e-150, 1e150), ranged(list("y", "values under the second treatment"), 1e-150, 1e150), confidenceInput()},
	Source:   "Welch's comparison of logarithms",
	Range:    "two values or more in each group, all above 0; confidence 0.5 to 0.9999",
	Cautions: []string{aside, "The ratio of geometric means is another quantity than the ratio of means."},
}, func(in *formula.Given) (Ratio, error) {
	return GeometricRatio(in.Numbers("x"), in.Numbers("y"), confidenceOf(in))
},
	formula.Output[Ratio]{Name: "geometric_ratio", Title: "How many times the second geometric mean is the first?", Also: []string{"trial.ratio.geometric.estimate"}, Value: ratioOf, Span: ratioSpan},
	formula.Output[Ratio]{Name: "geometric_ratio_low", Title: "What is the least that the ratio of geometric means may be?", Also: []string{"trial.ratio.geometric.ci{percent}_lo"}, Value: func(r Ratio) float64 { return r.Low }},
	formula.Output[Ratio]{Name: "geometric_ratio_high", Title: "What is the most that the ratio of geometric means may be?", Also: []string{"trial.ratio.geometric.ci{percent}_hi"}, Value: func(r Ratio) float64 { return r.High }},
	formula.Output[Ratio]{Name: "geometric_ratio_p", Title: "How often would chance alone give such a ratio of geometric means?", Also: []string{"trial.ratio.geometric.p"}, Value: func(r Ratio) float64 { return r.P }},
))

func ratioOf(r Ratio) float64               { return r.Estimate }
func ratioSpan(r Ratio) (low, high float64) { return r.Low, r.High }

func fiellerFormulas(pooled bool) []formula.Formula {
	kind, how, row := "ratio", "degrees of freedom after Welch at the estimate", "trial.ratio.fieller_welch_plugin_df."
	if pooled {
		kind, how, row = "ratio_pooled", "groups that spread alike", "trial.ratio.fieller_pooled."
	}
	return formula.Outputs(formula.Formula{
		Inputs: twoLists(confidenceInput()), Source: "Fieller 1954, J. R. Stat. Soc. B 16:175; " + how,
		Range: "two values or more in each group, mean of y not 0; confidence 0.5 to 0.9999",
		Cautions: []string{aside, "When g is 1 or more the second mean is not clear of nothing and there is no interval: " +
			"the ratios that fit lie outside the two roots."},
	}, func(in *formula.Given) (Ratio, error) {
		return Fieller(in.Numbers("x"), in.Numbers("y"), pooled, confidenceOf(in))
	},
		formula.Output[Ratio]{Name: kind + "_of_means", Title: join("How many times the second mean is the first?", "("+how+")"), Also: []string{row + "estimate"}, Value: ratioOf, Span: boundedSpan},
		formula.Output[Ratio]{Name: kind + "_df", Title: join("How many degrees of freedom has the ratio of means?", "("+how+")"), Also: []string{row + "df"}, Value: func(r Ratio) float64 { return r.DF }},
		formula.Output[Ratio]{Name: kind + "_g", Title: join("How unclear of nothing is the second mean?", "("+how+")"), Also: []string{row + "g"}, Value: func(r Ratio) float64 { return r.G }},
		formula.Output[Ratio]{Name: kind + "_first_root", Title: join("Where does the ratio of means first stop fitting?", "("+how+")"), Also: []string{row + "ci{percent}_lo"}, Value: func(r Ratio) float64 { return r.Roots[0] }},
		formula.Output[Ratio]{Name: kind + "_second_root", Title: join("Where does the ratio of means next stop fitting?", "("+how+")"), Also: []string{row + "ci{percent}_hi"}, Value: func(r Ratio) float64 { return r.Roots[1] }},
	)
}

// boundedSpan gives no interval where there is none.
func boundedSpan(r Ratio) (low, high float64) {
	if !r.Bounded {
		return math.NaN(), math.NaN()
	}
	return r.Low, r.High
}

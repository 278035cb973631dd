package trial

import (
	"math"
	"slices"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// groupsOf reads groups and refuses labels that do not match the values.
func groupsOf(in *formula.Given) ([]string, [][]float64, error) {
	names, groups := grouped(in)
	n := float64(len(in.Numbers("value")))
	return names, groups, quantity.Within("number of labels", float64(len(in.Labels("group"))), n, n, "", "by definition: one a value")
}

var groupFormulas = slices.Concat(formula.Outputs(formula.Formula{
	Inputs: groupInputs(remark("set")), Source: "Fisher 1925, one-way analysis of variance",
	Range: "two groups or more, which are taken to spread alike", Cautions: []string{aside},
}, func(in *formula.Given) (Anova, error) {
	_, groups, err := groupsOf(in)
	if err != nil {
		return Anova{}, err
	}
	return OneWay(groups)
},
	formula.Output[Anova]{Name: "anova_f", Title: "How much more do groups differ than values within them?", Also: []string{"trial.anova1.F", "nist.{set} F"}, Value: func(a Anova) float64 { return a.F }},
	formula.Output[Anova]{Name: "anova_p", Title: "How often would chance alone set several groups so far apart?", Also: []string{"trial.anova1.p"}, Value: func(a Anova) float64 { return a.P }},
	formula.Output[Anova]{Name: "anova_df_between", Title: "How many degrees of freedom lie between groups?", Also: []string{"trial.anova1.df_between"}, Value: func(a Anova) float64 { return a.DFBetween }},
	formula.Output[Anova]{Name: "anova_df_within", Title: "How many degrees of freedom lie within groups?", Also: []string{"trial.anova1.df_within"}, Value: func(a Anova) float64 { return a.DFWithin }},
	formula.Output[Anova]{Name: "anova_ss_between", Title: "How large are the squares between groups?", Also: []string{"trial.anova1.ss_between", "nist.{set} ss_between"}, Value: func(a Anova) float64 { return a.SSBetween }},
	formula.Output[Anova]{Name: "anova_ss_within", Title: "How large are the squares within groups?", Also: []string{"trial.anova1.ss_within", "nist.{set} ss_within"}, Value: func(a Anova) float64 { return a.SSWithin }},
	formula.Output[Anova]{Name: "anova_residual_sd", Title: "How much do values within groups spread?", Also: []string{"trial.anova1.residual_sd", "nist.{set} residual_sd"}, Value: func(a Anova) float64 { return a.ResidualSD }},
	formula.Output[Anova]{Name: "anova_r_squared", Title: "What share of the squares lies between groups?", Also: []string{"nist.{set} r_squared"}, Value: Anova.RSquared},
), formula.Outputs(formula.Formula{
	Inputs: groupInputs(), Source: "Welch 1951, Biometrika 38:330",
	Range: "two groups or more, each of two values or more that differ", Cautions: []string{aside},
}, func(in *formula.Given) (FTest, error) {
	_, groups, err := groupsOf(in)
	if err != nil {
		return FTest{}, err
	}
	return WelchOneWay(groups)
},
	formula.Output[FTest]{Name: "welch_anova_f", Title: "How much do groups differ, whatever their spread?", Also: []string{"trial.anova1.welch_F"}, Value: func(t FTest) float64 { return t.F }},
	formula.Output[FTest]{Name: "welch_anova_df", Title: "How many degrees of freedom has Welch's comparison of groups below?", Also: []string{"trial.anova1.welch_df2"}, Value: func(t FTest) float64 { return t.DF2 }},
	formula.Output[FTest]{Name: "welch_anova_p", Title: "How often would chance alone set groups so far apart, whatever their spread?", Also: []string{"trial.anova1.welch_p"}, Value: func(t FTest) float64 { return t.P }},
), formula.Outputs(formula.Formula{
	Inputs: groupInputs(), Source: "Kruskal & Wallis 1952, J. Am. Stat. Assoc. 47:583, corrected for ties",
	Range: "two groups or more, not all tied", Cautions: []string{aside},
}, func(in *formula.Given) (HTest, error) {
	_, groups, err := groupsOf(in)
	if err != nil {
		return HTest{}, err
	}
	return KruskalWallis(groups)
},
	formula.Output[HTest]{Name: "kruskal_h", Title: "How much do groups differ by ranks?", Also: []string{"trial.anova1.kruskal_H"}, Value: func(t HTest) float64 { return t.H }},
	formula.Output[HTest]{Name: "kruskal_p", Title: "How often would chance alone rank groups so?", Also: []string{"trial.anova1.kruskal_p_chisq"}, Value: func(t HTest) float64 { return t.P }},
))

// comparedPair is one pair with the critical value that its interval used.
type comparedPair struct {
	Pair
	critical float64
}

// chosen finds the pair called later-earlier, such as "trt1-ctrl".
func chosen(name string, names []string, pairs []Pair) (Pair, error) {
	for _, p := range pairs {
		if name == names[p.J]+"-"+names[p.I] {
			return p, nil
		}
	}
	return Pair{}, &formula.InputError{Formula: "comparison of several groups", Input: "pair", Reason: "unknown word",
		Hint: "two groups joined by a hyphen, of " + strings.Join(names, ", ")}
}

func severalInputs(more ...formula.Input) []formula.Input {
	return groupInputs(append([]formula.Input{confidenceInput(), word("pair", "two groups joined by a hyphen: feed2-feed1")}, more...)...)
}

func severalOutputs(kind, row, how string, base formula.Formula, work func(in *formula.Given) (comparedPair, error)) []formula.Formula {
	return formula.Outputs(base, work,
		formula.Output[comparedPair]{Name: kind + "_difference", Title: join("How far apart are two of several groups,", how), Also: []string{row + "diff"}, Value: func(p comparedPair) float64 { return p.Difference }, Span: func(p comparedPair) (l, h float64) { return p.Low, p.High }},
		formula.Output[comparedPair]{Name: kind + "_low", Title: join("What is the least that they may be apart,", how), Also: []string{row + "ci{percent}_lo"}, Value: func(p comparedPair) float64 { return p.Low }},
		formula.Output[comparedPair]{Name: kind + "_high", Title: join("What is the most that they may be apart,", how), Also: []string{row + "ci{percent}_hi"}, Value: func(p comparedPair) float64 { return p.High }},
		formula.Output[comparedPair]{Name: kind + "_t", Title: join("How many standard errors apart are they,", how), Also: []string{row + "t"}, Value: func(p comparedPair) float64 { return p.T }},
		formula.Output[comparedPair]{Name: kind + "_p", Title: join("How often would chance alone set them so far apart,", how), Also: []string{row + "p_adj"}, Value: func(p comparedPair) float64 { return p.P }},
	)
}

var severalFormulas = slices.Concat(severalOutputs("tukey", "trial.anova1.tukey {pair} ", "every two compared?", formula.Formula{
	Inputs: severalInputs(), Source: "Tukey 1953; Kramer 1956, Biometrics 12:307, for groups of unequal size",
	Range: "two groups or more that spread alike; confidence 0.5 to 0.9999", Cautions: []string{aside},
}, func(in *formula.Given) (comparedPair, error) {
	names, groups, err := groupsOf(in)
	if err != nil {
		return comparedPair{}, err
	}
	pairs, err := Tukey(groups, confidenceOf(in))
	if err != nil {
		return comparedPair{}, err
	}
	p, err := chosen(in.Word("pair"), names, pairs)
	return comparedPair{Pair: p}, err
}), severalOutputs("dunnett", "trial.anova1.dunnett {pair} ", "all held against one control?", dunnettBase(severalInputs(controlInput)), func(in *formula.Given) (comparedPair, error) {
	names, pairs, critical, err := dunnettOf(in)
	if err != nil {
		return comparedPair{}, err
	}
	p, err := chosen(in.Word("pair"), names, pairs)
	return comparedPair{p, critical}, err
}), formula.Outputs(dunnettBase(groupInputs(confidenceInput(), controlInput)), func(in *formula.Given) (comparedPair, error) {
	_, _, critical, err := dunnettOf(in)
	return comparedPair{critical: critical}, err
}, formula.Output[comparedPair]{Name: "dunnett_critical", Title: "How many standard errors must a group differ from the control?", Also: []string{"trial.anova1.dunnett.crit{percent}"}, Value: func(p comparedPair) float64 { return p.critical }}))

var controlInput = formula.Input{Name: "control", Meaning: "the group that all others are held against; the first of the alphabet when not given", Default: "first"}

func dunnettBase(inputs []formula.Input) formula.Formula {
	return formula.Formula{Inputs: inputs, Source: "Dunnett 1955, J. Am. Stat. Assoc. 50:1096, by quadrature",
		Range: "two groups or more that spread alike; confidence 0.5 to 0.9999", Cautions: []string{aside}}
}

func dunnettOf(in *formula.Given) ([]string, []Pair, float64, error) {
	names, groups, err := groupsOf(in)
	if err != nil {
		return nil, nil, math.NaN(), err
	}
	control := 0
	if in.Has("control") {
		control = slices.Index(names, in.Word("control"))
	}
	pairs, critical, err := Dunnett(groups, control, confidenceOf(in))
	return names, pairs, critical, err
}

package trial

import (
	"slices"
	"strings"

	"freshet.example/husbandry/formula"
)

// factorInputs take up to four factors, blocks first, with their names.
func factorInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		list("value", "all values", "yield"),
		word("block", "the block of each value, a list of words"),
		word("a", "the level of each value in the first factor, a list of words"),
		word("b", "the same in a second factor, when there is one"),
		word("c", "the same in a third factor, when there is one"),
		{Name: "names", Meaning: "what block, a, b and c are called", Default: "block a b c"},
		remark("data"),
	}, more...)
}

func factorsOf(in *formula.Given) []Factor {
	names := in.Labels("names")
	var factors []Factor
	for i, input := range []string{"block", "a", "b", "c"} {
		if i < 2 || in.Has(input) {
			f := Factor{Name: input, Levels: in.Labels(input)}
			if i < len(names) {
				f.Name = names[i]
			}
			factors = append(factors, f)
		}
	}
	return factors
}

func noSuch(input, hint string) error {
	return &formula.InputError{Formula: "comparison in blocks", Input: input, Reason: "unknown word", Hint: hint}
}

var blockFormulas = slices.Concat(termFormulas, adjustedFormulas)

var termFormulas = formula.Outputs(formula.Formula{
	Inputs:   factorInputs(word("term", "a factor, or two joined by a colon, or Residuals")),
	Source:   "Fisher 1935: each term after those before it, blocks first; confounded terms have none",
	Range:    "every cell filled alike, or the split depends on the order",
	Cautions: []string{aside, "Where cells are missing use factor_f: it does not depend on the order."},
}, func(in *formula.Given) (Term, error) {
	terms, err := Factorial(in.Numbers("value"), factorsOf(in), true)
	if err != nil {
		return Term{}, err
	}
	at := slices.IndexFunc(terms, func(t Term) bool { return t.Name == in.Word("term") })
	if at < 0 {
		return Term{}, noSuch("term", "it may be confounded with terms before it")
	}
	return terms[at], nil
},
	formula.Output[Term]{Name: "term_df", Title: "How many degrees of freedom has a factor?", Also: []string{"trial.rcb {data} {term} df"}, Value: func(t Term) float64 { return t.DF }},
	formula.Output[Term]{Name: "term_ss", Title: "How large are the squares that a factor makes?", Also: []string{"trial.rcb {data} {term} ss"}, Value: func(t Term) float64 { return t.SS }},
	formula.Output[Term]{Name: "term_ms", Title: "How large are a factor's squares for each degree of freedom?", Also: []string{"trial.rcb {data} {term} ms"}, Value: func(t Term) float64 { return t.MS }},
	formula.Output[Term]{Name: "term_f", Title: "How much more does a factor do than chance?", Also: []string{"trial.rcb {data} {term} F"}, Value: func(t Term) float64 { return t.F }},
	formula.Output[Term]{Name: "term_p", Title: "How often would chance alone do as much as a factor?", Also: []string{"trial.rcb {data} {term} p"}, Value: func(t Term) float64 { return t.P }},
)

// A contrast is one level of a factor against its first.
type contrast struct {
	Comparison
	test FTest
}

// contrasted reads "N1" or "N1-N0": level 1 of factor N against its first.
func contrasted(in *formula.Given, asked string) (contrast, error) {
	factors := factorsOf(in)
	name, _, _ := strings.Cut(asked, "-")
	for _, f := range factors {
		for i, level := range levels(f) {
			if i == 0 || name != f.Name+level {
				continue
			}
			e, err := Adjusted(in.Numbers("value"), factors, f.Name, confidenceOf(in))
			if err != nil {
				return contrast{}, err
			}
			return contrast{e.Differences[i-1], e.Test}, nil
		}
	}
	return contrast{}, noSuch("contrast", "a factor and a level after its first: N1 or N1-N0")
}

func adjustedBase(more ...formula.Input) formula.Formula {
	return formula.Formula{
		Inputs:   factorInputs(append([]formula.Input{confidenceInput(), remark("row")}, more...)...),
		Source:   "Yates 1933, Empire J. Exp. Agric. 1:129, least squares without interactions",
		Range:    "cells may be missing; confidence 0.5 to 0.9999",
		Cautions: []string{aside},
	}
}

var adjustedFormulas = slices.Concat(formula.Outputs(adjustedBase(word("contrast", "a factor and a level after its first: N1 or N1-N0")), func(in *formula.Given) (contrast, error) {
	return contrasted(in, in.Word("contrast"))
},
	formula.Output[contrast]{Name: "adjusted_difference", Title: "How much does a treatment add, all others allowed for?", Also: []string{"trial.rcb {data} main effect {contrast} diff", "trial.rcb {data} row {row} missing: coef {contrast}"}, Value: func(c contrast) float64 { return c.Difference }, Span: func(c contrast) (l, h float64) { return c.Low, c.High }},
	formula.Output[contrast]{Name: "adjusted_low", Title: "What is the least that a treatment may add?", Also: []string{"trial.rcb {data} main effect {contrast} ci{percent}_lo"}, Value: func(c contrast) float64 { return c.Low }},
	formula.Output[contrast]{Name: "adjusted_high", Title: "What is the most that a treatment may add?", Also: []string{"trial.rcb {data} main effect {contrast} ci{percent}_hi"}, Value: func(c contrast) float64 { return c.High }},
	formula.Output[contrast]{Name: "adjusted_se", Title: "How uncertain is what a treatment adds?", Also: []string{"trial.rcb {data} main effect {contrast} se", "trial.rcb {data} row {row} missing: se {contrast}"}, Value: func(c contrast) float64 { return c.SE }},
	formula.Output[contrast]{Name: "adjusted_t", Title: "How many standard errors does a treatment add?", Also: []string{"trial.rcb {data} main effect {contrast} t"}, Value: func(c contrast) float64 { return c.T }},
	formula.Output[contrast]{Name: "adjusted_df", Title: "How many degrees of freedom has what a treatment adds?", Also: []string{"trial.rcb {data} main effect {contrast} df"}, Value: func(c contrast) float64 { return c.DF }},
	formula.Output[contrast]{Name: "adjusted_p", Title: "How often would chance alone add as much as a treatment?", Also: []string{"trial.rcb {data} main effect {contrast} p"}, Value: func(c contrast) float64 { return c.P }},
), formula.Outputs(adjustedBase(word("factor", "which factor")), func(in *formula.Given) (FTest, error) {
	e, err := Adjusted(in.Numbers("value"), factorsOf(in), in.Word("factor"), confidenceOf(in))
	return e.Test, err
},
	formula.Output[FTest]{Name: "factor_f", Title: "How much more does a factor do than chance, all others allowed for?", Also: []string{"trial.rcb {data} row {row} missing: F for {factor} adjusted"}, Value: func(t FTest) float64 { return t.F }},
	formula.Output[FTest]{Name: "factor_p", Title: "How often would chance alone do as much, all others allowed for?", Also: []string{"trial.rcb {data} row {row} missing: p for {factor} adjusted"}, Value: func(t FTest) float64 { return t.P }},
))

package trial

import "freshet.example/husbandry/formula"

func difference(c Comparison) float64            { return c.Difference }
func differenceSpan(c Comparison) (l, h float64) { return c.Low, c.High }

var meanFormulas = append(formula.Outputs(formula.Formula{
	Inputs:   twoLists(confidenceInput()),
	Source:   "Welch 1947, Biometrika 34:28; degrees of freedom after Satterthwaite 1946",
	Range:    "two values or more in each group; confidence 0.5 to 0.9999",
	Cautions: []string{aside},
}, func(in *formula.Given) (Comparison, error) {
	return Welch(in.Numbers("x"), in.Numbers("y"), confidenceOf(in))
},
	formula.Output[Comparison]{Name: "welch_difference", Title: "How much more does the first treatment give than the second?", Also: []string{"trial.welch.mean_diff"}, Value: difference, Span: differenceSpan},
	formula.Output[Comparison]{Name: "welch_low", Title: "What is the least that the difference of two means may be?", Also: []string{"trial.welch.ci{percent}_lo", "Welch CI low"}, Value: func(c Comparison) float64 { return c.Low }},
	formula.Output[Comparison]{Name: "welch_high", Title: "What is the most that the difference of two means may be?", Also: []string{"trial.welch.ci{percent}_hi", "Welch CI high"}, Value: func(c Comparison) float64 { return c.High }},
	formula.Output[Comparison]{Name: "welch_t", Title: "How many standard errors apart are two means?", Also: []string{"trial.welch.t", "Welch t"}, Value: func(c Comparison) float64 { return c.T }},
	formula.Output[Comparison]{Name: "welch_df", Title: "How many degrees of freedom has Welch's comparison?", Also: []string{"trial.welch.df", "Welch df"}, Value: func(c Comparison) float64 { return c.DF }},
	formula.Output[Comparison]{Name: "welch_p", Title: "How often would chance alone set two means so far apart?", Also: []string{"trial.welch.p", "Welch p two-sided"}, Value: func(c Comparison) float64 { return c.P }},
), formula.Outputs(formula.Formula{
	Inputs:   twoLists(confidenceInput()),
	Source:   "Student 1908; Fisher 1925",
	Range:    "two values or more in each group, which are taken to spread alike; confidence 0.5 to 0.9999",
	Cautions: []string{aside, "Welch's comparison needs no equal spread: use it unless this one was fixed beforehand."},
}, func(in *formula.Given) (Comparison, error) {
	return Pooled(in.Numbers("x"), in.Numbers("y"), confidenceOf(in))
},
	formula.Output[Comparison]{Name: "pooled_difference", Title: "How much more does the first treatment give, if both spread alike?", Also: []string{"trial.pooled.mean_diff"}, Value: difference, Span: differenceSpan},
	formula.Output[Comparison]{Name: "pooled_low", Title: "What is the least that the difference may be, if both spread alike?", Also: []string{"trial.pooled.ci{percent}_lo", "pooled CI low"}, Value: func(c Comparison) float64 { return c.Low }},
	formula.Output[Comparison]{Name: "pooled_high", Title: "What is the most that the difference may be, if both spread alike?", Also: []string{"trial.pooled.ci{percent}_hi", "pooled CI high"}, Value: func(c Comparison) float64 { return c.High }},
	formula.Output[Comparison]{Name: "pooled_t", Title: "How many standard errors apart are two means, if both spread alike?", Also: []string{"trial.pooled.t", "pooled t"}, Value: func(c Comparison) float64 { return c.T }},
	formula.Output[Comparison]{Name: "pooled_df", Title: "How many degrees of freedom has the pooled comparison?", Also: []string{"trial.pooled.df", "pooled df"}, Value: func(c Comparison) float64 { return c.DF }},
	formula.Output[Comparison]{Name: "pooled_p", Title: "How often would chance alone set two means so far apart, if both spread alike?", Also: []string{"trial.pooled.p", "pooled t df=18 p"}, Value: func(c Comparison) float64 { return c.P }},
)...)

var effectFormulas = []formula.Formula{
	{Name: "cohen_d", Title: "How far apart are two means in standard deviations?", Inputs: twoLists(), Also: []string{"trial.cohen_d"},
		Source: "Cohen 1988", Range: "two values or more in each group", Cautions: []string{"Too large in few beds: see hedges_g."},
		Work: func(in *formula.Given) (formula.Answer, error) {
			d, err := CohenD(in.Numbers("x"), in.Numbers("y"))
			return formula.Number(d), err
		}},
	{Name: "hedges_g", Title: "How far apart are two means in standard deviations, freed of the bias of few beds?", Inputs: twoLists(), Also: []string{"trial.hedges_g"},
		Source: "Hedges 1981, J. Educ. Stat. 6:107", Range: "two values or more in each group",
		Work: func(in *formula.Given) (formula.Answer, error) {
			g, err := HedgesG(in.Numbers("x"), in.Numbers("y"))
			return formula.Number(g), err
		}},
}

func equivalenceInputs() []formula.Input {
	return twoLists(
		formula.Input{Name: "low", Meaning: "the lower margin, fixed beforehand", Low: -1e150, High: 0},
		formula.Input{Name: "high", Meaning: "the upper margin, fixed beforehand", Low: 0, High: 1e150},
		formula.Input{Name: "alpha", Meaning: "level of each of the two tests", Low: 0.0001, High: 0.25, Default: "0.05"})
}

var equivalenceFormulas = formula.Outputs(formula.Formula{
	Inputs:   equivalenceInputs(),
	Source:   "Schuirmann 1987, J. Pharmacokin. Biopharm. 15:657, with Welch's comparison",
	Range:    "two values or more in each group; low up to 0, high from 0; alpha 0.0001 to 0.25",
	Cautions: []string{aside, "The margin must be fixed before the trial."},
}, func(in *formula.Given) (Equivalence, error) {
	return Equivalent(in.Numbers("x"), in.Numbers("y"), in.Float("low"), in.Float("high"), quantityFraction(in, "alpha"))
},
	formula.Output[Equivalence]{Name: "equivalence_p", Title: "How sure is it that two treatments differ by less than the margin?", Also: []string{"trial.equivalence.p"}, Value: func(e Equivalence) float64 { return e.P }},
	formula.Output[Equivalence]{Name: "equivalence_difference", Title: "What is the difference, with the interval to hold against the margin?", Also: []string{"trial.equivalence.diff"}, Value: func(e Equivalence) float64 { return e.Difference }, Span: func(e Equivalence) (l, h float64) { return e.Low, e.High }},
)

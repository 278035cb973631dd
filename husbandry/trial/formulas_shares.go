package trial

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

const independent = "Fish in one tank do not live and die independently: where tanks were drawn by lot, compare tanks."

func shareFormulaOf(name, row, title, source string, interval func(events, n int, confidence quantity.Fraction) (Interval, error)) []formula.Formula {
	return formula.Outputs(formula.Formula{
		Inputs: []formula.Input{
			{Name: "events", Meaning: "how many died, or sprouted, or sickened", Low: 0, High: 1e6, Also: aliases("deaths")},
			{Name: "n", Meaning: "of how many", Low: 1, High: 1e6},
			confidenceInput(),
		},
		Source: source, Range: "events from 0 to n; confidence 0.5 to 0.9999", Cautions: []string{independent},
	}, func(in *formula.Given) (Interval, error) {
		return interval(in.Whole("events"), in.Whole("n"), confidenceOf(in))
	},
		formula.Output[Interval]{Name: name + "_low", Title: join("What is the least that a share may be,", title), Also: []string{"trial.proportion." + row + "_lo"}, Value: func(i Interval) float64 { return i.Low }},
		formula.Output[Interval]{Name: name + "_high", Title: join("What is the most that a share may be,", title), Also: []string{"trial.proportion." + row + "_hi"}, Value: func(i Interval) float64 { return i.High }},
	)
}

var shareFormulas = slices.Concat(
	shareFormulaOf("wilson", "wilson", "by Wilson?", "Wilson 1927, J. Am. Stat. Assoc. 22:209", Wilson),
	shareFormulaOf("wilson_corrected", "wilson_cc", "by Wilson with a half for continuity?", "Newcombe 1998, Stat. Med. 17:857, method 4", WilsonCorrected),
	shareFormulaOf("clopper_pearson", "clopper_pearson", "with at least that confidence?", "Clopper & Pearson 1934, Biometrika 26:404", ClopperPearson),
	shareFormulaOf("jeffreys", "jeffreys", "by Jeffreys?", "Brown, Cai & DasGupta 2001, Stat. Sci. 16:101", Jeffreys),
	shareFormulaOf("mid_p", "midp", "with the observed number counted half?", "Berry & Armitage 1995, The Statistician 44:417", MidP),
)

func twoShareInputs() []formula.Input {
	return []formula.Input{
		{Name: "events_a", Meaning: "events in the first group", Low: 0, High: 1e6},
		{Name: "n_a", Meaning: "observed in the first group", Low: 1, High: 1e6},
		{Name: "events_b", Meaning: "events in the second group", Low: 0, High: 1e6},
		{Name: "n_b", Meaning: "observed in the second group", Low: 1, High: 1e6},
		confidenceInput(),
	}
}

func countsOf(in *formula.Given) (a, b Count) {
	return Count{in.Whole("events_a"), in.Whole("n_a")}, Count{in.Whole("events_b"), in.Whole("n_b")}
}

// estimate is a figure with its interval.
type estimate struct {
	value float64
	Interval
}

func estimated(value float64, i Interval, err error) (estimate, error) {
	return estimate{value, i}, err
}

func estimateOutputs(base formula.Formula, work func(in *formula.Given) (estimate, error), names [3]string, titles [3]string, also [3]string) []formula.Formula {
	return formula.Outputs(base, work,
		formula.Output[estimate]{Name: names[0], Title: titles[0], Also: []string{also[0]}, Value: func(e estimate) float64 { return e.value }, Span: func(e estimate) (l, h float64) { return e.Low, e.High }},
		formula.Output[estimate]{Name: names[1], Title: titles[1], Also: []string{also[1]}, Value: func(e estimate) float64 { return e.Low }},
		formula.Output[estimate]{Name: names[2], Title: titles[2], Also: []string{also[2]}, Value: func(e estimate) float64 { return e.High }},
	)
}

var twoShareFormulas = slices.Concat(estimateOutputs(formula.Formula{
	Inputs: twoShareInputs(), Source: "Newcombe 1998, Stat. Med. 17:873, method 10", Range: "events from 0 to n", Cautions: []string{independent},
}, func(in *formula.Given) (estimate, error) {
	a, b := countsOf(in)
	return estimated(ShareDifference(a, b, confidenceOf(in)))
}, [3]string{"share_difference", "share_difference_low", "share_difference_high"},
	[3]string{"How far apart are two shares?", "What is the least that two shares may be apart?", "What is the most that two shares may be apart?"},
	[3]string{"trial.two_proportions.diff", "trial.two_proportions.newcombe_lo", "trial.two_proportions.newcombe_hi"},
), estimateOutputs(formula.Formula{
	Inputs: twoShareInputs(), Source: "Katz, Baptista, Azen & Pike 1978, Biometrics 34:469", Range: "events in both groups", Cautions: []string{independent},
}, func(in *formula.Given) (estimate, error) {
	a, b := countsOf(in)
	return estimated(RiskRatio(a, b, confidenceOf(in)))
}, [3]string{"risk_ratio", "risk_ratio_low", "risk_ratio_high"},
	[3]string{"How many times the second share is the first?", "What is the least that the ratio of shares may be?", "What is the most that the ratio of shares may be?"},
	[3]string{"trial.two_proportions.risk_ratio", "trial.two_proportions.rr_katz_lo", "trial.two_proportions.rr_katz_hi"},
), formula.Outputs(formula.Formula{
	Inputs: twoShareInputs(), Source: "Fisher 1935, conditional on the number of events; two-sided by least likelihood",
	Range: "events from 0 to n, up to 100,000 in all", Cautions: []string{independent},
}, func(in *formula.Given) (FisherExact, error) {
	a, b := countsOf(in)
	return Fisher(a, b, confidenceOf(in))
},
	formula.Output[FisherExact]{Name: "fisher_p", Title: "How often would chance alone set two shares so far apart, exactly?", Also: []string{"trial.two_proportions.fisher_p"}, Value: func(f FisherExact) float64 { return f.P }},
	formula.Output[FisherExact]{Name: "odds_ratio", Title: "How many times the second group's odds are the first's?", Also: []string{"trial.two_proportions.fisher_cond_or"}, Value: func(f FisherExact) float64 { return f.OddsRatio }, Span: func(f FisherExact) (l, h float64) { return f.Low, f.High }},
	formula.Output[FisherExact]{Name: "odds_ratio_low", Title: "What is the least that the odds ratio may be?", Also: []string{"trial.two_proportions.fisher_or_lo"}, Value: func(f FisherExact) float64 { return f.Low }},
	formula.Output[FisherExact]{Name: "odds_ratio_high", Title: "What is the most that the odds ratio may be?", Also: []string{"trial.two_proportions.fisher_or_hi"}, Value: func(f FisherExact) float64 { return f.High }},
), []formula.Formula{{
	Name: "share_chi_squared_p", Title: "How often would chance alone set two shares so far apart, for large counts?",
	Inputs: twoShareInputs(), Also: []string{"trial.two_proportions.chisq_nocorr_p"},
	Source: "Pearson 1900, chi-squared without correction", Range: "some events, not all", Cautions: []string{independent},
	Work: func(in *formula.Given) (formula.Answer, error) {
		a, b := countsOf(in)
		if err := sensible(confidenceOf(in)); err != nil {
			return formula.Answer{}, err
		}
		p, err := ChiSquaredShares(a, b)
		return formula.Number(p), err
	},
}})

// oneRateInputs take what a second group had for a remark.
func oneRateInputs() []formula.Input {
	inputs := rateInputs()
	inputs[2], inputs[3] = remark("events2"), remark("exposure2")
	return inputs
}

func rateInputs() []formula.Input {
	return []formula.Input{
		{Name: "events1", Meaning: "events in the first group", Low: 0, High: 1e6},
		{Name: "exposure1", Meaning: "fish-days, pump-hours or the like of the first group", Low: 1e-150, High: 1e150},
		{Name: "events2", Meaning: "events in the second group", Low: 0, High: 1e6, Default: "0"},
		{Name: "exposure2", Meaning: "exposure of the second group", Low: 1e-150, High: 1e150, Default: "1"},
		confidenceInput(),
	}
}

var rateFormulas = slices.Concat(estimateOutputs(formula.Formula{
	Inputs: oneRateInputs(), Source: "Garwood 1936, Biometrika 28:437", Range: "events of 0 or more; exposure above 0", Cautions: []string{independent},
}, func(in *formula.Given) (estimate, error) {
	return estimated(Rate(Exposure{in.Whole("events1"), in.Float("exposure1")}, confidenceOf(in)))
}, [3]string{"event_rate", "event_rate_low", "event_rate_high"},
	[3]string{"How often does it happen?", "How seldom may it happen?", "How often may it happen at most?"},
	[3]string{"trial.poisson.rate1", "trial.poisson.rate1_ci{percent}_lo", "trial.poisson.rate1_ci{percent}_hi"},
), formula.Outputs(formula.Formula{
	Inputs: rateInputs(), Source: "Przyborowski & Wilenski 1940, Biometrika 31:313, conditional on the number of events",
	Range: "one event in all at least", Cautions: []string{independent, "The chance and the interval need not agree at the edge."},
}, func(in *formula.Given) (Ratio, error) {
	return RateRatio(Exposure{in.Whole("events1"), in.Float("exposure1")}, Exposure{in.Whole("events2"), in.Float("exposure2")}, confidenceOf(in))
},
	formula.Output[Ratio]{Name: "rate_ratio", Title: "How many times as often does it happen in the first group?", Also: []string{"trial.poisson.ratio"}, Value: ratioOf, Span: ratioSpan},
	formula.Output[Ratio]{Name: "rate_ratio_low", Title: "What is the least that the ratio of rates may be?", Also: []string{"trial.poisson.ratio_ci{percent}_lo"}, Value: func(r Ratio) float64 { return r.Low }},
	formula.Output[Ratio]{Name: "rate_ratio_high", Title: "What is the most that the ratio of rates may be?", Also: []string{"trial.poisson.ratio_ci{percent}_hi"}, Value: func(r Ratio) float64 { return r.High }},
	formula.Output[Ratio]{Name: "rate_ratio_p", Title: "How often would chance alone set two rates so far apart?", Also: []string{"trial.poisson.ratio_p"}, Value: func(r Ratio) float64 { return r.P }},
))

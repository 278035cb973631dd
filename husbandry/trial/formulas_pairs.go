package trial

import (
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func quantityFraction(in *formula.Given, name string) quantity.Fraction {
	return quantity.Fraction(in.Float(name))
}

// pairInputs take pairs as two lists or as differences.
func pairInputs(more ...formula.Input) []formula.Input {
	return append(twoLists(list("d", "differences of the pairs, instead of x and y"), remark("note")), more...)
}

func pairsOf(in *formula.Given) ([]float64, error) {
	if in.Has("d") {
		return in.Numbers("d"), nil
	}
	return Differences(in.Numbers("x"), in.Numbers("y"))
}

var pairFormulas = append(append(formula.Outputs(formula.Formula{
	Inputs:   pairInputs(confidenceInput()),
	Source:   "Student 1908",
	Range:    "two pairs or more; confidence 0.5 to 0.9999",
	Cautions: []string{aside},
}, func(in *formula.Given) (Comparison, error) {
	d, err := pairsOf(in)
	if err != nil {
		return Comparison{}, err
	}
	return PairedDifferences(d, confidenceOf(in))
},
	formula.Output[Comparison]{Name: "paired_difference", Title: "How much more does the first of two partners give?", Also: []string{"trial.paired.mean_diff"}, Value: difference, Span: differenceSpan},
	formula.Output[Comparison]{Name: "paired_low", Title: "What is the least that the mean difference of pairs may be?", Also: []string{"trial.paired.ci{percent}_lo", "paired CI low"}, Value: func(c Comparison) float64 { return c.Low }},
	formula.Output[Comparison]{Name: "paired_high", Title: "What is the most that the mean difference of pairs may be?", Also: []string{"trial.paired.ci{percent}_hi", "paired CI high"}, Value: func(c Comparison) float64 { return c.High }},
	formula.Output[Comparison]{Name: "paired_t", Title: "How many standard errors is the mean difference of pairs from nothing?", Also: []string{"trial.paired.t", "paired t"}, Value: func(c Comparison) float64 { return c.T }},
	formula.Output[Comparison]{Name: "paired_df", Title: "How many degrees of freedom has the comparison of pairs?", Also: []string{"trial.paired.df", "paired df"}, Value: func(c Comparison) float64 { return c.DF }},
	formula.Output[Comparison]{Name: "paired_p", Title: "How often would chance alone give so large a mean difference of pairs?", Also: []string{"trial.paired.p", "paired t p", "Darwin paired t p"}, Value: func(c Comparison) float64 { return c.P }},
), formula.Formula{
	Name: "paired_sd", Title: "How much do the differences of pairs spread?", Inputs: pairInputs(), Also: []string{"trial.paired.sd_diff"},
	Source: "definition", Range: "two pairs or more",
	Work: func(in *formula.Given) (formula.Answer, error) {
		d, err := pairsOf(in)
		if err != nil {
			return formula.Answer{}, err
		}
		s, err := Summary(d)
		return formula.Number(s.SD()), err
	},
}), formula.Outputs(formula.Formula{
	Inputs:   pairInputs(),
	Source:   "Fisher 1935, The Design of Experiments, section 21",
	Range:    "1 to 26 pairs",
	Cautions: []string{aside},
}, func(in *formula.Given) (Permutation, error) {
	d, err := pairsOf(in)
	if err != nil {
		return Permutation{}, err
	}
	return PermuteSigns(d)
},
	formula.Output[Permutation]{Name: "sign_flip_p", Title: "How often does swapping partners give so large a difference, either way?", Also: []string{"trial.paired.signflip_permutation.p_two_sided", "Darwin exact two-sided p"}, Value: Permutation.TwoSided},
	formula.Output[Permutation]{Name: "sign_flip_p_upper", Title: "How often does swapping partners give a difference as high?", Also: []string{"trial.paired.signflip_permutation.p_upper"}, Value: Permutation.Upper},
	formula.Output[Permutation]{Name: "sign_flip_count", Title: "How many ways are there to swap partners?", Also: []string{"trial.paired.signflip_permutation.count"}, Value: func(p Permutation) float64 { return p.Arrangements }},
	formula.Output[Permutation]{Name: "sign_flip_as_high", Title: "How many ways to swap partners give a difference as high?", Also: []string{"Darwin arrangements S>=314"}, Value: func(p Permutation) float64 { return p.AsHigh }},
	formula.Output[Permutation]{Name: "sum_of_differences", Title: "What do the differences of pairs add up to?", Also: []string{"Darwin maize sum"}, Value: func(p Permutation) float64 { return p.Sum }},
)...)

// signedRankResult is what SignedRank gives, as one.
type signedRankResult struct {
	v float64
	Tails
}

var signedRankFormulas = formula.Outputs(formula.Formula{
	Inputs:   pairInputs(),
	Source:   "Wilcoxon 1945, exact given the ties; differences of nothing dropped",
	Range:    "1 to 300 pairs that differ",
	Cautions: []string{aside},
}, func(in *formula.Given) (signedRankResult, error) {
	d, err := pairsOf(in)
	if err != nil {
		return signedRankResult{}, err
	}
	v, tails, err := SignedRank(d)
	return signedRankResult{v, tails}, err
},
	formula.Output[signedRankResult]{Name: "signed_rank_v", Title: "What is the rank sum of the rises among pairs?", Also: []string{"trial.paired.wilcoxon_signed_rank.V", "Wilcoxon signed rank V"}, Value: func(r signedRankResult) float64 { return r.v }},
	formula.Output[signedRankResult]{Name: "signed_rank_p", Title: "How often would chance alone give such ranks of pairs, either way?", Also: []string{"trial.paired.wilcoxon_signed_rank.p_exact_midranks_zeros_dropped", "Wilcoxon signed rank exact p two-sided"}, Value: func(r signedRankResult) float64 { return r.TwoSided }},
	formula.Output[signedRankResult]{Name: "signed_rank_p_upper", Title: "How often would chance alone give ranks of pairs as high?", Also: []string{"Wilcoxon signed rank exact p one-sided"}, Value: func(r signedRankResult) float64 { return r.Upper }},
)

var walshFormulas = formula.Outputs(formula.Formula{
	Inputs:   pairInputs(confidenceInput()),
	Source:   "Hodges & Lehmann 1963, Walsh averages with those of nothing",
	Range:    "1 to 300 pairs; confidence 0.5 to 0.9999",
	Cautions: []string{aside, "The confidence comes in steps: show hodges_lehmann_paired_achieved beside the interval."},
}, func(in *formula.Given) (Shift, error) {
	d, err := pairsOf(in)
	if err != nil {
		return Shift{}, err
	}
	return HodgesLehmannPaired(d, confidenceOf(in))
},
	formula.Output[Shift]{Name: "hodges_lehmann_paired", Title: "How much more does the first of two partners give, whatever the shape?", Also: []string{"trial.paired.hodges_lehmann_walsh.median"}, Value: func(s Shift) float64 { return s.Estimate }, Span: shiftSpan},
	formula.Output[Shift]{Name: "hodges_lehmann_paired_low", Title: "What is the least that the shift of pairs may be?", Also: []string{"trial.paired.hodges_lehmann_walsh.ci{percent}_lo"}, Value: func(s Shift) float64 { return s.Low }},
	formula.Output[Shift]{Name: "hodges_lehmann_paired_high", Title: "What is the most that the shift of pairs may be?", Also: []string{"trial.paired.hodges_lehmann_walsh.ci{percent}_hi"}, Value: func(s Shift) float64 { return s.High }},
	formula.Output[Shift]{Name: "hodges_lehmann_paired_achieved", Title: "What confidence has the interval of the shift of pairs really?", Value: func(s Shift) float64 { return float64(s.Achieved) }},
)

func shiftSpan(s Shift) (low, high float64) { return s.Low, s.High }

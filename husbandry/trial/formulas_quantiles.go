package trial

import (
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func quantileInputs(more ...formula.Input) []formula.Input {
	return append(append([]formula.Input{list("x", "all values")}, more...),
		formula.Input{Name: "p", Meaning: "the share below", Low: 0, High: 1, Default: "0.5"})
}

func quantileFormula(name, row, title, source string, by QuantileType) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Also: []string{"quantile." + row + " p={p}"}, Inputs: quantileInputs(), Source: source,
		Range: "one value or more; p from 0 to 1",
		Work: func(in *formula.Given) (formula.Answer, error) {
			q, err := Quantile(in.Numbers("x"), quantityFraction(in, "p"), by)
			return formula.Number(q), err
		},
	}
}

func weightedFormula(name, row, title, source string, of func(values, weights []float64, p quantity.Fraction) (float64, error)) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Also: []string{"quantile." + row + " p={p}"},
		Inputs: quantileInputs(ranged(list("w", "the weight of each value"), 1e-150, 1e150)), Source: source,
		Range: "weights above 0; p from 0 to 1",
		Work: func(in *formula.Given) (formula.Answer, error) {
			q, err := of(in.Numbers("x"), in.Numbers("w"), quantityFraction(in, "p"))
			return formula.Number(q), err
		},
	}
}

func groupMedianFormula(name, row, title string, of func([]float64) (float64, error)) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Also: []string{"quantile." + row}, Inputs: groupInputs(), Source: "definition",
		Range: "one value or more in each group", Cautions: []string{"Each group weighs alike, however many values it has."},
		Work: func(in *formula.Given) (formula.Answer, error) {
			_, groups, err := groupsOf(in)
			if err != nil {
				return formula.Answer{}, err
			}
			medians, err := GroupMedians(groups)
			if err != nil {
				return formula.Answer{}, err
			}
			m, err := of(medians)
			return formula.Number(m), err
		},
	}
}

const hyndman = "Hyndman & Fan 1996, The American Statistician 50:361, type "

var quantileFormulas = slices.Concat([]formula.Formula{
	quantileFormula("quantile", "type8", "Below which value does a share of the values lie?", hyndman+"8, close to median-unbiased", Type8),
	quantileFormula("quantile_type7", "type7", "Below which value does a share lie, as most spreadsheets have it?", hyndman+"7", Type7),
	quantileFormula("quantile_type6", "type6", "Below which value does a share lie, by Weibull's position?", hyndman+"6", Type6),
	weightedFormula("weighted_quantile", "weighted_inverse_cdf", "Below which value does a share of the weight lie?", "definition: the first value at which the running weight reaches the share", WeightedQuantile),
	weightedFormula("counted_quantile", "weighted_hmisc", "Below which value does a share lie, when each value was seen so often?", hyndman+"7, of the values repeated", CountedQuantile),
	{
		Name: "median_of_all", Title: "What is the middle of all values?", Also: []string{"quantile.median_of_all"}, Inputs: []formula.Input{list("x", "all values", "value"), remark("group")},
		Source: "definition", Range: "one value or more",
		Work: func(in *formula.Given) (formula.Answer, error) {
			m, err := Median(in.Numbers("x"))
			return formula.Number(m), err
		},
	},
	groupMedianFormula("median_of_group_medians", "median_of_group_medians", "What is the middle of the groups' middles?", Median),
	groupMedianFormula("mean_of_group_medians", "mean_of_group_medians", "What is the mean of the groups' middles?", func(m []float64) (float64, error) {
		s, err := Summary(m)
		return s.Mean, err
	}),
})

package chance

import (
	"math"
	"slices"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists the distributions that can be asked for by name.
var Formulas = formula.Finely(slices.Concat(normalFormulas, positiveFormulas, tFormulas, severalFormulas, countFormulas))

// number is an input that must be a number in a range.
func number(name, meaning string, low, high float64, also ...string) formula.Input {
	i := formula.Input{Name: name, Meaning: meaning, Low: low, High: high}
	for _, a := range also {
		i.Also = append(i.Also, formula.Alias{Name: a})
	}
	return i
}

// of makes a Formula of a function of numbers. Each is checked against its
// input's range.
func of(name, title, source string, also []string, inputs []formula.Input, f func(x []float64) float64) formula.Formula {
	return formula.Formula{Name: name, Title: title, Also: also, Inputs: inputs, Source: source, Range: "as the inputs say",
		Work: func(in *formula.Given) (formula.Answer, error) {
			x := make([]float64, len(inputs))
			for i, input := range inputs {
				x[i] = in.Float(input.Name)
				if err := quantity.Within(input.Name, x[i], input.Low, input.High, "", source); err != nil {
					return formula.Answer{}, err
				}
			}
			v := f(x)
			if math.IsNaN(v) {
				return formula.Answer{}, &formula.InputError{Formula: name, Input: "one of them", Reason: "not possible with the others"}
			}
			return formula.Number(v), nil
		}}
}

const handbook = "Abramowitz & Stegun 1964, "

func value(name string) formula.Input { return number(name, "the value", -1e15, 1e15) }

func above(name string) formula.Input { return number(name, "the value", 0, 1e15) }

func chanceInput() formula.Input {
	return number("p", "the chance of staying below", 1e-300, 1-1e-12)
}

func degrees(name string) formula.Input {
	return number(name, "degrees of freedom, fractions allowed", 0.01, 1e9)
}

var normalFormulas = []formula.Formula{
	of("normal_cdf", "How often does a standard normal value stay below?", handbook+"26.2", []string{"dist.normal.cdf x={x}"}, []formula.Input{value("x")},
		func(x []float64) float64 { return NormalCDF(x[0]) }),
	of("normal_quantile", "Below what does a standard normal value stay with a given chance?", handbook+"26.2", []string{"dist.normal.quantile p={p}"}, []formula.Input{chanceInput()},
		func(x []float64) float64 { return NormalQuantile(x[0]) }),
	of("normal_survival", "How often does a standard normal value exceed this?", handbook+"26.2", []string{"dist.normal.sf x={x}"}, []formula.Input{value("x")},
		func(x []float64) float64 { return NormalSurvival(x[0]) }),
	of("normal_density", "How high is the standard normal curve here?", handbook+"26.2.1", []string{"dist.normal.pdf x={x}"}, []formula.Input{value("x")},
		func(x []float64) float64 { return NormalDensity(x[0]) }),
	of("lognormal_quantile", "Below what does a value stay whose logarithm is normal?", handbook+"26.2", []string{"dist.lognormal.quantile p={p} mu={mean} sd={sd}"},
		[]formula.Input{chanceInput(), number("mean", "mean of the logarithm", -300, 300, "mu"), number("sd", "standard deviation of the logarithm", 0, 10)},
		func(x []float64) float64 { return LogNormalQuantile(x[0], x[1], x[2]) }),
}

var tFormulas = []formula.Formula{
	of("t_cdf", "How often does a Student t value stay below?", handbook+"26.7.1", []string{"dist.t.cdf t={t} df={df}"}, []formula.Input{value("t"), degrees("df")},
		func(x []float64) float64 { return TCDF(x[0], x[1]) }),
	of("t_quantile", "Below what does a Student t value stay with a given chance?", handbook+"26.7.1", []string{"dist.t.quantile p={p} df={df}"}, []formula.Input{chanceInput(), degrees("df")},
		func(x []float64) float64 { return TQuantile(x[0], x[1]) }),
	of("t_survival", "How often does a Student t value exceed this?", handbook+"26.7.1", []string{"dist.t.sf t={t} df={df}"}, []formula.Input{value("t"), degrees("df")},
		func(x []float64) float64 { return TSurvival(x[0], x[1]) }),
	of("t_two_sided", "How often is a Student t value as far from nought, either way?", handbook+"26.7.1", []string{"dist.t.two_sided t={t} df={df}"}, []formula.Input{value("t"), degrees("df")},
		func(x []float64) float64 { return TTwoSided(x[0], x[1]) }),
	of("noncentral_t_cdf", "How often does a t value stay below when there is a true difference?", "definition, by quadrature", []string{"dist.noncentral_t.cdf t={t} df={df} ncp={shift}"},
		[]formula.Input{value("t"), number("df", "degrees of freedom", 1, 1e9), number("shift", "the true difference in standard errors", -37, 37, "ncp")},
		func(x []float64) float64 { return NoncentralTCDF(x[0], x[1], x[2]) }),
}

var positiveFormulas = []formula.Formula{
	of("chi_squared_cdf", "How often does a chi-squared value stay below?", handbook+"26.4.19", []string{"dist.chi2.cdf x={x} df={df}"}, []formula.Input{above("x"), degrees("df")},
		func(x []float64) float64 { return ChiSquaredCDF(x[0], x[1]) }),
	of("chi_squared_quantile", "Below what does a chi-squared value stay with a given chance?", handbook+"26.4.19", []string{"dist.chi2.quantile p={p} df={df}"}, []formula.Input{chanceInput(), degrees("df")},
		func(x []float64) float64 { return ChiSquaredQuantile(x[0], x[1]) }),
	of("f_cdf", "How often does a ratio of mean squares stay below?", handbook+"26.6.2", []string{"dist.f.cdf f={f} df1={df1} df2={df2}"}, []formula.Input{above("f"), degrees("df1"), degrees("df2")},
		func(x []float64) float64 { return FCDF(x[0], x[1], x[2]) }),
	of("f_quantile", "Below what does a ratio of mean squares stay with a given chance?", handbook+"26.6.2", []string{"dist.f.quantile p={p} df1={df1} df2={df2}"}, []formula.Input{chanceInput(), degrees("df1"), degrees("df2")},
		func(x []float64) float64 { return FQuantile(x[0], x[1], x[2]) }),
	of("beta_cdf", "How often does a beta value stay below?", handbook+"26.5.8", []string{"dist.beta.cdf x={x} a={a} b={b}"},
		[]formula.Input{number("x", "the value", 0, 1), number("a", "first shape", 1e-6, 1e9), number("b", "second shape", 1e-6, 1e9)},
		func(x []float64) float64 { return BetaCDF(x[0], x[1], x[2]) }),
	of("gamma_cdf", "How often does a gamma value of scale 1 stay below?", handbook+"6.5.29", []string{"dist.gamma.cdf x={x} shape={shape}"},
		[]formula.Input{above("x"), number("shape", "the shape", 1e-6, 1e9)},
		func(x []float64) float64 { return GammaCDF(x[0], x[1]) }),
	of("chi_squared_survival", "How often does a chi-squared value exceed this?", handbook+"26.4.19", []string{"dist.chi2.sf x={x} df={df}"}, []formula.Input{above("x"), degrees("df")},
		func(x []float64) float64 { return ChiSquaredSurvival(x[0], x[1]) }),
	of("f_survival", "How often does a ratio of mean squares exceed this?", handbook+"26.6.2", []string{"dist.f.sf f={f} df1={df1} df2={df2}"}, []formula.Input{above("f"), degrees("df1"), degrees("df2")},
		func(x []float64) float64 { return FSurvival(x[0], x[1], x[2]) }),
	of("gamma_survival", "How often does a gamma value of scale 1 exceed this?", handbook+"6.5.29", []string{"dist.gamma.sf x={x} shape={shape}"},
		[]formula.Input{above("x"), number("shape", "the shape", 1e-6, 1e9)},
		func(x []float64) float64 { return GammaSurvival(x[0], x[1]) }),
	of("gamma_quantile", "Below what does a gamma value of scale 1 stay with a given chance?", handbook+"6.5.29", []string{"dist.gamma.quantile p={p} shape={shape}"},
		[]formula.Input{chanceInput(), number("shape", "the shape", 0.001, 1e6)},
		func(x []float64) float64 { return GammaQuantile(x[0], x[1]) }),
	of("beta_quantile", "Below what does a beta value stay with a given chance?", handbook+"26.5.8", []string{"dist.beta.quantile p={p} a={a} b={b}"},
		[]formula.Input{chanceInput(), number("a", "first shape", 0.001, 1e6), number("b", "second shape", 0.001, 1e6)},
		func(x []float64) float64 { return BetaQuantile(x[0], x[1], x[2]) }),
}

func groupsInput() formula.Input { return number("k", "how many groups", 2, 200, "groups") }

func surestInput() formula.Input {
	return number("p", "the chance of staying below", 1e-300, surest)
}

func wholeDegrees() formula.Input { return number("v", "degrees of freedom", 1, 1e9, "df") }

var severalFormulas = []formula.Formula{
	of("studentized_range_cdf", "How often does the range of several means stay below?", "Tukey 1953, by quadrature", []string{"dist.studentized_range.cdf q={q} k={k} v={v}"},
		[]formula.Input{above("q"), groupsInput(), wholeDegrees()},
		func(x []float64) float64 { return StudentizedRangeCDF(x[0], x[1], x[2]) }),
	of("studentized_range_quantile", "Below what does the range of several means stay with a given chance?", "Tukey 1953, by quadrature", []string{"dist.studentized_range.quantile p={p} k={k} v={v}"},
		[]formula.Input{surestInput(), groupsInput(), wholeDegrees()},
		func(x []float64) float64 { return StudentizedRangeQuantile(x[0], x[1], x[2]) }),
	of("dunnett_cdf", "How often does every comparison with one control, all groups alike in size, stay below?", "Dunnett 1955, by quadrature", []string{"dist.dunnett.cdf t={t} k={k} v={v}"},
		[]formula.Input{above("t"), number("k", "how many groups are held against the control", 1, 200, "groups"), wholeDegrees()},
		func(x []float64) float64 { return DunnettCDF(x[0], EqualLambda(int(x[1])), x[2]) }),
	of("dunnett_quantile", "Below what does every comparison with one control stay with a given chance?", "Dunnett 1955, by quadrature", []string{"dist.dunnett.quantile p={p} k={k} v={v}"},
		[]formula.Input{surestInput(), number("k", "how many groups are held against the control", 1, 200, "groups"), wholeDegrees()},
		func(x []float64) float64 { return DunnettQuantile(x[0], EqualLambda(int(x[1])), x[2]) }),
}

func countInput(name, meaning string) formula.Input {
	return number(name, meaning+", a whole number", 0, 1e9)
}

var countFormulas = []formula.Formula{
	of("binomial_probability", "How often do just so many of n succeed?", "definition", []string{"dist.binom.pmf x={x} n={n} p={p}"},
		[]formula.Input{countInput("x", "how many succeed"), countInput("n", "tries"), number("p", "chance of each", 0, 1)},
		func(x []float64) float64 { return BinomialProbability(x[0], x[1], x[2]) }),
	of("binomial_cdf", "How often do so many of n or fewer succeed?", handbook+"26.5.24", []string{"dist.binom.cdf x={x} n={n} p={p}"},
		[]formula.Input{countInput("x", "how many succeed"), countInput("n", "tries"), number("p", "chance of each", 0, 1)},
		func(x []float64) float64 { return BinomialCDF(x[0], x[1], x[2]) }),
	of("poisson_probability", "How often do just so many events come?", "definition", []string{"dist.poisson.pmf x={x} mean={mean}"},
		[]formula.Input{countInput("x", "events"), number("mean", "how many are expected", 0, 1e9)},
		func(x []float64) float64 { return PoissonProbability(x[0], x[1]) }),
	of("poisson_cdf", "How often do so many events or fewer come?", handbook+"26.4.21", []string{"dist.poisson.cdf x={x} mean={mean}"},
		[]formula.Input{countInput("x", "events"), number("mean", "how many are expected", 0, 1e9)},
		func(x []float64) float64 { return PoissonCDF(x[0], x[1]) }),
	of("hypergeometric_probability", "How often does a draw hold just so many marked ones?", "definition", []string{"dist.hyper.pmf x={x} m={marked} n={plain} k={drawn}"},
		[]formula.Input{countInput("x", "marked ones drawn"), countInput("marked", "marked ones in the box"), countInput("plain", "plain ones in the box"), countInput("drawn", "drawn in all")},
		func(x []float64) float64 { return HypergeometricProbability(x[0], x[1], x[2], x[3]) }),
	of("hypergeometric_cdf", "How often does a draw hold so many marked ones or fewer?", "definition", []string{"dist.hyper.cdf x={x} m={marked} n={plain} k={drawn}"},
		[]formula.Input{countInput("x", "marked ones drawn"), countInput("marked", "marked ones in the box"), countInput("plain", "plain ones in the box"), countInput("drawn", "drawn in all")},
		func(x []float64) float64 { return HypergeometricCDF(x[0], x[1], x[2], x[3]) }),
}

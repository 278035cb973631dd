package fit

import (
	"slices"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every curve that can be laid by name.
var Formulas = formula.Finely(slices.Concat(curveFormulas(), lineFormulas, mixedFormulas, referenceFormulas))

// unsure is beneath every curve.
const unsure = "A curve may fit a short record well and still say nothing of the final size: where a standard error is more than half its figure, show no final size."

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

func remark(name string) formula.Input {
	return formula.Input{Name: name, Meaning: "a remark; it changes nothing", Default: "none"}
}

// remarks are the words that names of check values carry about their data.
func remarks() []formula.Input { return []formula.Input{remark("data"), remark("kind"), remark("who")} }

// figure reads one figure of a fit by its name: a parameter, rss, sigma, or
// with "se_" before it a standard error.
func figure(f Fitted, parameters []string, name string) (formula.Answer, error) {
	list, bare := f.Parameters, name
	if after, found := strings.CutPrefix(name, "se_"); found {
		list, bare = f.SE, after
	}
	at := slices.Index(parameters, bare)
	switch {
	case at >= 0:
		a := formula.Number(list[at])
		if !f.Determined() {
			a.Cautions = []string{"Here the figures are barely determined: " + unsure}
		}
		return a, nil
	case bare == "rss":
		return formula.Number(f.RSS), nil
	case bare == "sigma" || bare == "resid_sd" || bare == "deviation":
		return formula.Number(f.Sigma), nil
	}
	return formula.Answer{}, &formula.InputError{Formula: "curve", Input: "figure", Reason: "unknown word",
		Hint: "one of " + strings.Join(parameters, ", ") + ", rss, sigma; se_ before a parameter for its standard error"}
}

// asked is how the name of a check value tells which figure it means: all
// words in the row, and the same with "se" behind.
func asked(row string) []string { return []string{row + " {figure}", row + " {of} se"} }

func figureInputs() []formula.Input {
	return []formula.Input{
		{Name: "figure", Meaning: "which figure of the fit: a parameter, se_ and a parameter, rss, sigma", Default: "rss"},
		{Name: "of", Meaning: "the parameter whose standard error is asked, instead of figure"},
	}
}

func figureAsked(in *formula.Given) string {
	if in.Has("of") {
		return "se_" + in.Word("of")
	}
	return in.Word("figure")
}

func curveFormula(name, title string, shape func(in *formula.Given) (Shape, error), source string, also []string, more ...formula.Input) formula.Formula {
	return formula.Formula{
		Name: name, Title: title, Also: also, Source: source + "; least squares after Levenberg 1944 and Marquardt 1963, best of several starts",
		Range: "more points than parameters", Cautions: []string{unsure},
		Inputs: slices.Concat([]formula.Input{list("x", "times", "time", "Time"), list("y", "sizes or amounts", "weight", "conc")}, figureInputs(), remarks(), more),
		Work: func(in *formula.Given) (formula.Answer, error) {
			s, err := shape(in)
			if err != nil {
				return formula.Answer{}, err
			}
			f, err := s.Fit(in.Numbers("x"), in.Numbers("y"))
			if err != nil {
				return formula.Answer{}, err
			}
			return figure(f, s.Parameters, figureAsked(in))
		},
	}
}

// uptake has supplies and rates where other curves have times and sizes.
func uptake(f formula.Formula) formula.Formula {
	f.Inputs[0], f.Inputs[1] = list("x", "supplies", "conc"), list("y", "rates of uptake", "rate")
	return f
}

func always(s Shape) func(*formula.Given) (Shape, error) {
	return func(*formula.Given) (Shape, error) { return s, nil }
}

// animal and plain are how names of check values tell whose curve it is.
const (
	animal = "growth.fit {data} {kind} {who} "
	plain  = "growth.fit {data} {who} "
)

// certified is how the names of NIST's certified values tell whose curve they are:
// after the set's name none, one or two words of what it is of.
func certified(models ...string) (names []string) {
	for _, model := range models {
		for _, of := range []string{"", "{kind} ", "{kind} {who} "} {
			names = append(names, "nist.{data} "+of+model+" {figure}")
		}
	}
	return names
}

func curveFormulas() []formula.Formula {
	doseInput := formula.Input{Name: "dose", Meaning: "what was given, in the unit of the clearance", Low: 1e-150, High: 1e150}
	f := []formula.Formula{
		curveFormula("logistic_curve", "Which logistic curve do the sizes follow?", always(Logistic), Logistic.Source,
			append(asked(animal+"logistic"), "ChickWeight chick 1 se({of})", "ChickWeight chick 1 {figure}", "Orange pooled logistic {figure}", "Orange pooled se({of})", "Orange pooled {figure}")),
		curveFormula("gompertz_curve", "Which Gompertz curve do the sizes follow?", always(Gompertz), Gompertz.Source, asked(animal+"gompertz")),
		curveFormula("bertalanffy_curve", "Which von Bertalanffy curve do the lengths follow?", always(VonBertalanffy), VonBertalanffy.Source, asked(animal+"vonBertalanffy")),
		curveFormula("exponential_curve", "Which exponential do the sizes follow, in plain squares?", always(Exponential), Exponential.Source, asked(animal+"exponential_nls")),
		curveFormula("saturation_curve", "Which approach to a ceiling do the amounts follow?", always(Saturation), Saturation.Source,
			certified("y=b1(1-exp(-b2 x))")),
		curveFormula("logistic_curve_nist", "Which logistic curve, in the letters of NIST, do the sizes follow?", always(LogisticNIST), LogisticNIST.Source,
			certified("y=b1/(1+exp(b2-b3 x))")),
		curveFormula("richards_curve", "Which Richards curve do the sizes follow?", always(Richards), Richards.Source,
			certified("y=b1/(1+exp(b2-b3 x))^(1/b4)", "y=b1/((1+exp(b2-b3 x))^(1/b4))")),
		uptake(curveFormula("uptake_curve", "Which Michaelis-Menten curve does uptake follow?", always(MichaelisMenten), MichaelisMenten.Source, asked(plain+"Michaelis-Menten"))),
		curveFormula("two_losses_curve", "Which quick and which slow loss do the amounts follow?", always(Biexponential), Biexponential.Source, asked(animal+"biexponential")),
		curveFormula("dose_curve", "How is a dose taken up and lost?", func(in *formula.Given) (Shape, error) { return FirstOrder(in.Float("dose")) }, "Bateman 1910",
			asked(animal+"first-order compartment"), doseInput),
		{
			Name: "logistic_residual_sd", Title: "How far do sizes lie from their logistic curve?", Also: []string{"Orange pooled residual SE (32 df)", "ChickWeight chick 1 residual SE (9 df)", "ChickWeight chick 1 residual SE", "Orange pooled residual SE"},
			Inputs: []formula.Input{list("x", "times"), list("y", "sizes")}, Source: Logistic.Source, Range: "four points or more", Cautions: []string{unsure},
			Work: func(in *formula.Given) (formula.Answer, error) {
				f, err := Logistic.Fit(in.Numbers("x"), in.Numbers("y"))
				return formula.Number(f.Sigma), err
			},
		},
	}
	return f
}

// aLine is a line with what it says a little beyond the last point.
type aLine struct {
	Line
	at, low, high float64
}

func lineOf(fit func(x, y []float64) (Line, error)) func(in *formula.Given) (aLine, error) {
	return func(in *formula.Given) (aLine, error) {
		x := in.Numbers("x")
		l, err := fit(x, in.Numbers("y"))
		if err != nil {
			return aLine{}, err
		}
		a := aLine{Line: l}
		a.at, a.low, a.high, err = l.Predict(slices.Max(x)+in.Float("beyond"), quantity.Fraction(in.Float("confidence")))
		return a, err
	}
}

func lineBase(source string) formula.Formula {
	return formula.Formula{
		Inputs: slices.Concat([]formula.Input{list("x", "times or degree-days", "time"), ranged(list("y", "sizes, above 0", "weight"), 1e-150, 1e150),
			{Name: "beyond", Meaning: "how far beyond the last point to look", Low: -1e150, High: 1e150, Default: "2"},
			{Name: "confidence", Meaning: "how often such an interval is to hold the next value", Low: 0.5, High: 0.9999, Default: "0.9",
				Also: []formula.Alias{{Name: "percent", Change: func(p float64) float64 { return p / 100 }}}}}, remarks()),
		Source: source, Range: "three points or more, sizes above 0",
		Cautions: []string{"Taken back from the logarithm or the cube root, the line gives the middle size to come, not the mean."},
	}
}

func lineOutputs(name, row, scale, rate, start, slope, sigma string) []formula.Output[aLine] {
	return []formula.Output[aLine]{
		{Name: name + "_start", Title: "Where does the line of " + scale + " start?", Also: []string{row + start}, Value: func(l aLine) float64 { return l.Intercept }},
		{Name: name + "_start_se", Title: "How uncertain is where the line of " + scale + " starts?", Also: []string{row + start + " se"}, Value: func(l aLine) float64 { return l.InterceptSE }},
		{Name: name + "_rate", Title: rate, Also: []string{row + slope}, Value: func(l aLine) float64 { return l.Slope }},
		{Name: name + "_rate_se", Title: "How uncertain is the slope of " + scale + "?", Also: []string{row + slope + " se"}, Value: func(l aLine) float64 { return l.SlopeSE }},
		{Name: name + "_sigma", Title: "How far do " + scale + " lie from their line?", Also: []string{row + sigma}, Value: func(l aLine) float64 { return l.Sigma }},
		{Name: name + "_next", Title: "What does the line of " + scale + " say a little beyond the last point?", Also: []string{row + "pred{percent}_cuberoot at xmax+{beyond} fit"}, Value: func(l aLine) float64 { return l.at }, Span: func(l aLine) (low, high float64) { return l.low, l.high }},
		{Name: name + "_next_low", Title: "How low may the next of " + scale + " be?", Also: []string{row + "pred{percent} lo"}, Value: func(l aLine) float64 { return l.low }},
		{Name: name + "_next_high", Title: "How high may the next of " + scale + " be?", Also: []string{row + "pred{percent} hi"}, Value: func(l aLine) float64 { return l.high }},
	}
}

var lineFormulas = slices.Concat(
	formula.Outputs(lineBase("least squares on ln y"), lineOf(LogLine),
		lineOutputs("log_growth", animal+"exponential_loglin ", "logarithms", "How fast do sizes grow, as a share for each unit of time?", "lnW0", "sgr", "sigma_log")...),
	formula.Outputs(lineBase("least squares on the cube root of y"), lineOf(CubeRootLine),
		lineOutputs("cube_root_growth", animal+"cuberoot_linear ", "cube roots", "How fast do cube roots of sizes grow?", "a", "b", "sigma")...),
)

package watch

import (
	"slices"

	"freshet.example/husbandry/formula"
)

func aheadInput() formula.Input { return number("h", "how many readings ahead", 1, 1000, "1") }

func shareInput(name, meaning, usual string) formula.Input { return number(name, meaning, 0, 1, usual) }

func simpleOf(in *formula.Given) (Forecast, error) {
	return Simple(in.Numbers("value"), share(in, "alpha"), 1)
}

func simpleBestOf(in *formula.Given) (fitted, error) {
	values := in.Numbers("value")
	alpha, err := SimpleBest(values)
	if err != nil {
		return fitted{}, err
	}
	f, err := Simple(values, alpha, 1)
	return fitted{float64(alpha), f}, err
}

// fitted is a forecast with the share that was looked for.
type fitted struct {
	alpha float64
	Forecast
}

func holtOf(in *formula.Given) (Forecast, error) {
	return Holt(in.Numbers("value"), share(in, "a"), share(in, "b"), in.Whole("h"))
}

var smoothFormulas = slices.Concat(formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), shareInput("alpha", "how much of each error is believed", "0.2")}, Source: "Brown 1959, level started at the first reading",
	Range: "two readings or more; alpha 0 to 1",
}, simpleOf,
	formula.Output[Forecast]{Name: "simple_next", Title: "What comes next, by simple smoothing?", Also: []string{"monitor.ses alpha={alpha} next"}, Value: func(f Forecast) float64 { return f.Next[0] }},
	formula.Output[Forecast]{Name: "simple_mse", Title: "How large are the squared errors of simple smoothing, on average?", Also: []string{"monitor.ses alpha={alpha} one_step_mse"}, Value: func(f Forecast) float64 { return f.MSE }},
	formula.Output[Forecast]{Name: "simple_mae", Title: "How large are the errors of simple smoothing, on average?", Also: []string{"monitor.ses alpha={alpha} one_step_mae"}, Value: func(f Forecast) float64 { return f.MAE }},
), formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings()}, Source: "Brown 1959, alpha of the fewest squares", Range: "three readings or more",
}, simpleBestOf,
	formula.Output[fitted]{Name: "simple_best_alpha", Title: "How much of each error is best believed?", Also: []string{"monitor.ses.alpha_min_sse"}, Value: func(f fitted) float64 { return f.alpha }},
	formula.Output[fitted]{Name: "simple_best_sse", Title: "How large are the squares of the best simple smoothing?", Also: []string{"monitor.ses.sse"}, Value: func(f fitted) float64 { return f.SSE }},
), formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), shareInput("a", "how much of each error the level believes", "0.3"), shareInput("b", "how much the trend believes", "0.1"), aheadInput()},
	Source: "Holt 1957, started at the second reading and the first step", Range: "three readings or more; shares 0 to 1; 1 to 1,000 ahead",
}, holtOf,
	formula.Output[Forecast]{Name: "holt_sse", Title: "How large are the squares of smoothing with a trend?", Also: []string{"monitor.holt a={a} b={b} sse"}, Value: func(f Forecast) float64 { return f.SSE }},
	formula.Output[Forecast]{Name: "holt_forecast", Title: "What comes so many readings ahead, by smoothing with a trend?", Also: []string{"monitor.holt f+{h}"}, Value: func(f Forecast) float64 { return f.Next[len(f.Next)-1] }},
))

func periodInput() formula.Input {
	return number("period", "how many readings make a season", 1, 366, "12")
}

func wintersFormulas(name, row, how string, kind Season) []formula.Formula {
	values := readings()
	if kind == Multiplicative {
		values.Low = 1e-150
	}
	shares := []formula.Input{values, number("period", "how many readings make a season", 2, 366, "12"), aheadInput(), shareInput("alpha", "how much of each error the level believes", "0.3"),
		shareInput("beta", "how much the trend believes", "0.05"), shareInput("gamma", "how much the season believes", "0.2")}
	const source = "Winters 1960, Management Sci. 6:324, started from the first two seasons"
	fixed := formula.Outputs(formula.Formula{Inputs: shares, Source: source, Range: "two seasons and a reading at least; shares 0 to 1"}, func(in *formula.Given) (Seasonal, error) {
		by := Shares{share(in, "alpha"), share(in, "beta"), share(in, "gamma")}
		return HoltWinters(in.Numbers("value"), in.Whole("period"), kind, by, in.Whole("h"))
	},
		formula.Output[Seasonal]{Name: name + "_sse", Title: "How large are the squares of smoothing with a season" + how, Also: []string{row + " sse"}, Value: func(s Seasonal) float64 { return s.SSE }},
		formula.Output[Seasonal]{Name: name + "_level", Title: "Where does the level stand under a season" + how, Also: []string{row + " level"}, Value: func(s Seasonal) float64 { return s.Level }},
		formula.Output[Seasonal]{Name: name + "_trend", Title: "How fast does the level rise under a season" + how, Also: []string{row + " trend"}, Value: func(s Seasonal) float64 { return s.Trend }},
		formula.Output[Seasonal]{Name: name + "_forecast", Title: "What comes so many readings ahead, by a season" + how, Also: []string{row + " f+{h}"}, Value: func(s Seasonal) float64 { return s.Next[len(s.Next)-1] }},
	)
	best := formula.Outputs(formula.Formula{Inputs: shares[:3], Source: source + ", shares of the fewest squares", Range: "two seasons and a reading at least",
		Cautions: []string{"The valley is shallow: other shares fit almost as well."}}, func(in *formula.Given) (Seasonal, error) {
		return HoltWintersBest(in.Numbers("value"), in.Whole("period"), kind, in.Whole("h"))
	},
		formula.Output[Seasonal]{Name: name + "_best_sse", Title: "How large are the squares of the best smoothing with a season" + how, Also: []string{row + "_optimised sse"}, Value: func(s Seasonal) float64 { return s.SSE }},
		formula.Output[Seasonal]{Name: name + "_best_forecast", Title: "What comes so many readings ahead, by the best smoothing with a season" + how, Also: []string{row + "_optimised f+{h}"}, Value: func(s Seasonal) float64 { return s.Next[len(s.Next)-1] }},
	)
	return append(fixed, best...)
}

var seasons = []string{"additive", "multiplicative"}

func etsBase(more ...formula.Input) formula.Formula {
	return formula.Formula{
		Inputs: append([]formula.Input{readings(), number("period", "how many readings make a season", 2, 24, "12"), {Name: "season", Meaning: "whether the season adds or multiplies", Choices: seasons, Default: "additive"}}, more...),
		Source: "Hyndman, Koehler, Snyder & Grose 2002, Int. J. Forecasting 18:439", Range: "three seasons at least, of 2 to 24 readings",
		Cautions: []string{"What the search finds depends on where it starts: do not trust the third digit."},
	}
}

func etsOf(in *formula.Given) (ETSFit, error) {
	return ETS(in.Numbers("value"), in.Whole("period"), Season(slices.Index(seasons, in.Word("season"))))
}

var seasonalFormulas = slices.Concat(
	wintersFormulas("winters_additive", "outlook.seasonal.hw_additive", " that adds?", Additive),
	wintersFormulas("winters_multiplicative", "outlook.seasonal.hw_multiplicative", " that multiplies?", Multiplicative),
	formula.Outputs(etsBase(), etsOf,
		formula.Output[ETSFit]{Name: "ets_aicc", Title: "How good is the smoothing model for its size?", Also: []string{"outlook.seasonal.ets aicc"}, Value: func(f ETSFit) float64 { return f.AICc }},
		formula.Output[ETSFit]{Name: "ets_sigma", Title: "How far off are the smoothing model's forecasts?", Also: []string{"outlook.seasonal.ets sigma"}, Value: func(f ETSFit) float64 { return f.Sigma }},
	),
	spanFormulas("ets", "by the smoothing model", "outlook.seasonal.ets", etsBase(aheadInput(), confidenceInput("0.9")), func(in *formula.Given) (Span, error) {
		f, err := etsOf(in)
		if err != nil {
			return Span{}, err
		}
		return f.Forecast(in.Whole("h"), share(in, "confidence"))
	}),
)

func spanFormulas(name, how, row string, base formula.Formula, work func(in *formula.Given) (Span, error)) []formula.Formula {
	return formula.Outputs(base, work,
		formula.Output[Span]{Name: name + "_forecast", Title: "What comes so many readings ahead, " + how + "?", Also: []string{row + " f+{h}"}, Value: func(s Span) float64 { return s.Value }, Span: func(s Span) (l, h float64) { return s.Low, s.High }},
		formula.Output[Span]{Name: name + "_low", Title: "How low may it be so many readings ahead, " + how + "?", Also: []string{row + " lo{percent} +{h}"}, Value: func(s Span) float64 { return s.Low }},
		formula.Output[Span]{Name: name + "_high", Title: "How high may it be so many readings ahead, " + how + "?", Also: []string{row + " hi{percent} +{h}"}, Value: func(s Span) float64 { return s.High }},
	)
}

var noPeriod = formula.Input{Name: "period", Meaning: "a remark; it changes nothing", Default: "none"}

func naiveBase(period formula.Input, more ...formula.Input) formula.Formula {
	return formula.Formula{Inputs: append([]formula.Input{readings(), period, aheadInput(), confidenceInput("0.9")}, more...),
		Source: "Hyndman & Athanasopoulos 2021, Forecasting: Principles and Practice, 5.2 and 5.5", Range: "more readings than one season",
		Cautions: []string{"A forecast that does not beat this one is not worth showing."}}
}

func rollingFormulas(name, row, how string, seasonal bool) []formula.Formula {
	return formula.Outputs(naiveBase(periodInput(), number("from", "how many readings there are before the first forecast; five seasons when not given", 2, 1e6, "")), func(in *formula.Given) (Record, error) {
		period, from := in.Whole("period"), 5*in.Whole("period")
		if in.Has("from") {
			from = in.Whole("from")
		}
		if !seasonal {
			period = 1
		}
		return Rolling(in.Numbers("value"), period, in.Whole("h"), from, share(in, "confidence"))
	},
		formula.Output[Record]{Name: name + "_coverage", Title: "How often would the intervals have held, " + how + "?", Also: []string{row + " rolling h={h} coverage{percent}"}, Value: func(r Record) float64 { return r.Coverage }},
		formula.Output[Record]{Name: name + "_width", Title: "How wide would the intervals have been, " + how + "?", Also: []string{row + " rolling h={h} mean_width"}, Value: func(r Record) float64 { return r.MeanWidth }},
		formula.Output[Record]{Name: name + "_mae", Title: "How far off would the forecasts have been, " + how + "?", Also: []string{row + " rolling h={h} mae"}, Value: func(r Record) float64 { return r.MAE }},
		formula.Output[Record]{Name: name + "_forecasts", Title: "How many forecasts can be checked, " + how + "?", Also: []string{row + " rolling h={h} n_origins"}, Value: func(r Record) float64 { return float64(r.Forecasts) }},
	)
}

var naiveFormulas = slices.Concat(
	spanFormulas("last_reading", "when the last reading stays", "outlook.seasonal.naive", naiveBase(noPeriod), func(in *formula.Given) (Span, error) {
		return Naive(in.Numbers("value"), 1, in.Whole("h"), share(in, "confidence"))
	}),
	spanFormulas("last_season", "when the last season comes again", "outlook.seasonal.snaive", naiveBase(periodInput()), func(in *formula.Given) (Span, error) {
		return Naive(in.Numbers("value"), in.Whole("period"), in.Whole("h"), share(in, "confidence"))
	}),
	spanFormulas("steady_step", "when the mean step goes on", "outlook.seasonal.drift", naiveBase(noPeriod), func(in *formula.Given) (Span, error) {
		return Drift(in.Numbers("value"), in.Whole("h"), share(in, "confidence"))
	}),
	rollingFormulas("last_reading", "outlook.seasonal.naive", "when the last reading stays", false),
	rollingFormulas("last_season", "outlook.seasonal.snaive", "when the last season comes again", true),
	[]formula.Formula{{
		Name: "last_season_mase", Title: "How far off was the season before, for the last season, against how far off it used to be?",
		Inputs: []formula.Input{readings(), periodInput()}, Also: []string{"outlook.seasonal.mase of snaive on last season"},
		Source: "Hyndman & Koehler 2006, Int. J. Forecasting 22:679", Range: "more than two seasons",
		Work: func(in *formula.Given) (formula.Answer, error) {
			m, err := LastSeasonMASE(in.Numbers("value"), in.Whole("period"))
			return formula.Number(m), err
		},
	}},
)

func scoreInputs() []formula.Input {
	return []formula.Input{
		{Name: "y", Meaning: "what came", Low: -1e150, High: 1e150},
		{Name: "mu", Meaning: "the forecast's mean", Low: -1e150, High: 1e150},
		{Name: "sd", Meaning: "its standard deviation", Low: 1e-150, High: 1e150},
	}
}

func logScoreInputs(more ...formula.Input) []formula.Input {
	return append([]formula.Input{
		{Name: "y", Meaning: "what came", Low: 1e-150, High: 1e150},
		{Name: "mu", Meaning: "the mean of the forecast's logarithm", Low: -300, High: 300},
		{Name: "sd", Meaning: "the standard deviation of its logarithm", Low: 1e-150, High: 20},
	}, more...)
}

// scoreFormula makes a Formula of a score.
func scoreFormula(name, title, source, row string, inputs []formula.Input, score func(in *formula.Given) (float64, error)) formula.Formula {
	return formula.Formula{Name: name, Title: title, Also: []string{row}, Inputs: inputs, Source: source, Range: "standard deviation above 0",
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := score(in)
			return formula.Number(v), err
		}}
}

var scoreFormulas = []formula.Formula{
	scoreFormula("crps_normal", "How far was a normal forecast from what came?", "Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359", "score.crps_normal", scoreInputs(),
		func(in *formula.Given) (float64, error) {
			return CRPSNormal(in.Float("y"), in.Float("mu"), in.Float("sd"))
		}),
	scoreFormula("crps_normal_of_log", "How far was a normal forecast of the logarithm from what came?", "Gneiting & Raftery 2007, on the logarithm", "score.crps_normal_of_log", logScoreInputs(),
		func(in *formula.Given) (float64, error) {
			return CRPSNormalOfLog(in.Float("y"), in.Float("mu"), in.Float("sd"))
		}),
	scoreFormula("crps_lognormal", "How far was a lognormal forecast from what came?", "Baran & Lerch 2015, Q. J. R. Meteorol. Soc. 141:2289", "score.crps_lognormal", logScoreInputs(),
		func(in *formula.Given) (float64, error) {
			return CRPSLogNormal(in.Float("y"), in.Float("mu"), in.Float("sd"))
		}),
	scoreFormula("pinball", "What is the loss of a forecast quantile?", "Koenker & Bassett 1978, Econometrica 46:33", "score.pinball",
		[]formula.Input{{Name: "y", Meaning: "what came", Low: -1e150, High: 1e150}, {Name: "quantile", Meaning: "the quantile that was forecast", Low: -1e150, High: 1e150},
			number("p", "the share below the quantile", 1e-9, 1-1e-9, "")},
		func(in *formula.Given) (float64, error) {
			return Pinball(in.Float("y"), in.Float("quantile"), in.Float("p"))
		}),
	scoreFormula("interval_score", "What is the score of a forecast interval?", "Winkler 1972, J. Am. Stat. Assoc. 67:187", "score.interval",
		[]formula.Input{{Name: "y", Meaning: "what came", Low: -1e150, High: 1e150}, {Name: "low", Meaning: "low end of the interval", Low: -1e150, High: 1e150},
			{Name: "high", Meaning: "high end of the interval", Low: -1e150, High: 1e150}, number("alpha", "1 less the interval's confidence", 0.0001-1e-12, 0.5, "")},
		func(in *formula.Given) (float64, error) {
			return IntervalScore(in.Float("y"), in.Float("low"), in.Float("high"), in.Float("alpha"))
		}),
	scoreFormula("scaled_error", "How far off were forecasts, against those that repeat the season before?", "Hyndman & Koehler 2006, Int. J. Forecasting 22:679", "score.mase",
		[]formula.Input{list("history", "readings before"), list("came", "what came"), list("forecast", "what was forecast"), periodInput()},
		func(in *formula.Given) (float64, error) {
			return MASE(in.Numbers("history"), in.Numbers("came"), in.Numbers("forecast"), in.Whole("period"))
		}),
	scoreFormula("pinball_lognormal", "What is the loss of a lognormal forecast's quantile?", "Koenker & Bassett 1978, Econometrica 46:33", "score.pinball_{p}",
		logScoreInputs(number("p", "the share below the quantile", 1e-9, 1-1e-9, "")),
		func(in *formula.Given) (float64, error) {
			return PinballLogNormal(in.Float("y"), in.Float("mu"), in.Float("sd"), in.Float("p"))
		}),
	scoreFormula("interval_score_lognormal", "What is the score of a lognormal forecast's interval?", "Winkler 1972, J. Am. Stat. Assoc. 67:187", "score.interval{percent}_winkler",
		logScoreInputs(confidenceInput("0.9")),
		func(in *formula.Given) (float64, error) {
			return IntervalScoreLogNormal(in.Float("y"), in.Float("mu"), in.Float("sd"), share(in, "confidence"))
		}),
}

package watch

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Formulas lists every way of watching readings that can be asked for by name.
var Formulas = formula.Finely(slices.Concat(plainFormulas, chartFormulas, trendFormulas, breakFormulas, smoothFormulas, seasonalFormulas, naiveFormulas, scoreFormulas))

// following is beneath every chart and test of single readings.
const following = "Readings that follow one another closely signal too often: take out the daily and seasonal course first."

func list(name, meaning string, also ...string) formula.Input {
	i := formula.Input{Name: name, Meaning: meaning + ", a list", Low: -1e150, High: 1e150}
	for _, a := range also {
		i.Also = append(i.Also, formula.Alias{Name: a})
	}
	return i
}

func readings() formula.Input { return list("value", "readings in order of time", "y") }

func number(name, meaning string, low, high float64, usual string) formula.Input {
	return formula.Input{Name: name, Meaning: meaning, Low: low, High: high, Default: usual}
}

func confidenceInput(usual string) formula.Input {
	return formula.Input{Name: "confidence", Meaning: "how often such an interval is to hold", Low: 0.5, High: 0.9999, Default: usual,
		Also: []formula.Alias{{Name: "percent", Change: func(p float64) float64 { return p / 100 }}}}
}

func share(in *formula.Given, name string) quantity.Fraction {
	return quantity.Fraction(in.Float(name))
}

// single makes a Formula of one figure of the readings.
func single(name, title, source, row string, f func([]float64) (float64, error)) formula.Formula {
	return formula.Formula{Name: name, Title: title, Also: []string{row}, Inputs: []formula.Input{readings()}, Source: source, Range: "two readings or more",
		Work: func(in *formula.Given) (formula.Answer, error) {
			v, err := f(in.Numbers("value"))
			return formula.Number(v), err
		}}
}

// modified is the modified z of readings.
type modified struct {
	farthest float64
	flagged  int
}

var plainFormulas = slices.Concat([]formula.Formula{
	single("readings_mean", "What is the mean of the readings?", "definition", "monitor.mean", Mean),
	single("readings_sd", "How much do the readings spread?", "definition, n-1 below", "monitor.sd", SD),
	single("readings_median", "What is the middle reading?", "definition", "monitor.median", Median),
	single("readings_mad", "How much do the readings spread, a few wild ones apart?", "Hampel 1974, J. Am. Stat. Assoc. 69:383; times 1.4826", "monitor.mad_x1.4826", MAD),
}, formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), number("floor", "the smallest distance that the sensor can tell", 1e-150, 1e150, "1e-150"), number("limit", "from which z a reading counts as an outlier", 0.5, 100, "3.5")},
	Source: "Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers", Range: "two readings or more",
	Cautions: []string{"Give the floor of a coarse sensor: where more than half of the readings agree, any other looks far out.", following},
}, func(in *formula.Given) (modified, error) {
	z, err := ModifiedZ(in.Numbers("value"), in.Float("floor"))
	return modified{Farthest(z), Beyond(z, in.Float("limit"))}, err
},
	formula.Output[modified]{Name: "farthest_reading", Title: "How far out is the farthest reading (modified z)?", Also: []string{"monitor.max_abs_modified_z"}, Value: func(m modified) float64 { return m.farthest }},
	formula.Output[modified]{Name: "outliers", Title: "How many readings are outliers?", Also: []string{"monitor.n_flagged_{limit}"}, Value: func(m modified) float64 { return float64(m.flagged) }},
))

func firstInput() formula.Input {
	return number("first", "how many readings at the start are known to be good", 2, 1e7, "20")
}

var chartFormulas = slices.Concat(formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings()}, Source: "Shewhart 1931; limits from the mean moving range over 2/sqrt(pi)",
	Range: "two readings or more that differ", Cautions: []string{following},
}, func(in *formula.Given) (Chart, error) {
	return Individuals(in.Numbers("value"))
},
	formula.Output[Chart]{Name: "individuals_sigma", Title: "How much does one reading differ from the next, as a standard deviation?", Also: []string{"monitor.individuals.sigma_mrbar"}, Value: func(c Chart) float64 { return c.Sigma }},
	formula.Output[Chart]{Name: "individuals_lower", Title: "Below what is a reading out of the ordinary?", Also: []string{"monitor.individuals.lcl"}, Value: func(c Chart) float64 { return c.Lower }},
	formula.Output[Chart]{Name: "individuals_upper", Title: "Above what is a reading out of the ordinary?", Also: []string{"monitor.individuals.ucl"}, Value: func(c Chart) float64 { return c.Upper }},
	formula.Output[Chart]{Name: "individuals_range_upper", Title: "What change from one reading to the next is out of the ordinary?", Also: []string{"monitor.individuals.mr_ucl"}, Value: func(c Chart) float64 { return c.RangeUpper }},
	formula.Output[Chart]{Name: "individuals_outside", Title: "How many readings are out of the ordinary?", Also: []string{"monitor.individuals.n_outside"}, Value: func(c Chart) float64 { return float64(len(c.Outside)) }},
), formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), number("lambda", "weight of each reading", 1e-6, 1, "0.2"), number("limit", "limits, in standard deviations", 1, 6, "3"), firstInput()},
	Source: "Roberts 1959, Technometrics 1:239; limits that widen at first, Lucas & Saccucci 1990", Range: "two readings or more", Cautions: []string{following},
}, func(in *formula.Given) (Smoothed, error) {
	return EWMA(in.Numbers("value"), in.Float("lambda"), in.Float("limit"), in.Whole("first"))
},
	formula.Output[Smoothed]{Name: "ewma_last", Title: "Where does the fading average stand?", Also: []string{"monitor.ewma.z_last"}, Value: func(s Smoothed) float64 { return s.Value[len(s.Value)-1] }},
	formula.Output[Smoothed]{Name: "ewma_first_half_width", Title: "How wide are its limits at first?", Also: []string{"monitor.ewma.halfwidth_1"}, Value: func(s Smoothed) float64 { return s.HalfWidth[0] }},
	formula.Output[Smoothed]{Name: "ewma_half_width", Title: "How wide are its limits in the end?", Also: []string{"monitor.ewma.halfwidth_last"}, Value: func(s Smoothed) float64 { return s.HalfWidth[len(s.HalfWidth)-1] }},
	formula.Output[Smoothed]{Name: "ewma_first_signal", Title: "At which reading does the fading average first leave its limits (-1: never)?", Also: []string{"monitor.ewma.first_signal_index_1based"}, Value: func(s Smoothed) float64 { return firstOf(s.Signals) }},
	formula.Output[Smoothed]{Name: "ewma_signals", Title: "At how many readings is the fading average beyond its limits?", Also: []string{"monitor.ewma.n_signals"}, Value: func(s Smoothed) float64 { return float64(len(s.Signals)) }},
), formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), number("lambda", "weight of each reading", 1e-6, 1, "0.2"), number("limit", "limits, in standard deviations", 1, 6, "3"), firstInput(), number("at", "at which reading", 1, 1e7, "")},
	Source: "Roberts 1959, Technometrics 1:239", Range: "two readings or more", Cautions: []string{following},
}, func(in *formula.Given) (float64, error) {
	s, err := EWMA(in.Numbers("value"), in.Float("lambda"), in.Float("limit"), in.Whole("first"))
	at := in.Whole("at")
	if err == nil {
		err = quantity.Within("reading asked for", float64(at), 1, float64(len(s.Value)), "", quantity.ByDefinition)
	}
	if err != nil {
		return math.NaN(), err
	}
	return s.Value[at-1], nil
},
	formula.Output[float64]{Name: "ewma_at", Title: "Where does the fading average stand at a reading?", Also: []string{"monitor.ewma.z_{at}"}, Value: func(v float64) float64 { return v }},
), formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), number("slack", "what is passed over, in standard deviations", 0, 3, "0.5"), number("decision", "beyond what to signal, in standard deviations", 0.5, 20, "5"), firstInput()},
	Source: "Page 1954, Biometrika 41:100, tabular, not reset", Range: "two readings or more", Cautions: []string{following},
}, func(in *formula.Given) (Sums, error) {
	return CUSUM(in.Numbers("value"), in.Float("slack"), in.Float("decision"), in.Whole("first"))
},
	formula.Output[Sums]{Name: "cusum_up", Title: "How far did readings creep up in all, in standard deviations?", Also: []string{"monitor.cusum.max_up"}, Value: func(s Sums) float64 { return s.LargestUp }},
	formula.Output[Sums]{Name: "cusum_down", Title: "How far did readings creep down in all, in standard deviations?", Also: []string{"monitor.cusum.max_down"}, Value: func(s Sums) float64 { return s.LargestDown }},
	formula.Output[Sums]{Name: "cusum_first_up", Title: "At which reading is a creep upwards first signalled (-1: never)?", Also: []string{"monitor.cusum.first_up_signal"}, Value: func(s Sums) float64 { return counted(s.FirstUp) }},
	formula.Output[Sums]{Name: "cusum_first_down", Title: "At which reading is a creep downwards first signalled (-1: never)?", Also: []string{"monitor.cusum.first_down_signal"}, Value: func(s Sums) float64 { return counted(s.FirstDown) }},
))

// counted turns a place from 0 into one from 1; -1 stays.
func counted(place int) float64 {
	if place < 0 {
		return -1
	}
	return float64(place + 1)
}

func firstOf(places []int) float64 {
	if len(places) == 0 {
		return -1
	}
	return counted(places[0])
}

// joined writes whole numbers one after another.
func joined(numbers []int) string {
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = strconv.Itoa(n)
	}
	return strings.Join(words, " ")
}

func timed(more ...formula.Input) []formula.Input {
	return append([]formula.Input{readings(), list("time", "when each was read; 0, 1, 2 and so on when not given", "x")}, more...)
}

func timesOf(in *formula.Given, n int) []float64 {
	if in.Has("time") {
		return in.Numbers("time")
	}
	times := make([]float64, n)
	for i := range times {
		times[i] = float64(i)
	}
	return times
}

var trendFormulas = append(formula.Outputs(formula.Formula{
	Inputs: timed(confidenceInput("0.95")), Source: "Theil 1950; Sen 1968, J. Am. Stat. Assoc. 63:1379",
	Range: "3 to 3,000 readings; confidence 0.5 to 0.9999", Cautions: []string{following},
}, func(in *formula.Given) (Trend, error) {
	values := in.Numbers("value")
	return TheilSen(timesOf(in, len(values)), values, share(in, "confidence"))
},
	formula.Output[Trend]{Name: "trend", Title: "How fast do readings rise, a few wild ones apart?", Also: []string{"monitor.theil_sen.slope"}, Value: func(t Trend) float64 { return t.Slope }, Span: func(t Trend) (l, h float64) { return t.Low, t.High }},
	formula.Output[Trend]{Name: "trend_low", Title: "How fast do readings rise at least?", Also: []string{"monitor.theil_sen.ci{percent}_lo_sen_rounded_rank"}, Value: func(t Trend) float64 { return t.Low }},
	formula.Output[Trend]{Name: "trend_high", Title: "How fast do readings rise at most?", Also: []string{"monitor.theil_sen.ci{percent}_hi_sen_rounded_rank"}, Value: func(t Trend) float64 { return t.High }},
	formula.Output[Trend]{Name: "trend_intercept", Title: "Where does the trend start, through the medians?", Also: []string{"monitor.theil_sen.intercept_median_y_minus_slope_median_x"}, Value: func(t Trend) float64 { return t.Intercept }},
	formula.Output[Trend]{Name: "trend_median_residual", Title: "Where does the trend start, with as many readings above as below?", Also: []string{"monitor.theil_sen.intercept_median_residual"}, Value: func(t Trend) float64 { return t.MedianResidual }},
	formula.Output[Trend]{Name: "trend_slopes", Title: "Of how many slopes is the trend the middle?", Also: []string{"monitor.theil_sen.n_slopes"}, Value: func(t Trend) float64 { return float64(t.Slopes) }},
), formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings()}, Source: "Mann 1945, Econometrica 13:245; Kendall 1938, Biometrika 30:81; corrected for ties and continuity",
	Range: "3 to 3,000 readings", Cautions: []string{following},
}, func(in *formula.Given) (Kendall, error) {
	return MannKendall(in.Numbers("value"))
},
	formula.Output[Kendall]{Name: "mann_kendall_s", Title: "How many more rises than falls are there among all two readings?", Also: []string{"monitor.mann_kendall.S"}, Value: func(k Kendall) float64 { return k.S }},
	formula.Output[Kendall]{Name: "mann_kendall_variance", Title: "How much would that number spread without a trend (variance)?", Also: []string{"monitor.mann_kendall.varS_ties"}, Value: func(k Kendall) float64 { return k.Variance }},
	formula.Output[Kendall]{Name: "mann_kendall_z", Title: "How many standard deviations is that from none?", Also: []string{"monitor.mann_kendall.z_continuity"}, Value: func(k Kendall) float64 { return k.Z }},
	formula.Output[Kendall]{Name: "mann_kendall_p", Title: "How often would readings without a trend rise or fall so?", Also: []string{"monitor.mann_kendall.p"}, Value: func(k Kendall) float64 { return k.P }},
	formula.Output[Kendall]{Name: "kendall_tau", Title: "How steadily do readings rise (1) or fall (-1)?", Also: []string{"monitor.kendall.tau_b"}, Value: func(k Kendall) float64 { return k.Tau }},
)...)

func shortestInput() formula.Input {
	return number("shortest", "the fewest readings in a stretch", 1, 1e6, "1")
}

func partitionOf(in *formula.Given) (Partition, error) {
	values := in.Numbers("value")
	penalty, err := SegmentPenalty(values)
	if err != nil {
		return Partition{}, err
	}
	if in.Has("penalty") {
		penalty = in.Float("penalty")
	}
	return Segments(values, penalty, in.Whole("shortest"))
}

func partitionBase() formula.Formula {
	return formula.Formula{Inputs: []formula.Input{readings(), shortestInput(), number("penalty", "the price of a change; 2 ln n times the variance when not given", 1e-150, 1e150, "")},
		Source: "Jackson et al. 2005, IEEE Signal Proc. Lett. 12:105, squares and a penalty for each change", Range: "2 to 5,000 readings that differ", Cautions: []string{following}}
}

var breakFormulas = slices.Concat(formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings(), shortestInput()}, Source: "least squares, one change of level", Range: "three readings or more", Cautions: []string{following},
}, func(in *formula.Given) (Break, error) {
	return OneBreak(in.Numbers("value"), in.Whole("shortest"))
},
	formula.Output[Break]{Name: "break_last", Title: "Which is the last reading before the one change?", Also: []string{"monitor.changepoint.single_last_index_of_first_segment"}, Value: func(b Break) float64 { return float64(b.Last) }},
	formula.Output[Break]{Name: "break_rss", Title: "How large are the squares about two levels?", Also: []string{"monitor.changepoint.single_rss"}, Value: func(b Break) float64 { return b.RSS }},
	formula.Output[Break]{Name: "break_before", Title: "What was the level before the one change?", Also: []string{"monitor.changepoint.mean_before"}, Value: func(b Break) float64 { return b.Before }},
	formula.Output[Break]{Name: "break_after", Title: "What was the level after the one change?", Also: []string{"monitor.changepoint.mean_after"}, Value: func(b Break) float64 { return b.After }},
	formula.Output[Break]{Name: "break_f", Title: "How much better do two levels fit than one?", Also: []string{"monitor.changepoint.supF"}, Value: func(b Break) float64 { return b.SupF }},
), formula.Outputs(partitionBase(), partitionOf,
	formula.Output[Partition]{Name: "changes", Title: "How many changes of level were there?", Also: []string{"monitor.changepoint.optimal_partition_count"}, Value: func(p Partition) float64 { return float64(len(p.Breaks)) }},
	formula.Output[Partition]{Name: "changes_cost", Title: "How large are the squares about the levels, with the penalties?", Also: []string{"monitor.changepoint.optimal_partition_cost"}, Value: func(p Partition) float64 { return p.Cost }},
), []formula.Formula{placesOfChanges()}, formula.Outputs(formula.Formula{
	Inputs: []formula.Input{readings()}, Source: "Pettitt 1979, Appl. Stat. 28:126", Range: "three readings or more", Cautions: []string{following},
}, func(in *formula.Given) (PettittTest, error) {
	return Pettitt(in.Numbers("value"))
},
	formula.Output[PettittTest]{Name: "pettitt_k", Title: "How clear is one change of level, by ranks?", Also: []string{"monitor.pettitt.K"}, Value: func(p PettittTest) float64 { return p.K }},
	formula.Output[PettittTest]{Name: "pettitt_last", Title: "Which is the last reading before the change, by ranks?", Also: []string{"monitor.pettitt.index"}, Value: func(p PettittTest) float64 { return float64(p.Last) }},
	formula.Output[PettittTest]{Name: "pettitt_p", Title: "How often would readings without a change look so?", Also: []string{"monitor.pettitt.p_approx"}, Value: func(p PettittTest) float64 { return p.P }},
))

func placesOfChanges() formula.Formula {
	f := partitionBase()
	f.Name, f.Title, f.Also = "change_places", "After which readings did the level change?", []string{"monitor.changepoint.optimal_partition_list"}
	f.Work = func(in *formula.Given) (formula.Answer, error) {
		p, err := partitionOf(in)
		return formula.Words(joined(p.Breaks)), err
	}
	return f
}

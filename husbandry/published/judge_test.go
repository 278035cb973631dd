package published

import (
	"errors"
	"math"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

var plain = &formula.Formula{Name: "f", Cautions: []string{"always said"}}

// judged is the verdict on a number in the unit of the row.
func judged(expected, tolerance string, v float64) Verdict {
	verdict, _ := Judge(Row{Expected: expected, Tolerance: tolerance}, plain, formula.Number(v), nil)
	return verdict
}

func TestNumbersWithinTheirTolerance(t *testing.T) {
	for _, c := range []struct {
		expected, tolerance string
		within, beyond      float64
	}{
		{"100", "rel 1e-2", 100.99, 101.01}, {"100", "rel 1%", 99.01, 98.99}, {"100", "rel 0.3 percent", 100.299, 100.301}, {"100", "1 %", 100.99, 101.01},
		{"100", "abs 0.5", 100.49, 100.51}, {"100", "0.5", 99.51, 99.49}, {"100", "+-0.5", 100.49, 100.51}, {"100", "abs 4 mmHg", 103.9, 104.1},
		{"100", "exact", 100, 100.000001}, {"100", "0", 100.00000001, 100.000001}, {"-2", "exact", -2, 2}, {"0", "exact", 0, 1e-30},
		{"100", "abs 0.02 or rel 1%", 100.99, 101.01}, {"0.5", "abs 0.02 or rel 1%", 0.519, 0.521},
		{"0.001", "rel 1e-7 (abs 1e-9 near 0)", 0.0010000009, 0.0010000011}, {"100", "rel 1e-7 (abs 1e-9 near 0)", 100.000009, 100.000011},
		{"-100", "rel 1e-3 (lower is fine)", -200, -99.8}, {"100", "rel 1e-3 (lower is fine)", 100.09, 100.11},
		{"17", "exact, 2 s.f.", 17.4, 17.6}, {"0.65", "exact after rounding to 2 significant figures", 0.654, 0.656}, {"0.081", "exact, 2 sig. figures", 0.0814, 0.0816},
		{"20", "exact, 1 s.f.", 17, 26}, {"100", "info: within 5 %", 104.9, 105.1}, {"19.533333333", "rel 1e-12", 19.533333333, 19.5333333333},
		{"19.5333333333", "rel 1e-12", 19.53333333333333, 19.5333333334}, {"5.93641985347e-10", "rel 1e-12", 5.936419853474e-10, 5.93641985349e-10},
		{"3", "approx", 3.4, 3.6}, {"10.5", "", 10.54, 10.56}, {"1000", "typical", 1000.4, 1000.6}, {"2e3", "n/a", 2400, 2600},
		{"100", "info: reads 10-14 % higher", 113.9, 114.1}, {"1.78", "10 to 26 % above the other (conservative)", 2.2, 2.3},
		{"0,0502", "abs 0,0001", 0.0503, 0.0504}, {"0.225 (prints 0.23)", "abs 0.005", 0.229, 0.2301}, {"274 (SD 32)", "range", 274.4, 275},
		{"7.46e-05", "rel 1%", 7.5e-5, 7.6e-5}, {"-1.5", "0.1", -1.59, 1.5}, {".25", "0", 0.25, 0.26},
		{"0.9", "YARDSTICK: 0.90 +- 0.07", 0.969, 0.971}, {"10", "YARDSTICK: within 10 % or better", 0, 11.1},
	} {
		if v := judged(c.expected, c.tolerance, c.within); v != Agrees {
			t.Errorf("%v for %s within %q %v", c.within, c.expected, c.tolerance, v)
		}
		if v := judged(c.expected, c.tolerance, c.beyond); v != Differs {
			t.Errorf("%v for %s within %q %v", c.beyond, c.expected, c.tolerance, v)
		}
	}
	if judged("1", "exact", math.NaN()) != Differs || judged("1", "abs 5", math.Inf(1)) != Differs || judged("1", "rel 1% (lower is fine)", math.NaN()) != Differs {
		t.Error("not a number agrees with 1")
	}
}

func TestRangesBoundsRowsAndWords(t *testing.T) {
	span := formula.Span
	for _, c := range []struct {
		expected, unit string
		answer         float64
		own            string
		want           Verdict
	}{
		{"~5", "", 5, "", Agrees}, {"about 5", "", 5.6, "", Differs}, {"ca. 0.050", "", 0.0502, "", Agrees}, {"\u2248 ~5", "", 5, "", Agrees}, {"approx. 5", "", 5, "", Agrees},
		{"20 000", "", 20000, "", Agrees}, {"1,234,567.5", "", 1234567.5, "", Agrees}, {"20,000", "", 20000, "", Agrees}, {"20,000", "", 20, "", Agrees}, {"20,000", "", 200, "", Differs},
		{"0,050", "", 50, "", Differs}, {"1234,500", "", 1234500, "", Differs}, {"20'000 g", "", 20000, "g", Agrees}, {"1 2 3", "", 123, "", Differs}, {"1,23,456", "", 123456, "", Differs},
		{"5.02 x 10^-2", "", 0.0502, "", Agrees}, {"5.02\u00d710^-2 mg/L", "mg/L", 0.0502, "mg/L", Agrees}, {"2*10^3", "", 20, "", Differs}, {"\u22122.5", "", -2.5, "", Agrees},
		{"some x 10^2", "", 200, "", Differs}, {"NaN", "", 5, "", NotRead}, {"n/a", "", 5, "", NotRead},
		{"5.02 %", "", 0.0502, "fraction", Agrees}, {"4 t", "kg", 4000, "kg", Agrees}, {"4 t", "kg", 4, "kg", Differs}, {"4 trees", "", 4, "", Differs}, {"75.2F", "degC", 24, "degC", Agrees},
		{"2 kg/d", "", 2000, "g/d", Agrees}, {"83", "min", 1.3833333, "h", Agrees}, {"2210", "g TAN/d", 2.21, "kg TAN/d", Agrees}, {"2.21", "g N/d", 2.21, "kg TAN/d", Agrees},
		{"4.00", "dKH", 71.4, "mg/L as CaCO3", Agrees}, {"71.4", "dKH", 71.4, "mg/L as CaCO3", Differs}, {"2", "kg/m2/wk", 1.0 / 84, "t/m2/d", Differs}, {"<0.06", "", 0.05, "", Agrees}, {"<0.06", "", 0.07, "", Differs}, {">0.04", "", 0.05, "", Agrees}, {">0.06", "", 0.05, "", Differs},
	} {
		a := formula.Number(c.answer)
		a.Unit = c.own
		if got, _ := Judge(Row{Expected: c.expected, Unit: c.unit}, plain, a, nil); got != c.want {
			t.Errorf("%v %s for %s %s %v, want %v", c.answer, c.own, c.expected, c.unit, got, c.want)
		}
	}
	bounded := span(math.NaN(), 3)
	bounded.Text = "<3"
	for _, c := range []struct {
		expected, tolerance string
		answer              formula.Answer
		want                Verdict
	}{
		{"5.5-6.5", "0", span(5.5, 6.5), Agrees}, {"5.5-6.5", "0", span(5.5, 6.6), Differs}, {"5.5-6.5", "0", span(5.4, 6.5), Differs}, {"30 to 60", "abs 1", span(31, 59), Agrees},
		{"5.5\u20136.5", "range", span(5.52, 6.46), Agrees}, {"5.5-6.5", "range", formula.Number(6), Differs}, {"-5-10", "0", span(-5, 10), Agrees},
		{"<3", "range", bounded, Agrees}, {"<3", "range", span(math.NaN(), 3), Agrees}, {"<3", "range", span(3, 4), Differs}, {">=5", "0", span(5, math.Inf(1)), Agrees}, {">5", "0", span(math.NaN(), 5), Differs},
		{"10", "0", span(10, 10), Agrees}, {"10", "0", span(10, 11), Differs},
		{"about 25 % of raft (15-25)", "range", span(15, 25), Agrees}, {"about 25 % of raft (15-25)", "range", span(15, 26), OtherText},
		{"4 (this copy); 4-8 elsewhere", "range", span(4, 8), Agrees}, {"35-42 (5-6 weeks)", "0", span(35, 42), Agrees},
		{"0.7/1.05/0.95", "0", formula.Words("0.70/1.05/0.95"), Agrees}, {"0.7/1.05/0.95", "0", formula.Words("0.70/1.05/0.96"), Differs}, {"0.7/1.05/0.95", "0", formula.Words("0.7/1.05"), Differs},
		{"20/30/15/10=75", "0", formula.Words("20/30/15/10=75"), Agrees}, {"14 -> 0.5", "0", formula.Words("14 -> 0.5"), Agrees}, {"14 48 54", "exact", formula.Words("14 48 54"), Agrees},
		{"<1 / 1-2", "0", formula.Words("<1 / 1-2"), Agrees}, {"0.0753 / 0.0213", "0.0001", formula.Words("0.07532 / 0.02131"), Agrees},
		{"6-7 d at 20-25C", "0", formula.Words("6-7 d  at 20-25c"), Agrees}, {"insects", "", formula.Words("Insects"), Agrees}, {"insects", "", formula.Words("self"), Differs},
		{"keep the fish out of feed for a day", "", formula.Words("stop feeding"), OtherText}, {"28", "exact", formula.Words("28"), Agrees}, {"28", "exact", formula.Words("28 30"), Differs},
	} {
		if got, _ := Judge(Row{Expected: c.expected, Tolerance: c.tolerance}, plain, c.answer, nil); got != c.want {
			t.Errorf("%v to %v %q for %s within %q %v, want %v", c.answer.Low, c.answer.High, c.answer.Text, c.expected, c.tolerance, got, c.want)
		}
	}
}

func TestRefusals(t *testing.T) {
	outside := &quantity.RangeError{Name: "pH"}
	missing := &formula.InputError{Formula: "f", Input: "ph", Reason: "missing"}
	unknown := &formula.InputError{Formula: "f", Input: "species", Reason: "unknown word"}
	for _, c := range []struct {
		expected string
		err      error
		want     Verdict
	}{
		{"error", outside, Agrees}, {"refused", errors.New("not in our table"), Agrees}, {"Out of range (0-50)", outside, Agrees}, {"Out of range (0-50)", missing, NotRead}, {"outside", missing, NotRead}, {"error", missing, Agrees}, {"an error", unknown, Agrees}, {"none", outside, Agrees}, {"invalid", outside, Agrees},
		{"7", outside, Differs}, {"7", missing, NotRead}, {"7", unknown, NotHeld}, {"7", errors.New("not in our table"), NotHeld},
	} {
		if got, _ := Judge(Row{Expected: c.expected}, plain, formula.Answer{}, c.err); got != c.want {
			t.Errorf("%v for %s %v, want %v", c.err, c.expected, got, c.want)
		}
	}
	if judged("error", "", 7) != Differs {
		t.Error("an answer where there should be none agrees")
	}
	if got, _ := Judge(Row{Expected: "none"}, plain, formula.Words("none"), nil); got != Agrees {
		t.Error("the word none differs from itself")
	}
}

// Where points do not determine a figure, the answer must say so itself.
func TestFlat(t *testing.T) {
	row := Row{Expected: "5", Tolerance: "FLAT: barely determined"}
	warned := formula.Number(8)
	warned.Cautions = []string{"always said", "barely determined"}
	if got, _ := Judge(row, plain, warned, nil); got != Agrees {
		t.Error(got)
	}
	warned.Cautions = warned.Cautions[:1]
	if got, _ := Judge(row, plain, warned, nil); got != Differs {
		t.Error(got)
	}
}

func TestYardsticks(t *testing.T) {
	const bar = "YARDSTICK: reach within 0.05 (coverage) or within 10 % (loss), better is fine"
	for _, c := range []struct {
		quantity string
		v        float64
		want     Verdict
	}{
		{"y coverage90", 0.76, Agrees}, {"y coverage90", 0.74, Differs}, {"y coverage90", 1, Agrees}, {"y mae", 0.87, Agrees}, {"y mae", 0.89, Differs}, {"y mae", 0, Agrees},
	} {
		if got, _ := Judge(Row{Quantity: c.quantity, Expected: "0.8", Tolerance: bar}, plain, formula.Number(c.v), nil); got != c.want {
			t.Errorf("%s of %v %v", c.quantity, c.v, got)
		}
	}
	if got, _ := Judge(Row{Expected: "0.8", Tolerance: "YARDSTICK: as good"}, plain, formula.Number(0.8), nil); got != Agrees {
		t.Error(got)
	}
	if got, _ := Judge(Row{Expected: "0.9", Tolerance: "YARDSTICK: 0.90 +- 0.07"}, plain, formula.Number(0.82), nil); got != Differs {
		t.Error(got)
	}
}

// Answers are brought into the unit that is printed.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		have, want string
		v, out     float64
	}{
		{"degC", "degF", 25, 77}, {"L", "gal", 3.785411784, 1}, {"kg", "lb", 0.45359237, 1}, {"fraction", "%", 0.05, 5}, {"%", "fraction", 5, 0.05}, {"permille", "%", 5, 0.5}, {"ug/L", "mg/L", 1, 0.001},
		{"mg/L as N", "mg/L as NH3", 1, 17.031 / 14.007}, {"mg/L as N", "mg/L as NH4", 1, 18.039 / 14.007}, {"mg/L as NO2", "mg/L as N", 46.005 / 14.007, 1}, {"mg/L as N", "ug/L as NO3", 1, 62004.0 / 14.007},
		{"mg/L", "mg/L Cu", 3, 3}, {"mg/L as N", "mg TAN-N/L", 3, 3}, {"g", "degC", 3, math.NaN()}, {"", "g", 3, 3}, {"mg/L as N", "mg/L as N", 3, 3}, {"mg/L as CaCO3", "mg/L as N", 3, 3},
	} {
		_, a := Judge(Row{Expected: "1", Unit: c.want}, plain, formula.Answer{Value: c.v, Low: c.v, High: math.Inf(1), Unit: c.have}, nil)
		if same := math.Abs(a.Value-c.out) < 1e-12*math.Abs(c.out) || math.IsNaN(a.Value) && math.IsNaN(c.out); !same || a.Low != a.Value && !math.IsNaN(a.Low) || !math.IsInf(a.High, 1) {
			t.Errorf("%v %s is %v %s, want %v", c.v, c.have, a.Value, c.want, c.out)
		}
	}
}

func TestVerdictsByName(t *testing.T) {
	for v, want := range map[Verdict]string{Agrees: "agrees", Differs: "differs", NotHeld: "not held", NotRead: "not read", OtherText: "other words"} {
		if v.String() != want {
			t.Errorf("%d is %q", v, v)
		}
	}
}

// TestWhatAFigureIs: of texts that are almost one.
func TestWhatAFigureIs(t *testing.T) {
	if _, _, ok := leading("--5"); ok {
		t.Error("two signs were read")
	}
	if _, rest, ok := leading("7. x"); !ok || rest != ". x" {
		t.Errorf("a full stop belongs to no number: %q", rest)
	}
	if got := figuresOf(".5"); len(got) != 1 || got[0] != 0.5 {
		t.Error(got)
	}
	if low, high, found := oneSpan("15-25 % of a raft"); !found || low.value != 15 || high.value != 25 {
		t.Error(low, high, found)
	}
	if alike([]float64{1}, []float64{1.4}, tolerance{asPrinted: true}) {
		t.Error("figures in a row have no last digit")
	}
	if rounded(1.2345+1e-9, 4) != 1.235 || rounded(1.2345-1e-9, 4) != 1.234 {
		t.Error(rounded(1.2345+1e-9, 4), rounded(1.2345-1e-9, 4))
	}
}

func TestSharesInTheirUnits(t *testing.T) {
	for _, one := range []string{"fraction", "share", "ratio", "part"} {
		if got := conversion(one, "%")(0.25); got != 25 {
			t.Error(one, got)
		}
	}
	if got := conversion("percent", "permille")(2.5); got != 25 {
		t.Error(got)
	}
	if got := conversion("degC", "degF")(math.Inf(-1)); !math.IsInf(got, -1) {
		t.Error(got)
	}
}

func TestBarOfCoverage(t *testing.T) {
	if b, ok := yardstick(Row{Quantity: "x coverage90", Expected: "0.9", Tolerance: "YARDSTICK: within 0.05"}); !ok || !(math.Abs(b.low-0.85) <= 1e-12) {
		t.Error(b, ok)
	}
}

func TestFactor(t *testing.T) {
	for _, c := range []struct {
		have, want string
		factor     float64
	}{
		{"s", "h", 1.0 / 3600}, {"sec", "s", 1}, {"min", "s", 60}, {"minute", "minutes", 1}, {"hr", "hours", 1}, {"hour", "h", 1}, {"d", "h", 24}, {"day", "days", 1}, {"d", "day", 1},
		{"wk", "d", 7}, {"week", "weeks", 1}, {"wk", "week", 1}, {"h", "hr", 1}, {"min", "minute", 1},
		{"kg/d", "g/d", 1000}, {"g/h", "kg/d", 0.024}, {"lb/d", "g/d", 453.59237}, {"g/m2/d", "g/ft2/d", 0.09290304}, {"kg TAN/d", "g/d", 1000}, {"kg N/d", "g TAN/d", 0},
		{"g/d", "g", 0}, {"degC/h", "degF/h", 0}, {"trees/d", "g/d", 0}, {"g/d", "trees/d", 0}, {"trees/d", "trees/h", 24.0 / 576}, {"g", "L", 0},
	} {
		factor, ok := Factor(c.have, c.want)
		if ok != (c.factor > 0) || ok && !(math.Abs(factor/c.factor-1) <= 1e-12) {
			t.Errorf("%s is %v %v %s, want %v", c.have, factor, ok, c.want, c.factor)
		}
	}
	for text, want := range map[string]string{"1,000": "1000", "999,500": "999500", "0,500": "", "1000,500": "", "1,00": "", "1,0000": "", ",500": "", "1000": "", "a,500": "", "1,5x0": ""} {
		if got, ok := thousandsMeant(text); ok != (want != "") || ok && got != want {
			t.Errorf("%q is %q %v", text, got, ok)
		}
	}
}

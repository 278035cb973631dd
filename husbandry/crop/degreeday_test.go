package crop

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

type (
	daysC = Temperatures[quantity.Celsius]
	daysF = Temperatures[quantity.Fahrenheit]
	ruleC = Rule[quantity.Celsius]
)

func TestDegreeDaysOfOneDay(t *testing.T) {
	for _, c := range []struct {
		source string
		rule   Rule[quantity.Fahrenheit]
		day    daysF
		want   float64
	}{
		{"Iowa State: 90/65", Rule[quantity.Fahrenheit]{Modified, 50, 86}, daysF{90, 65}, 25.5},
		{"Iowa State: 72/46", Rule[quantity.Fahrenheit]{Modified, 50, 86}, daysF{72, 46}, 11},
		{"Iowa State: most possible", Rule[quantity.Fahrenheit]{Modified, 50, 86}, daysF{99, 90}, 36},
		{"Iowa State: cold day", Rule[quantity.Fahrenheit]{Modified, 50, 86}, daysF{40, 30}, 0},
		{"Peet: mean less base", Rule[quantity.Fahrenheit]{SimpleMean, 50, 0}, daysF{90, 48}, 19},
		{"Peet: never below nought", Rule[quantity.Fahrenheit]{SimpleMean, 50, 0}, daysF{60, 30}, 0},
		{"Perry and Wehner: 85", Rule[quantity.Fahrenheit]{CucumberHeat, 60, 90}, daysF{85, 85}, 25},
		{"Perry and Wehner: 92", Rule[quantity.Fahrenheit]{CucumberHeat, 60, 90}, daysF{92, 70}, 28},
		{"Perry and Wehner: 90", Rule[quantity.Fahrenheit]{CucumberHeat, 60, 90}, daysF{90, 70}, 30},
		{"Perry and Wehner: too hot to grow", Rule[quantity.Fahrenheit]{CucumberHeat, 60, 90}, daysF{125, 70}, 0},
		{"sine: all above the base is the mean", Rule[quantity.Fahrenheit]{SingleSine, 50, 0}, daysF{80, 60}, 20},
		{"sine: all below the base", Rule[quantity.Fahrenheit]{SingleSine, 50, 0}, daysF{50, 40}, 0},
		{"sine: base at the mean gives swing over pi", Rule[quantity.Fahrenheit]{SingleSine, 50, 0}, daysF{60, 40}, 10 / math.Pi},
		{"sine: wholly above the upper limit", Rule[quantity.Fahrenheit]{SingleSineTo, 50, 86}, daysF{100, 90}, 36},
		{"sine: upper limit at the mean", Rule[quantity.Fahrenheit]{SingleSineTo, 50, 86}, daysF{96, 76}, 36 - 10/math.Pi},
	} {
		got, err := c.rule.Day(c.day)
		same(t, c.source, got.Total, err, c.want)
		if got.Rule != c.rule {
			t.Errorf("%s: lost its rule", c.source)
		}
	}
}

// TestSingleSineIsTheAreaUnderASine integrates the wave step by step.
func TestSingleSineIsTheAreaUnderASine(t *testing.T) {
	r := seeded()
	for range 200 {
		day := daysC{Min: quantity.Celsius(between(r, -5, 20))}
		day.Max = day.Min + quantity.Celsius(between(r, 1, 20))
		rule := ruleC{SingleSineTo, quantity.Celsius(between(r, 0, 15)), quantity.Celsius(between(r, 16, 30))}
		const steps = 2000
		area := 0.0
		for i := range steps {
			wave := float64(day.Max+day.Min)/2 + float64(day.Max-day.Min)/2*math.Sin(2*math.Pi*(float64(i)+0.5)/steps)
			area += math.Max(0, math.Min(wave, float64(rule.Upper))-float64(rule.Base)) / steps
		}
		got, err := rule.Day(day)
		if err != nil || !(math.Abs(float64(got.Total)-area) <= 1e-3) {
			t.Fatalf("%v by %v: got %v, the area is %v, %v", day, rule, got.Total, area, err)
		}
	}
}

func TestMethodsAgreeOnMildDays(t *testing.T) {
	r := seeded()
	for range someCases {
		day := daysC{Min: quantity.Celsius(between(r, 10, 20))}
		day.Max = day.Min + quantity.Celsius(between(r, 0, 10))
		want := float64(day.Max+day.Min)/2 - 10
		for _, m := range []Method{SimpleMean, Modified, SingleSine, SingleSineTo} {
			got, err := ruleC{m, 10, 30}.Day(day)
			same(t, m.String(), got.Total, err, want)
		}
	}
}

func TestDegreeDaysKeepTheirRule(t *testing.T) {
	a := DegreeDays[quantity.Celsius]{100, ruleC{SimpleMean, 10, 0}}
	sum, err := a.Plus(DegreeDays[quantity.Celsius]{20, a.Rule})
	if err != nil || sum.Total != 120 || sum.Rule != a.Rule {
		t.Errorf("got %v, %v", sum, err)
	}
	for _, other := range []ruleC{{SingleSine, 10, 0}, {SimpleMean, 8, 0}, {SimpleMean, 10, 30}} {
		var mixed *MixedRulesError
		if _, err := a.Plus(DegreeDays[quantity.Celsius]{20, other}); !errors.As(err, &mixed) {
			t.Errorf("%v was added to %v: %v", other, a.Rule, err)
		}
	}
	if got := (&MixedRulesError{"simple mean", "single sine"}).Error(); got != "degree days by simple mean and by single sine with their thresholds cannot be put together" {
		t.Error(got)
	}
}

func TestDaysForATotal(t *testing.T) {
	lyndon := DegreeDays[quantity.Fahrenheit]{1200, Rule[quantity.Fahrenheit]{SimpleMean, 55, 0}}
	days, err := lyndon.DaysAt(daysF{80, 60})
	same(t, "Lyndon State: 1 May to 20 July", days, err, 80)
	days, err = lyndon.DaysAt(daysF{80, 61})
	same(t, "rounded up", days, err, 78)
	week := []daysF{{75, 55}, {75, 55}, {85, 65}, {65, 45}, {75, 55}}
	for total, want := range map[quantity.Fahrenheit]int{1: 1, 10: 1, 10.5: 2, 20: 2, 40: 3, 40.1: 5, 50: 5} {
		n, err := DegreeDays[quantity.Fahrenheit]{total, lyndon.Rule}.DaysFor(week)
		if err != nil || n != want {
			t.Errorf("%v degree days on day %d, got %d, %v", total, want, n, err)
		}
	}
	var out *quantity.RangeError
	if _, err := (DegreeDays[quantity.Fahrenheit]{51, lyndon.Rule}).DaysFor(week); !errors.As(err, &out) || out.High != 50 || out.Low != 0 {
		t.Errorf("a week of 50 reaches 51: %v", err)
	}
}

func TestSowingIntervalByHeat(t *testing.T) {
	// Sweet corn: harvests 4 days apart in July at 25 a day, sown in cool May at 10.
	may, july := make([]daysF, 20), []daysF{{85, 65}, {85, 65}, {85, 65}, {85, 65}}
	for i := range may {
		may[i] = daysF{70, 50}
	}
	n, err := Rule[quantity.Fahrenheit]{Modified, 50, 86}.SowingInterval(july, may)
	if err != nil || n != 10 {
		t.Errorf("got %d, %v", n, err)
	}
}

func TestHeatNeeds(t *testing.T) {
	for crop, want := range map[string]struct {
		total  quantity.Fahrenheit
		method Method
		base   quantity.Fahrenheit
		upper  quantity.Fahrenheit
	}{
		"Jubilee sweet corn": {1539, SingleSineTo, 50, 86}, "early corn": {1750, Modified, 50, 86},
		"corn, midseason": {1890, Modified, 50, 86}, "peas earliest": {1250, SimpleMean, 40, 0},
	} {
		h, err := HeatNeedOf(crop)
		r := h.Need.Rule
		if err != nil || h.Need.Total != want.total || r.Method != want.method || r.Base != want.base || r.Upper != want.upper || h.Source == "" {
			t.Errorf("%s: got %v, %v", crop, h, err)
		}
	}
	for crop, want := range map[string]float64{"corn": 50, "beans": 50, "turnips": 40, "cabbage": 40, "peas": 40, "peppers": 65} {
		base, err := BaseTemperature(crop)
		same(t, crop, base, err, want)
	}
	if _, err := HeatNeedOf("corn"); err == nil {
		t.Error("corn has several totals")
	}
	if _, err := BaseTemperature("okra"); err == nil {
		t.Error("okra has no published base")
	}
}

// TestSeattle2013 checks a season against sums by an independent program (scipy).
// The weather is a U.S. Government work (NOAA).
func TestSeattle2013(t *testing.T) {
	days := []daysC{}
	for _, row := range formulatest.Lines(t, "../../testdata/published/data/seattle_2013.csv") {
		max, _ := strconv.ParseFloat(row[1], 64)
		min, _ := strconv.ParseFloat(row[2], 64)
		days = append(days, daysC{quantity.Celsius(max), quantity.Celsius(min)})
	}
	for _, c := range []struct {
		rule ruleC
		want float64
	}{{ruleC{SimpleMean, 5, 0}, 2720.7}, {ruleC{SimpleMean, 10, 0}, 1369.25}, {ruleC{SingleSine, 10, 0}, 1436.25565939}} {
		sum, err := c.rule.Sum(days)
		same(t, c.rule.Method.String(), sum.Total, err, c.want)
	}
	year, err := HargreavesSum(47.45, 1, days)
	near(t, "Hargreaves of the year", year, err, 832.033011373, 1e-6)
	for j, want := range map[int]float64{15: 0.551467327593, 196: 5.40267973939} {
		one, err := HargreavesSum(47.45, j, days[j-1:j])
		near(t, "Hargreaves of a day", one, err, want, 1e-8)
	}
	turn, err := HargreavesSum(47.45, 365, days[:2])
	last, _ := HargreavesSum(47.45, 365, days[:1])
	first, _ := HargreavesSum(47.45, 1, days[1:2])
	same(t, "the year turns", turn, err, float64(last+first))
	turn, err = HargreavesSum(47.45, 366, days[:2])
	second, _ := HargreavesSum(47.45, 2, days[1:2])
	newYear, _ := HargreavesSum(47.45, 1, days[:1])
	same(t, "a leap day counts as the first", turn, err, float64(newYear+second))
}

func TestMethodNames(t *testing.T) {
	for m, want := range map[Method]string{SimpleMean: "simple mean", Modified: "modified (substitution)", SingleSine: "single sine",
		SingleSineTo: "single sine, horizontal cut-off", CucumberHeat: "cucumber heat units"} {
		if m.String() != want {
			t.Errorf("method %d is called %q", m, m)
		}
	}
}

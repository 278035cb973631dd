package formulatest

import (
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

func TestAgrees(t *testing.T) {
	for _, c := range []struct {
		expected, tolerance string
		got                 float64
		want                bool
	}{
		{"100", "rel 1e-2", 100.9, true}, {"100", "rel 1e-2", 101.1, false}, {"100", "rel 1%", 100.9, true}, {"100", "rel 1%", 101.1, false},
		{"100", "abs 0.5", 100.4, true}, {"100", "abs 0.5", 100.6, false}, {"100", "0.5", 99.6, true}, {"100", "0.5", 99.4, false},
		{"100", "exact", 100, true}, {"100", "exact", 100.0001, false}, {"100", "", 100.0001, false}, {"100", "0", 100, true}, {"100", "0", 100.0001, false},
		{"-100", "rel 1e-3 (lower is fine)", -200, true}, {"100", "rel 1e-3 (lower is fine)", 101, false},
		{"19.5333333333", "rel 1e-12", 19.53333333333333, true}, {"19.5333333333", "rel 1e-12", 19.5333333334, false},
		{"5.93641985347e-10", "rel 1e-12", 5.936419853474e-10, true}, {"5.93641985347e-10", "rel 1e-12", 5.93641985349e-10, false},
		{"1", "YARDSTICK: reach", 1, false},
	} {
		if got := Agrees(formula.Number(c.got), Row{Expected: c.expected, Tolerance: c.tolerance}); got != c.want {
			t.Errorf("%v for %s within %q: %v", c.got, c.expected, c.tolerance, got)
		}
	}
	if !Agrees(formula.Words("28"), Row{Expected: "28"}) || Agrees(formula.Words("28 30"), Row{Expected: "28"}) || !Agrees(formula.Words("a"), Row{Expected: "a"}) {
		t.Error("words")
	}
}

// TestPublishedHeatGrowth holds package fish against the rows on growth by
// heat, which tell their inputs in words: 30 days at each temperature.
func TestPublishedHeatGrowth(t *testing.T) {
	const days = 30
	for _, row := range Rows(t, "../../../testdata/published/statistics_growth.csv") {
		var got float64
		var err error
		heat, length := fish.DegreeDays(0), quantity.Days(0)
		if _, list, found := strings.Cut(row.Inputs, "["); found {
			for _, word := range strings.Split(strings.Split(list, "]")[0], ", ") {
				v, _ := strconv.ParseFloat(word, 64)
				one, fault := fish.Heat(quantity.Celsius(v), days)
				if fault != nil {
					t.Fatal(fault)
				}
				heat, length = heat+one, length+days
			}
		}
		weight, fault := fish.WeightByHeat(25, 1.25, max(heat, 1))
		if fault != nil {
			t.Fatal(fault)
		}
		switch row.Quantity {
		case "growth.tgc final weight":
			got = float64(weight)
		case "growth.sgr same interval":
			rate, fault := fish.SpecificGrowthRate(25, weight, length)
			got, err = float64(rate), fault
		case "growth.tgc degree days":
			got = float64(heat)
		case "growth.tgc inverted":
			c, fault := fish.GrowthCoefficient(25, 833.640864537, 5190)
			got, err = float64(c), fault
		default:
			t.Errorf("%s: not asked", row.Quantity)
		}
		if err != nil || !Agrees(formula.Number(got), row) {
			t.Errorf("%s is %v, want %s (%v)", row.Quantity, got, row.Expected, err)
		}
	}
}

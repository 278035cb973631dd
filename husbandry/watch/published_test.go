package watch

import (
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedWatching asks every row of R 4.2.2 (base, forecast 8.20,
// strucchange) and of the closed forms of scores.
func TestPublishedWatching(t *testing.T) {
	rows := formulatest.Rows(t, published+"statistics_watch.csv")
	formulatest.Check(t, Formulas, rows, func(r formulatest.Row) map[string]string { return described(t, r) })
}

// described turns rows that name a file, or tell a forecast in words, into inputs.
func described(t *testing.T, r formulatest.Row) map[string]string {
	file, isFile := strings.CutPrefix(r.Inputs, "data/")
	if !isFile {
		return map[string]string{"y": "3.2", "mu": "1", "sd": "0.4"}
	}
	c := formulatest.Columns(t, published+"data/"+file, nil)
	inputs := map[string]string{"value": c["y"]}
	switch {
	case file == "nottem.csv":
		inputs["period"] = "12"
	case file == "ukgas.csv":
		inputs["period"] = "4"
		if strings.Contains(r.Quantity, ".ets ") {
			inputs["season"] = "multiplicative"
		}
	case strings.Contains(r.Quantity, "theil_sen"):
		inputs["time"] = c["year"]
	}
	return inputs
}

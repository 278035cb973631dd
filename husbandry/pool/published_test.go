package pool

import (
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedPooling asks every row that lme4 1.1-31 and metafor 3.8-1 answer.
func TestPublishedPooling(t *testing.T) {
	rows := formulatest.Rows(t, published+"statistics_pool.csv")
	formulatest.Check(t, Formulas, rows, func(r formulatest.Row) map[string]string { return described(t, r) })
}

// TestPublishedShrinking asks the rows of Efron & Morris.
func TestPublishedShrinking(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"pool.csv"), nil)
}

// columns tells which columns of a file hold the values and their groups.
var columns = map[string][2]string{
	"chickwts.csv":         {"weight", "feed"},
	"dyestuff2.csv":        {"Yield", "Batch"},
	"airq_ozone_month.csv": {"y", "Month"},
	"sleepstudy_7.csv":     {"y", "g"},
}

// labels names the sites of rows whose inputs are bare lists.
var labels = map[string]string{
	"[chickwts means]":     "casein horsebean linseed meatmeal soybean sunflower",
	"[sleepstudy7 slopes]": "308 309 310 330 331 332 333",
}

func described(t *testing.T, r formulatest.Row) map[string]string {
	file, isFile := strings.CutPrefix(r.Inputs, "data/")
	if isFile {
		c := formulatest.Columns(t, published+"data/"+file, nil)
		inputs := map[string]string{"value": c[columns[file][0]], "group": c[columns[file][1]]}
		if strings.Contains(r.Quantity, "pool.slope") {
			inputs["x"] = c["x"]
		}
		return inputs
	}
	for data, names := range labels {
		if strings.HasSuffix(r.Quantity, data) && strings.Contains(r.Quantity, "blup") {
			means, ses, _ := strings.Cut(r.Inputs, " se=")
			return map[string]string{"yi": strings.TrimPrefix(means, "yi="), "se": ses, "labels": names}
		}
	}
	return nil
}

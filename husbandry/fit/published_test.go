package fit

import (
	"maps"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedCurves asks every row of R 4.2.2's nls, lm and nlme and of NIST.
// Rows marked FLAT have parameters that the points do not determine: only
// their residual squares are held against R, and the fit must say so itself.
func TestPublishedCurves(t *testing.T) {
	var rows []formulatest.Row
	for _, r := range formulatest.Rows(t, published+"statistics_fit.csv") {
		if !strings.HasPrefix(r.Tolerance, "FLAT") {
			rows = append(rows, r)
			continue
		}
		f, typed := formulatest.Find(Formulas, r.Quantity)
		given := described(t, r)
		if given == nil {
			given = formula.Parse(r.Inputs)
		}
		maps.Copy(typed, given)
		a, err := f.Ask(typed)
		if err != nil || len(a.Cautions) < 2 {
			t.Errorf("%s: answered without a caution: %v %v", r.Quantity, a.Cautions, err)
		}
	}
	formulatest.Check(t, Formulas, rows, func(r formulatest.Row) map[string]string { return described(t, r) })
}

// TestPublishedGrowth asks the rows of the biology references.
func TestPublishedGrowth(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"fit.csv"), nil)
}

// described turns rows that name a file, an individual or other columns into
// the lists x and y.
func described(t *testing.T, r formulatest.Row) map[string]string {
	words := strings.Fields(r.Inputs)
	file, isFile := strings.CutPrefix(words[0], "data/")
	if !isFile {
		return nil
	}
	wanted := map[string]string{}
	if len(words) == 3 {
		wanted[words[1]] = words[2]
	}
	c := formulatest.Columns(t, published+"data/"+file, wanted)
	inputs := map[string]string{"x": c["x"], "y": c["y"]}
	if len(words) == 1 {
		inputs["individual"] = c["tree"]
	}
	return inputs
}

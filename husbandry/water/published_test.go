package water

import (
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
)

// TestPublished asks every row of testdata/published/water.csv.
func TestPublished(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, "../../testdata/published/water.csv"))
}

// ask asks the formula of a name "name=value;name=value".
func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	return formulatest.Ask(t, Formulas, name, inputs)
}

// TestRangesReadAsTheyArePrinted: what a table prints as a range is told so.
func TestRangesReadAsTheyArePrinted(t *testing.T) {
	asked := 0
	for _, row := range formulatest.Rows(t, "../../testdata/published/water.csv") {
		if row.Quantity != "tolerance_range" {
			continue
		}
		asked++
		answer, err := ask(t, row.Quantity, row.Inputs)
		if low, high, isRange := strings.Cut(row.Expected, "-"); err != nil || (isRange && low != "" && high != "" || strings.ContainsAny(row.Expected, "<>")) && answer.Text != row.Expected {
			t.Errorf("%s reads %q (%v), %s prints %q", row.Inputs, answer.Text, err, row.Source, row.Expected)
		}
	}
	if asked == 0 {
		t.Error("no range is asked")
	}
}

package pantry

import (
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
)

// TestPublished asks every row of testdata/published/pantry.csv.
func TestPublished(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, "../../testdata/published/pantry.csv"))
}

// ask asks the formula of a name "name=value;name=value".
func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	return formulatest.Ask(t, Formulas, name, inputs)
}

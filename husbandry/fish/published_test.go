package fish

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// TestPublished asks every row of testdata/published/fish.csv.
func TestPublished(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, "../../testdata/published/fish.csv"))
}

package chance

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

func published(t *testing.T) []formulatest.Row {
	return append(formulatest.Rows(t, "../../testdata/published/statistics_chance_more.csv"),
		formulatest.Rows(t, "../../testdata/published/statistics_chance.csv")...)
}

// TestPublishedDistributions asks values that mpmath computed to many digits.
func TestPublishedDistributions(t *testing.T) {
	formulatest.Check(t, Formulas, published(t))
}

func TestEdgesOfInputs(t *testing.T) {
	formulatest.Edges(t, Formulas, published(t), "drawn")
}

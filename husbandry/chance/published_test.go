package chance

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// TestPublishedDistributions asks values that mpmath computed to many digits.
func TestPublishedDistributions(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, "../../testdata/published/statistics_chance.csv"), nil)
}

package trial

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedStatistics asks every row that R 4.2.2 and NIST answer.
func TestPublishedStatistics(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_trial.csv"))
}

// TestPublishedBiology asks the rows of the biology references.
func TestPublishedBiology(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"trial.csv"))
}

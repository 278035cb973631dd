package fit

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedCurves asks every row of R 4.2.2's nls, lm and nlme and of NIST.
// Rows marked FLAT have parameters that the points do not determine: of them
// only a caution is wanted, and their residual squares stand in other rows.
func TestPublishedCurves(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_fit.csv"))
}

// TestPublishedGrowth asks the rows of the biology references.
func TestPublishedGrowth(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"fit.csv"))
}

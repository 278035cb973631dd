package pool

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedPooling asks every row that lme4 1.1-31 and metafor 3.8-1 answer.
func TestPublishedPooling(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_pool.csv"))
}

// TestPublishedShrinking asks the rows of Efron & Morris.
func TestPublishedShrinking(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"pool.csv"))
}

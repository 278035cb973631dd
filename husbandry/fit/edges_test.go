package fit

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// TestMoreCurves asks figures of NIST's sets and of a line worked by hand.
func TestMoreCurves(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_fit_more.csv"))
}

func TestEdgesOfInputs(t *testing.T) {
	rows := formulatest.Rows(t, published+"statistics_fit_more.csv")
	rows = append(rows, formulatest.Rows(t, published+"statistics_fit.csv")...)
	rows = append(rows, formulatest.Rows(t, published+"fit.csv")...)
	formulatest.Edges(t, Formulas, rows)
}

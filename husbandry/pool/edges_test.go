package pool

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

func TestEdgesOfInputs(t *testing.T) {
	const sites = "yi=[3.2 2.9 4.1 3.6] se=[0.3 0.2 0.5 0.4] site=row2"
	rows := []formulatest.Row{formulatest.Question("shrunken_weight", sites), formulatest.Question("site_rank", sites),
		formulatest.Question("james_stein_estimate", "y=0.4;mean=0.265;factor=0.212")}
	rows = append(rows, formulatest.Rows(t, published+"statistics_pool.csv")...)
	rows = append(rows, formulatest.Rows(t, published+"pool.csv")...)
	formulatest.Edges(t, Formulas, rows, "hits", "n")
}

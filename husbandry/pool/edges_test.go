package pool

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

func TestEdgesOfInputs(t *testing.T) {
	const sites = "yi=[3.2 2.9 4.1 3.6] se=[0.3 0.2 0.5 0.4] site=row2"
	rows := []formulatest.Row{{Quantity: "shrunken_weight", Inputs: sites}, {Quantity: "site_rank", Inputs: sites}}
	rows = append(rows, formulatest.Rows(t, published+"statistics_pool.csv")...)
	rows = append(rows, formulatest.Rows(t, published+"pool.csv")...)
	data := func(r formulatest.Row) map[string]string { return described(t, r) }
	formulatest.Edges(t, Formulas, rows, data, "hits", "n")
}

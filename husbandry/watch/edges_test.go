package watch

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// TestMoreWatching asks figures worked by hand or with mpmath.
func TestMoreWatching(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_watch_more.csv"))
}

func TestEdgesOfInputs(t *testing.T) {
	var rows []formulatest.Row
	const short = "value=[12 15 19 14 13 17 20 15 14 17 22 16 15 19 23 18] period=4"
	for _, name := range []string{"ets aicc", "ets sigma", "ets f+1", "ets lo80 +1", "ets hi80 +1", "hw_additive_optimised sse", "hw_additive_optimised f+1"} {
		rows = append(rows, formulatest.Question("outlook.seasonal."+name, short))
	}
	rows = append(rows, formulatest.Rows(t, published+"statistics_watch_more.csv")...)
	rows = append(rows, formulatest.Rows(t, published+"statistics_watch.csv")...)
	formulatest.Edges(t, Formulas, rows, "first", "at", "shortest", "from", "period", "interval_score.low", "interval_score.high")
}

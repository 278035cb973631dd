package trial

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// TestMoreStatistics asks figures that no other program printed for us:
// counted, or computed with mpmath.
func TestMoreStatistics(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_trial_more.csv"))
}

func TestEdgesOfInputs(t *testing.T) {
	rows := formulatest.Rows(t, published+"statistics_trial_more.csv")
	rows = append(rows, formulatest.Rows(t, published+"statistics_trial.csv")...)
	rows = append(rows, formulatest.Rows(t, published+"trial.csv")...)
	formulatest.Edges(t, Formulas, rows, "delta", "sd", "events", "events_a", "events_b", "events1", "events2")
}

package trial

import (
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// statistics are the rows that R 4.2.2 and NIST answer: those of the comparison
// of several groups, which take their time, or the others.
func statistics(t *testing.T, several bool) []formulatest.Row {
	t.Helper()
	return slices.DeleteFunc(formulatest.Rows(t, published+"statistics_trial.csv"), func(r formulatest.Row) bool {
		return strings.HasPrefix(r.Quantity, "trial.anova1.") != several
	})
}

func TestPublishedStatistics(t *testing.T) { formulatest.Check(t, Formulas, statistics(t, false)) }

func TestPublishedSeveral(t *testing.T) { formulatest.Check(t, Formulas, statistics(t, true)) }

// TestPublishedBiology asks the rows of the biology references.
func TestPublishedBiology(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"trial.csv"))
}

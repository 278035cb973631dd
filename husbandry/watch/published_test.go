package watch

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedWatching asks every row of R 4.2.2 (base, forecast 8.20,
// strucchange) and of the closed forms of scores.
func TestPublishedWatching(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_watch.csv"))
}

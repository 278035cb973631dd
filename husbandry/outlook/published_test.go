package outlook

import (
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

const published = "../../testdata/published/"

// TestPublishedSimulations asks every row of SciPy 1.10.1's solvers.
func TestPublishedSimulations(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, published+"statistics_sim.csv"))
}

func TestEdgesOfInputs(t *testing.T) {
	rows := append(formulatest.Rows(t, published+"statistics_sim.csv"), formulatest.Question("monod_steady_nitrate", "F=0.05 v1=0.2 K1=1.0 v2=0.25 K2=0.6 u=0.003/h"))
	formulatest.Edges(t, Formulas, rows,
		"low_level_m", "trip_level_m", "pump_l_per_s", "F", "V", "sump_m3", "bed_area_m2")
}

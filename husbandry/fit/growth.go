package fit

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// LogLine fits ln y = Intercept + Slope*x: growth at a steady rate, Slope a
// share per unit of x (specific growth rate). All y above 0; points as for
// StraightLine.
func LogLine(x, y []float64) (Line, error) { return changedLine(x, y, math.Log) }

// CubeRootLine fits y^(1/3) = Intercept + Slope*x: growth after the thermal
// growth coefficient when x is degree-days. All y above 0; points as for
// StraightLine. Predict answers on the scale of the cube root.
func CubeRootLine(x, y []float64) (Line, error) { return changedLine(x, y, math.Cbrt) }

func changedLine(x, y []float64, change func(float64) float64) (Line, error) {
	changed := make([]float64, len(y))
	for i, v := range y {
		if err := quantity.Within("size", v, 1e-150, 1e150, "", "by definition: above 0"); err != nil {
			return Line{}, err
		}
		changed[i] = change(v)
	}
	return StraightLine(x, changed)
}

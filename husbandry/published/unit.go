package published

import (
	"math"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// parts are words for a share of one and for a share of a hundred.
var parts = map[string]float64{"fraction": 1, "share": 1, "ratio": 1, "part": 1, "%": 100, "percent": 100, "permille": 1000}

// perNitrogen is the mass of each basis that holds one gram of nitrogen.
var perNitrogen = map[quantity.Basis]float64{
	quantity.AsN: 1, quantity.AsNH3: quantity.WeightNH3 / quantity.WeightN, quantity.AsNH4: quantity.WeightNH4 / quantity.WeightN,
	quantity.AsNO2: quantity.WeightNO2 / quantity.WeightN, quantity.AsNO3: quantity.WeightNO3 / quantity.WeightN,
}

// inUnit gives an answer in the unit that a row prints, where both are units of
// one kind; otherwise as it is.
func inUnit(a formula.Answer, want string) formula.Answer {
	change := conversion(a.Unit, want)
	if change == nil {
		return a
	}
	a.Value, a.Low, a.High, a.Unit = change(a.Value), change(a.Low), change(a.High), want
	return a
}

// conversion changes a value from one unit into another; nil where the two are
// alike, or where nothing is known of them.
func conversion(have, want string) func(float64) float64 {
	if strings.EqualFold(have, want) {
		return nil
	}
	if from, to := parts[have], parts[want]; from != 0 && to != 0 {
		return func(v float64) float64 { return v / from * to }
	}
	from, fromBasis, err := quantity.ParseUnit(have)
	to, toBasis, err2 := quantity.ParseUnit(want)
	if err != nil || err2 != nil || from == quantity.NoUnit || to == quantity.NoUnit {
		return nil
	}
	rebase := 1.0
	if fromBasis != toBasis && perNitrogen[fromBasis] != 0 && perNitrogen[toBasis] != 0 {
		rebase = perNitrogen[toBasis] / perNitrogen[fromBasis]
	}
	if from == to && rebase == 1 {
		return nil
	}
	return func(v float64) float64 {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return v
		}
		out, err := quantity.Convert(v, from, to)
		if err != nil {
			return math.NaN()
		}
		return out * rebase
	}
}

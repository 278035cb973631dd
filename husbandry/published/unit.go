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
		if factor, ok := Factor(have, want); ok {
			return func(v float64) float64 { return v * factor }
		}
		return nil
	}
	if fromBasis == quantity.AsCaCO3 && from == quantity.UnitMgPerL && to == quantity.UnitDKH {
		return func(v float64) float64 { return v / float64(quantity.DegreesKH(1).CaCO3()) }
	}
	rebase := 1.0
	switch {
	case fromBasis != toBasis && perNitrogen[fromBasis] != 0 && perNitrogen[toBasis] != 0:
		rebase = perNitrogen[toBasis] / perNitrogen[fromBasis]
	case from == to:
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

// hours are the units of time, in hours.
var hours = map[string]float64{
	"s": second, "sec": second, "min": minute, "minute": minute, "minutes": minute, "h": hour, "hr": hour, "hour": hour, "hours": hour,
	"d": day, "day": day, "days": day, "wk": week, "week": week, "weeks": week,
}

const (
	hour   = 1.0
	minute = hour / 60
	second = minute / 60
	day    = 24 * hour
	week   = 7 * day
)

// Factor is by what a number in one unit is multiplied to be in another that is
// put together alike: "kg/d" and "g/d", "h" and "min". Words behind a unit, such
// as the substance, must be the same or missing. False where nothing is known.
func Factor(have, want string) (factor float64, ok bool) {
	from, to := strings.Split(have, "/"), strings.Split(want, "/")
	if len(from) != len(to) {
		return factor, false
	}
	factor = 1
	for i := range from {
		one, known := simple(from[i], to[i])
		if !known {
			return factor, false
		}
		if i == 0 {
			factor *= one
		} else {
			factor /= one
		}
	}
	return factor, true
}

// simple is Factor for units that are not put together.
func simple(have, want string) (factor float64, ok bool) {
	have, of, _ := strings.Cut(strings.TrimSpace(have), " ")
	want, wanted, _ := strings.Cut(strings.TrimSpace(want), " ")
	if of != "" && wanted != "" && !strings.EqualFold(of, wanted) {
		return factor, false
	}
	if have == want {
		return 1, true
	}
	if from, to := hours[have], hours[want]; from > 0 && to > 0 {
		return from / to, true
	}
	from, _, err := quantity.ParseUnit(have)
	to, _, err2 := quantity.ParseUnit(want)
	if err != nil || err2 != nil || from == quantity.NoUnit || to == quantity.NoUnit {
		return factor, false
	}
	nothing, err := quantity.Convert(0, from, to)
	factor, err2 = quantity.Convert(1, from, to)
	return factor, err == nil && err2 == nil && nothing == 0
}

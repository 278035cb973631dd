package quantity

import (
	"math"
	"strconv"

	"freshet.example/husbandry/formula"
)

// RangeError says that a value lies outside the range in which a formula, a
// table or a unit is valid, and who states that range. It is returned instead
// of a guess. It stands in package formula, which refuses by it too.
type RangeError = formula.RangeError

// Who states a range, where no publication does.
const (
	// OwnBounds says that the range is this program's, wide enough for any small
	// loop, garden or record: what lies outside is a slip of the pen.
	OwnBounds = "bounds of this program; common practice, no source"
	// ByDefinition says that a value outside means nothing: a share above 1.
	ByDefinition = "by definition"
)

// Within reports a RangeError when value is not a number, is infinite, or lies
// outside [low, high]. Source says who states that range: what is published,
// else OwnBounds or ByDefinition. It allocates only when it fails.
func Within(name string, value, low, high float64, unit, source string) error {
	if value >= low && value <= high && !math.IsInf(value, 0) {
		return nil
	}
	return &RangeError{Name: name, Value: value, Low: low, High: high, Unit: unit, Source: source}
}

func plain(v float64) string { return strconv.FormatFloat(v, 'g', 7, 64) }

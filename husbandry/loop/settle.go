package loop

import (
	"math"
	"strings"

	"freshet.example/husbandry/quantity"
)

// SettlerLoading returns the flow over the surface of a settler, which is the
// slowest sinking speed it can catch: flow over area, in metres a second.
// Davidson & Summerfelt 2005 (Aquacultural Engineering 33:47-61) ran both of
// their settlers at 0.0031 m/s.
func SettlerLoading(flow quantity.LitresPerMinute, area quantity.SquareMetres) (MetresPerSecond, error) {
	if err := firstError(flowBound.check(float64(flow)), areaBound.check(float64(area))); err != nil {
		return 0, err
	}
	return MetresPerSecond(cubicMetresPerSecond(flow) / float64(area)), nil
}

// SettlerArea returns the water surface a settler needs for a flow at a loading.
func SettlerArea(flow quantity.LitresPerMinute, loading MetresPerSecond) (quantity.SquareMetres, error) {
	if err := firstError(flowBound.check(float64(flow)), loadingBound.check(float64(loading))); err != nil {
		return 0, err
	}
	return quantity.SquareMetres(cubicMetresPerSecond(flow) / float64(loading)), nil
}

// SettlerFlow returns the flow that a surface settles at a loading.
func SettlerFlow(area quantity.SquareMetres, loading MetresPerSecond) (quantity.LitresPerMinute, error) {
	if err := firstError(areaBound.check(float64(area)), loadingBound.check(float64(loading))); err != nil {
		return 0, err
	}
	return litresPerMinute(float64(area) * float64(loading)), nil
}

// SettlerDiameter returns the diameter of a round settler with the given surface.
func SettlerDiameter(area quantity.SquareMetres) (quantity.Metres, error) {
	if err := areaBound.check(float64(area)); err != nil {
		return 0, err
	}
	return quantity.Metres(2 * math.Sqrt(float64(area)/math.Pi)), nil
}

// A SettlerKind is a settler that was tested and what it held back.
type SettlerKind struct {
	Name    string
	Removal quantity.Percent // share of suspended solids held back
	Error   quantity.Percent // as printed after the plus-minus sign
	Loading MetresPerSecond  // at which it was tested
}

// settlers: Davidson & Summerfelt 2005, abstract.
var settlers = [...]SettlerKind{
	{"swirl separator", 37.1, 3.3, 0.0031},
	{"radial-flow settler", 77.9, 1.6, 0.0031},
}

// SettlerRemoval returns what a kind of settler held back in the trial of
// Davidson & Summerfelt 2005, by a word of its name ("swirl", "radial"). It
// holds for their loading of 0.0031 m/s and their fish only.
func SettlerRemoval(name string) (SettlerKind, error) {
	for _, s := range settlers {
		if name != "" && strings.Contains(s.Name, strings.ToLower(name)) {
			return s, nil
		}
	}
	return SettlerKind{}, &UnknownError{"settler", name}
}

// An UnknownError says that a table of this package has no row for a word.
type UnknownError struct {
	Table string
	Word  string
}

// Error names the table and the word.
func (e *UnknownError) Error() string { return "no " + e.Table + " \"" + e.Word + "\" in our table" }

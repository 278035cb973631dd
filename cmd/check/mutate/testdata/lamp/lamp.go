// Package lamp is examined by the tests of mutate: each number of it stands in
// a place of its own kind, and its name says what is to come of it.
package lamp

import (
	"math"
	"strconv"
	"time"
)

type watts float64

const (
	pinnedHours  = 24
	pinnedHalf   = pinnedHours / 5 * 2 // whole numbers: 8, and 4 when 5 is doubled
	lengthOfList = 2
)

const (
	pinnedFirst = 1 << (iota + 3)
	pinnedSecond
)

var pinnedTable = [lengthOfList]struct {
	name  string
	power watts
}{{"reading", 7.5}, {"growing", 60}}

var pinnedByPlace = []string{2: "third"}

// Pinned is of watts, although a parameter hides the name of that type.
func Pinned(watts float64) (time.Duration, float64) {
	const local = 0.25
	return 3 * time.Second, watts * local / 1.0e-3
}

func pinnedSign(text string) float64 {
	if v, err := strconv.ParseFloat(text, 64); err == nil {
		return v
	}
	return math.Inf(-1)
}

func pinnedByItsEnd() int {
	steps := 0
	for i := 0; i != 9; i += 3 {
		steps++
	}
	return steps
}

func unpinned(x float64) float64 { return x*1.75 + 0 }

func unreached() float64 { return 2.25 }

func exempt(x float64) float64 {
	if x < 1e-300 { // less than this is never asked
		return x
	}
	return x
}

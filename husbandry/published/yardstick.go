package published

import (
	"math"
	"strings"
)

// A bar is what a method of others reached: ours must come close or do better.
type bar struct {
	low, high float64
}

func (b bar) reached(v float64) bool { return v >= b.low && v <= b.high }

// yardstick reads rows whose tolerance is a bar: "YARDSTICK: reach within 0.05
// (coverage) or within 10 % (loss), better is fine", "YARDSTICK: 0.90 +- 0.07".
func yardstick(row Row) (bar, bool) {
	rest, set := strings.CutPrefix(row.Tolerance, "YARDSTICK:")
	if !set {
		return bar{}, false
	}
	want := expect(row.Expected).low
	center, room, about := strings.Cut(rest, "+-")
	if about {
		room, center := decimal(strings.TrimSpace(room)), decimal(strings.TrimSpace(center))
		return bar{center - room, center + room}, true
	}
	if m := figuresOf(rest); strings.Contains(row.Quantity, "coverage") && len(m) > 0 {
		return bar{want - m[0], math.Inf(1)}, true
	}
	worse := largestPercent(strings.Fields(rest))
	return bar{math.Inf(-1), want * (1 + worse)}, worse > 0
}

package fit

import (
	"math"
	"slices"
)

// overTop are the guesses of a final size, in times the largest value seen:
// from one almost reached to one far off.
var overTop = []float64{1.02, 1.1, 1.5, 3, 10}

// straightened fits a line through (x, change(y)), leaving out points where
// the change is not finite.
func straightened(x, y []float64, change func(float64) float64) (intercept, slope float64, ok bool) {
	var at, value []float64
	for i := range x {
		if v := change(y[i]); !math.IsNaN(v) && !math.IsInf(v, 0) {
			at, value = append(at, x[i]), append(value, v)
		}
	}
	l, err := StraightLine(at, value)
	return l.Intercept, l.Slope, err == nil && l.Slope != 0
}

// fromTop makes a start for each guess of the final size from the line that
// the curve becomes once divided by it.
func fromTop(x, y []float64, change func(share float64) float64, start func(top, intercept, slope float64) []float64) [][]float64 {
	var starts [][]float64
	for _, over := range overTop {
		top := over * slices.Max(y)
		if a, b, ok := straightened(x, y, func(v float64) float64 { return change(v / top) }); ok {
			starts = append(starts, start(top, a, b))
		}
	}
	return starts
}

func logit(share float64) float64 { return math.Log(share / (1 - share)) }

func logisticStarts(x, y []float64) [][]float64 {
	return fromTop(x, y, logit, func(top, a, b float64) []float64 { return []float64{top, -a / b, 1 / b} })
}

func ratkowskyStarts(x, y []float64) [][]float64 {
	return fromTop(x, y, logit, func(top, a, b float64) []float64 { return []float64{top, -a, b} })
}

func richardsStarts(x, y []float64) [][]float64 {
	var starts [][]float64
	for _, s := range ratkowskyStarts(x, y) {
		for _, power := range []float64{0.5, 1, 2} {
			starts = append(starts, []float64{s[0], s[1] * power, s[2], power})
		}
	}
	return starts
}

func gompertzStarts(x, y []float64) [][]float64 {
	loglog := func(share float64) float64 { return math.Log(-math.Log(share)) }
	return fromTop(x, y, loglog, func(top, a, b float64) []float64 { return []float64{top, math.Exp(a), math.Exp(b)} })
}

func bertalanffyStarts(x, y []float64) [][]float64 {
	left := func(share float64) float64 { return math.Log1p(-share) }
	return fromTop(x, y, left, func(top, a, b float64) []float64 { return []float64{top, -b, -a / b} })
}

func saturationStarts(x, y []float64) [][]float64 {
	left := func(share float64) float64 { return math.Log1p(-share) }
	return fromTop(x, y, left, func(top, _, b float64) []float64 { return []float64{top, -b} })
}

func exponentialStarts(x, y []float64) [][]float64 {
	a, b, ok := straightened(x, y, math.Log)
	if !ok {
		return nil
	}
	return [][]float64{{math.Exp(a), b}, {math.Exp(a), b / 2}}
}

// mentenStarts turns the curve into x/y = K/Vm + x/Vm (Hanes 1932).
func mentenStarts(x, y []float64) [][]float64 {
	turned := make([]float64, len(x))
	for i := range x {
		turned[i] = x[i] / y[i]
	}
	a, b, ok := straightened(x, turned, func(v float64) float64 { return v })
	top := slices.Max(y)
	starts := [][]float64{{top, (slices.Min(x) + slices.Max(x)) / 4}}
	if ok {
		starts = append(starts, []float64{1 / b, a / b})
	}
	return starts
}

// biexponentialStarts peels: the late points give the slow loss, what the
// early ones hold above it the quick one.
func biexponentialStarts(x, y []float64) [][]float64 {
	var starts [][]float64
	for late := 3; late <= len(x)-3; late++ {
		cut := len(x) - late
		a, b, ok := straightened(x[cut:], y[cut:], math.Log)
		above := make([]float64, cut)
		for i := range above {
			above[i] = y[i] - math.Exp(a+b*x[i])
		}
		c, d, found := straightened(x[:cut], above, math.Log)
		if ok && found && b < 0 && d < 0 {
			starts = append(starts, []float64{math.Exp(c), math.Log(-d), math.Exp(a), math.Log(-b)})
		}
	}
	return starts
}

// firstOrderStarts takes the loss from the last points, the clearance from the
// area under them, and tries several rates of uptake.
func firstOrderStarts(dose float64, x, y []float64) [][]float64 {
	area := 0.0
	for i := 1; i < len(x); i++ {
		area += (x[i] - x[i-1]) * (y[i] + y[i-1]) / 2
	}
	cut := max(0, len(x)-4)
	_, b, ok := straightened(x[cut:], y[cut:], math.Log)
	if !ok || b >= 0 || !(area > 0) {
		return nil
	}
	loss := math.Log(-b)
	var starts [][]float64
	for _, quicker := range []float64{1, 2, 3, 4} {
		starts = append(starts, []float64{loss, loss + quicker, math.Log(dose / area)})
	}
	return starts
}

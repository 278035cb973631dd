package outlook

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// Narrowing says which reading, taken now, would narrow a forecast most, and to
// what share of its width: the guesses that differ in the one and in the other
// alike tell it, and what it keeps of how the figure was of late stays as wide. Where
// none helps the share is 1.
func (a *Ahead) Narrowing(f Figure, s Side, day int) (Figure, quantity.Fraction, error) {
	if err := a.checkDay(f, day); err != nil {
		return 0, 1, err
	}
	ahead := onScale(f, a.days[day][f].side(s))
	meanAhead, spread := moments(ahead)
	best, least := f, math.Inf(1)
	for r := range readable {
		now := onScale(r, a.now[r])
		mean, variance := moments(now)
		typical := Reading{Figure: r, Value: scaleOf(r).back(mean)}
		with := covariation(now, mean, ahead, meanAhead)
		if spread == 0 || variance == 0 {
			continue
		}
		left := 1 - with*with/(spread*(variance+scaleOf(r).doubt(typical)))
		if share := math.Sqrt(math.Max(0, left)); share < least {
			best, least = r, share
		}
	}
	stays := a.draw(f, s, day).lean
	return best, quantity.Fraction(stays + (1-stays)*math.Min(least, 1)), nil
}

func onScale(f Figure, values []float64) []float64 {
	s, list := scaleOf(f), make([]float64, len(values))
	for i, v := range values {
		list[i] = s.on(v)
	}
	return list
}

// covariation of two lists whose means are known.
func covariation(a []float64, meanA float64, b []float64, meanB float64) float64 {
	sum := 0.0
	for i := range a {
		sum += (a[i] - meanA) * (b[i] - meanB) / float64(len(a))
	}
	return sum
}

// Rising is the chance that a figure's mean on a day is so many times what it is
// now, and more than a least: a filter that gives up shows so in ammonia.
func (a *Ahead) Rising(f Figure, day int, times, least float64) (quantity.Fraction, error) {
	err := firstError(a.checkDay(f, day), quantity.Within("times", times, 1, 1000, "", quantity.OwnBounds), quantity.Within("least", least, 0, 1e6, "", quantity.OwnBounds))
	if err != nil {
		return 0, err
	}
	n, values := 0.0, a.days[day][f].mean
	for i, v := range values {
		if v > least && v > times*a.now[f][i] {
			n++
		}
	}
	return quantity.Fraction(n / float64(len(values))), nil
}

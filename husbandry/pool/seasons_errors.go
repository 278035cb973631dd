package pool

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// The errors of a year are those of the logarithm of each site's rate, by the
// linearised equations that fit levels and effects (the sandwich of White 1980,
// Econometrica 48:817, widened by the months over the months to spare as in
// MacKinnon & White 1985). Of a site that noted all seasons alike nothing is
// left of the others' months, and what remains is the error of a ratio of sums
// (Cochran 1977, Sampling Techniques, 6.4).

// months counts the months on record of seasons that bear, and how many of them
// the levels and effects leave to spare.
func (t *table) months() (n, spare float64) {
	effects := -1.0 // the mean effect is 1 by definition
	for _, e := range t.effect {
		if e > 0 {
			effects++
		}
	}
	for i := range t.y {
		if !t.joined[i] {
			continue
		}
		spare--
		for j := range t.effect {
			if t.fitted(i, j) > 0 {
				n++
			}
		}
	}
	return n, n + spare - effects
}

func (t *table) spare() error {
	_, spare := t.months()
	return quantity.Within("months on record beyond levels and effects", spare, 1, math.MaxFloat64, "", "by definition: else nothing tells how sure they are")
}

func (t *table) fitted(i, j int) float64 { return t.e[i][j] * t.level[i] * t.effect[j] }

// errors gives the standard error of the logarithm of each site's rate.
func (t *table) errors() []float64 {
	bread, meat := t.bread(), t.meat()
	n, spare := t.months()
	errs := make([]float64, len(t.y))
	for i := range t.y {
		if !t.joined[i] {
			continue
		}
		shares := t.shares(i)
		off := make([]float64, len(t.effect)) // how far its seasons are from the whole year's
		for j, e := range t.effect {
			off[j] = e/total(t.effect) - shares[j]
		}
		v := times(bread, off)
		errs[i] = math.Sqrt((dot(v, times(meat, v)) + t.own(i, shares, v)) * n / spare)
	}
	return errs
}

// shares is what part of a site's fitted sum lies in each season.
func (t *table) shares(i int) []float64 {
	shares, sum := make([]float64, len(t.effect)), total(t.y[i])
	for j := range shares {
		shares[j] = t.fitted(i, j) / sum
	}
	return shares
}

// own is what a site's own months add to what all months say of the seasons.
func (t *table) own(i int, shares, v []float64) float64 {
	sum, added := total(t.y[i]), 0.0
	middle := dot(shares, v)
	for j := range t.effect {
		r := t.y[i][j] - t.fitted(i, j)
		added += r * r * (1/sum + 2*(v[j]-middle)) / sum
	}
	return added
}

// bread is the inverse of how the sums of seasons answer to their effects, with
// the levels following. One season that bears is held, since levels and effects
// may be scaled against each other; the errors are the same whichever it is.
func (t *table) bread() [][]float64 {
	m := t.square(func(i int, shares []float64, m [][]float64) {
		for j, a := range shares {
			m[j][j] += a * total(t.y[i])
			for k, b := range shares {
				m[j][k] -= a * b * total(t.y[i])
			}
		}
	})
	held := false
	for j, e := range t.effect {
		if e > 0 && held {
			continue
		}
		held = held || e > 0
		for k := range m {
			m[j][k], m[k][j] = 0, 0
		}
	}
	return inverse(m)
}

// meat is the squares of what is left of each month, as they weigh on the seasons.
func (t *table) meat() [][]float64 {
	return t.square(func(i int, shares []float64, m [][]float64) {
		squares := make([]float64, len(shares))
		for j := range shares {
			r := t.y[i][j] - t.fitted(i, j)
			squares[j] = r * r
		}
		sum := total(squares)
		for j := range m {
			m[j][j] += squares[j]
			for k := range m {
				m[j][k] += sum*shares[j]*shares[k] - squares[j]*shares[k] - shares[j]*squares[k]
			}
		}
	})
}

// square adds up a matrix of seasons by seasons over the sites that enter.
func (t *table) square(add func(i int, shares []float64, m [][]float64)) [][]float64 {
	m := make([][]float64, len(t.effect))
	for j := range m {
		m[j] = make([]float64, len(t.effect))
	}
	for i := range t.y {
		if t.joined[i] {
			add(i, t.shares(i), m)
		}
	}
	return m
}

func times(m [][]float64, v []float64) []float64 {
	out := make([]float64, len(m))
	for j, row := range m {
		out[j] = dot(row, v)
	}
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// inverse is that of a symmetric matrix none of whose pivots is below 0, by
// sweeping them one by one (Beaton 1964); rows of noughts stay noughts.
func inverse(m [][]float64) [][]float64 {
	for p := range m {
		pivot := m[p][p]
		if pivot <= 0 {
			continue
		}
		for j := range m {
			if j == p {
				continue
			}
			ratio := m[j][p] / pivot
			for k := range m {
				if k != p {
					m[j][k] -= ratio * m[p][k]
				}
			}
			m[j][p] = ratio
		}
		for k := range m {
			m[p][k] /= pivot
		}
		m[p][p] = -1 / pivot
	}
	for j := range m {
		for k := range m {
			m[j][k] = -m[j][k]
		}
	}
	return m
}

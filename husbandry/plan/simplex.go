package plan

import "math"

// simplex keeps the best mixture of columns so far under row limits: the primal
// simplex method with an explicit inverse of the basis (Dantzig & Orchard-Hays
// 1954, Math. Tables 8:64), for columns that are made as they are asked for.
// Every row has a slack, so it begins with nothing taken.
type simplex struct {
	inverse [][]float64 // by column: what a unit of each row takes of each basic column
	mixed   []bool      // of each row, whether its column of the inverse is more than its own slack
	amount  []float64   // of each basic column
	basis   []int       // which column: its number from 0, or less than 0 for a slack
	price   []float64   // of each row
}

// column is what one unit gives, and takes of each row.
type column struct {
	value float64
	row   []int
	take  []float64
}

const slack = -1

func newSimplex(limits []float64) *simplex {
	s := &simplex{amount: append([]float64{}, limits...), basis: make([]int, len(limits)), price: make([]float64, len(limits)), mixed: make([]bool, len(limits))}
	for i := range limits {
		s.basis[i] = slack
		s.inverse = append(s.inverse, make([]float64, len(limits)))
		s.inverse[i][i] = 1
	}
	return s
}

// worthOf is what a unit of a column gives beyond what its rows are worth.
func (s *simplex) worthOf(c column) float64 {
	gain := c.value
	for i, r := range c.row {
		gain -= s.price[r] * c.take[i]
	}
	return gain
}

// slackWorth is the row whose slack gives most, and how much.
func (s *simplex) slackWorth() (row int, gain float64) {
	for i, p := range s.price {
		if -p > gain {
			row, gain = i, -p
		}
	}
	return row, gain
}

// enter takes in as much of a column as the rows allow; false where nothing
// limits it.
func (s *simplex) enter(c column, number int) bool {
	step := make([]float64, len(s.basis))
	for k, r := range c.row {
		if !s.mixed[r] {
			step[r] += c.take[k]
			continue
		}
		add(step, s.inverse[r], c.take[k])
	}
	out := s.leaving(step)
	if out < 0 {
		return false
	}
	s.pivot(out, step, s.worthOf(c))
	s.basis[out] = number
	return true
}

// leaving is the basic column that is first used up; of several the one with
// the largest step, which rounds best.
func (s *simplex) leaving(step []float64) int {
	const tiny = 1e-9
	out, least := -1, math.Inf(1)
	for i, d := range step {
		if d <= tiny {
			continue
		}
		ratio := max(0, s.amount[i]) / d
		if ratio < least-tiny || ratio < least+tiny && out >= 0 && d > step[out] { //nolint:gosec // out is an index of step
			out, least = i, min(least, ratio)
		}
	}
	return out
}

func (s *simplex) pivot(out int, step []float64, gain float64) {
	size := max(0, s.amount[out]) / step[out]
	for j, inverse := range s.inverse {
		if inverse[out] == 0 {
			continue
		}
		v := inverse[out] / step[out]
		add(inverse, step, -v)
		inverse[out] = v
		s.price[j] += gain * v
		s.mixed[j] = true
	}
	add(s.amount, step, -size)
	s.amount[out] = size
}

// add adds times more to each of to.
func add(to, more []float64, times float64) {
	more = more[:len(to)]
	for i, v := range more {
		to[i] += times * v
	}
}

// revalue takes over other values of the basic columns.
func (s *simplex) revalue(value func(number int) float64) {
	values := make([]float64, len(s.basis))
	for i, number := range s.basis {
		if number >= 0 {
			values[i] = value(number)
		}
	}
	for j, inverse := range s.inverse {
		s.price[j] = 0
		for i, v := range inverse {
			s.price[j] += values[i] * v
		}
	}
}

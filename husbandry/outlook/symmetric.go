package outlook

import "math"

// matrix holds rows.
type matrix [][]float64

func newMatrix(n int) matrix {
	m, all := make(matrix, n), make([]float64, n*n)
	for i := range m {
		m[i], all = all[:n:n], all[n:]
	}
	return m
}

// root is the lower Cholesky factor of a symmetric matrix; false where the
// matrix is not positive.
func (m matrix) root() (matrix, bool) {
	r := newMatrix(len(m))
	for i := range m {
		for j := range i + 1 {
			s := m[i][j]
			for k, v := range r[j][:j] {
				s -= r[i][k] * v
			}
			if i > j {
				r[i][j] = s / r[j][j]
			} else if r[i][i] = math.Sqrt(s); !(s > 0) {
				return nil, false
			}
		}
	}
	return r, true
}

// forth solves root x = b.
func (m matrix) forth(b []float64) []float64 {
	x := make([]float64, len(b))
	for i, row := range m {
		s := b[i]
		for k, v := range row[:i] {
			s -= v * x[k]
		}
		x[i] = s / row[i]
	}
	return x
}

// solve solves (root root') x = b.
func (m matrix) solve(b []float64) []float64 {
	x := m.forth(b)
	for i := len(x) - 1; i >= 0; i-- {
		for k := i + 1; k < len(x); k++ {
			x[i] -= m[k][i] * x[k]
		}
		x[i] /= m[i][i]
	}
	return x
}

// inverse is the inverse of root root'.
func (m matrix) inverse() matrix {
	inv := newMatrix(len(m))
	for j := range m {
		unit := make([]float64, len(m))
		unit[j] = 1
		copy(inv[j], m.solve(unit)) // symmetric, so rows are columns
	}
	return inv
}

// logRoot is half the logarithm of the determinant of root root'.
func (m matrix) logRoot() float64 {
	sum := 0.0
	for i := range m {
		sum += math.Log(m[i][i])
	}
	return sum
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i, v := range a {
		s += v * b[i]
	}
	return s
}

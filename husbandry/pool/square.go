package pool

// A square is a matrix of two by two, row by row.
type square struct{ a, b, c, d float64 }

var identity = square{1, 0, 0, 1}

func (m square) plus(o square, times float64) square {
	return square{m.a + times*o.a, m.b + times*o.b, m.c + times*o.c, m.d + times*o.d}
}

func (m square) times(o square) square {
	return square{m.a*o.a + m.b*o.c, m.a*o.b + m.b*o.d, m.c*o.a + m.d*o.c, m.c*o.b + m.d*o.d}
}

func (m square) of(v [2]float64) [2]float64 {
	return [2]float64{m.a*v[0] + m.b*v[1], m.c*v[0] + m.d*v[1]}
}

func (m square) determinant() float64 { return m.a*m.d - m.b*m.c }

func (m square) inverse() square {
	det := m.determinant()
	return square{m.d / det, -m.b / det, -m.c / det, m.a / det}
}

package outlook

import "math"

// A square is a matrix of four rows, and a column what it is multiplied with.
type (
	square [4][4]float64
	column [len(square{})]float64
)

// exponential sums the power series of a share of the matrix and squares the
// result back (Moler & Van Loan 2003, SIAM Review 45:3, method 3).
func (a square) exponential() square {
	const (
		share = 0.5 // largest row sum for which the series is taken
		terms = 16  // then good to the last digit
	)
	var largest float64
	for _, row := range a {
		largest = max(largest, math.Abs(row[0])+math.Abs(row[1])+math.Abs(row[2])+math.Abs(row[3]))
	}
	var halvings int
	for ; largest > share; largest /= 2 {
		halvings++
	}
	a = a.scaled(math.Ldexp(1, -halvings))
	sum, term := identity, identity
	for n := 1; n <= terms; n++ {
		term = term.over(a).scaled(1 / float64(n))
		for i := range sum {
			for j := range sum[i] {
				sum[i][j] += term[i][j]
			}
		}
	}
	for range halvings {
		sum = sum.over(sum)
	}
	return sum
}

var identity = square{{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}

func (a square) scaled(by float64) square {
	for i := range a {
		for j := range a[i] {
			a[i][j] *= by
		}
	}
	return a
}

// over is the product of a and b.
func (a square) over(b square) (product square) {
	for i := range a {
		for j := range b {
			for k := range a[i] {
				product[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return product
}

func (a square) times(v column) (product column) {
	for i, row := range a {
		for j := range row {
			product[i] += row[j] * v[j]
		}
	}
	return product
}

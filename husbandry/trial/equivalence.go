package trial

import (
	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/quantity"
)

// An Equivalence is whether two means differ by less than a margin that was
// fixed beforehand: "no difference was found" never shows that there is none.
type Equivalence struct {
	Difference float64
	Low, High  float64 // interval at confidence 1 - 2 alpha; equivalent when it lies within the margin
	P          float64 // the larger of the two one-sided chances
	Equivalent bool
}

// Equivalent holds the difference of two means (Welch) against the margin low
// to high, low below 0 and high above, by two one-sided tests at level alpha,
// 0.0001 to 0.25. Two values or more in each group. (Schuirmann 1987, J.
// Pharmacokin. Biopharm. 15:657)
func Equivalent(x, y []float64, low, high float64, alpha quantity.Fraction) (Equivalence, error) {
	if err := quantity.Within("alpha", float64(alpha), 0.0001, 0.25, "", quantity.OwnBounds); err != nil {
		return Equivalence{}, err
	}
	if err := quantity.Within("lower margin", low, -1e150, 0, "", quantity.OwnBounds); err != nil {
		return Equivalence{}, err
	}
	if err := quantity.Within("upper margin", high, 0, 1e150, "", quantity.OwnBounds); err != nil {
		return Equivalence{}, err
	}
	c, err := Welch(x, y, 1-2*alpha)
	if err != nil {
		return Equivalence{}, err
	}
	above := chance.TSurvival((c.Difference-low)/c.SE, c.DF)
	below := chance.TCDF((c.Difference-high)/c.SE, c.DF)
	p := max(above, below)
	return Equivalence{c.Difference, c.Low, c.High, p, p <= float64(alpha)}, nil
}

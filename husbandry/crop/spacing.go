package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

func bedArea(a quantity.SquareMetres) error { return areaBound.check(float64(a)) }

// PlantsInRows returns how many plants an area holds at so many centimetres
// between rows and within them. 0.01 to 100,000 m2, 1 to 1000 cm.
func PlantsInRows(area quantity.SquareMetres, betweenRows, inRow float64) (int, error) {
	err := firstError(bedArea(area), spacingBound.checkAs("between rows", betweenRows), spacingBound.checkAs("in the row", inRow))
	if err != nil {
		return 0, err
	}
	return roundDown(float64(area) * 100 * 100 / (betweenRows * inRow)), nil
}

// PlantsStaggered returns how many plants an area holds when each has six
// neighbours at the same distance: 2/sqrt(3) times as many as in squares.
func PlantsStaggered(area quantity.SquareMetres, apart float64) (int, error) {
	if err := firstError(bedArea(area), spacingBound.checkAs("between plants", apart)); err != nil {
		return 0, err
	}
	return roundDown(float64(area) * 100 * 100 / (apart * apart) * 2 / math.Sqrt(3)), nil
}

// PlantsFor returns how many plants of the crop an area holds, from its
// thinnest to its densest usual stand.
func PlantsFor(crop string, area quantity.SquareMetres) (few, many int, err error) {
	c, err := Find(crop)
	if err != nil {
		return 0, 0, err
	}
	if err := firstError(bedArea(area), c.Density.orNotKnown(c.Name, "plants in a square metre")); err != nil {
		return 0, 0, err
	}
	return roundDown(c.Density.Low * float64(area)), roundDown(c.Density.High * float64(area)), nil
}

// AreaFor returns the area that so many plants of the crop want, at the middle
// of its usual stands.
func AreaFor(crop string, plants int) (quantity.SquareMetres, error) {
	c, err := Find(crop)
	if err != nil {
		return 0, err
	}
	if err := firstError(plantsBound.check(float64(plants)), c.Density.orNotKnown(c.Name, "plants in a square metre")); err != nil {
		return 0, err
	}
	return quantity.SquareMetres(float64(plants) / c.Density.Middle()), nil
}

// roundDown rounds down to a whole number, forgiving the rounding of floating
// point.
func roundDown(v float64) int {
	const dust = 1e-9
	return int(math.Floor(v + dust))
}

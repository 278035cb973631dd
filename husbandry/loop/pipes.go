package loop

import "freshet.example/husbandry/quantity"

// A pipe of schedule 40, by trade name, with its inside diameter in inches.
type pipe struct {
	nominal NominalInches
	inside  float64
}

// schedule40: ASTM D1785 dimensions, from memory; those of 1 to 6 inches are
// confirmed by the fit of Illinois 77/906 App. A Exh. I to Hazen-Williams.
var schedule40 = [...]pipe{
	{0.5, 0.622},
	{0.75, 0.824},
	{1, 1.049},
	{1.25, 1.380},
	{1.5, 1.610},
	{2, 2.067},
	{2.5, 2.469},
	{3, 3.068},
	{4, 4.026},
	{6, 6.065},
}

// InsideDiameter returns the inside diameter of schedule 40 pipe by its trade
// name in inches. Taking the name for the diameter errs the friction of a
// 2-inch pipe by 17 %.
func InsideDiameter(nominal NominalInches) (quantity.Metres, error) {
	for _, p := range schedule40 {
		if p.nominal == nominal {
			return quantity.Metres(inchesToMetres(p.inside)), nil
		}
	}
	return 0, &UnknownError{"schedule 40 pipe", short(float64(nominal)) + "-inch"}
}

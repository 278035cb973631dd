package crop

import "freshet.example/husbandry/quantity"

// A FieldYield is what fields in the American Midwest give: the yardstick for
// a grower's own beds, not a promise for them.
type FieldYield struct {
	Crop      string
	Average   quantity.ShortTonsPerAcre
	Good      quantity.ShortTonsPerAcre
	Excellent quantity.ShortTonsPerAcre
}

// fieldYields holds the Midwest Vegetable Production Guide 2022, p. 30, whole.
var fieldYields = []FieldYield{
	{"asparagus", 1, 1.5, 2},
	{"bean (snap)", 2, 3, 4},
	{"cabbage", 13, 15, 20},
	{"cantaloupe", 10, 15, 19},
	{"cucumber (slicing)", 9, 12, 15},
	{"cucumber, pickling (hand harvest)", 6, 10, 12},
	{"onion", 13, 18, 23},
	{"pepper (green)", 14, 17, 20},
	{"potato (fall)", 10, 15, 20},
	{"pumpkin", 10, 15, 25},
	{"spinach", 6, 8, 10},
	{"summer squash", 10, 13, 16},
	{"sweet corn", 4.5, 8, 10},
	{"sweet potato", 7, 12, 15},
	{"tomato (fresh market)", 11, 13, 15},
	{"tomato, processing", 25, 29, 33},
	{"watermelon", 15, 20, 25},
}

// FieldYieldOf returns the field yield of the crop. A crop that the guide does
// not list is a NotListedError.
func FieldYieldOf(crop string) (FieldYield, error) {
	return rowOf("the Midwest Vegetable Production Guide", fieldYields, func(f FieldYield) string { return f.Crop }, crop)
}

// A LoopYield is a yield printed for the raft beds of one research loop.
type LoopYield struct {
	Crop    string
	Mode    string // how it was grown
	Harvest KgPerM2
	Yearly  bool // a projected year rather than one crop
}

// loopYields holds the University of the Virgin Islands' raft trials: Rakocy,
// Bailey, Shultz and Thoman 2004, Update on tilapia and vegetable production
// (abstract), and Rakocy, Shultz, Bailey and Thoman 2004, Acta Horticulturae 648
// (abstract) for basil by the crop. The abstract prints the basil year as kg/m3,
// meaning kg/m2.
var loopYields = []LoopYield{
	{"basil", "batch", 25.0, true},
	{"basil", "staggered", 23.4, true},
	{"basil", "field", 7.7, true},
	{"basil", "batch", 2.0, false},
	{"basil", "staggered", 1.8, false},
	{"basil", "field", 0.6, false},
	{"okra", "raft", 13.37, true},
	{"okra", "raft", 3.04, false},
	{"okra", "field", 0.15, false},
}

// LoopYieldOf returns what the trial beds gave, one crop or a projected year. A
// crop or mode that was not tried is a NotListedError.
func LoopYieldOf(crop, mode string, yearly bool) (LoopYield, error) {
	for _, y := range loopYields {
		if sameName(y.Crop, crop) && sameName(y.Mode, mode) && y.Yearly == yearly {
			return y, nil
		}
	}
	return LoopYield{}, &NotListedError{Table: "the UVI trials", Asked: crop + ", " + mode}
}

// ExpectedYield returns the fresh harvest that a planting of the crop may give
// in its whole life, kg/m2, a perennial in a year: average to excellent field
// yields where they are published, else the crop table's own figure.
func ExpectedYield(crop string) (Figure, error) {
	c, err := Find(crop)
	if err != nil {
		return Figure{}, err
	}
	if c.FieldYieldRow == "" {
		return c.Yield, c.Yield.orNotKnown(c.Name, "yield")
	}
	field, err := FieldYieldOf(c.FieldYieldRow)
	if err != nil {
		return Figure{}, err
	}
	low, err := FromShortTonsPerAcre(field.Average)
	if err != nil {
		return Figure{}, err
	}
	high, err := FromShortTonsPerAcre(field.Excellent)
	return orNothing(Figure{float64(low), float64(high), Midwest}, err)
}

// orNotKnown turns a figure that is not known into a NotListedError.
func (f Figure) orNotKnown(crop, what string) error {
	if f.Known() {
		return nil
	}
	return &NotListedError{Table: "the crop table", Asked: crop + ", " + what}
}

package pantry

import "freshet.example/husbandry/quantity"

// A Keeping is how many months a dried vegetable keeps, as printed for 70 and
// for 60 degF. A low end of zero is printed "<".
type Keeping struct {
	Crop string
	At70 Span
	At60 Span
}

// keepings: drying chart I, extension style.
var keepings = []Keeping{
	{"snap beans", Span{3, 4}, Span{4, 6}},
	{"beets", Span{3, 4}, Span{4, 6}},
	{"carrots", Span{4, 6}, Span{6, 8}},
	{"celery", Span{1, 2}, Span{2, 4}},
	{"corn", Span{3, 4}, Span{4, 6}},
	{"mushrooms", Span{1, 2}, Span{2, 4}},
	{"onions", Span{2, 4}, Span{4, 6}},
	{"peas", Span{3, 4}, Span{4, 6}},
	{"peppers", Span{6, 8}, Span{8, 12}},
	{"potatoes", Span{2, 4}, Span{4, 6}},
	{"summer squash", Span{0, 1}, Span{1, 2}},
	{"tomatoes", Span{2, 3}, Span{3, 4}},
}

// DriedMonths returns how long a dried vegetable keeps.
func DriedMonths(crop string) (Keeping, error) {
	k, ok := named(keepings, func(k *Keeping) string { return k.Crop }, crop)
	if !ok {
		return Keeping{}, &NotInTableError{"dried storage of \"" + crop + "\""}
	}
	return *k, nil
}

const (
	coolStore = 60 // degF
	warmStore = 80
)

// DriedFruitMonths returns the months that dried fruit keeps: 12 at 60 degF and
// 6 at 80 (University of Georgia Extension). Dried vegetables keep about half as
// long. Between the two the shorter is given; warmer or colder than printed is
// refused.
func DriedFruitMonths(store quantity.Fahrenheit) (float64, error) {
	if err := quantity.Within("store", float64(store), coolStore, warmStore, "degF", "UGA Ext., Preserving Food: Drying"); err != nil {
		return 0, err
	}
	if store == coolStore {
		return 12, nil
	}
	return 6, nil
}

// A DryYield is the dried weight that a fresh weight gave.
type DryYield struct {
	Crop  string
	Fresh quantity.Pounds
	Dried quantity.Pounds
}

// dryYields: So Easy to Preserve / USDA drying yield table, all from memory.
var dryYields = []DryYield{
	{"lima beans", 7, 1.25},
	{"snap beans", 6, 0.5},
	{"beets", 15, 1.5},
	{"broccoli", 12, 1.375},
	{"carrots", 15, 1.25},
	{"celery", 12, 0.75},
	{"corn", 18, 2.5},
	{"greens", 3, 0.25},
	{"onions", 12, 1.5},
	{"peas", 8, 0.75},
	{"pumpkin", 11, 0.75},
	{"squash", 10, 0.75},
	{"tomatoes", 14, 0.5},
}

// YieldDried returns the printed pair of weights of a crop (from memory).
func YieldDried(crop string) (DryYield, error) {
	d, ok := named(dryYields, func(d *DryYield) string { return d.Crop }, crop)
	if !ok {
		return DryYield{}, &NotInTableError{"dry yield of \"" + crop + "\""}
	}
	return *d, nil
}

// DriedWeight returns what a fresh weight (0 to 100,000 lb) gives dried, in the
// proportion of YieldDried.
func DriedWeight(crop string, fresh quantity.Pounds) (quantity.Pounds, error) {
	if err := quantity.Within("fresh weight", float64(fresh), 0, mostPounds, "lb", quantity.OwnBounds); err != nil {
		return 0, err
	}
	d, err := YieldDried(crop)
	if err != nil {
		return 0, err
	}
	return fresh * d.Dried / d.Fresh, nil
}

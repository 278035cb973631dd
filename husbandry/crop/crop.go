package crop

import "slices"

// A Kind groups crops by what is eaten and how long they stand.
type Kind int

// The kinds of crop.
const (
	Leafy Kind = iota
	FlowerHead
	Fruiting
	Legume
	Bulb
	Root
	Herb
	PerennialFruit // stands for years: fruit, berries, asparagus, rhubarb
)

// String names the kind in one word.
func (k Kind) String() string {
	return [...]string{"leafy", "flower head", "fruiting", "legume", "bulb", "root", "herb", "perennial"}[k]
}

// A Pollination says what must carry the pollen before there is a harvest.
type Pollination int

// What a harvest needs of its flowers.
const (
	NotNeeded      Pollination = iota // leaf, root or seedless fruit
	SelfPollinated                    // sets fruit without help
	SelfShaken                        // sets by itself when wind or a buzzing bee shakes the flower
	Wind
	Insects
)

// An Appetite is how heavily a crop feeds: its nutrient class.
type Appetite int

// The nutrient classes. They are common practice, without a source.
const (
	LightFeeder Appetite = iota
	MediumFeeder
	HeavyFeeder
)

// String names the class in words.
func (a Appetite) String() string {
	return [...]string{"light feeder", "medium feeder", "heavy feeder"}[a]
}

// A Hardiness is what frost does to a growing plant. The classes are common
// practice, without a source.
type Hardiness int

// The classes of frost hardiness.
const (
	Tender    Hardiness = iota // killed by any frost
	HalfHardy                  // stands a light frost
	Hardy                      // stands hard frost
)

// String names the class in words.
func (h Hardiness) String() string { return [...]string{"tender", "half-hardy", "hardy"}[h] }

// Grace is for how many days before the last frost of spring such plants are sown
// or set out in the open, and for how many after the first of autumn they bear:
// hardy ones some six weeks, half-hardy ones two (common practice, no source).
func (h Hardiness) Grace() Day { return [...]Day{0, 14, 42}[h] }

// A Crop is what is known of how one kind of plant behaves. Every figure names
// its source; a figure that is not known is the zero Figure.
type Crop struct {
	Name  string
	Latin string
	Also  []string // other names in English
	Kind  Kind

	Pollination Pollination
	Feeds       Appetite
	Frost       Hardiness

	FromSowing     Figure // days from sowing to the first harvest
	FromTransplant Figure // days from setting out a seedling or slip to the first harvest
	Bearing        Figure // days that the harvest lasts, or that a ripe crop holds
	YearsToBearing Figure // years from planting a nursery plant to a first real crop

	Base  Figure // degC below which it does not grow
	Upper Figure // degC above which more warmth does not hasten it
	Air   Figure // degC of air in which it does well

	Germination   Figure // days to come up
	GerminationAt Figure // degC for those days
	SeedsPerGram  Figure

	PH             Figure // pH of the root zone
	Spacing        Figure // cm between plants
	Density        Figure // plants in a square metre
	Yield          Figure // kg fresh in a square metre, whole life of a planting, or a year of a perennial
	SowingInterval Figure // days between sowings for a steady supply

	// Rows of the published tables that hold for this crop; empty where none does.
	KcRow         string // FAO-56 Table 12
	StageRow      string // FAO-56 Table 11, one of several
	SalinityRow   string // Maas 1990
	FieldYieldRow string // Midwest Vegetable Production Guide

	Note string // what to know before planting it, the law included
}

// Crops holds the crop table.
var Crops = slices.Concat(leafyCrops, fruitingCrops, rootCrops, herbCrops, perennialCrops)

// Find returns the crop of that name, or of one of its other names. The case
// of letters and plurals do not matter. An unknown name is a NotListedError.
func Find(name string) (Crop, error) {
	if i := slices.IndexFunc(Crops, func(c Crop) bool { return c.Name == name }); i != -1 {
		return Crops[i], nil // as the table writes it: the common case, and quick
	}
	for _, c := range Crops {
		if sameName(c.Name, name) || slices.ContainsFunc(c.Also, func(a string) bool { return sameName(a, name) }) {
			return c, nil
		}
	}
	return Crop{}, &NotListedError{Table: "the crop table", Asked: name}
}

// CropNames lists the names of the crop table in its order.
func CropNames() []string { return namesOf(Crops, func(c Crop) string { return c.Name }) }

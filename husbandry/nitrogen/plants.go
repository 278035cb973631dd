package nitrogen

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A CropClass sorts crops by how much nitrogen they take.
type CropClass int

// The crop classes.
const (
	Leafy    CropClass = iota // lettuce, chard, pak choi
	Herb                      // basil, parsley
	Fruiting                  // tomato, pepper, cucumber
)

type uptake struct {
	name      string
	low, high ArealN
	source    string
}

var uptakes = [...]uptake{
	// 295 and 410 g dry/m2 of butterhead (Foggia) at 33.2 and 38.4 mg N/g
	// (PMC4646504), over 32 and 24 days from transplanting (FAO TP 589).
	Leafy: {"leafy", 0.31, 0.66, "derived from Foggia dry matter, PMC4646504 and FAO TP 589 days"},
	// 25 kg fresh/m2 a year (UVI) with 8 to 12 % dry matter at 4 % N, from memory.
	Herb: {"herb", 0.22, 0.33, "derived from UVI basil yield, dry matter and N from memory"},
	// 2.5 to 4 kg N for a tonne of tomatoes and 40 to 50 kg/m2 a year, from memory.
	Fruiting: {"fruiting", 0.27, 0.55, "from memory"},
}

// String names the class.
func (c CropClass) String() string {
	if c < Leafy || c > Fruiting {
		return "unknown"
	}
	return uptakes[c].name
}

// CropClassByName returns the class called leafy, herb or fruiting.
func CropClassByName(name string) (CropClass, error) {
	for c, u := range uptakes {
		if strings.EqualFold(u.name, name) {
			return CropClass(c), nil
		}
	}
	return 0, &UnknownError{"crop class", name}
}

// PlantUptake returns the lowest and highest nitrogen that a closed stand of
// 0 to 1e6 m2 takes up in a day in its growing season. Seedlings take a tenth,
// winter stands a third, so it is a ceiling for planning and not a
// measurement; weigh the harvest for that.
func PlantUptake(area quantity.SquareMetres, class CropClass) (low, high GramsN, err error) {
	if err := checkArea(area); err != nil {
		return 0, 0, err
	}
	if class < Leafy || class > Fruiting {
		return 0, 0, &UnknownError{"crop class", class.String()}
	}
	u := uptakes[class]
	return GramsN(float64(area) * float64(u.low)), GramsN(float64(area) * float64(u.high)), nil
}

// HarvestN returns the nitrogen in a harvest of 0 to 1e9 g fresh weight, from
// the share of dry matter in fresh weight and of nitrogen in dry matter.
func HarvestN(fresh quantity.Grams, dry, nitrogenOfDry quantity.Fraction) (GramsN, error) {
	if err := checkShare("share of dry matter", dry); err != nil {
		return 0, err
	}
	if err := checkGrams("harvest", float64(fresh)); err != nil {
		return 0, err
	}
	return PartN(quantity.Grams(float64(fresh)*float64(dry)), nitrogenOfDry)
}

// A Removal is what a square metre of raft planted with romaine took out of
// the water in a day, plants and wetted surfaces together.
type Removal struct {
	Substance string
	Rate      float64 // g/m2/d
}

const raftSource = "University of the Virgin Islands commercial aquaponic system, romaine on rafts"

var removals = [...]Removal{
	{"NH3-N", float64(RaftRate)},
	{"NO2-N", 0.62},
	{"COD", 30.3},
	{"total N", 0.83},
	{"total P", 0.17},
}

// RaftRemoval returns what a raft of 0 to 1e6 m2 planted with romaine takes
// out of the water in a day: NH3-N, NO2-N, COD, total N or total P, each
// counted as itself.
func RaftRemoval(area quantity.SquareMetres, substance string) (quantity.Grams, error) {
	if err := checkArea(area); err != nil {
		return 0, err
	}
	for _, r := range removals {
		if strings.EqualFold(r.Substance, substance) {
			return quantity.Grams(float64(area) * r.Rate), nil
		}
	}
	return 0, &UnknownError{"raft removal", substance}
}

package remedy

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A Bath is one source's limit for treating fish in a tank apart from the loop.
// It holds for water warmer than Over and not warmer than UpTo.
type Bath struct {
	Substance string
	Group     string // of fish, as the source names it
	Over      quantity.Celsius
	UpTo      quantity.Celsius
	Low, High float64 // equal for one limit
	Unit      Unit
	Minutes   float64 // the longest; zero for indefinite
	Source    string
}

const (
	coldest   = -2 // of water fish live in, degC
	warmest   = 45
	ufas      = "UF/IFAS VM-77"
	fdaTable  = "Merck Vet Manual FDA-approved table 2019"
	hatchery  = "Fish Hatchery Management"
	gaikowski = "Gaikowski, Rach & Ramsay 1999 (abstract)"
	saltTexts = "extension texts on salt in fish culture"
	usual     = "usual treatment; see the tests, which leave almost no margin"
)

// justBelow10 puts 10 degC itself with the warmer, stricter limit.
var justBelow10 = quantity.Celsius(math.Nextafter(10, coldest))

// baths: sources disagree, and each keeps its own threshold.
var baths = []Bath{
	{"formalin", "all fish", coldest, 21, 250, 250, MilligramPerL, 60, ufas},
	{"formalin", "all fish", 21, warmest, 150, 150, MilligramPerL, 60, ufas},
	{"formalin", "any fish, indefinite", coldest, warmest, 15, 25, MilligramPerL, 0, ufas},
	{"formalin", "trout and salmon", coldest, justBelow10, 250, 250, MicrolitrePerL, 60, fdaTable},
	{"formalin", "trout and salmon", justBelow10, warmest, 170, 170, MicrolitrePerL, 60, fdaTable},
	{"formalin", "other finfish", coldest, warmest, 250, 250, MicrolitrePerL, 60, fdaTable},
	{"formalin", "salmonids", 10, warmest, 167, 167, MicrolitrePerL, 60, hatchery},
	{"formalin", "channel catfish", 21.1, warmest, 167, 167, MicrolitrePerL, 60, hatchery},
	{"hydrogen peroxide", "coldwater species and largemouth bass", coldest, warmest, 150, 150, MicrolitrePerL, 60, gaikowski},
	{"hydrogen peroxide", "bluegill, channel catfish, yellow perch and others", coldest, warmest, 100, 100, MicrolitrePerL, 60, gaikowski},
	{"hydrogen peroxide", "northern pike fingerling, white sucker/yellow perch/fathead fry", coldest, warmest, 50, 50, MicrolitrePerL, 60, gaikowski},
	{"potassium permanganate", "any fish, indefinite", coldest, warmest, 2, 2, MilligramPerL, 0, usual},
	{"salt", "hours in a bath", coldest, warmest, 5, 10, GramPerL, 0, saltTexts},
	{"salt", "dip of half a minute to ten minutes", coldest, warmest, 30, 30, GramPerL, 10, saltTexts},
	{"salt", "transport", coldest, warmest, 1, 2, GramPerL, 0, saltTexts},
}

// Baths returns every source's limit for a substance, a group of fish (words of
// it, empty for all) and a water temperature of -2 to 45 degC.
func Baths(substance, group string, water quantity.Celsius) ([]Bath, error) {
	if err := quantity.Within("water temperature", float64(water), coldest, warmest, "degC", quantity.OwnBounds); err != nil {
		return nil, err
	}
	var found []Bath
	for _, b := range baths {
		if b.Substance == substance && likes(b.Group, group) && b.holds(water) {
			found = append(found, b)
		}
	}
	if found == nil {
		return nil, &NotKnownError{"a bath of " + substance + " for " + group}
	}
	return found, nil
}

func (b *Bath) holds(water quantity.Celsius) bool {
	return water <= b.UpTo && (water > b.Over || b.Over == coldest)
}

// OxygenTaken returns the oxygen that a formalin bath takes from the water: 1
// mg/L for each 5 mg/L, for 0 to 1000 mg/L (extension texts).
func OxygenTaken(formalin quantity.MgPerL) (quantity.MgPerL, error) {
	if err := quantity.Within("formalin", float64(formalin), 0, mostFormalin, "mg/L", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return formalin / 5, nil
}

const mostFormalin = 1000

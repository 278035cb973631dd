package pantry

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

const (
	extension     = "extension freezing text"
	coldestFreeze = -40 // degF, colder than home freezers; common practice, no source
	warmestFreeze = 0
)

// FreezerLife returns the months that frozen vegetables keep their quality, 8 to
// 12, in a freezer at 0 degF or colder (down to -40). A warmer one is refused.
func FreezerLife(freezer quantity.Fahrenheit) (Span, error) {
	if err := quantity.Within("freezer", float64(freezer), coldestFreeze, warmestFreeze, "degF", extension); err != nil {
		return Span{}, err
	}
	return Span{8, 12}, nil
}

// A Frozen is the pints that a bushel gives frozen.
type Frozen struct {
	Crop   string
	Bushel quantity.Pounds // zero where it is not printed
	Pints  Span
	Source string
}

// frozen: Michigan State University Extension, home freezing sheets.
var frozen = []Frozen{
	{"asparagus", 0, Span{30, 45}, "Michigan State Univ. Ext. freezing sheets"},
	{"summer squash", 40, Span{32, 40}, "Michigan State Univ. Ext. 01600150"},
	{"beets", 52, Span{35, 42}, "Michigan State Univ. Ext. 01701369"},
}

// FrozenPints returns what a bushel of a crop gives frozen.
func FrozenPints(crop string) (Frozen, error) {
	f, ok := named(frozen, func(f *Frozen) string { return f.Crop }, crop)
	if !ok {
		return Frozen{}, &NotInTableError{"frozen pints of \"" + crop + "\""}
	}
	return *f, nil
}

// A Blanching is how long a vegetable is dipped in boiling water before freezing.
type Blanching struct {
	Crop    string
	Minutes quantity.Minutes
	Source  string
}

const (
	nchfpFreezing    = "National Center for Home Food Preservation, freezing (1 gallon of water to the pound)"
	illinoisFreezing = "University of Illinois, freezer table (older)"
)

// blanchings: sources that disagree stand one after the other, the newer first.
var blanchings = []Blanching{
	{"snap beans", 3, nchfpFreezing},
	{"broccoli", 3, nchfpFreezing},
	{"cauliflower", 3, nchfpFreezing},
	{"cauliflower", 4, illinoisFreezing},
	{"peas", 1.5, nchfpFreezing},
	{"summer squash", 3, "Michigan State Univ. Ext., summer squash"},
	{"brussels sprouts", 4, illinoisFreezing},
	{"asparagus", 3, illinoisFreezing},
	{"beet greens", 2, illinoisFreezing},
	{"lima beans", 3, illinoisFreezing},
}

// Blanch returns every published blanching time we hold for a crop, the newer
// source first.
func Blanch(crop string) ([]Blanching, error) {
	var found []Blanching
	for _, b := range blanchings {
		if strings.EqualFold(b.Crop, crop) {
			found = append(found, b)
		}
	}
	if found == nil {
		return nil, &NotInTableError{"blanching of \"" + crop + "\""}
	}
	return found, nil
}

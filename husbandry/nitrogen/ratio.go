package nitrogen

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// A Ratio is a published range of daily feed for a square metre of plants.
type Ratio struct {
	System    string // "raft", "NFT", or "any"
	Crop      string // "any", "leafy", "fruiting", "lettuce"
	Low, High FeedRatio
	Source    string
}

const (
	rakocySource = "Rakocy 2007, Ten guidelines for aquaponic systems, guideline 1"
	faoSource    = "FAO TP 589 ch. 8, feed with 32 % protein"
)

// The two schools disagree on purpose: the Virgin Islands' ratios assume that
// solids are taken out, FAO's that they are mineralized in the beds.
var ratios = [...]Ratio{
	{"raft", "any", 60, 100, rakocySource},
	{"NFT", "any", 15, 25, rakocySource + ", a quarter of the raft ratio"},
	{"any", "leafy", 40, 50, faoSource},
	{"any", "fruiting", 50, 80, faoSource},
	{"any", "lettuce", 57, 57, "Rakocy 2012 as cited in Goddek et al. 2019, second hand"},
}

// RatioFor returns the published ratio for a system (raft, NFT, any) and crop
// (any, leafy, fruiting, lettuce).
func RatioFor(system, crop string) (Ratio, error) {
	for _, r := range ratios {
		if strings.EqualFold(r.System, system) && strings.EqualFold(r.Crop, crop) {
			return r, nil
		}
	}
	return Ratio{}, &UnknownError{"feed ratio", system + " with " + crop}
}

// Bounds of a feed ratio, wider than any published one.
const (
	minRatio = 5.0
	maxRatio = 300.0
)

// PlantArea returns the plant area that a day's feed of 0 to 1e9 g supports at
// a ratio of 5 to 300 g/m2/d.
func PlantArea(feed quantity.Grams, ratio FeedRatio) (quantity.SquareMetres, error) {
	if err := checkGrams("feed", float64(feed)); err != nil {
		return 0, err
	}
	if err := checkRatio(ratio); err != nil {
		return 0, err
	}
	return quantity.SquareMetres(float64(feed) / float64(ratio)), nil
}

// FeedForArea returns the day's feed that 0 to 1e6 m2 of plants call for at a
// ratio of 5 to 300 g/m2/d.
func FeedForArea(area quantity.SquareMetres, ratio FeedRatio) (quantity.Grams, error) {
	if err := checkArea(area); err != nil {
		return 0, err
	}
	if err := checkRatio(ratio); err != nil {
		return 0, err
	}
	return quantity.Grams(float64(area) * float64(ratio)), nil
}

// A Spacing is a published range of plants on a square metre.
type Spacing struct {
	Class     CropClass
	Low, High float64
	Source    string
}

var spacings = [...]Spacing{
	{Leafy, 20, 25, faoSource},
	{Fruiting, 4, 8, faoSource + "; one copy prints 4 alone"},
}

// SpacingFor returns the plants to a square metre for a leafy or fruiting
// crop.
func SpacingFor(class CropClass) (Spacing, error) {
	for _, s := range spacings {
		if s.Class == class {
			return s, nil
		}
	}
	return Spacing{}, &UnknownError{"plant spacing", class.String()}
}

func checkRatio(ratio FeedRatio) error {
	return quantity.Within("feed ratio", float64(ratio), minRatio, maxRatio, "g/m2/d", quantity.OwnBounds)
}

package crop

import (
	"math"

	"freshet.example/husbandry/quantity"
)

// A SalinityTolerance is how a crop answers to salt: no loss up to the
// threshold, then a straight fall. Threshold and slope are 0 where only the
// rating is published.
type SalinityTolerance struct {
	Crop      string
	Threshold ECe     // dS/m of a saturated soil extract
	Slope     float64 // % of the yield lost for each dS/m above the threshold
	Rating    string  // S sensitive, MS moderately, MT moderately tolerant, T tolerant; * an estimate
}

// salinityRows holds the vegetables and fruits of Maas (1990), whole, as kept by
// the US Salinity Laboratory.
var salinityRows = []SalinityTolerance{
	{Crop: "artichoke", Rating: "MT*"},
	{"asparagus", 4.1, 2, "T"},
	{"bean", 1, 19, "S"},
	{"bean, mung", 1.8, 20.7, "S"},
	{"beet (red)", 4, 9, "MT"},
	{"broccoli", 2.8, 9.2, "MS"},
	{Crop: "brussels sprouts", Rating: "MS*"},
	{"cabbage", 1.8, 9.7, "MS"},
	{"carrot", 1, 14, "S"},
	{Crop: "cauliflower", Rating: "MS*"},
	{"celery", 1.8, 6.2, "MS"},
	{"corn (sweet)", 1.7, 12, "MS"},
	{"cucumber", 2.5, 13, "MS"},
	{"eggplant", 1.1, 6.9, "MS"},
	{Crop: "kale", Rating: "MS*"},
	{Crop: "kohlrabi", Rating: "MS*"},
	{"lettuce", 1.3, 13, "MS"},
	{Crop: "muskmelon", Rating: "MS"},
	{Crop: "okra", Rating: "S"},
	{"onion", 1.2, 16, "S"},
	{Crop: "parsnip", Rating: "S*"},
	{Crop: "pea", Rating: "S*"},
	{"pepper", 1.5, 14, "MS"},
	{"potato", 1.7, 12, "MS"},
	{Crop: "pumpkin", Rating: "MS*"},
	{"radish", 1.2, 13, "MS"},
	{"spinach", 2, 7.6, "MS"},
	{"squash, scallop", 3.2, 16, "MS"},
	{"squash, zucchini", 4.7, 9.4, "MT"},
	{"strawberry", 1, 33, "S"},
	{"sweet potato", 1.5, 11, "MS"},
	{"tomato", 2.5, 9.9, "MS"},
	{"tomato, cherry", 1.7, 9.1, "MS"},
	{"turnip", 0.9, 9, "MS"},
	{Crop: "watermelon", Rating: "MS*"},
}

// laterSalinityRows holds figures that differ from Maas (1990) or that it does
// not have: Maas and Grattan (1999) as reprinted in FAO-61 annex 1, and fruit
// trees and berries of Maas (1990), all from memory.
var laterSalinityRows = []SalinityTolerance{
	{"broccoli", 1.3, 15.8, ""},
	{"cabbage", 1, 14, ""},
	{"cauliflower", 1.5, 14.4, ""},
	{"cowpea", 4.9, 12, ""},
	{"garlic", 3.9, 14.3, ""},
	{"muskmelon", 1, 8.4, ""},
	{"pea", 3.4, 10.6, ""},
	{"purslane", 6.3, 9.6, ""},
	{"squash, zucchini", 4.9, 10.5, ""},
	{"turnip greens", 3.3, 4.3, ""},
	{"almond", 1.5, 19, ""},
	{"apricot", 1.6, 24, ""},
	{"blackberry", 1.5, 22, ""},
	{"boysenberry", 1.5, 22, ""},
	{"date palm", 4, 3.6, ""},
	{"grape", 1.5, 9.6, ""},
	{"grapefruit", 1.8, 16, ""},
	{"guava", 4.7, 9.8, ""},
	{"orange", 1.7, 16, ""},
	{"peach", 1.7, 21, ""},
	{"plum", 1.5, 18, ""},
}

// SalinityToleranceOf returns the crop's row of Maas (1990). A crop with only a
// rating, or with none, is a NotListedError; LaterSalinityToleranceOf may know
// more.
func SalinityToleranceOf(crop string) (SalinityTolerance, error) {
	return toleranceIn("Maas (1990)", salinityRows, crop)
}

// LaterSalinityToleranceOf returns the crop's row of the later table, recalled
// from memory.
func LaterSalinityToleranceOf(crop string) (SalinityTolerance, error) {
	return toleranceIn("Maas and Grattan (1999), from memory", laterSalinityRows, crop)
}

func toleranceIn(table string, rows []SalinityTolerance, crop string) (SalinityTolerance, error) {
	row, err := rowOf(table, rows, func(s SalinityTolerance) string { return s.Crop }, crop)
	if err == nil && row.Threshold == 0 {
		return SalinityTolerance{}, &NotListedError{Table: table, Asked: crop + " beyond the rating " + row.Rating}
	}
	return row, err
}

// RelativeYield returns the yield under salt as a share of that without, %:
// 100 up to the threshold, never below 0. Extract 0 to 50 dS/m, threshold 0 to
// 20 dS/m, slope 0 to 100 % for each dS/m.
func RelativeYield(extract, threshold ECe, slope float64) (quantity.Percent, error) {
	err := firstError(
		extractBound.check(float64(extract)),
		thresholdBound.check(float64(threshold)),
		saltSlopeBound.check(slope))
	if err != nil {
		return 0, err
	}
	loss := slope * math.Max(0, float64(extract-threshold)) // FAO-61 annex 1 eq. 1
	return quantity.Percent(math.Max(0, 100-loss)), nil
}

// SalinityCaveat says what these figures assume.
const SalinityCaveat = "Threshold and slope are for the saturated extract of soil (ECe), averaged over the roots. " +
	"Reading the conductivity of loop water in its place is an assumption: no table for raft or media beds is published."

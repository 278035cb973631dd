package nitrogen

import "freshet.example/husbandry/quantity"

// Protein of any fish feed on the market lies within these bounds; they catch
// a percentage typed where a fraction is meant.
const (
	minProtein    = 0.1
	maxProtein    = 0.7
	proteinSource = "common practice, no source"
)

// Amounts a small loop can meet; larger ones are typing errors.
const (
	maxKilograms = 1e6
	maxGrams     = 1e9
)

const nitrogenOfProtein = 0.16 // share of nitrogen in protein, 1/6.25, Jones 1931, from memory

// FeedN returns the nitrogen in feed as fed, with its protein as a fraction of
// 0.1 to 0.7. Feed is 0 to 1e9 g. Nitrogen outside protein is not counted.
func FeedN(feed quantity.Grams, protein quantity.Fraction) (GramsN, error) {
	if err := checkGrams("feed", float64(feed)); err != nil {
		return 0, err
	}
	if err := checkProtein(protein); err != nil {
		return 0, err
	}
	return GramsN(float64(feed) * float64(protein) * nitrogenOfProtein), nil
}

// Retention returns the share of the feed's nitrogen that the fish kept as
// growth. Feed nitrogen must be above 0; fish that lost weight give a negative
// share. Usual for tilapia and trout is 0.25 to 0.30 (from memory).
func Retention(fishGain, feed GramsN) (quantity.Fraction, error) {
	if err := quantity.Within("nitrogen of the fish gain", float64(fishGain), -maxGrams, maxGrams, "g", quantity.OwnBounds); err != nil {
		return 0, err
	}
	if err := quantity.Within("nitrogen of the feed", float64(feed), smallestN, maxGrams, "g", quantity.OwnBounds); err != nil {
		return 0, err
	}
	return quantity.Fraction(float64(fishGain) / float64(feed)), nil
}

const smallestN = 1e-6 // g; less is no feeding at all

const solidsOfFeed = 0.25 // dry solids for each weight of feed, Rakocy 2007, Ten guidelines, guideline 5

// SolidsFromFeed returns the dry solids that fish leave from feed of 0 to 1e9
// g. Published for tilapia fed dry pellets; wet sludge weighs many times more.
func SolidsFromFeed(feed quantity.Grams) (quantity.Grams, error) {
	if err := checkGrams("feed", float64(feed)); err != nil {
		return 0, err
	}
	return quantity.Grams(float64(feed) * solidsOfFeed), nil
}

// SolidsNShare is the usual share of nitrogen in dry fish solids, from memory
// (0.03 to 0.06 are reported).
const SolidsNShare quantity.Fraction = 0.04

// PartN returns the nitrogen in a mass of 0 to 1e9 g of which the share, 0 to
// 1, is nitrogen: dry solids, fish as wet weight, or dried plants.
func PartN(mass quantity.Grams, share quantity.Fraction) (GramsN, error) {
	if err := checkGrams("mass", float64(mass)); err != nil {
		return 0, err
	}
	if err := checkShare("share of nitrogen", share); err != nil {
		return 0, err
	}
	return GramsN(float64(mass) * float64(share)), nil
}

func checkProtein(protein quantity.Fraction) error {
	return quantity.Within("protein of the feed", float64(protein), minProtein, maxProtein, "", proteinSource)
}

func checkGrams(name string, grams float64) error {
	return quantity.Within(name, grams, 0, maxGrams, "g", quantity.OwnBounds)
}

func checkShare(name string, share quantity.Fraction) error {
	return quantity.Within(name, float64(share), 0, 1, "", quantity.ByDefinition)
}

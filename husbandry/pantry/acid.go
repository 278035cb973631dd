package pantry

import (
	"strings"

	"freshet.example/husbandry/quantity"
)

// LowAcidLimit is the pH above which food is low-acid and must be pressure
// canned (AIB 539).
const LowAcidLimit quantity.PH = 4.6

const highestPH = 14

// IsLowAcid reports whether food of a measured pH (0 to 14) is low-acid. A home
// measurement does not make a recipe: follow the guide's food and method.
func IsLowAcid(ph quantity.PH) (Canning[bool], error) {
	return canned(ph > LowAcidLimit, quantity.Within("pH", float64(ph), 0, highestPH, "", quantity.OwnBounds))
}

// An Acid is what is added to each jar of tomatoes.
type Acid struct {
	Name   string
	Amount float64
	Unit   string
}

// acids: AIB 539, for a quart of tomatoes. A pint takes half.
var acids = []Acid{
	{"bottled lemon juice", 2, "Tbsp"},
	{"citric acid", 0.5, "tsp"},
	{"vinegar of 5 % acidity", 4, "Tbsp"},
}

// Acidify returns the acid that each jar of tomatoes needs, whether boiled or
// pressure canned, by a word of its name: lemon, citric or vinegar.
func Acidify(acid string, jar Jar) (Canning[Acid], error) {
	for _, a := range acids {
		if acid != "" && strings.Contains(a.Name, strings.ToLower(acid)) {
			if jar == Pint {
				a.Amount /= 2
			}
			return Canning[Acid]{a}, nil
		}
	}
	return Canning[Acid]{}, &NotInTableError{"acid \"" + acid + "\""}
}

package crop

import "freshet.example/husbandry/quantity"

// A NutrientLevel is how much of a nutrient water holds that plants grow well
// in: in a complete solution made for them, and, where it is published, in a
// loop, whose plants make do with less because feed brings more each day.
type NutrientLevel struct {
	Nutrient   string
	Solution   Figure // mg/L of the element in Hoagland & Arnon's solution
	Loop       Figure // mg/L of the element advised for a loop; unknown for most
	LoopSource string
	Beware     string // what too much of it does to the fish
}

// hoagland is the source of the complete solution.
const hoagland = "Hoagland & Arnon 1950, Calif. Agr. Exp. Sta. Circular 347, solution 1 (from memory)"

// loopNitrogen is nitrate of 5 to 150 mg/L, taken as the ion.
var loopNitrogen = Figure{float64(quantity.NitrateIon(5).N()), float64(quantity.NitrateIon(150).N()), FAO589}

// NutrientLevels are in the order of the deficiency key's nutrients.
var NutrientLevels = []NutrientLevel{
	{"iron", exactly(1, 5), Figure{1, 2, FAO589}, "FAO TP 589: in the first three months and on deficiency", "Give it as a chelate, by the label; too much colours the water and can harm fish."},
	{"potassium", exactly(235, 235), Figure{}, "", ""},
	{"calcium", exactly(200, 200), Figure{}, "", ""},
	{"magnesium", exactly(48, 48), Figure{}, "", ""},
	{"nitrogen", exactly(210, 210), loopNitrogen, "FAO TP 589 Table 3.2: nitrate 5 to 150 mg/L, taken as the ion", "In a loop it comes from feed: never add ammonium for it."},
	{"phosphorus", exactly(31, 31), Figure{}, "", ""},
	{"manganese", exactly(0.5, 0.5), Figure{}, "", ""},
	{"zinc", exactly(0.05, 0.05), Figure{}, "", "Kills fish: never add it without a test."},
	{"sulfur", exactly(64, 64), Figure{}, "", ""},
	{"copper", exactly(0.02, 0.02), Figure{}, "", "Kills fish at hundredths of a milligram in soft water: never add it to a loop."},
	{"boron", exactly(0.5, 0.5), Figure{}, "", "Plants stand very little too much of it."},
	{"molybdenum", exactly(0.01, 0.01), Figure{}, "", ""},
}

func exactly(low, high float64) Figure { return Figure{low, high, Memory} }

// NutrientNeed returns the levels of a nutrient. One that is not held is a
// NotListedError.
func NutrientNeed(nutrient string) (NutrientLevel, error) {
	for _, n := range NutrientLevels {
		if sameName(n.Nutrient, nutrient) {
			return n, nil
		}
	}
	return NutrientLevel{}, &NotListedError{Table: "the table of nutrients", Asked: nutrient}
}

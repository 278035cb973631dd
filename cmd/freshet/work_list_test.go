package main

import (
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry"
)

// Questions as growers type them find what answers them, among few others.
func TestWorkFindsWhatIsMeant(t *testing.T) {
	for question, formula := range map[string]string{
		"how much un-ionized ammonia at pH 8.2 and 80F": "uia_fraction",
		"un-ionized ammonia":                            "uia_concentration",
		"how much salt for nitrite":                     "chloride_ratio",
		"minutes of oxygen left?":                       "oxygen_depletion_minutes",
		"feed for 20 fish":                              "fish_ration",
		"jars of tomatoes":                              "lemon_juice_acidification",
		"alkalinity, baking soda":                       "base_for_alkalinity",
		"bleach":                                        "thiosulfate_dose",
		"how many pounds of fish in 300 gallons":        "stocking_limit",
		"how many fish in 300 gallons":                  "stocking_limit",
		"is my ammonia dangerous":                       "ammonia_safety",
		"heater size for tank":                          "daily_tank_heater",
		"electricity cost":                              "monthly_cost",
		"degree days":                                   "degree_days_modified",
	} {
		found, _ := nearest(askedWords(question))
		if len(found) > 16 || !slices.ContainsFunc(found, func(e husbandry.Entry) bool { return e.Name == formula }) {
			t.Errorf("%s: %d formulas, wanted %s among them: %s", question, len(found), formula, firstNames(found))
		}
	}
	if found, whole := nearest(askedWords("moonlight")); found != nil || whole {
		t.Error(firstNames(found))
	}
	if found, whole := nearest(askedWords("water")); !whole || slices.ContainsFunc(found, func(e husbandry.Entry) bool { return e.Room != "water" }) {
		t.Error(firstNames(found))
	}
	if list := strings.Join(tellingWords(askedWords("How much is 20?")), " "); list != "how much is 20" {
		t.Error(list)
	}
}

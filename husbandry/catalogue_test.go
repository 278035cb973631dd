package husbandry

import (
	"regexp"
	"testing"
)

// perAnswer are formulas that rest on a table whose rows each have a source of
// their own, which comes with the answer.
var perAnswer = map[string]bool{"permanganate_bath": true, "salt_bath": true}

var snake = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

func TestEveryFormulaCanBeAskedByItsName(t *testing.T) {
	seen := map[string]string{}
	for _, entry := range Catalogue() {
		if room, taken := seen[entry.Name]; taken {
			t.Errorf("%s stands in %s and in %s", entry.Name, room, entry.Room)
		}
		seen[entry.Name] = entry.Room
		if !snake.MatchString(entry.Name) {
			t.Errorf("%s: name %q is not lower_snake", entry.Room, entry.Name)
		}
		if entry.Title == "" || entry.Source == "" && !perAnswer[entry.Name] || entry.Work == nil {
			t.Errorf("%s.%s: title %q, source %q", entry.Room, entry.Name, entry.Title, entry.Source)
		}
		if found, ok := Find(entry.Name); !ok || found.Formula != entry.Formula {
			t.Errorf("%s is not found by its name", entry.Name)
		}
	}
	for room, formulas := range rooms {
		if len(formulas) == 0 {
			t.Errorf("room %s is empty", room)
		}
	}
	if _, ok := Find("nothing_of_the_kind"); ok {
		t.Error("a formula that is not was found")
	}
}

func TestInputsOfAFormulaHaveNamesOfTheirOwn(t *testing.T) {
	for _, entry := range Catalogue() {
		seen := map[string]bool{}
		for _, input := range entry.Inputs {
			names := []string{input.Name}
			for _, alias := range input.Also {
				names = append(names, alias.Name)
			}
			for _, name := range names {
				if seen[name] {
					t.Errorf("%s.%s: two inputs answer to %s", entry.Room, entry.Name, name)
				}
				seen[name] = true
			}
		}
	}
}

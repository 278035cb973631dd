package husbandry

import (
	"regexp"
	"strconv"
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
	for _, room := range Rooms() {
		if len(room.Formulas) == 0 || room.About == "" {
			t.Errorf("room %s is empty, or nothing says what it answers", room.Name)
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

// Whatever is typed into whichever formula, it answers or refuses: it never
// breaks whoever asks.
func TestNoFormulaPanics(t *testing.T) {
	for _, entry := range Catalogue() {
		for _, odd := range []string{"", "0", "-1", "1", "7", "1e308", "-1e308", "NaN", "Inf", "1e-308", "rubbish", "[1 2 3]", "[1x3]", "[]", "-"} {
			typed := map[string]string{}
			for _, input := range entry.Inputs {
				typed[input.Name] = odd
			}
			refuses(t, entry, typed)
			for _, input := range entry.Inputs {
				typed := usual(entry)
				typed[input.Name] = odd
				refuses(t, entry, typed)
			}
		}
	}
}

// usual gives every input an everyday value within its range, or its first word.
func usual(entry Entry) map[string]string {
	typed := map[string]string{}
	for _, input := range entry.Inputs {
		switch {
		case input.Default != "":
		case len(input.Choices) > 0:
			typed[input.Name] = input.Choices[0]
		case input.High > input.Low:
			typed[input.Name] = strconv.FormatFloat(min((input.Low+input.High)/2, max(input.Low, 12)), 'g', -1, 64)
		default:
			typed[input.Name] = "[4.1 5.6 5.2 4.4]"
		}
	}
	return typed
}

func refuses(t *testing.T, entry Entry, typed map[string]string) {
	t.Helper()
	defer func() {
		if broken := recover(); broken != nil {
			t.Errorf("%s.%s with %v: %v", entry.Room, entry.Name, typed, broken)
		}
	}()
	_, _ = entry.Ask(typed)
}

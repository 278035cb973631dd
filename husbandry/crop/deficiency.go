package crop

import (
	"slices"
	"strings"
)

// A LeafAge says on which leaves a sign shows first. It is the first question
// of the key: nutrients that move within the plant are drawn from old leaves,
// those that cannot move fail the young ones (IPNI 4R Plant Nutrition Manual).
type LeafAge int

// Where a sign shows first.
const (
	OldLeaves LeafAge = iota
	YoungLeaves
	AnyLeaves
	FruitOnly
)

// String names the leaves in words.
func (a LeafAge) String() string {
	return [...]string{"old leaves", "young leaves", "any leaves", "fruit"}[a]
}

// A Sign is what is seen on the leaves.
type Sign string

// The signs of the key.
const (
	EvenYellowing    Sign = "even yellowing"
	VeinsStayGreen   Sign = "yellow between green veins"
	DeadSpots        Sign = "dead spots"
	ScorchedEdges    Sign = "scorched edges"
	PurpleDark       Sign = "dark or purple"
	Rosette          Sign = "small leaves in a rosette"
	DeadTip          Sign = "growing tip dies"
	CurledTip        Sign = "young leaves curl or twist"
	WiltedTip        Sign = "young leaves wilt and pale"
	BrittleThick     Sign = "brittle, thick leaves"
	WhipTail         Sign = "narrow strap leaves"
	BlackFruitBottom Sign = "sunken dark end of the fruit"
)

// A Suspect is a nutrient that the signs point to.
type Suspect struct {
	Nutrient string
	Leaves   LeafAge
	Signs    []Sign
	Beside   string // what else does the same, or what to check first
	Source   string
}

const (
	leafAgeSource = "IPNI 4R Plant Nutrition Manual for the age of leaf; sign from memory"
	keySource     = "Green, Maloy and Capizzi, key to nutrient deficiencies"
)

// deficiencies is the key, in the order in which a loop usually runs short.
var deficiencies = []Suspect{
	{"iron", YoungLeaves, []Sign{VeinsStayGreen},
		"Look at the pH first: above 7 iron is there but locked away. Feed gives little of it; use a chelate that holds at your pH.", keySource},
	{"potassium", OldLeaves, []Sign{ScorchedEdges, DeadSpots},
		"Fish feed holds little of it: fruiting crops run short first.", leafAgeSource},
	{"calcium", YoungLeaves, []Sign{DeadTip, CurledTip, ScorchedEdges},
		"Often there is enough in the water and too little moves: dry roots, humid still air, fast growth.", leafAgeSource},
	{"calcium", FruitOnly, []Sign{BlackFruitBottom},
		"Uneven water is the usual cause, not a lack in the water.", "common practice, no source"},
	{"magnesium", OldLeaves, []Sign{VeinsStayGreen},
		"Much potassium or calcium keeps it out.", leafAgeSource},
	{"nitrogen", OldLeaves, []Sign{EvenYellowing},
		"Measure nitrate before adding feed: cold or drowned roots look the same.", leafAgeSource},
	{"phosphorus", OldLeaves, []Sign{PurpleDark},
		"Cold roots look the same.", leafAgeSource},
	{"manganese", YoungLeaves, []Sign{VeinsStayGreen, DeadSpots},
		"As iron, with dead spots; pH above 7 locks it away too.", keySource},
	{"zinc", YoungLeaves, []Sign{VeinsStayGreen, Rosette},
		"Never add zinc without a test: a little too much kills fish.", keySource},
	{"sulfur", YoungLeaves, []Sign{EvenYellowing},
		"Rare; even yellowing of old leaves means nitrogen instead.", leafAgeSource},
	{"copper", YoungLeaves, []Sign{WiltedTip, CurledTip},
		"Rare. Never add copper to the loop: it kills fish.", leafAgeSource},
	{"boron", YoungLeaves, []Sign{DeadTip, BrittleThick},
		"Plants stand very little too much of it.", leafAgeSource},
	{"molybdenum", AnyLeaves, []Sign{WhipTail},
		"Mostly cabbages, in acid water.", "growers' handbooks, from memory"},
}

// Suspects returns the nutrients that fit the signs on leaves of that age, the
// best fit first: every sign seen must be one of theirs, and among those the
// fewest unseen signs come first. Nothing that fits gives none. A suspect is
// not a finding: check pH, nitrate and roots, and test before dosing.
func Suspects(leaves LeafAge, seen ...Sign) []Suspect {
	fitting := []Suspect{}
	for _, s := range deficiencies {
		if (s.Leaves == leaves || s.Leaves == AnyLeaves) && len(seen) > 0 && hasAll(s.Signs, seen) {
			fitting = append(fitting, s)
		}
	}
	slices.SortStableFunc(fitting, func(a, b Suspect) int { return len(a.Signs) - len(b.Signs) })
	return fitting
}

func hasAll(have, want []Sign) bool {
	for _, w := range want {
		if !slices.Contains(have, w) {
			return false
		}
	}
	return true
}

// DeficiencySigns returns what the lack of a nutrient looks like. A nutrient
// that the key does not hold is a NotListedError.
func DeficiencySigns(nutrient string) ([]Suspect, error) {
	rows := []Suspect{}
	for _, s := range deficiencies {
		if sameName(s.Nutrient, nutrient) {
			rows = append(rows, s)
		}
	}
	if len(rows) == 0 {
		return nil, &NotListedError{Table: "the deficiency key", Asked: nutrient}
	}
	return rows, nil
}

// leafAgeOf reads where a sign shows, as String writes it.
func leafAgeOf(text string) LeafAge {
	for _, age := range []LeafAge{OldLeaves, YoungLeaves, AnyLeaves} {
		if age.String() == text {
			return age
		}
	}
	return FruitOnly
}

// allSigns lists the signs of the key, each once.
func allSigns() []Sign {
	signs := []Sign{}
	for _, s := range deficiencies {
		for _, sign := range s.Signs {
			if !slices.Contains(signs, sign) {
				signs = append(signs, sign)
			}
		}
	}
	return signs
}

// signsOf reads signs joined by +. A sign may be told by some of its words,
// where only one holds them all; one that the key does not hold, or several do,
// is a NotListedError.
func signsOf(text string) ([]Sign, error) {
	signs := []Sign{}
	for told := range strings.SplitSeq(text, "+") {
		meant := []Sign{}
		for _, sign := range allSigns() {
			if holds(string(sign), told) {
				meant = append(meant, sign)
			}
		}
		switch told = strings.TrimSpace(told); len(meant) {
		case 0:
			return nil, &NotListedError{Table: "the deficiency key, which knows " + words(allSigns()) + ",", Asked: told}
		case 1:
			signs = append(signs, meant[0])
		default:
			return nil, &NotListedError{Table: "the deficiency key", Asked: told, Choices: strings.Split(words(meant), "; ")}
		}
	}
	return signs, nil
}

// words are signs in words.
func words(signs []Sign) string {
	text := ""
	for _, s := range signs {
		text = listed(text, string(s))
	}
	return text
}

// holds tells whether a sign has every word that was told, "the" apart.
func holds(sign, told string) bool {
	parts := func(text string) []string {
		return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == ' ' || r == ',' })
	}
	asked := slices.DeleteFunc(parts(told), func(w string) bool { return w == "the" })
	return len(asked) > 0 && !slices.ContainsFunc(asked, func(w string) bool { return !slices.Contains(parts(sign), w) })
}

// listed adds a part to a list in words.
func listed(list, part string) string {
	if list == "" {
		return part
	}
	return list + "; " + part
}

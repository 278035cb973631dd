package husbandry

import (
	"cmp"
	"slices"
	"sync"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/loop"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/pantry"
	"freshet.example/husbandry/remedy"
)

// rooms holds each package's formulas under the package's name.
var rooms = map[string][]formula.Formula{
	"loop":     loop.Formulas,
	"nitrogen": nitrogen.Formulas,
	"pantry":   pantry.Formulas,
	"remedy":   remedy.Formulas,
}

// An Entry is one formula and the room that it lives in.
type Entry struct {
	Room string // "water", "fish"
	*formula.Formula
}

// Catalogue returns every formula by room and name. The slice is shared: it
// must not be changed.
func Catalogue() []Entry { return catalogue() }

var catalogue = sync.OnceValue(func() []Entry {
	var entries []Entry
	for room, formulas := range rooms {
		for i := range formulas {
			entries = append(entries, Entry{room, &formulas[i]})
		}
	}
	slices.SortFunc(entries, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(a.Room, b.Room), cmp.Compare(a.Name, b.Name))
	})
	return entries
})

// Find returns the formula of a name; false where there is none.
func Find(name string) (Entry, bool) {
	for _, entry := range Catalogue() {
		if entry.Name == name {
			return entry, true
		}
	}
	return Entry{}, false
}

package husbandry

import (
	"cmp"
	"slices"
	"sync"

	"freshet.example/husbandry/chance"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/fit"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/loop"
	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/outlook"
	"freshet.example/husbandry/pantry"
	"freshet.example/husbandry/pool"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/remedy"
	"freshet.example/husbandry/trial"
	"freshet.example/husbandry/watch"
	"freshet.example/husbandry/water"
)

// rooms holds each package's formulas under the package's name.
var rooms = map[string][]formula.Formula{
	"chance":   chance.Formulas,
	"crop":     crop.Formulas,
	"fish":     fish.Formulas,
	"fit":      fit.Formulas,
	"loop":     loop.Formulas,
	"nitrogen": nitrogen.Formulas,
	"outlook":  outlook.Formulas,
	"pantry":   pantry.Formulas,
	"pool":     pool.Formulas,
	"quantity": quantity.Formulas,
	"remedy":   remedy.Formulas,
	"trial":    trial.Formulas,
	"watch":    watch.Formulas,
	"water":    water.Formulas,
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
	entry, ok := byName()[name]
	return entry, ok
}

var byName = sync.OnceValue(func() map[string]Entry {
	named := make(map[string]Entry, len(Catalogue()))
	for _, entry := range Catalogue() {
		named[entry.Name] = entry
	}
	return named
})

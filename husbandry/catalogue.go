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

// A Room is a package of formulas.
type Room struct {
	Name     string // the package's: "water"
	About    string // what it answers, in a few words
	Formulas []formula.Formula
}

var rooms = []Room{
	{"water", "ammonia, oxygen, carbon dioxide, alkalinity, nitrite, doses", water.Formulas},
	{"fish", "growth, rations, stocking, time to trouble", fish.Formulas},
	{"crop", "time to harvest, yield, heat, light, water use, frost", crop.Formulas},
	{"nitrogen", "feed to ammonia, filter, plants, what is left", nitrogen.Formulas},
	{"loop", "tanks, floods, settling, pipes, pump, heat, power", loop.Formulas},
	{"remedy", "what may touch plants whose water the fish drink", remedy.Formulas},
	{"pantry", "jars, freezing, drying", pantry.Formulas},
	{"trial", "few beds or tanks compared; how many are needed", trial.Formulas},
	{"pool", "many sites compared", pool.Formulas},
	{"watch", "odd readings, changes, trends, what comes next", watch.Formulas},
	{"outlook", "the loop through time", outlook.Formulas},
	{"fit", "curves laid through points", fit.Formulas},
	{"chance", "probabilities", chance.Formulas},
	{"quantity", "units and bases turned into one another", quantity.Formulas},
}

// Rooms returns the rooms, those that a grower asks most first. The slice is
// shared: it must not be changed.
func Rooms() []Room { return rooms }

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
	for _, room := range rooms {
		for i := range room.Formulas {
			entries = append(entries, Entry{room.Name, &room.Formulas[i]})
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

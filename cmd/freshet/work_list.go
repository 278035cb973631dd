package main

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry"
	"freshet.example/husbandry/quantity"
)

// listRooms says where the formulas are; to programs it lists every one.
func listRooms(a *app) error {
	if a.json {
		return listFormulas(a, husbandry.Catalogue())
	}
	p := a.page()
	p.Head("Formulas", counted(len(husbandry.Catalogue()), "formula", "formulas"))
	var pairs [][2]string
	for _, room := range husbandry.Rooms() {
		pairs = append(pairs, [2]string{room.Name, room.About + " (" + strconv.Itoa(len(room.Formulas)) + ")"})
	}
	p.Pairs(pairs)
	p.Gap()
	p.Say("freshet work fish lists a room's, freshet work oxygen those that hold a word.")
	return p.Err()
}

// searchFormulas lists a room's formulas, those that hold all the words, or
// where few do those that come nearest. Whoever gave inputs too wanted an
// answer and is told which names come near.
func searchFormulas(a *app, args []string) error {
	var asked []string
	inputs := false
	for _, arg := range args {
		if strings.Contains(arg, "=") {
			inputs = true
			continue
		}
		asked = append(asked, askedWords(arg)...)
	}
	found, whole := nearest(asked)
	name := strings.Join(asked, " ")
	switch {
	case len(found) == 0:
		return wrong("no formula is called or holds \""+name+"\"", "freshet work lists all of them by room")
	case inputs:
		return wrong("no formula is called \""+words.Snake(name)+"\"", "one of "+firstNames(found))
	case !whole && !a.json:
		a.page().Say("No formula holds all of \"" + name + "\". The nearest:")
	}
	return listFormulas(a, found)
}

func askedWords(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune("_ ?,", r) })
}

// longList is how many answers to a question are too many to look through.
const longList = 16

// nearest finds the formulas that hold all of some words in their name or title,
// and where few do those that come near; whole tells whether any does.
func nearest(asked []string) (found []husbandry.Entry, whole bool) {
	if found = roomOf(asked); found != nil {
		return found, true
	}
	all, telling := husbandry.Catalogue(), tellingWords(asked)
	texts := make([][2]string, len(all)) // name and title, and what else is said
	for i := range all {
		texts[i] = searched(&all[i])
		if !slices.ContainsFunc(telling, func(w string) bool { return !holds(texts[i][0], w) }) {
			found = append(found, all[i])
		}
	}
	if len(found) > 2 && (len(found) <= longList || len(telling) == len(asked)) {
		return found, true
	}
	return ranked(all, texts, telling), found != nil && len(found) <= longList // those that hold all come out best
}

// tellingWords leaves out what a question has beside its matter: small words, and
// figures with their units. All stay where nothing else is there.
func tellingWords(asked []string) (telling []string) {
	const small = " a against an and are at by can did do does for from get have how i if in is it long many me much must my need no of on or per should size so such the there this to was what when which will with without "
	figure := false
	for _, w := range asked {
		unit, _, noUnit := quantity.ParseUnit(w)
		ofFigure := figure && noUnit == nil
		figure = strings.ContainsAny(w, "0123456789")
		if _, err := quantity.Convert(1, unit, quantity.UnitLitre); ofFigure && err == nil {
			telling = append(telling, "tank") // so much water stands in one
		}
		if w = strings.ReplaceAll(w, "-", ""); !strings.Contains(small, " "+w+" ") && !figure && !ofFigure {
			telling = append(telling, w)
		}
	}
	if telling == nil {
		return asked
	}
	return telling
}

// searched is what may be found of a formula. A word with a hyphen is there as
// two, and as one.
func searched(e *husbandry.Entry) [2]string {
	rest := append([]string{e.Room}, e.Also...)
	for _, in := range e.Inputs {
		rest = append(append(rest, in.Name, in.Meaning), in.Choices...)
	}
	var texts [2]string
	for i, text := range []string{e.Name + " " + e.Title, strings.Join(rest, " ")} {
		text = strings.NewReplacer("_", " ", ".", " ", "(", " ").Replace(strings.ToLower(text))
		texts[i] = " " + strings.ReplaceAll(text, "-", " ") + " " + strings.ReplaceAll(text, "-", "")
	}
	return texts
}

// inTitles are words of titles for words that growers use.
var inTitles = map[string]string{
	"unionized": "nh3", "unionised": "nh3", "toxic": "poisonous", "salt": "chloride", "bleach": "chlorine", "tap": "top up",
	"soda": "base", "bicarbonate": "base", "lime": "base", "buffer": "alkalinity", "electricity": "energy", "watts": "power",
	"lettuce": "crop", "basil": "crop", "tomato": "crop", "vegetables": "crop", "tilapia": "fish", "trout": "fish", "carp": "fish", "catfish": "fish",
	"dangerous": "safe", "harmful": "safe", "bad": "safe", "okay": "safe", "ok": "safe", "outage": "pump stops",
	"stock": "biomass", "pounds": "kilogram", "spray": "plants", "aeration": "oxygen", "altitude": "height", "elevation": "height", "gallons": "volume", "died": "survival",
}

// holds tells whether a word, its singular, or what is meant by it begins
// somewhere in a text.
func holds(text, word string) bool {
	if other := inTitles[word]; other != "" && strings.Contains(text, " "+other) {
		return true
	}
	if one := strings.TrimSuffix(word, "s"); len(one) >= len("jar") { // "gas" is no plural
		word = one
	}
	if len(word) < len("jar") { // "no" begins no "normal"
		word += " "
	}
	return strings.Contains(text, " "+word)
}

// ranked lists the few formulas that hold most of some words. A word weighs the
// more, the fewer formulas hold it, and half in what is said beside the title.
func ranked(all []husbandry.Entry, texts [][2]string, telling []string) (found []husbandry.Entry) {
	const most, near = 8, 0.7
	scores, order := make([]float64, len(all)), make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	for _, w := range telling {
		weights, held := weigh(texts, w)
		for i := range scores {
			scores[i] += weights[i] * math.Log(1+float64(len(all))/max(held, 1))
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(scores[j], scores[i]) })
	best := scores[order[0]]
	order = slices.DeleteFunc(order[:most], func(i int) bool { return best == 0 || scores[i] < near*best })
	slices.Sort(order) // room by room
	for _, i := range order {
		found = append(found, all[i])
	}
	return found
}

// weigh says where a word stands, and in how many.
func weigh(texts [][2]string, word string) (weights []float64, held float64) {
	weights = make([]float64, len(texts))
	for i := range texts {
		switch {
		case holds(texts[i][0], word):
			weights[i], held = 1, held+1
		case holds(texts[i][1], word):
			weights[i], held = 0.5, held+1
		}
	}
	return weights, held
}

// roomOf finds the formulas of a room that is named.
func roomOf(asked []string) (found []husbandry.Entry) {
	for _, e := range husbandry.Catalogue() {
		if len(asked) == 1 && e.Room == asked[0] {
			found = append(found, e)
		}
	}
	return found
}

// firstNames lists a few names.
func firstNames(entries []husbandry.Entry) string {
	const few = 6
	var names []string
	for _, e := range entries[:min(few, len(entries))] {
		names = append(names, e.Name)
	}
	slices.Sort(names)
	text := strings.Join(names, ", ")
	if len(entries) > few {
		text += " or " + strconv.Itoa(len(entries)-few) + " more"
	}
	return text
}

type shownFormula struct {
	Name   string   `json:"name"`
	Room   string   `json:"room"`
	Title  string   `json:"title"`
	Unit   string   `json:"unit,omitempty"`
	Source string   `json:"source"`
	Inputs []string `json:"inputs"`
}

func listFormulas(a *app, entries []husbandry.Entry) error {
	if a.json {
		list := make([]shownFormula, len(entries))
		for i, e := range entries {
			list[i] = shownFormula{Name: e.Name, Room: e.Room, Title: e.Title, Unit: e.Unit, Source: e.Source}
			for _, in := range e.Inputs {
				list[i].Inputs = append(list[i].Inputs, in.Name)
			}
		}
		return printJSON(a.out, list)
	}
	p := a.page()
	room := ""
	var pairs [][2]string
	flush := func() {
		if len(pairs) > 0 {
			p.Pairs(pairs)
		}
		pairs = nil
	}
	for _, e := range entries {
		if e.Room != room {
			flush()
			if room != "" {
				p.Gap()
			}
			room = e.Room
			p.Say(strings.ToUpper(room[:1]) + room[1:])
		}
		pairs = append(pairs, [2]string{e.Name, e.Title})
	}
	flush()
	return p.Err()
}

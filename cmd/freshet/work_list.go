package main

import (
	"slices"
	"strconv"
	"strings"

	"freshet.example/cmd/freshet/words"
	"freshet.example/husbandry"
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
// where none does those that come nearest. Whoever gave inputs too wanted an
// answer and is told which names come near.
func searchFormulas(a *app, args []string) error {
	var asked []string
	inputs := false
	for _, arg := range args {
		if strings.Contains(arg, "=") {
			inputs = true
			continue
		}
		asked = append(asked, strings.FieldsFunc(strings.ToLower(arg), func(r rune) bool { return r == '_' || r == ' ' || r == '-' })...)
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

// nearest finds the formulas that hold the most of some words, at least half;
// whole tells whether that is all of them.
func nearest(asked []string) (found []husbandry.Entry, whole bool) {
	if found = roomOf(asked); found != nil {
		return found, true
	}
	best := (len(asked) + 1) / 2
	for _, e := range husbandry.Catalogue() {
		text := " " + strings.ToLower(strings.ReplaceAll(e.Name, "_", " ")+" "+e.Title)
		held := 0
		for _, w := range asked {
			if strings.Contains(text, " "+w) { // where a word begins
				held++
			}
		}
		if held > best {
			found, best = nil, held
		}
		if held == best {
			found = append(found, e)
		}
	}
	return found, best == len(asked)
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

package main

import (
	"math"
	"strconv"
	"strings"

	"freshet.example/husbandry"
	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/pantry"
	"freshet.example/husbandry/remedy"
)

// An unsourced figure is one that nobody looked up: recalled, or a rule of thumb.
type unsourced struct {
	Room    string   `json:"room"`
	Formula string   `json:"formula"`
	Stands  string   `json:"source"`
	For     []string `json:"for,omitempty"` // the rows of a table, where only some are
}

// marks are how a source says that nobody looked it up.
var marks = []string{"from memory", "no source", "common practice", "trade rule", "common knowledge"}

func isUnsourced(source string) bool {
	for _, m := range marks {
		if strings.Contains(source, m) {
			return true
		}
	}
	return false
}

// listUnsourced lists every formula, and every row of a table, whose source
// says that nobody looked it up.
func listUnsourced(a *app) error {
	var all []unsourced
	for _, e := range husbandry.Catalogue() {
		if isUnsourced(e.Source) {
			all = append(all, unsourced{e.Room, e.Name, e.Source, nil})
			continue
		}
		all = append(all, unsourcedRows(e)...)
	}
	if a.json {
		return printJSON(a.out, all)
	}
	p := a.page()
	p.Head("From memory, or without a source", counted(len(all), "figure or table", "figures and tables"))
	room := ""
	for _, u := range all {
		if u.Room != room {
			p.Title(strings.ToUpper(u.Room[:1]) + u.Room[1:])
			room = u.Room
		}
		text := u.Formula
		if len(u.For) > 0 {
			text += " of " + few(u.For)
		}
		p.Item("-", text+": "+u.Stands)
	}
	return p.Err()
}

// unsourcedRows asks a formula for each word that its first list of words
// allows, everything else as usual, and gathers the words by source.
func unsourcedRows(e husbandry.Entry) []unsourced {
	typed := map[string]string{}
	var word string
	var of []string
	for i := range e.Inputs {
		in := &e.Inputs[i]
		if list := wordsOf(in); of == nil && list != nil {
			word, of = in.Name, list
		} else if in.Default == "" && len(in.Choices) == 0 {
			typed[in.Name] = strconv.FormatFloat(math.Min(math.Max(1, in.Low), in.High), 'g', -1, 64)
		}
	}
	var rows []unsourced
	for _, w := range of {
		typed[word] = w
		answer, err := e.Ask(typed)
		if err != nil || !isUnsourced(answer.Source) {
			continue
		}
		if at := sameSource(rows, answer.Source); at >= 0 {
			rows[at].For = append(rows[at].For, w)
		} else {
			rows = append(rows, unsourced{e.Room, e.Name, answer.Source, []string{w}})
		}
	}
	return rows
}

func sameSource(rows []unsourced, source string) int {
	for i := range rows {
		if rows[i].Stands == source {
			return i
		}
	}
	return -1
}

// wordsOf lists what an input of words may be; nil where it is a number, or free.
func wordsOf(in *formula.Input) []string {
	switch {
	case len(in.Choices) > 0:
		return in.Choices
	case in.Name == "crop":
		return crop.CropNames()
	case in.Name == "food":
		return pantry.Foods()
	case in.Name == "substance":
		var names []string
		for _, s := range remedy.Substances() {
			names = append(names, s.Name)
		}
		return names
	}
	return nil
}

func few(list []string) string {
	const most = 8
	if len(list) <= most+1 {
		return strings.Join(list, ", ")
	}
	return strings.Join(list[:most], ", ") + " and " + strconv.Itoa(len(list)-most) + " more"
}

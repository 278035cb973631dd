//go:build wasip1

package main

import (
	"freshet.example/clients/web/wasm/passage"
	"freshet.example/husbandry"
)

// ask answers the question of n bytes in the room and gives the answer's length.
//
//go:wasmexport ask
func ask(n int32) int32 { return passage.Answer(answerTo(string(passage.Question(n)))) }

// list gives the length of the list of all formulas.
//
//go:wasmexport list
func list() int32 {
	var w passage.Writer
	entries := husbandry.Catalogue()
	w.Count(len(entries))
	for _, e := range entries {
		entry(&w, e)
	}
	return passage.Answer(w)
}

// entry writes a formula's words.
func entry(w *passage.Writer, e husbandry.Entry) {
	for _, s := range []string{e.Name, e.Room, e.Title, e.Unit, e.Source, e.Range} {
		w.Text(s)
	}
	w.Texts(e.Cautions)
	w.Count(len(e.Inputs))
	for _, i := range e.Inputs {
		for _, s := range []string{i.Name, i.Meaning, i.Unit, i.Default} {
			w.Text(s)
		}
		w.Number(i.Low)
		w.Number(i.High)
		w.Texts(i.Choices)
	}
}

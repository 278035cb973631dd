//go:build wasip1

package main

import (
	"unsafe"

	"freshet.example/husbandry"
)

// The question and the answer stay referenced here while the other side reads
// and writes them.
var question, answer []byte

// room makes room for a question of n bytes and says where.
//
//go:wasmexport room
func room(n int32) unsafe.Pointer {
	question = make([]byte, max(n, 1))
	return unsafe.Pointer(&question[0]) // #nosec G103 -- memory is how WebAssembly passes bytes
}

// place is where the answer stands.
//
//go:wasmexport place
func place() unsafe.Pointer {
	return unsafe.Pointer(unsafe.SliceData(answer)) // #nosec G103 -- as above
}

// ask answers the question of n bytes in the room and gives the answer's length.
//
//go:wasmexport ask
func ask(n int32) int32 {
	answer = answerTo(string(question[:n]))
	return int32(len(answer)) // #nosec G115 -- an answer is some hundred bytes
}

// list gives the length of the list of all formulas.
//
//go:wasmexport list
func list() int32 {
	var w writer
	entries := husbandry.Catalogue()
	w.count(len(entries))
	for _, e := range entries {
		w.entry(e)
	}
	answer = w
	return int32(len(answer)) // #nosec G115 -- a few hundred kilobytes
}

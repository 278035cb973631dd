//go:build wasip1

// Package passage is how a module of clients/web/wasm and the page it runs in
// hand bytes to each other: the page asks for room, writes a question there, calls
// what the module exports, and reads the answer in its place.
package passage

import (
	"math"
	"unsafe"
)

// The question and the answer stay referenced here while the other side writes
// and reads them.
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

// Question is what stands in the first n bytes of the room.
func Question(n int32) []byte { return question[:n] }

// Answer puts an answer in its place and gives its length, as exports return it.
func Answer(w Writer) int32 {
	answer = w
	return int32(len(answer)) // #nosec G115 -- an answer is some hundred kilobytes at most
}

// A Writer gathers numbers and texts, little-endian, each text behind its length.
type Writer []byte

// Number writes a float64.
func (w *Writer) Number(v float64) { w.bytes(math.Float64bits(v), 8) }

// Count writes how many of something follow.
func (w *Writer) Count(n int) { w.bytes(uint64(n), 4) } // #nosec G115 -- lengths of texts and lists

// bytes writes the low n bytes. Package encoding/binary would bring reflection
// along, a tenth of the whole.
func (w *Writer) bytes(v uint64, n int) {
	for range n {
		*w = append(*w, byte(v))
		v >>= 8
	}
}

// Text writes a text.
func (w *Writer) Text(s string) {
	w.Count(len(s))
	*w = append(*w, s...)
}

// Texts writes a list of texts.
func (w *Writer) Texts(list []string) {
	w.Count(len(list))
	for _, s := range list {
		w.Text(s)
	}
}

// Numbers are read from a question in order; past its end they are NaN, which
// every range refuses.
type Numbers struct{ rest []byte }

// NumbersOf reads a question of float64s.
func NumbersOf(question []byte) *Numbers { return &Numbers{question} }

// Next is the next number.
func (n *Numbers) Next() float64 {
	if len(n.rest) < 8 {
		return math.NaN()
	}
	bits := uint64(0)
	for i, b := range n.rest[:8] {
		bits |= uint64(b) << (8 * i)
	}
	n.rest = n.rest[8:]
	return math.Float64frombits(bits)
}

// Whole is the next number as a whole one; -1 for what is none, or above a million.
func (n *Numbers) Whole() int {
	v := n.Next()
	if !(v >= 0 && v <= 1e6) {
		return -1
	}
	return int(v)
}

// Count is how many of something follow, never more than there are bytes left.
func (n *Numbers) Count() int { return max(0, min(n.Whole(), len(n.rest))) }

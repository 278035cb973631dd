//go:build wasip1

package main

import (
	"errors"
	"math"
	"strings"

	"freshet.example/husbandry"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// answerTo asks a formula. A question is lines: the formula's name, then one
// NAME=VALUE for each input, as a person would type it.
func answerTo(text string) []byte {
	lines := strings.Split(text, "\n")
	entry, ok := husbandry.Find(lines[0])
	if !ok {
		return refusal("unknown formula", lines[0], lines[0]+" is no formula", "")
	}
	typed := make(map[string]string, len(lines)-1)
	for _, line := range lines[1:] {
		name, value, _ := strings.Cut(line, "=")
		typed[name] = value
	}
	a, err := entry.Ask(typed)
	if err != nil {
		return refused(err)
	}
	return given(a)
}

// given writes an answer: the letter a, value, low, high, and its words.
func given(a formula.Answer) []byte {
	w := writer{'a'}
	w.number(a.Value)
	w.number(a.Low)
	w.number(a.High)
	w.text(a.Text)
	w.text(a.Unit)
	w.text(a.Source)
	w.texts(a.Cautions)
	w.count(len(a.Others))
	for _, o := range a.Others {
		w.text(o.Basis)
		w.number(o.Value)
		w.text(o.Unit)
		w.text(o.Source)
	}
	return w
}

// refused says why there is no answer: by its reason where an input is meant,
// by the range where a value lies outside.
func refused(err error) []byte {
	if input, ok := errors.AsType[*formula.InputError](err); ok {
		return refusal(input.Reason, input.Input, input.Error(), input.Hint)
	}
	if outside, ok := errors.AsType[*quantity.RangeError](err); ok {
		return refusal("out of range", outside.Name, outside.Error(), "")
	}
	return refusal("no answer", "", err.Error(), "")
}

// refusal writes a refusal: the letter r, reason, input, words, hint.
func refusal(reason, input, words, hint string) []byte {
	w := writer{'r'}
	for _, s := range []string{reason, input, words, hint} {
		w.text(s)
	}
	return w
}

// A writer gathers numbers and texts, little-endian, each text behind its length.
type writer []byte

func (w *writer) number(v float64) { w.bytes(math.Float64bits(v), 8) }

func (w *writer) count(n int) { w.bytes(uint64(n), 4) } // #nosec G115 -- lengths of texts and lists

// bytes writes the low n bytes. Package encoding/binary would bring reflection
// along, a tenth of the whole.
func (w *writer) bytes(v uint64, n int) {
	for range n {
		*w = append(*w, byte(v))
		v >>= 8
	}
}

func (w *writer) text(s string) {
	w.count(len(s))
	*w = append(*w, s...)
}

func (w *writer) texts(list []string) {
	w.count(len(list))
	for _, s := range list {
		w.text(s)
	}
}

// entry writes a formula's words.
func (w *writer) entry(e husbandry.Entry) {
	for _, s := range []string{e.Name, e.Room, e.Title, e.Unit, e.Source, e.Range} {
		w.text(s)
	}
	w.texts(e.Cautions)
	w.count(len(e.Inputs))
	for _, i := range e.Inputs {
		for _, s := range []string{i.Name, i.Meaning, i.Unit, i.Default} {
			w.text(s)
		}
		w.number(i.Low)
		w.number(i.High)
		w.texts(i.Choices)
	}
}

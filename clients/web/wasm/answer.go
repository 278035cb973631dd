//go:build wasip1

package main

import (
	"errors"
	"strings"

	"freshet.example/clients/web/wasm/passage"
	"freshet.example/husbandry"
	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// answerTo asks a formula. A question is lines: the formula's name, then one
// NAME=VALUE for each input, as a person would type it.
func answerTo(text string) passage.Writer {
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
func given(a formula.Answer) passage.Writer {
	w := passage.Writer{'a'}
	w.Number(a.Value)
	w.Number(a.Low)
	w.Number(a.High)
	w.Text(a.Text)
	w.Text(a.Unit)
	w.Text(a.Source)
	w.Texts(a.Cautions)
	w.Count(len(a.Others))
	for _, o := range a.Others {
		w.Text(o.Basis)
		w.Number(o.Value)
		w.Text(o.Unit)
		w.Text(o.Source)
	}
	return w
}

// refused says why there is no answer: by its reason where an input is meant,
// by the range where a value lies outside.
func refused(err error) passage.Writer {
	if input, ok := errors.AsType[*formula.InputError](err); ok {
		return refusal(input.Reason, input.Input, input.Error(), input.Hint)
	}
	if outside, ok := errors.AsType[*quantity.RangeError](err); ok {
		return refusal("out of range", outside.Name, outside.Error(), "")
	}
	return refusal("no answer", "", err.Error(), "")
}

// refusal writes a refusal: the letter r, reason, input, words, hint.
func refusal(reason, input, words, hint string) passage.Writer {
	w := passage.Writer{'r'}
	for _, s := range []string{reason, input, words, hint} {
		w.Text(s)
	}
	return w
}

package server

import (
	"math"
	"strconv"
	"strings"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/husbandry"
	"freshet.example/husbandry/formula"
)

// answerMessage turns a formula's answer into the contract's, with what it
// rests on.
func answerMessage(entry husbandry.Entry, typed map[string]string, answer formula.Answer) *freshetv1.Answer {
	out := &freshetv1.Answer{
		Sentence:   sentence(entry, answer),
		Name:       entry.Name,
		Estimate:   estimate(answer),
		Inputs:     inputsUsed(entry, typed),
		Source:     answer.Source,
		ValidRange: entry.Range,
		Cautions:   answer.Cautions,
	}
	for _, other := range answer.Others {
		out.Others = append(out.Others, &freshetv1.OtherBasis{Basis: other.Basis, Source: other.Source,
			Estimate: &freshetv1.Estimate{Value: other.Value, Unit: other.Unit}})
	}
	return out
}

// estimate is nil for an answer in words: a zero would look like a figure.
func estimate(answer formula.Answer) *freshetv1.Estimate {
	if math.IsNaN(answer.Value) && math.IsNaN(answer.Low) {
		return nil
	}
	out := &freshetv1.Estimate{Unit: answer.Unit}
	if !math.IsNaN(answer.Value) {
		out.Value = answer.Value
	}
	if !math.IsNaN(answer.Low) {
		out.Low, out.High = &answer.Low, &answer.High
	}
	return out
}

func sentence(entry husbandry.Entry, answer formula.Answer) string {
	figure := ""
	switch {
	case answer.Text != "":
		return answer.Text
	case math.IsNaN(answer.Value):
		figure = digits(answer.Low) + " to " + digits(answer.High)
	case math.IsNaN(answer.Low):
		figure = digits(answer.Value)
	default:
		figure = digits(answer.Value) + " (" + digits(answer.Low) + " to " + digits(answer.High) + ")"
	}
	return strings.TrimRight(entry.Title, ".?") + ": " + strings.TrimSpace(figure+" "+answer.Unit) + "."
}

// inputsUsed lists the formula's inputs in their order, as typed or by default.
func inputsUsed(entry husbandry.Entry, typed map[string]string) []*freshetv1.InputUsed {
	var used []*freshetv1.InputUsed
	for _, input := range entry.Inputs {
		name, text, unit := typedInput(input, typed)
		from := "given"
		if name == "" {
			name, text, unit, from = input.Name, input.Default, input.Unit, "default"
		}
		if text != "" {
			used = append(used, inputUsed(name, text, unit, from))
		}
	}
	return used
}

// typedInput finds an input under any of its names; all empty where it was not
// typed. Under another name it may be in another unit, which that name tells.
func typedInput(input formula.Input, typed map[string]string) (name, text, unit string) {
	if text, ok := typed[input.Name]; ok {
		return input.Name, text, input.Unit
	}
	for _, alias := range input.Also {
		text, ok := typed[alias.Name]
		switch {
		case ok && alias.Change != nil:
			return alias.Name, text, ""
		case ok:
			return alias.Name, text, input.Unit
		}
	}
	return "", "", ""
}

func inputUsed(name, text, unit, from string) *freshetv1.InputUsed {
	value, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
	if err != nil { // a word or a list: it stands in its own words
		return &freshetv1.InputUsed{Name: name + " " + text, From: from}
	}
	return &freshetv1.InputUsed{Name: name, Estimate: &freshetv1.Estimate{Value: value, Unit: unit}, From: from}
}

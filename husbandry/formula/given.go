package formula

import (
	"math"
	"strings"
)

// Given holds the inputs of one question, as typed, and hands them to a
// Formula in its own names and units.
type Given struct {
	formula *Formula
	typed   map[string]string
	err     error
}

// An InputError says which input of which formula could not be used, and why.
type InputError struct {
	Formula string
	Input   string
	Reason  string // "missing", "not a number", "given twice", "unknown word", "unknown input"
	Hint    string
}

// Error reads as one sentence.
func (e *InputError) Error() string {
	s := e.Formula + ": " + e.Input + " is " + e.Reason
	if strings.HasPrefix(e.Reason, "unknown") {
		s = e.Formula + ": " + e.Input + " is an " + e.Reason
	}
	if e.Hint != "" {
		s += "; " + e.Hint
	}
	return s
}

// Ask computes the formula from inputs as typed, by name or alias.
func (f *Formula) Ask(typed map[string]string) (Answer, error) {
	in := &Given{formula: f, typed: typed}
	if err := in.refuseUnknown(); err != nil {
		return Answer{}, err
	}
	answer, err := f.Work(in)
	if err = in.refused(err); err != nil {
		return Answer{}, err
	}
	return f.filled(answer), nil
}

// Number returns an answer that is one number in the formula's own unit.
func Number(v float64) Answer { return Answer{Value: v, Low: math.NaN(), High: math.NaN()} }

// Span returns an answer that is a range.
func Span(low, high float64) Answer { return Answer{Value: math.NaN(), Low: low, High: high} }

// Words returns an answer in words.
func Words(text string) Answer {
	return Answer{Value: math.NaN(), Low: math.NaN(), High: math.NaN(), Text: text}
}

func (f *Formula) filled(a Answer) Answer {
	if a.Unit == "" {
		a.Unit = f.Unit
	}
	if a.Source == "" {
		a.Source = f.Source
	}
	a.Cautions = append(append([]string{}, f.Cautions...), a.Cautions...)
	return a
}

func (in *Given) refuseUnknown() error {
	for name := range in.typed {
		if !in.formula.knows(name) {
			return &InputError{in.formula.Name, name, "unknown input", "it takes " + in.formula.inputNames()}
		}
	}
	for _, i := range in.formula.Inputs {
		if names, apart := in.namesOf(i); apart {
			return &InputError{in.formula.Name, i.Name, "given twice", "as " + strings.Join(names, " and as ")}
		}
	}
	return nil
}

// namesOf lists the names of an input under which it was given, and whether
// they say different things.
func (in *Given) namesOf(i Input) (names []string, apart bool) {
	said := ""
	for _, a := range append([]Alias{{Name: i.Name}}, i.Also...) {
		text, found := in.typed[a.Name]
		if !found {
			continue
		}
		apart = apart || names != nil && (text != said || a.Change != nil)
		names, said = append(names, a.Name), text
	}
	return names, apart
}

func (f *Formula) knows(name string) bool {
	for _, i := range f.Inputs {
		if i.Name == name {
			return true
		}
		for _, a := range i.Also {
			if a.Name == name {
				return true
			}
		}
	}
	return false
}

func (f *Formula) inputNames() string {
	names := make([]string, len(f.Inputs))
	for i, input := range f.Inputs {
		names[i] = input.Name
	}
	return strings.Join(names, ", ")
}

// Has reports whether the input was given under any of its names.
func (in *Given) Has(name string) bool {
	_, _, found := in.find(name)
	return found
}

// Float returns the input as a number in the input's own unit, after its
// range was checked by the formula itself. The first failure is kept and
// reported by Ask.
func (in *Given) Float(name string) float64 {
	text, change, found := in.find(name)
	if !found {
		text = in.input(name).Default
	}
	if text == "" {
		in.fail(name, "missing", in.input(name).wanted())
		return math.NaN()
	}
	v, ok := number(Grouped(text), in.input(name).Unit)
	if whole, part, either := twoWays(text); either {
		in.fail(name, "to be read in two ways", "write "+whole+part+" or "+whole+"."+part)
		return math.NaN()
	}
	if !ok {
		in.fail(name, "not a number", "write it like 7.5")
		return math.NaN()
	}
	if change != nil && found {
		v = change(v)
	}
	return v
}

// number reads a number, bare or with its unit behind it: "0.08", "0.08/h"
// where the unit is 1/h or mg/L/h. Any other unit is no number: it would be a
// guess what it meant.
func number(text, unit string) (float64, bool) {
	v, ok := plainNumber(text)
	for _, ending := range []string{unit[max(0, strings.LastIndex(unit, "/")):], unit} {
		if bare, found := strings.CutSuffix(text, ending); found && !ok {
			v, ok = plainNumber(bare)
		}
	}
	return v, ok
}

// Word returns the input as a word, checked against its Choices.
func (in *Given) Word(name string) string {
	text, _, found := in.find(name)
	input := in.input(name)
	if !found {
		text = input.Default
	}
	if text == "" {
		in.fail(name, "missing", in.input(name).wanted())
		return ""
	}
	if len(input.Choices) == 0 {
		return text
	}
	if c, ok := chosen(input.Choices, text); ok {
		return c
	}
	in.fail(name, "unknown word", "one of "+strings.Join(nearest(input.Choices, text), ", "))
	return ""
}

// nearest are the choices that hold a text's words, or all where none does: which
// of several is meant would be a guess.
func nearest(choices []string, text string) (near []string) {
	for _, c := range choices {
		if strings.Contains(" "+spaced(c), " "+spaced(text)) {
			near = append(near, c)
		}
	}
	if near == nil {
		return choices
	}
	return near
}

// chosen finds the choice that a text is, without regard to case, hyphens and
// blanks; else the only one that begins with the text's words, or with whose
// words the text begins: "globe valve" is "globe valve open", "radial-flow"
// is "radial".
func chosen(choices []string, text string) (choice string, ok bool) {
	asked, found := spaced(text), 0
	for _, c := range choices {
		known := spaced(c)
		if known == asked {
			return c, true
		}
		if strings.HasPrefix(known, asked) || strings.HasPrefix(asked, known) {
			choice, found = c, found+1
		}
	}
	return choice, found == 1 && strings.TrimSpace(asked) != ""
}

// spaced is a text in lower case with one blank after each word.
func spaced(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" -_\t", r) }), " ") + " "
}

// wanted says what an input is to hold.
func (i *Input) wanted() string {
	text := "it is " + i.Meaning
	if i.Unit != "" {
		text += ", in " + i.Unit
	}
	if len(i.Choices) > 0 {
		text += ": " + strings.Join(i.Choices, ", ")
	}
	return text
}

func (in *Given) find(name string) (text string, change func(float64) float64, found bool) {
	if text, found = in.typed[name]; found {
		return text, nil, true
	}
	for _, a := range in.input(name).Also {
		if text, found = in.typed[a.Name]; found {
			return text, a.Change, true
		}
	}
	return "", nil, false
}

func (in *Given) input(name string) *Input {
	for i := range in.formula.Inputs {
		if in.formula.Inputs[i].Name == name {
			return &in.formula.Inputs[i]
		}
	}
	panic("formula " + in.formula.Name + " declares no input " + name)
}

func (in *Given) fail(name, reason, hint string) {
	if in.err == nil {
		in.err = &InputError{in.formula.Name, name, reason, hint}
	}
}

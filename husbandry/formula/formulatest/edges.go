package formulatest

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// Edges asks every formula at and beyond the ends of every input that has a
// range: what lies outside, or is no number, must be refused with the range and
// who states it, and what lies on an end must not be. Questions come from rows, one for each formula; a formula
// that no row asks is an error. Within names inputs whose range depends on
// others, as "formula.input" or "input": their ends may be refused.
func Edges(t *testing.T, formulas []formula.Formula, rows []Row, within ...string) {
	t.Helper()
	asked := questions(t, formulas, rows)
	loose := map[string]bool{}
	for _, name := range within {
		loose[name] = true
	}
	for i := range formulas {
		f := &formulas[i]
		question, ok := asked[f.Name]
		if !ok {
			t.Errorf("%s: no row asks this formula", f.Name)
			continue
		}
		for _, input := range f.Inputs {
			if input.Low < input.High {
				e := edge{t, f, input, question, loose[input.Name] || loose[f.Name+"."+input.Name]}
				e.check()
			}
		}
	}
}

func questions(t *testing.T, formulas []formula.Formula, rows []Row) map[string]map[string]string {
	asked := map[string]map[string]string{}
	for _, row := range rows {
		f, typed := Find(formulas, row.Quantity)
		if f == nil || asked[f.Name] != nil {
			continue
		}
		asked[f.Name] = row.given(t, typed)
	}
	return asked
}

// An edge is one input of one formula, asked about with the others as they are.
type edge struct {
	t        *testing.T
	f        *formula.Formula
	input    formula.Input
	question map[string]string
	loose    bool
}

func (e edge) check() {
	e.t.Helper()
	for _, v := range []float64{below(e.input.Low), e.input.Low - 1, above(e.input.High), e.input.High + 1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		inside := v >= e.input.Low && v <= e.input.High // one more is not more, far out
		err := e.ask(v)
		if err == nil && !inside && (!e.loose || math.IsNaN(v) || math.IsInf(v, 0)) {
			e.t.Errorf("%s: %s of %g was taken, outside %g to %g", e.f.Name, e.input.Name, v, e.input.Low, e.input.High)
		}
		if err != nil && !inside {
			e.says(v, err)
		}
	}
	for _, v := range []float64{e.input.Low, e.input.High} {
		var outside *quantity.RangeError
		if err := e.ask(v); errors.As(err, &outside) && outside.Value == v && !e.loose {
			e.t.Errorf("%s: %s of %g was refused: %v", e.f.Name, e.input.Name, v, err)
		}
	}
}

// says holds a refusal to naming the range and who states it. What should be a
// whole number and is none may be refused as that.
func (e edge) says(v float64, err error) {
	e.t.Helper()
	var outside *quantity.RangeError
	var input *formula.InputError
	if errors.As(err, &input) && v != math.Trunc(v) || errors.Is(err, errNoList) {
		return
	}
	if !errors.As(err, &outside) || outside.Name == "" || outside.Source == "" {
		e.t.Errorf("%s: %s of %g is refused without a range and who states it: %v", e.f.Name, e.input.Name, v, err)
	}
}

// errNoList stands for the refusal of a list that the question leaves out.
var errNoList = errors.New("the list was not given")

// ask puts v in the place of the input, or of its first value where it is a list.
func (e edge) ask(v float64) error {
	typed := map[string]string{}
	list := strings.HasSuffix(e.input.Meaning, ", a list")
	value := strconv.FormatFloat(v, 'g', 17, 64)
	for name, text := range e.question {
		if !e.answers(name) {
			typed[name] = text
		} else if list {
			words := strings.FieldsFunc(strings.Trim(text, "[] "), func(r rune) bool { return r == ' ' || r == ',' })
			words[0] = value
			value = strings.Join(words, " ")
		}
	}
	if list && value == strconv.FormatFloat(v, 'g', 17, 64) {
		return errNoList
	}
	typed[e.input.Name] = value
	_, err := e.f.Ask(typed)
	return err
}

func (e edge) answers(name string) bool {
	if name == e.input.Name {
		return true
	}
	for _, a := range e.input.Also {
		if a.Name == name {
			return true
		}
	}
	return false
}

func below(v float64) float64 {
	if v == math.SmallestNonzeroFloat64 {
		return 0
	}
	return v - 1e-9*max(1e-3, math.Abs(v))
}

func above(v float64) float64 { return v + 1e-9*max(1e-3, math.Abs(v)) }

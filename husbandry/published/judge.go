package published

import (
	"errors"
	"math"
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// A Verdict says how an answer stands to a row.
type Verdict uint8

// The verdicts.
const (
	Agrees    Verdict = iota // the answer is what is printed, within the tolerance
	Disputed                 // it is not, and Disputes says why the printed one is wrong
	Differs                  // it is not, or was refused where there is a figure, or given where there is none
	NotHeld                  // our tables hold no such row
	NotRead                  // the row's inputs or figures could not be read
	OtherText                // both are long words, and not the same; a person must compare them
)

// String names the verdict as reports and --json do.
func (v Verdict) String() string {
	return [...]string{"agrees", "disputed", "differs", "not held", "not read", "other words"}[v]
}

// longWords is how many words a text must have before differing ones are left
// to a person.
const longWords = 4

// Judge holds an answer, or the error instead of one, against a row. The answer
// comes back in the row's unit where the two can be converted.
//
// A single comma before three digits may be a decimal one or group thousands:
// the answer may agree with either.
func Judge(row Row, f *formula.Formula, answer formula.Answer, err error) (Verdict, formula.Answer) {
	row = tidied(row)
	verdict, judged := judge(row, f, answer, err)
	if whole, ok := thousandsMeant(row.Expected); ok && verdict == Differs {
		row.Expected = whole
		verdict, judged = judge(row, f, answer, err)
	}
	if verdict == Differs && err == nil {
		if _, found := DisputeOf(row, judged.Value); found {
			verdict = Disputed
		}
	}
	return verdict, judged
}

func judge(row Row, f *formula.Formula, answer formula.Answer, err error) (Verdict, formula.Answer) {
	e := expect(row.Expected)
	if err != nil {
		return refused(e, err), answer
	}
	if e.kind == refusal && !sameWords(answer.Text, row.Expected) {
		return Differs, answer
	}
	if t := allow(row.Tolerance); t.flat {
		return verdict(len(answer.Cautions) > len(f.Cautions)), answer
	}
	if bar, set := yardstick(row); set {
		return verdict(bar.reached(answer.Value)), answer
	}
	answer = inUnit(answer, row.Unit)
	if agrees(row, e, answer) {
		return Agrees, answer
	}
	if e.kind == words && len(strings.Fields(e.text)) >= longWords {
		return OtherText, answer
	}
	if answer.Text == "" && e.kind == words && len(e.list) == 0 {
		return NotRead, answer // the answer is a figure, and none is printed
	}
	return Differs, answer
}

// refused says what it means that there is no answer.
func refused(e expectation, err error) Verdict {
	var input *formula.InputError
	var outside *quantity.RangeError
	switch {
	case e.kind == refusal && e.ofRange() && errors.As(err, &input) && (input.Reason == "missing" || input.Reason == "unknown input"):
		return NotRead // refused before any range was looked at
	case e.kind == refusal:
		return Agrees
	case errors.As(err, &outside):
		return Differs
	case !errors.As(err, &input), input.Reason == "unknown word":
		return NotHeld
	}
	return NotRead
}

func verdict(ok bool) Verdict {
	if ok {
		return Agrees
	}
	return Differs
}

// agrees compares an answer, which may be a number, a range or words, with what
// is printed.
func agrees(row Row, e expectation, a formula.Answer) bool {
	if a.Text != "" && sameWords(a.Text, row.Expected) {
		return true
	}
	t := allow(row.Tolerance)
	low, high := a.Low, a.High
	switch e.kind {
	case number:
		return t.allows(a.Value, e.low, e.unit) || math.IsNaN(a.Value) && t.allows(low, e.low, e.unit) && t.allows(high, e.low, e.unit)
	case span:
		return t.allows(low, e.low, e.unit) && t.allows(high, e.high, e.unit)
	case below:
		return t.allows(high, e.high, e.unit) || a.Value <= e.high && math.IsNaN(low)
	case above:
		return t.allows(low, e.low, e.unit) || a.Value >= e.low && math.IsNaN(high)
	case figures:
		return alike(e.list, figuresOf(a.Text), t)
	}
	if l, h, found := oneSpan(row.Expected); found && a.Text == "" {
		return t.allows(low, l.value, l.unit) && t.allows(high, h.value, h.unit)
	}
	return false
}

func alike(want, have []float64, t tolerance) bool {
	if len(want) != len(have) {
		return false
	}
	for i := range want {
		if !t.allows(have[i], want[i], 0) {
			return false
		}
	}
	return true
}

// sameWords compares without regard to case and blanks.
func sameWords(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

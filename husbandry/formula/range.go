package formula

import (
	"errors"
	"math"
	"strconv"
)

// RangeError says that a value lies outside the range in which a formula, a
// table or a unit is valid. It is returned instead of a guess.
type RangeError struct {
	Name   string  // what the value is, as the caller would say it: "pH", "water temperature"
	Value  float64 // what was given
	Low    float64 // lowest valid value, inclusive
	High   float64 // highest valid value, inclusive
	Unit   string  // unit of the three numbers, empty for pure numbers
	Source string  // who states the range, never empty
}

// Error names the value, its range, and who says so.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	s := e.Name + " " + short(e.Value) + unit + " is outside " + short(e.Low) + " to " + short(e.High) + unit
	if e.Source != "" {
		s += " (" + e.Source + ")"
	}
	return s
}

func short(v float64) string { return strconv.FormatFloat(v, 'g', 7, 64) }

// refused settles what to say when an answer cannot stand. A range that a
// function names comes first: it knows best what the value is. Then comes any
// input that lies outside what it declares, also one that this answer did
// without or that a table was merely looked up by. Nil when all is well.
func (in *Given) refused(err error) error {
	var named *RangeError
	if in.err == nil && errors.As(err, &named) {
		return err
	}
	for i := range in.formula.Inputs {
		if outside := in.outside(&in.formula.Inputs[i]); outside != nil {
			return outside
		}
	}
	if in.err != nil {
		return in.err
	}
	return err
}

// outside holds one number as typed against the range of its input. Lists,
// comparisons and words have their own checks.
func (in *Given) outside(i *Input) error {
	text, change, found := in.find(i.Name)
	v, ok := number(Grouped(text), i.Unit)
	if !found || !ok || i.Low >= i.High {
		return nil
	}
	low, high := i.Low, i.High
	if change != nil {
		v, low, high = change(v), low-dust(low), high+dust(high)
	}
	if v >= low && v <= high {
		return nil
	}
	return &RangeError{Name: i.Name, Value: v, Low: i.Low, High: i.High, Unit: i.Unit, Source: in.formula.Source}
}

// dust is by how much a value changed from another unit may miss an end.
func dust(end float64) float64 { return 1e-12 + 1e-9*math.Abs(end) }

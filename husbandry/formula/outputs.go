package formula

import "math"

// An Output is one figure of a computation that gives several.
type Output[T any] struct {
	Name  string // as Formula.Name
	Title string
	Unit  string
	Also  []string
	Value func(T) float64
	Span  func(T) (low, high float64) // the figure's interval, nil when it has none
}

// Outputs makes one Formula of each figure of a computation. Base holds what
// they share: inputs, source, range, cautions.
func Outputs[T any](base Formula, work func(in *Given) (T, error), outputs ...Output[T]) []Formula {
	formulas := make([]Formula, len(outputs))
	for i, o := range outputs {
		f := base
		f.Name, f.Title, f.Unit, f.Also = o.Name, o.Title, o.Unit, o.Also
		f.Work = func(in *Given) (Answer, error) {
			result, err := work(in)
			if err != nil {
				return Answer{}, err
			}
			return o.answer(result), nil
		}
		formulas[i] = f
	}
	return formulas
}

func (o Output[T]) answer(result T) Answer {
	a := Number(o.Value(result))
	if o.Span != nil {
		a.Low, a.High = o.Span(result)
	}
	if math.IsNaN(a.Value) {
		a.Text = "not defined for these values"
	}
	return a
}

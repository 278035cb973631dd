package formula

import (
	"errors"
	"math"
	"testing"
)

// between is a formula that shows the band it was given.
var between = Formula{
	Name: "between", Inputs: []Input{{Name: "t", Default: "3", Also: []Alias{{Name: "doubled", Change: func(v float64) float64 { return v * 2 }}}}, {Name: "must"}},
	Work: func(in *Given) (Answer, error) {
		if in.Has("must") {
			return Span(in.Band("must")), nil
		}
		return Span(in.Band("t")), nil
	},
}

func TestBand(t *testing.T) {
	inf := math.Inf(1)
	for text, want := range map[string][2]float64{
		"7.5": {7.5, 7.5}, " 7,5 ": {7.5, 7.5}, "-5": {-5, -5}, "1e-3": {0.001, 0.001},
		"3001-6000": {3001, 6000}, "-5-10": {-5, 10}, "4-4": {4, 4}, "0,5 - 1": {0.5, 1},
		"<10": {-inf, math.Nextafter(10, -inf)}, "<=10": {-inf, 10},
		">10": {math.Nextafter(10, inf), inf}, ">=10": {10, inf},
	} {
		a, err := between.Ask(map[string]string{"t": text})
		if err != nil || a.Low != want[0] || a.High != want[1] {
			t.Errorf("%q is %v to %v, want %v: %v", text, a.Low, a.High, want, err)
		}
	}
	if a, err := between.Ask(map[string]string{"doubled": "2-3"}); err != nil || a.Low != 4 || a.High != 6 {
		t.Errorf("%v to %v, %v", a.Low, a.High, err)
	}
	if a, err := between.Ask(nil); err != nil || a.Low != 3 || a.High != 3 {
		t.Errorf("%v to %v, %v", a.Low, a.High, err)
	}
	for text, reason := range map[string]string{"": "missing", "warm": "not a number", "5-": "not a number", "6-5": "not a number", "=5": "not a number", "<": "not a number", "-": "not a number", "1-2-3": "not a number"} {
		var fault *InputError
		if a, err := between.Ask(map[string]string{"must": text}); !errors.As(err, &fault) || fault.Reason != reason {
			t.Errorf("%q was taken: %v %v", text, a, err)
		}
	}
}

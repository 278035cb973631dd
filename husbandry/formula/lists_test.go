package formula

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"
)

// sums is a formula that shows what it was given.
var sums = Formula{
	Name: "sum", Inputs: []Input{
		{Name: "x", Also: []Alias{{Name: "values"}}}, {Name: "times", Default: "1"}, {Name: "words", Default: "a b"},
	},
	Also: []string{"sum of {x} times", "part.{words}_x{times}", "sum p={x}", "plain"},
	Work: func(in *Given) (Answer, error) {
		total := 0.0
		for _, v := range in.Numbers("x") {
			total += v * float64(in.Whole("times"))
		}
		return Answer{Value: total, Text: strings.Join(in.Labels("words"), "+")}, nil
	},
}

func TestListsAsTyped(t *testing.T) {
	for _, c := range []struct {
		typed map[string]string
		want  float64
		words string
	}{
		{map[string]string{"x": "[1 2 3.5]"}, 6.5, "a+b"},
		{map[string]string{"x": "1,2,3.5"}, 6.5, "a+b"},
		{map[string]string{"values": " 1, 2  3.5 ", "times": "2"}, 13, "a+b"},
		{map[string]string{"x": "10x5,-1e1", "words": "[north,south]"}, 40, "north+south"},
		{map[string]string{"x": "7x100000"}, 700000, "a+b"},
	} {
		a, err := sums.Ask(c.typed)
		if err != nil || a.Value != c.want || a.Text != c.words {
			t.Errorf("%v: %v %q %v", c.typed, a.Value, a.Text, err)
		}
	}
	for _, bad := range []map[string]string{
		{}, {"x": ""}, {"x": "[]"}, {"x": "1,two"}, {"x": "1x0"}, {"x": "1x-2"}, {"x": "1x2.5"}, {"x": "1x100001"}, {"x": "x5"},
		{"x": "1", "times": "1.5"}, {"x": "1", "times": "9e99"}, {"x": "1", "times": "2147483649"}, {"x": "1", "times": "many"}, {"x": "1", "times": "NaN"},
	} {
		var fault *InputError
		if a, err := sums.Ask(bad); !errors.As(err, &fault) {
			t.Errorf("%v was taken: %v %v", bad, a, err)
		}
	}
	if a, err := sums.Ask(map[string]string{"x": "1", "times": "-2147483648"}); err != nil || a.Value != -2147483648 {
		t.Errorf("%v %v", a.Value, err)
	}
}

// TestUnitsBehindNumbers: the input's own unit may stand behind a number, and
// no other.
func TestUnitsBehindNumbers(t *testing.T) {
	rate := Formula{Name: "rate", Inputs: []Input{{Name: "k", Unit: "1/h"}, {Name: "area", Unit: "m2", Default: "1"}},
		Work: func(in *Given) (Answer, error) { return Number(in.Float("k") * in.Float("area")), nil }}
	for typed, want := range map[string]float64{"0.08": 0.08, "0.01/h": 0.01, "0.5 /h": 0.5, "0.25 1/h": 0.25, "0,08/h": 0.08} {
		if a, err := rate.Ask(map[string]string{"k": typed, "area": "2 m2"}); err != nil || a.Value != 2*want {
			t.Errorf("%s: %v %v", typed, a.Value, err)
		}
	}
	for _, typed := range []string{"0.08/d", "0.08 m2", "/h", "0.08/h/h", "h"} {
		var fault *InputError
		if a, err := rate.Ask(map[string]string{"k": typed}); !errors.As(err, &fault) {
			t.Errorf("%s was taken: %v %v", typed, a.Value, err)
		}
	}
}

// TestEndsInAnotherUnit: what is typed in another unit may miss an end of the range
// by the rounding of the change, and by no more.
func TestEndsInAnotherUnit(t *testing.T) {
	volume := Formula{Name: "volume", Inputs: []Input{{Name: "litres", Unit: "L", Low: 0, High: 0.3, Also: []Alias{{Name: "tenths", Change: func(v float64) float64 { return v * 0.1 }}}}},
		Work: func(in *Given) (Answer, error) { return Number(in.Float("litres")), nil }}
	for typed, taken := range map[string]bool{"3": true, "3.000001": false, "0": true, "-0.000001": false} { // 3 * 0.1 is a little above 0.3
		if a, err := volume.Ask(map[string]string{"tenths": typed}); (err == nil) != taken {
			t.Errorf("%s tenths: %v %v", typed, a.Value, err)
		}
	}
}

// TestRangeErrorsAreShort: seven digits, of any size.
func TestRangeErrorsAreShort(t *testing.T) {
	e := RangeError{Name: "x", Value: 1e40, Low: 0.123456789, High: 1}
	if e.Error() != "x 1e+40 is outside 0.1234568 to 1" {
		t.Error(e.Error())
	}
}

func TestParse(t *testing.T) {
	for line, want := range map[string]map[string]string{
		"ph=7.5;temperature_celsius=25":             {"ph": "7.5", "temperature_celsius": "25"},
		"bed area 1.2 m2, Cd 0.62, level low":       {"bed area": "1.2 m2", "Cd": "0.62"},
		"x=[1 2] y=[3 4] conf=0.95":                 {"x": "[1 2]", "y": "[3 4]", "conf": "0.95"},
		"x=[1;2];y=[3 4]":                           {"x": "[1;2]", "y": "[3 4]"},
		"deaths=3 of n=12 conf=0.95":                {"deaths": "3", "n": "12", "conf": "0.95"},
		"note=first three recalled, verified;x=1,2": {"note": "first three recalled, verified", "x": "1,2"},
		"x=[1 2 3]":                     {"x": "[1 2 3]"},
		"delta=1 sd=2 two-sided paired": {"delta": "1", "sd": "2"},
		" a = 1 ; b = 2 ":               {"a": "1", "b": "2"},
		"":                              {},
		"same data":                     {},
		"q=0.1 groups=3 df=3":           {"q": "0.1", "groups": "3", "df": "3"},
		"tank_L<500":                    {"tank_L": "<500"},
		"T_C<=21;minutes=60":            {"T_C": "<=21", "minutes": "60"},
		"T_C \u2264 21 ; z>2":           {"T_C": "<=21", "z": ">2"},
		"Tmax_F>=86;Tmin_F>=86":         {"Tmax_F": ">=86", "Tmin_F": ">=86"},
		"length_in=<1;altitude=>1000":   {"length_in": "<1", "altitude": ">1000"},
		"n<=12 df>3":                    {"n": "<=12", "df": ">3"},
		"per US gallon":                 {"per": "US gallon"},
		"per=acre-foot":                 {"per": "acre-foot"},
		"per litre=2":                   {},
		"per":                           {},
		"two words<3;=4;<5":             {},
		"fry under 5 g":                 {},
		"x=":                            {"x": ""},
		"dose=4.5 time=[0.0 1.0] conc=[2.0 1.0] remark": {"dose": "4.5", "time": "[0.0 1.0]", "conc": "[2.0 1.0]"},
	} {
		if got := Parse(line); !maps.Equal(got, want) {
			t.Errorf("%q is %v, want %v", line, got, want)
		}
	}
}

func TestMatches(t *testing.T) {
	for quantity, want := range map[string]map[string]string{
		"sum":                     {},
		"plain":                   {},
		"plain [two feeds]":       {},
		"sum p=0.25 [a (b) c]":    {"x": "0.25"},
		"sum of 7 times":          {"x": "7"},
		"part.north_x3":           {"words": "north", "times": "3"},
		"part.north_x_x3 [case]":  {"words": "north", "times": "_x3"},
		"sums":                    nil,
		"sum of 7":                nil,
		"sum p=":                  nil,
		"sum q=3":                 nil,
		"part._x3":                nil,
		"part.north_x":            nil,
		"part.north":              nil,
		"plain words [two feeds]": nil,
		"[plain]":                 nil,
	} {
		got, ok := sums.Matches(quantity)
		if ok != (want != nil) || ok && !maps.Equal(got, want) {
			t.Errorf("%q is %v %v, want %v", quantity, got, ok, want)
		}
	}
}

func TestOutputs(t *testing.T) {
	base := Formula{Inputs: []Input{{Name: "x"}}, Source: "by hand", Cautions: []string{"beware"}}
	work := func(in *Given) ([]float64, error) {
		if v := in.Numbers("x"); len(v) == 2 {
			return v, nil
		}
		return nil, errors.New("two are needed")
	}
	nan := func([]float64) float64 { var zero float64; return zero / zero }
	made := Outputs(base, work,
		Output[[]float64]{Name: "first", Title: "Which is first?", Unit: "g", Also: []string{"one"}, Value: func(v []float64) float64 { return v[0] },
			Span: func(v []float64) (float64, float64) { return v[0], v[1] }},
		Output[[]float64]{Name: "none", Title: "Which is not?", Value: nan},
	)
	a, err := made[0].Ask(map[string]string{"x": "3 4"})
	if err != nil || a.Value != 3 || a.Low != 3 || a.High != 4 || a.Unit != "g" || a.Source != "by hand" || !slices.Equal(a.Cautions, base.Cautions) {
		t.Errorf("%+v %v", a, err)
	}
	if made[0].Name != "first" || made[0].Title != "Which is first?" || made[0].Also[0] != "one" || made[1].Name != "none" {
		t.Errorf("%+v", made)
	}
	a, err = made[1].Ask(map[string]string{"x": "3 4"})
	if err != nil || a.Text == "" || a.Low == a.Low {
		t.Errorf("%+v %v", a, err)
	}
	if _, err := made[0].Ask(map[string]string{"x": "3"}); err == nil {
		t.Error("one was enough")
	}
}

// TestInputsAreHandedOver: with all their digits, and free words as they are.
func TestInputsAreHandedOver(t *testing.T) {
	var list []float64
	var word string
	whole := 1
	f := &Formula{Name: "x", Inputs: []Input{{Name: "list"}, {Name: "word"}, {Name: "n"}}, Work: func(in *Given) (Answer, error) {
		list, word, whole = in.Numbers("list"), in.Word("word"), in.Whole("n")
		return Number(1), nil
	}}
	if _, err := f.Ask(map[string]string{"list": "[0.1 2]", "word": "any", "n": "1.5"}); err == nil || whole != 0 {
		t.Error(whole, err)
	}
	if len(list) != 2 || list[0] != 0.1 || word != "any" {
		t.Error(list, word)
	}
	if _, ok := f.Matches("x [a case]"); !ok {
		t.Error("a remark is part of the name")
	}
	if got := Parse("a 1e39, b 2"); got["a"] != "1e39" {
		t.Error(got)
	}
}

// TestWhatIsMissingIsTold: what it is, and which words it may be.
func TestWhatIsMissingIsTold(t *testing.T) {
	for _, c := range []struct {
		in   Input
		want string
	}{
		{Input{Name: "ph", Meaning: "pH of the water"}, "f: ph is missing; it is pH of the water"},
		{Input{Name: "flow", Meaning: "flow of water", Unit: "L/min"}, "f: flow is missing; it is flow of water, in L/min"},
		{Input{Name: "jar", Meaning: "the jar", Choices: []string{"quart"}}, "f: jar is missing; it is the jar: quart"},
	} {
		f := Formula{Name: "f", Inputs: []Input{c.in}, Work: func(in *Given) (Answer, error) { return Words(in.Word(c.in.Name)), nil }}
		if _, err := f.Ask(nil); err == nil || err.Error() != c.want {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
}

// TestChoicesAsTyped: near words are taken where only one choice is meant.
func TestChoicesAsTyped(t *testing.T) {
	choices := []string{"globe valve open", "gate valve open", "radial", "cold-water fish", "tee through", "tee branch", "DO_mg_L"}
	for typed, want := range map[string]string{
		"Globe Valve": "globe valve open", "globe valve open": "globe valve open", "radial-flow settler": "radial", "cold water fish": "cold-water fish", "DO": "DO_mg_L", "do mg l": "DO_mg_L",
		"tee": "", "valve": "", "globe valves": "", "radially": "", " ": "", "-": "",
	} {
		if got, ok := chosen(choices, typed); ok != (want != "") || ok && got != want {
			t.Errorf("%q is %q %v, want %q", typed, got, ok, want)
		}
	}
	for typed, want := range map[string]string{
		"20 000": "20000", "1\u00a0234\u202f kg": "1234\u202f kg", "1'234.5 L": "1234.5 L", "1,234.5": "1234.5", "1,000": "1,000", "12 34 567": "12 34 567", "1234,567,890": "1234,567,890", "0 500": "0 500",
		" 500": " 500", "1 23": "1 23", "100 200.x": "100200.x", "kg 1 000": "kg 1 000", "": "",
	} {
		if got := Grouped(typed); got != want {
			t.Errorf("%q is %q, want %q", typed, got, want)
		}
	}
	twice := Formula{Name: "f", Inputs: []Input{{Name: "volume", Unit: "L"}}, Work: func(in *Given) (Answer, error) { return Number(in.Float("volume")), nil }}
	both := Formula{Name: "f", Inputs: []Input{{Name: "a", Also: []Alias{{Name: "b"}, {Name: "c"}}}, {Name: "d", Default: "1"}}, Work: func(in *Given) (Answer, error) { return Number(in.Float("a")), nil }}
	if _, err := both.Ask(map[string]string{"b": "1", "c": "2"}); err == nil || err.Error() != "f: a is given twice; as b and as c" {
		t.Error(err)
	}
	if _, err := both.Ask(map[string]string{"a": "1", "c": "3"}); err == nil {
		t.Error("one input under two names was taken")
	}
	if a, err := both.Ask(map[string]string{"b": "3", "c": "3", "d": "1"}); err != nil || a.Value != 3 {
		t.Error(a.Value, err)
	}
	for typed, want := range map[string]float64{"0,500": 0.5, "1000": 1000, "1000,250": 1000.25, "1,25": 1.25, "1,2505": 1.2505, "20 000": 20000, "1,234,567.5": 1234567.5, "1 234 L": 1234, "1,000.5": 1000.5} {
		if a, err := twice.Ask(map[string]string{"volume": typed}); err != nil || a.Value != want {
			t.Errorf("%s: %v %v", typed, a.Value, err)
		}
	}
	for _, typed := range []string{"1,000", "20,500", " 999,999 "} {
		if a, err := twice.Ask(map[string]string{"volume": typed}); err == nil || !strings.Contains(err.Error(), "two ways; write ") {
			t.Errorf("%s is %v %v", typed, a.Value, err)
		}
	}
}

package formula

import (
	"errors"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// thousand calls for a thousand random cases, the same each time.
func thousand(each func(r *rand.Rand)) {
	r := rand.New(rand.NewPCG(11, 1000)) // #nosec G404 -- the same case each time
	for range 1000 {
		each(r)
	}
}

// word is made of letters that end no number.
func word(r *rand.Rand) string {
	text := make([]byte, 1+r.IntN(6))
	for i := range text {
		text[i] = "abcdfghklmnopqrstuvwyz"[r.IntN(22)]
	}
	return string(text)
}

// grouped writes a whole number with a mark between groups of three digits.
func grouped(n int, mark string) string {
	text := strconv.Itoa(n)
	for at := len(text) - 3; at > 0; at -= 3 {
		text = text[:at] + mark + text[at:]
	}
	return text
}

// TestThousandsGroupedAreTheNumber, by whatever mark, with or without decimals, and what
// was grouped once is grouped as well as it can be.
func TestThousandsGroupedAreTheNumber(t *testing.T) {
	thousand(func(r *rand.Rand) {
		n := 1000 + r.IntN(1_000_000_000)
		mark := []string{" ", "'", "\u00a0", "\u202f", ","}[r.IntN(5)]
		text, want := grouped(n, mark), strconv.Itoa(n)
		if r.IntN(2) == 0 || n < 1_000_000 { // a single comma alone may be a decimal one
			part := "." + strconv.Itoa(r.IntN(1000))
			text, want = text+part, want+part
		}
		if got := Grouped(text); got != want || Grouped(got) != got {
			t.Fatalf("%q is read as %q", text, got)
		}
	})
}

// TestInputsComeBackAsWritten, by semicolons or blanks, in any order, with remarks
// between.
func TestInputsComeBackAsWritten(t *testing.T) {
	thousand(func(r *rand.Rand) {
		want := map[string]string{}
		for range 2 + r.IntN(4) {
			name := word(r)
			switch r.IntN(4) {
			case 0:
				want[name] = "[" + strconv.Itoa(r.IntN(9)) + " " + strconv.Itoa(r.IntN(9)) + "]"
			case 1:
				want[name] = []string{"<", "<=", ">", ">="}[r.IntN(4)] + strconv.Itoa(r.IntN(99))
			case 2:
				want[name] = word(r)
			default:
				want[name] = strconv.FormatFloat(r.NormFloat64(), 'g', 6, 64)
			}
		}
		if len(want) < 2 {
			return // one name twice
		}
		parts := []string{}
		for name, value := range want {
			if strings.ContainsAny(value, "<>") && r.IntN(2) == 0 {
				parts = append(parts, name+value)
			} else {
				parts = append(parts, name+"="+value)
			}
		}
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		spaced := strings.Join(slices.Insert(slices.Clone(parts), 1, word(r)), " ")
		for _, line := range []string{strings.Join(parts, ";"), strings.Join(parts, " ; "), spaced} {
			if got := Parse(line); !maps.Equal(got, want) {
				t.Fatalf("%q is %v, want %v", line, got, want)
			}
		}
	})
}

// TestNamesHoldTheirInputs: what is put into the braces of a name comes back out of it,
// and a name with another word in it is another name.
func TestNamesHoldTheirInputs(t *testing.T) {
	thousand(func(r *rand.Rand) {
		topic, mark, first, second := word(r), word(r), word(r), strconv.Itoa(r.IntN(1000))
		f := Formula{Name: "n" + topic, Also: []string{topic + " {a} " + mark + "={b}h"}}
		asked := topic + " " + first + " " + mark + "=" + second + "h"
		if r.IntN(2) == 0 {
			asked += " [" + word(r) + " " + word(r) + "]"
		}
		typed, ok := f.Matches(asked)
		if want := map[string]string{"a": first, "b": second}; !ok || !maps.Equal(typed, want) {
			t.Fatalf("%q of %q: %v", asked, f.Also[0], typed)
		}
		if typed, ok := f.Matches(asked + " x"); ok {
			t.Fatalf("%q of %q: %v", asked+" x", f.Also[0], typed)
		}
	})
}

// TestBandsHoldWhatTheySay: both ends and all between, and a comparison all on its side,
// its own number only where it says so.
func TestBandsHoldWhatTheySay(t *testing.T) {
	thousand(func(r *rand.Rand) {
		a, b := math.Round(1000*r.NormFloat64())/8, math.Round(1000*r.NormFloat64())/8
		write := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
		low, high, ok := band(write(min(a, b)) + []string{"-", " - "}[r.IntN(2)] + write(max(a, b)))
		if !ok || low != min(a, b) || high != max(a, b) {
			t.Fatalf("from %g to %g: %g to %g, %v", a, b, low, high, ok)
		}
		for sign, holds := range map[string]func(v float64) bool{
			"<": func(v float64) bool { return v < a }, "<=": func(v float64) bool { return v <= a },
			">": func(v float64) bool { return v > a }, ">=": func(v float64) bool { return v >= a },
		} {
			low, high, ok := band(sign + write(a))
			for _, v := range []float64{b, a, math.Nextafter(a, b), a - 1, a + 1} {
				if !ok || (low <= v && v <= high) != holds(v) {
					t.Fatalf("%s%g: %g to %g, which of %g is wrong", sign, a, low, high, v)
				}
			}
		}
	})
}

// TestAnotherUnitIsTheSameAnswer, and any value beyond the range is refused in both,
// whatever its decimal mark.
func TestAnotherUnitIsTheSameAnswer(t *testing.T) {
	const factor = 3.785411784
	f := Formula{Name: "volume", Source: "here", Inputs: []Input{{Name: "litres", Unit: "L", Low: 1, High: 1000, Also: []Alias{{Name: "gallons", Change: func(v float64) float64 { return v * factor }}}}},
		Work: func(in *Given) (Answer, error) { return Number(in.Float("litres")), nil }}
	thousand(func(r *rand.Rand) {
		v := math.Round(math.Exp(9*r.Float64()-1)*100) / 100
		text := strconv.FormatFloat(v, 'f', 2, 64)
		if r.IntN(2) == 0 {
			text = strings.Replace(text, ".", ",", 1)
		}
		own, first := f.Ask(map[string]string{"litres": text})
		other, second := f.Ask(map[string]string{"gallons": strconv.FormatFloat(v/factor, 'g', 17, 64)})
		if v >= 1 && v <= 1000 {
			if first != nil || second != nil || own.Value != v || math.Abs(other.Value/v-1) > 1e-12 {
				t.Fatalf("%s: %v and %v; %v, %v", text, own.Value, other.Value, first, second)
			}
			return
		}
		var one, two *RangeError
		if !errors.As(first, &one) || !errors.As(second, &two) || own.Value != 0 || other.Value != 0 || one.Low != 1 || two.High != 1000 || one.Source != "here" {
			t.Fatalf("%s: %v, %v", text, first, second)
		}
	})
}

// TestWordsAsPeopleTypeThem: in any case, with hyphens, underscores or more blanks, and
// cut short where one choice alone begins so.
func TestWordsAsPeopleTypeThem(t *testing.T) {
	thousand(func(r *rand.Rand) {
		choices := []string{}
		for range 2 + r.IntN(5) {
			choices = append(choices, word(r)+" "+word(r))
		}
		want := choices[r.IntN(len(choices))]
		typed := strings.ReplaceAll(want, " ", []string{"-", "_", "  ", " - "}[r.IntN(4)])
		if r.IntN(2) == 0 {
			typed = strings.ToUpper(typed)
		}
		if got, ok := chosen(choices, typed); !ok || got != want {
			t.Fatalf("%q of %v is %q", typed, choices, got)
		}
		first, _, _ := strings.Cut(want, " ")
		alone := 0
		for _, c := range choices {
			if strings.HasPrefix(c, first+" ") {
				alone++
			}
		}
		if got, ok := chosen(choices, first); ok != (alone == 1) || ok && got != want {
			t.Fatalf("%q of %v is %q", first, choices, got)
		}
		if got, ok := chosen(choices, "e"+want); ok {
			t.Fatalf("what begins otherwise is %q", got)
		}
	})
}

// TestListsRepeat: five tens are 10x5, and marks between numbers do not matter.
func TestListsRepeat(t *testing.T) {
	f := Formula{Name: "list", Inputs: []Input{{Name: "x"}}, Work: func(in *Given) (Answer, error) {
		return Words(textOf(in.Numbers("x"))), nil
	}}
	thousand(func(r *rand.Rand) {
		var short, long []string
		for range 1 + r.IntN(6) {
			v, times := strconv.Itoa(r.IntN(100)-50), 1+r.IntN(5)
			short = append(short, v+"x"+strconv.Itoa(times))
			for range times {
				long = append(long, v)
			}
		}
		want := strings.Join(long, " ")
		for _, typed := range []string{"[" + strings.Join(short, " ") + "]", strings.Join(short, ","), strings.Join(long, ", "), "[" + want + "]"} {
			if got, err := f.Ask(map[string]string{"x": typed}); err != nil || got.Text != want {
				t.Fatalf("%q is %q, want %q: %v", typed, got.Text, want, err)
			}
		}
	})
}

func textOf(list []float64) string {
	words := make([]string, len(list))
	for i, v := range list {
		words[i] = strconv.FormatFloat(v, 'g', -1, 64)
	}
	return strings.Join(words, " ")
}

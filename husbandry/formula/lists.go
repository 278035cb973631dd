package formula

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// Numbers returns the input as a list of numbers: "[4.1 5.6 5.2]", "4.1,5.6"
// or "4.1 5.6"; 10x5 stands for five tens. A decimal comma has no place here.
func (in *Given) Numbers(name string) []float64 {
	var list []float64
	for _, word := range in.Labels(name) {
		number, times, repeated := strings.Cut(word, "x")
		v, err := strconv.ParseFloat(number, 64)
		n := 1
		if repeated && err == nil {
			n, err = strconv.Atoi(times)
		}
		if err != nil || n < 1 || n > 100000 {
			in.fail(name, "not a list of numbers", "write it like [4.1 5.6 5.2]")
			return nil
		}
		for range n {
			list = append(list, v)
		}
	}
	return list
}

// Labels returns the input as a list of words, such as the group of each value.
func (in *Given) Labels(name string) []string {
	text, _, found := in.find(name)
	if !found {
		text = in.input(name).Default
	}
	words := strings.FieldsFunc(strings.Trim(text, "[] "), func(r rune) bool {
		return r == ',' || r == ' ' || r == '\t'
	})
	if len(words) == 0 {
		in.fail(name, "missing", in.input(name).wanted())
	}
	return words
}

// Whole returns the input as a whole number.
func (in *Given) Whole(name string) int {
	v := in.Float(name)
	if v != math.Trunc(v) || math.Abs(v) > 1<<31 {
		in.fail(name, "not a whole number", "")
		return 0
	}
	return int(v)
}

// Parse reads inputs as people write them on one line: "name=value" joined by
// semicolons ("ph=7.5;temperature_celsius=25"), or by spaces where values are
// single words or lists in brackets ("x=[4.1 5.6] y=[4.8 4.2] alpha=0.05"). A
// comparison is a value with its sign: "tank_L<500" gives tank_L as "<500", and
// "altitude_ft=>1000" gives altitude_ft as ">1000". "per US gallon" gives per.
// Other words without a sign are remarks and are passed over, but on a line
// without any such pair: there names and numbers stand between commas ("bed area
// 1.2 m2, void fraction 0.42").
func Parse(line string) map[string]string {
	typed := map[string]string{}
	for _, part := range cut(line, ';') {
		pieces := []string{part}
		if words := cut(part, ' '); assignments(words) > 1 || strings.HasPrefix(part[strings.Index(part, "=")+1:], "[") {
			pieces = words
		}
		for _, piece := range pieces {
			if name, value, found := pair(piece); found {
				typed[name] = value
			}
		}
	}
	if len(typed) == 0 {
		return told(line)
	}
	return typed
}

// comparisons are the signs that stay with a value, as "=" does not.
var comparisons = strings.NewReplacer("\u2264", "<=", "\u2265", ">=")

// pair cuts a piece into a name, which is one word, and its value.
func pair(piece string) (name, value string, found bool) {
	piece = strings.TrimSpace(comparisons.Replace(piece))
	if what, ok := strings.CutPrefix(piece, "per "); ok && !strings.Contains(what, "=") {
		return "per", strings.TrimSpace(what), true
	}
	at := strings.IndexAny(piece, "=<>")
	if at == -1 {
		return "", "", false
	}
	name, value = strings.TrimSpace(piece[:at]), strings.TrimPrefix(piece[at:], "=")
	sign, number := value[:len(value)-len(strings.TrimLeft(value, "<>="))], strings.TrimLeft(value, "<>=")
	return name, sign + strings.TrimSpace(number), name != "" && !strings.ContainsAny(name, " \t")
}

// told reads "name number unit" between commas, names of several words allowed.
// One such part alone is taken for a remark ("fry under 5 g").
func told(line string) map[string]string {
	typed := map[string]string{}
	for _, part := range cut(line, ',') {
		words := strings.Fields(part)
		at := slices.IndexFunc(words, func(w string) bool { _, err := strconv.ParseFloat(w, 64); return err == nil })
		if at > 0 {
			typed[strings.Join(words[:at], " ")] = strings.Join(words[at:], " ")
		}
	}
	if len(typed) == 1 {
		clear(typed)
	}
	return typed
}

func assignments(words []string) int {
	n := 0
	for _, w := range words {
		if _, _, found := pair(w); found {
			n++
		}
	}
	return n
}

// cut splits a line at a mark, except within brackets.
func cut(line string, mark rune) []string {
	depth := 0
	return strings.FieldsFunc(line, func(r rune) bool {
		switch r {
		case '[':
			depth++
		case ']':
			depth--
		}
		return r == mark && depth == 0
	})
}

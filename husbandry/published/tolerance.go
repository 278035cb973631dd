package published

import (
	"math"
	"strconv"
	"strings"
)

// rounding is what the last bits of double arithmetic may differ by, as a part
// of the number.
const rounding = 1e-9

// manyDigits is how many digits a figure must be printed with before its last
// one counts as rounded whatever the tolerance.
const manyDigits = 12

// A tolerance is what a row allows.
type tolerance struct {
	absolute  float64
	relative  float64
	figures   int  // round both to so many significant figures, whatever else is said; 0: do not
	asPrinted bool // nothing is said in figures: the digits printed must be the same
	lowerToo  bool // anything lower is fine
	flat      bool // the points do not determine the figure: it must be said so
}

// allow reads a tolerance.
func allow(text string) tolerance {
	t := tolerance{lowerToo: strings.Contains(text, "lower is fine"), flat: strings.HasPrefix(text, "FLAT")}
	whole := strings.Fields(strings.NewReplacer("(", " ", ")", " ", "\u00b1", " ", "+-", " ", "~", " ").Replace(strings.ToLower(text)))
	said := plainText(strings.Join(whole, " "))
	first, rest, bare := leading(said)
	t.figures = roundedTo(whole)
	_, absolute := following(whole, "abs")
	_, relative := following(strings.Fields(said), "rel")
	switch {
	case strings.HasPrefix(said, "exact"):
	case absolute || relative:
		t.absolute, _ = following(whole, "abs")
		t.relative, _ = following(whole, "rel")
	case bare && isPercent(rest):
		t.relative = first.value / 100
	case bare && !strings.Contains(rest, "%"):
		t.absolute = first.value
	default:
		t.asPrinted, t.relative = true, largestPercent(whole)
	}
	return t
}

func isPercent(text string) bool {
	text = strings.TrimSpace(text)
	return strings.HasPrefix(text, "%") || strings.HasPrefix(text, "percent")
}

// following finds the figure behind a word, as a part where percent follow.
func following(words []string, word string) (v float64, found bool) {
	for i, w := range words[:max(len(words)-1, 0)] {
		if !strings.HasPrefix(w, word) {
			continue
		}
		if f, rest, ok := leading(words[i+1]); ok {
			if isPercent(rest) || rest == "" && i+2 < len(words) && isPercent(words[i+2]) {
				return f.value / 100, true
			}
			return f.value, true
		}
	}
	return 0, false
}

// roundedTo finds "2 significant figures" or "2 s.f.".
func roundedTo(words []string) int {
	for i, w := range words[:max(len(words)-1, 0)] {
		if n, err := strconv.Atoi(w); err == nil && (strings.HasPrefix(words[i+1], "sig") || strings.HasPrefix(words[i+1], "s.f") || words[i+1] == "sf") {
			return n
		}
	}
	return 0
}

// largestPercent is the largest share that words name, as a part.
func largestPercent(words []string) float64 {
	most := 0.0
	for i, w := range words {
		for from := 0; from < len(w); from++ {
			f, rest, ok := leading(w[from:])
			if ok && (isPercent(rest) || rest == "" && i+1 < len(words) && isPercent(words[i+1])) {
				most = max(most, math.Abs(f.value)/100)
				break
			}
		}
	}
	return most
}

// allows reports whether a value is close enough to a number printed, half a
// unit of whose last digit is given.
func (t tolerance) allows(v, want, lastDigit float64) bool {
	if t.lowerToo && v < want {
		return true
	}
	if t.figures > 0 {
		a, b := rounded(v, t.figures), rounded(want, t.figures)
		return math.Abs(a-b) <= rounding*math.Abs(b)
	}
	room := max(t.absolute, t.relative*math.Abs(want))
	if t.asPrinted {
		room = max(room, lastDigit)
	}
	if lastDigit < math.Abs(want)*math.Pow10(-manyDigits+1) {
		room += lastDigit
	}
	if room == 0 {
		room = rounding * math.Abs(want)
	}
	return math.Abs(v-want) <= room*(1+rounding)
}

func rounded(v float64, figures int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', figures-1, 64), 64)
	if err != nil {
		return math.NaN()
	}
	return r
}

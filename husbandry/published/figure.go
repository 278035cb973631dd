package published

import (
	"math"
	"strconv"
	"strings"
)

// A figure is a number as it is printed.
type figure struct {
	value float64
	unit  float64 // half a unit of its last digit
}

const digits = "0123456789"

// leading reads the figure that a text begins with: "7.5", "-5", ".25", "0,05",
// "7.46e-05". A point or comma belongs to it only before a digit.
func leading(text string) (f figure, rest string, ok bool) {
	end := len(text) - len(strings.TrimLeft(text, "+-"))
	if end > 1 {
		return figure{}, text, false
	}
	whole := run(text, end)
	part := whole
	if whole < len(text) && (text[whole] == '.' || text[whole] == ',') {
		if after := run(text, whole+1); after > whole+1 {
			part = after
		}
	}
	if part == end {
		return figure{}, text, false
	}
	last := part
	if last < len(text) && (text[last] == 'e' || text[last] == 'E') {
		sign := last + 1
		if sign < len(text) && (text[sign] == '+' || text[sign] == '-') {
			sign++
		}
		if power := run(text, sign); power > sign {
			last = power
		}
	}
	power, _ := strconv.Atoi(strings.TrimLeft(text[part:last], "eE+")) // none is nought
	decimals := max(part-whole-1, 0)
	return figure{decimal(text[:last]), math.Pow10(power-decimals) / 2}, text[last:], true
}

// run is where the digits end that begin at a place.
func run(text string, from int) int {
	return len(text) - len(strings.TrimLeft(text[min(from, len(text)):], digits))
}

// decimal reads digits with a decimal point or comma.
func decimal(text string) float64 {
	v, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", "."), 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// spanned reads a text that begins with a range: "5.5-6.5", "30 to 60".
func spanned(text string) (low, high figure, rest string, ok bool) {
	low, rest, ok = leading(text)
	if !ok {
		return low, high, rest, false
	}
	rest = strings.TrimSpace(rest)
	for _, sign := range []string{"-", "\u2013", "\u2026", "...", "..", "to "} {
		if after, found := strings.CutPrefix(rest, sign); found {
			high, rest, ok = leading(strings.TrimSpace(after))
			return low, high, rest, ok
		}
	}
	return low, high, rest, false
}

// figuresOf finds all figures of a text, without their signs. A comma parts them.
func figuresOf(text string) []float64 {
	var list []float64
	for text = strings.ReplaceAll(text, ",", " "); ; {
		at := strings.IndexAny(text, digits)
		if at < 0 {
			return list
		}
		if at > 0 && text[at-1] == '.' {
			at--
		}
		f, rest, _ := leading(text[at:])
		list, text = append(list, f.value), rest
	}
}

// oneSpan finds the only range among words: "about 25 % of raft (15-25)".
func oneSpan(text string) (low, high figure, found bool) {
	for at := 0; at < len(text); {
		if !strings.ContainsRune(digits, rune(text[at])) {
			at++
			continue
		}
		l, h, rest, ok := spanned(text[at:])
		if ok && found {
			return figure{}, figure{}, false
		}
		if ok {
			low, high, found = l, h, true
			at = len(text) - len(rest)
			continue
		}
		_, rest, _ = leading(text[at:])
		at = len(text) - len(rest)
	}
	return low, high, found
}

// plainText leaves out remarks in brackets.
func plainText(text string) string {
	var out strings.Builder
	depth := 0
	for _, r := range text {
		switch r {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		default:
			if depth == 0 {
				out.WriteRune(r)
			}
		}
	}
	return strings.TrimSpace(out.String())
}

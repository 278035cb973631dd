package quantity

import "strings"

// ungroup turns a run of digits, points and commas into digits with at most
// one point.
func ungroup(head string) (string, ParseError) {
	points, commas := strings.Count(head, "."), strings.Count(head, ",")
	last := head[len(head)-1]
	switch {
	case last == '.' || last == ',':
		return "", ParseError{Reason: "ends its number with a point or comma"}
	case points+commas == 0, commas == 0 && points == 1:
		return head, ParseError{}
	case points == 0 && commas == 1:
		return decimalComma(head)
	case points > 1 && commas > 1:
		return "", ParseError{Reason: "has several points and commas"}
	case commas == 0:
		return thousands(head, ".")
	case points == 0:
		return thousands(head, ",")
	case strings.LastIndex(head, ".") > strings.LastIndex(head, ","):
		return thousands(head, ",")
	default:
		return thousands(strings.NewReplacer(".", ",", ",", ".").Replace(head), ",")
	}
}

// decimalComma reads a number with a single comma.
func decimalComma(head string) (string, ParseError) {
	whole, part, _ := strings.Cut(head, ",")
	if len(part) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
		return "", ParseError{Reason: "can be read in two ways", Hint: "write " + whole + part + " or " + whole + "." + part}
	}
	return whole + "." + part, ParseError{}
}

// thousands takes out the signs that group thousands, when they do.
func thousands(head, sign string) (string, ParseError) {
	whole, part, _ := strings.Cut(head, ".")
	if sign == "." {
		whole, part = head, ""
	}
	for i, group := range strings.Split(whole, sign) {
		if i == 0 && (group == "" || len(group) > 3) || i > 0 && len(group) != 3 {
			return "", ParseError{Reason: "groups its digits oddly"}
		}
	}
	whole = strings.ReplaceAll(whole, sign, "")
	if part == "" {
		return whole, ParseError{}
	}
	return whole + "." + part, ParseError{}
}

// fraction finds "3/4" or "1 1/2" and gives it as top/bottom.
func fraction(head, rest string) (top, bottom int64, after string, found bool) {
	over, isSimple := strings.CutPrefix(rest, "/")
	whole, upper := "", head
	if !isSimple {
		upper, over = run(strings.TrimLeft(rest, " "), "0123456789")
		whole = head
		over, isSimple = strings.CutPrefix(over, "/")
	}
	lower, after := run(over, "0123456789")
	if !isSimple || lower == "" || len(whole) > 6 || len(upper) > 4 || len(lower) > 4 {
		return top, bottom, after, false
	}
	if upper == "" || strings.ContainsAny(whole+upper, ".,") {
		return top, bottom, after, false
	}
	w, _ := integer(whole)
	u, _ := integer(upper)
	bottom, _ = integer(lower)
	return w*bottom + u, bottom, after, true
}

// exact turns a fraction into a decimal, when it is one.
func exact(top, bottom int64) (digits int64, decimals int, ok bool) {
	if bottom == 0 {
		return digits, decimals, false
	}
	for top%bottom != 0 {
		top *= 10
		decimals++
		if decimals > 6 {
			return digits, decimals, false
		}
	}
	return top / bottom, decimals, true
}

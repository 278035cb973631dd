package formula

import "strings"

const digits = "0123456789"

func allDigits(text string) bool { return strings.Trim(text, digits) == "" }

// Grouped takes the blanks and apostrophes out of a number whose thousands they
// group ("20 000", "1 234.5"), and the commas where there are several or a
// point follows. A single comma could be a decimal one, and stays.
func Grouped(text string) string {
	rest := strings.TrimLeft(text, digits+"., '\u00a0\u202f")
	number := strings.TrimSuffix(text, rest)
	bare := strings.TrimRight(number, " \u00a0\u202f")
	for _, mark := range []string{" ", "\u00a0", "\u202f", "'", ","} {
		if joined, ok := joinedAt(bare, mark); ok {
			return joined + number[len(bare):] + rest
		}
	}
	return text
}

// joinedAt joins groups of three digits that a mark parts.
func joinedAt(number, mark string) (joined string, ok bool) {
	whole, part, pointed := strings.Cut(number, ".")
	groups := strings.Split(whole, mark)
	if len(groups) < 2 || mark == "," && len(groups) == 2 && !pointed || !allDigits(part) {
		return "", false
	}
	for i, g := range groups {
		if !allDigits(g) || i == 0 && (g == "" || len(g) > 3 || g[0] == '0') || i > 0 && len(g) != 3 {
			return "", false
		}
	}
	joined = strings.Join(groups, "")
	if pointed {
		joined += "." + part
	}
	return joined, true
}

// twoWays cuts a number whose only comma stands before three digits, so that it
// may be a decimal comma or group thousands: "1,000".
func twoWays(text string) (whole, part string, either bool) {
	whole, part, either = strings.Cut(strings.TrimSpace(text), ",")
	return whole, part, either && whole != "" && allDigits(whole) && allDigits(part) && len(part) == 3 && len(whole) <= 3 && whole[0] != '0'
}

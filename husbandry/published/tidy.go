package published

import (
	"strings"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// nearly are signs and words before a figure that say it is a round one. The
// tolerance decides how round.
var nearly = []string{"~", "\u2248", "\u223c", "about ", "approximately ", "approx. ", "approx ", "circa ", "ca. ", "ca ", "c. "}

// Bare is a figure without the words before it that say it is a round one.
func Bare(text string) string {
	text = strings.TrimSpace(text)
	for again := true; again; {
		again = false
		for _, sign := range nearly {
			if len(text) > len(sign) && strings.EqualFold(text[:len(sign)], sign) {
				text, again = strings.TrimSpace(text[len(sign):]), true
			}
		}
	}
	return text
}

// powered writes a power of ten as we do: "5.02 x 10^-2" is "5.02e-2".
func powered(text string) string {
	for _, times := range []string{"\u00d7", "\u00b7", "x", "*"} {
		before, power, found := strings.Cut(text, times)
		power, ten := strings.CutPrefix(strings.TrimSpace(power), "10^")
		if _, rest, figure := leading(power); found && ten && figure {
			if _, tail, alone := leading(strings.TrimSpace(before)); alone && tail == "" {
				return strings.TrimSpace(before) + "e" + strings.TrimSuffix(power, rest) + rest
			}
		}
	}
	return text
}

// tidied takes out of what is printed what is not its figure: words for about,
// the blanks that group thousands, and its unit, which is then the row's.
func tidied(row Row) Row {
	row.Expected = formula.Grouped(powered(Bare(strings.ReplaceAll(row.Expected, "\u2212", "-"))))
	_, rest, ok := leading(row.Expected)
	if _, _, after, span := spanned(row.Expected); span {
		rest, ok = after, true
	}
	unit := strings.TrimSpace(rest)
	if !ok || unit == "" || !isUnit(unit) {
		return row
	}
	row.Expected = strings.TrimSpace(strings.TrimSuffix(row.Expected, rest))
	row.Unit = unit
	return row
}

// isUnit tells whether all of a text is a unit, or units put together.
func isUnit(text string) bool {
	if parts[text] != 0 {
		return true
	}
	for _, part := range strings.Split(text, "/") {
		if u, _, err := quantity.ParseUnit(part); hours[part] == 0 && (err != nil || u == quantity.NoUnit) {
			return false
		}
	}
	return true
}

// thousandsMeant reads a single comma before three digits as one that groups
// them; false where that cannot be meant.
func thousandsMeant(text string) (string, bool) {
	whole, part, found := strings.Cut(text, ",")
	alone := strings.Trim(whole+part, digits) == "" && len(part) == 3 && whole != "" && len(whole) <= 3 && whole[0] != '0'
	return whole + part, found && alone
}

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

// tidied takes out of what is printed what is not its figure: words for about,
// the blanks that group thousands, and its unit, which is then the row's.
func tidied(row Row) Row {
	row.Expected = formula.Grouped(Bare(row.Expected))
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

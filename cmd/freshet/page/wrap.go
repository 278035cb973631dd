package page

import (
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// Columns is how many columns a text takes in a terminal: wide letters two,
// marks on letters none.
func Columns(text string) int {
	n := 0
	for _, r := range text {
		n += columnsOf(r)
	}
	return n
}

func columnsOf(r rune) int {
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// Wrap breaks a text into lines of at most so many columns, between words; a
// word that is longer by itself is broken. An empty text is one empty line.
func Wrap(text string, columns int) []string {
	columns = max(columns, 1)
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(text) {
		for _, piece := range broken(word, columns) {
			n := Columns(piece)
			if used > 0 && used+1+n > columns {
				lines = append(lines, line)
				line, used = "", 0
			}
			if used > 0 {
				line, used = line+" ", used+1
			}
			line, used = line+piece, used+n
		}
	}
	return append(lines, line)
}

// broken cuts a word that is wider than a line.
func broken(word string, columns int) []string {
	if Columns(word) <= columns {
		return []string{word}
	}
	var pieces []string
	piece, used := "", 0
	for _, r := range word {
		if used+columnsOf(r) > columns && used > 0 {
			pieces, piece, used = append(pieces, piece), "", 0
		}
		piece, used = piece+string(r), used+columnsOf(r)
	}
	return append(pieces, piece)
}

// Cut shortens a text to so many columns and shows that it did.
func Cut(text string, columns int) string {
	if Columns(text) <= columns {
		return text
	}
	out, used := "", 0
	for _, r := range text {
		if used+columnsOf(r) > columns-1 {
			break
		}
		out, used = out+string(r), used+columnsOf(r)
	}
	return strings.TrimRight(out, " ") + "…"
}

// pad fills a text up to so many columns; to the right of it, or to its left.
func pad(text string, columns int, left bool) string {
	space := strings.Repeat(" ", max(columns-Columns(text), 0))
	if left {
		return space + text
	}
	return text + space
}

// Clean takes control signs out of a text that somebody else wrote, so that a
// name cannot move the cursor or colour the screen.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return ' '
		}
		return r
	}, text)
}

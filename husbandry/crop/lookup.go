package crop

import (
	"slices"
	"strings"
	"unicode"
)

// A NotListedError says that a table has no row, or several rows, for what was
// asked.
type NotListedError struct {
	Table   string   // the table that was searched
	Asked   string   // the words asked for
	Choices []string // the rows that would fit, when there are several
}

// Error reads as one sentence.
func (e *NotListedError) Error() string {
	if len(e.Choices) == 0 {
		return e.Table + " has no row for " + e.Asked
	}
	return e.Table + " has several rows for " + e.Asked + ": " + strings.Join(e.Choices, "; ")
}

// A row name is words; those in brackets may be left out when asking. The row
// "tomato (transplant)" answers to "tomato" and to "transplant tomatoes".

// rowOf returns the row that the asked words name: the one whose words outside
// brackets are all asked for, else the only one that has all of the asked words.
func rowOf[T any](table string, rows []T, name func(T) string, asked string) (T, error) {
	want := wordsOf(asked)
	exact, near := []T{}, []T{}
	for _, row := range rows {
		if len(want) == 0 || !covers(wordsOf(name(row)), want) {
			continue
		}
		near = append(near, row)
		if covers(want, wordsOf(withoutBrackets(name(row)))) {
			exact = append(exact, row)
		}
	}
	for _, found := range [][]T{exact, near} {
		if len(found) == 1 {
			return found[0], nil
		}
	}
	var none T
	return none, &NotListedError{Table: table, Asked: asked, Choices: namesOf(near, name)}
}

func namesOf[T any](rows []T, name func(T) string) []string {
	names := make([]string, len(rows))
	for i, row := range rows {
		names[i] = name(row)
	}
	return names
}

// covers reports whether every word of few is in many, or begins one of many
// when it is long enough to be an abbreviation (Medit., Calif.).
func covers(many, few []string) bool {
	const shortest = 5
	for _, w := range few {
		found := slices.ContainsFunc(many, func(m string) bool {
			return m == w || len(w) >= shortest && strings.HasPrefix(m, w)
		})
		if !found {
			return false
		}
	}
	return true
}

func withoutBrackets(s string) string {
	before, rest, found := strings.Cut(s, "(")
	if !found {
		return s
	}
	_, after, _ := strings.Cut(rest, ")")
	return before + after
}

// wordsOf splits a name into plain singular words in lower case.
func wordsOf(s string) []string {
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i, w := range words {
		words[i] = plainWord(w)
	}
	return words
}

// otherWords holds words that mean the same in these tables.
var otherWords = map[string]string{
	"aubergine": "eggplant", "courgette": "zucchini", "coriander": "cilantro",
	"june": "jun", "july": "jul", "sept": "sep", "january": "jan", "february": "feb",
	"march": "mar", "april": "apr", "august": "aug", "september": "sep",
	"october": "oct", "november": "nov", "december": "dec",
}

func plainWord(w string) string {
	w = singular(w)
	if same, found := otherWords[w]; found {
		return same
	}
	return w
}

func singular(w string) string {
	for _, end := range []string{"oes", "ches", "shes"} {
		if strings.HasSuffix(w, end) {
			return strings.TrimSuffix(w, "es")
		}
	}
	if strings.HasSuffix(w, "ies") {
		return strings.TrimSuffix(w, "ies") + "y"
	}
	if strings.HasSuffix(w, "ss") {
		return w
	}
	return strings.TrimSuffix(w, "s")
}

func sameName(a, b string) bool { return slices.Equal(wordsOf(a), wordsOf(b)) }

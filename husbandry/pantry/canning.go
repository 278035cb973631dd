package pantry

import "strings"

// A Canning is an answer about canning. Its value can be read only together with
// the caution, so no caller can show one and drop the other by mistake.
type Canning[T any] struct{ value T }

// Read returns the value and CanningCaution.
func (c Canning[T]) Read() (value T, caution string) { return c.value, CanningCaution }

// canned wraps a value, or passes an error on.
func canned[T any](value T, err error) (Canning[T], error) {
	if err != nil {
		return Canning[T]{}, err
	}
	return Canning[T]{value}, nil
}

// A Jar is a size of jar for which the guide prints figures.
type Jar int

// The sizes in the guide's tables.
const (
	Pint Jar = iota
	Quart
)

// ParseJar reads a size of jar from words such as "pint", "quarts" or "quart tomatoes".
func ParseJar(words string) (Jar, error) {
	words = strings.ToLower(words)
	switch {
	case strings.Contains(words, "quart"):
		return Quart, nil
	case strings.Contains(words, "pint"):
		return Pint, nil
	}
	return 0, &NotInTableError{"jar size \"" + words + "\""}
}

// A NotInTableError says that the public guide's figure is not among ours. It
// never means that there is none.
type NotInTableError struct{ What string }

// Error says where to look instead.
func (e *NotInTableError) Error() string { return e.What + ": not in our table; " + lowPoint }

// named finds the row of a table whose name equals the words, letter case aside,
// or, failing that, the only row whose name contains them.
func named[R any](rows []R, name func(*R) string, words string) (*R, bool) {
	var found *R
	words = strings.ToLower(strings.TrimSpace(words))
	for i := range rows {
		row := strings.ToLower(name(&rows[i]))
		if row == words {
			return &rows[i], true
		}
		if words != "" && strings.Contains(row, words) {
			if found != nil {
				return nil, false
			}
			found = &rows[i]
		}
	}
	return found, found != nil
}

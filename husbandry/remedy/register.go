package remedy

import (
	"slices"
	"strings"
)

// A Substance is what growers may think of putting on plants or into water.
// KeepOut marks what should not reach the loop at all.
type Substance struct {
	Name    string
	Also    []string
	Use     string
	Counted string // what the dose and the tests count
	KeepOut bool
	Fish    string
	Filter  string
	Plants  string
	Waiting string // between last use and harvest
}

// labelDays is the waiting time of whatever has a label.
const labelDays = "the label's days from last use to harvest"

// noLabel is the waiting time of what is no registered pesticide.
const noLabel = "no label, so no published waiting time"

// Substances returns the register. The slice is the package's own: do not change it.
func Substances() []Substance { return substances }

// Find returns a substance by name or another name of it, letter case aside.
func Find(name string) (*Substance, error) {
	for i := range substances {
		if substances[i].isNamed(name) {
			return &substances[i], nil
		}
	}
	what := "\"" + name + "\", which is not in our register"
	if near := near(name); len(near) > 0 {
		what += " (near it: " + strings.Join(near, ", ") + ")"
	}
	return nil, &NotKnownError{what + "; its label and its maker know more"}
}

// near names the substances that share a word with a name. None is taken for the
// other: an oil and the extract of the same seed kill at other doses.
func near(name string) []string {
	var names []string
	for i := range substances {
		if s := &substances[i]; slices.ContainsFunc(append([]string{s.Name}, s.Also...), func(other string) bool { return sharesWord(other, name) }) {
			names = append(names, s.Name)
		}
	}
	return names
}

func sharesWord(a, b string) bool {
	words := strings.Fields(strings.ToLower(b))
	return slices.ContainsFunc(strings.Fields(strings.ToLower(a)), func(w string) bool { return slices.Contains(words, w) })
}

func (s *Substance) isNamed(name string) bool {
	if strings.EqualFold(s.Name, name) {
		return true
	}
	for _, other := range s.Also {
		if strings.EqualFold(other, name) {
			return true
		}
	}
	return false
}

package remedy

import "strings"

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
	return nil, &NotKnownError{"\"" + name + "\", which is not in our register; its label and its maker know more"}
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

package mutate

import (
	"bufio"
	"fmt"
	"os"
	"path"
	"strconv"
	"strings"
)

// An exemption says why no test can notice a literal. In the file, one line
// each: file, declaration, literal, which of its text there, and the reason in
// the rest of the line. Empty lines and lines that begin with # are remarks.
type exemption struct {
	file, declaration, text string
	nth                     int
}

type exemptions struct {
	reasons map[exemption]string
	order   []exemption
}

func readExemptions(name string) (*exemptions, error) {
	read := &exemptions{reasons: map[exemption]string{}}
	if name == "" {
		return read, nil
	}
	file, err := os.Open(name) //nolint:gosec // named by whoever runs this
	if err != nil {
		return nil, err
	}
	defer file.Close() //nolint:errcheck // only read
	lines := bufio.NewScanner(file)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if err := read.add(line); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return read, lines.Err()
}

func (e *exemptions) add(line string) error {
	words := strings.Fields(line)
	if len(words) < 5 {
		return fmt.Errorf("not file, declaration, literal, nth and a reason: %q", line)
	}
	nth, err := strconv.Atoi(words[3])
	if err != nil {
		return fmt.Errorf("the fourth word says which, by a number: %q", line)
	}
	one := exemption{words[0], words[1], words[2], nth}
	if e.reasons[one] != "" {
		return fmt.Errorf("said twice: %q", line)
	}
	e.reasons[one] = strings.Join(words[4:], " ")
	e.order = append(e.order, one)
	return nil
}

func (e *exemptions) reason(l *Literal) string {
	return e.reasons[exemption{l.File, l.Declaration, l.Text, l.Nth}]
}

// missing lists the exemptions of a folder that are of no literal there.
func (e *exemptions) missing(folder string, found []*Literal) []string {
	there := map[exemption]bool{}
	for _, l := range found {
		there[exemption{l.File, l.Declaration, l.Text, l.Nth}] = true
	}
	var stale []string
	for _, one := range e.order {
		if path.Dir(one.file) == folder && !there[one] {
			stale = append(stale, fmt.Sprintf("%s  %s  %s (%d): there is no such number", one.file, one.declaration, one.text, one.nth))
		}
	}
	return stale
}

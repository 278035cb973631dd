package sheet

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// lines is a sheet as CSV, from its header on.
type lines struct {
	*csv.Reader
	skipped int // lines before the header

	// The row after the header, where it was looked at and held no units.
	ahead    []string
	aheadErr error
	waits    bool
}

// openingLines is how many lines at most may stand before a header.
const openingLines = 20

// open opens a file as CSV. Spreadsheets put things before the header: a mark of
// the encoding, a line that names the separator, a title.
func open(file string, read func(*lines) error) error {
	f, err := os.Open(file) //nolint:gosec // the person names the file
	if err != nil {
		return err
	}
	raw := bufio.NewReaderSize(f, 64<<10)
	head, err := peek(raw)
	if err != nil {
		return errors.Join(err, f.Close())
	}
	b := bufio.NewReaderSize(transform.NewReader(raw, unicode.BOMOverride(encodingOf(head).NewDecoder())), 1<<20)
	head, err = peek(b)
	if err != nil {
		return errors.Join(err, f.Close())
	}
	comma, skip := begins(head)
	for range skip {
		if _, err := b.ReadString('\n'); err != nil {
			return errors.Join(err, f.Close())
		}
	}
	r := csv.NewReader(b)
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = comma, -1, true
	return errors.Join(read(&lines{Reader: r, skipped: skip}), f.Close())
}

func peek(b *bufio.Reader) ([]byte, error) {
	head, err := b.Peek(b.Size())
	if errors.Is(err, io.EOF) || errors.Is(err, bufio.ErrBufferFull) {
		err = nil
	}
	return head, err
}

// encodingOf is UTF-8, or where the file is none what western spreadsheets save
// instead: else a degree sign in a header would make the sheet unreadable.
func encodingOf(head []byte) encoding.Encoding {
	for cut := range min(utf8.UTFMax, len(head)+1) { // the last letter may be cut in half
		if utf8.Valid(head[:len(head)-cut]) {
			return encoding.Nop
		}
	}
	return charmap.Windows1252
}

// begins finds the separator, and how many lines stand before the header: the
// first line with two cells that are not empty.
func begins(head []byte) (comma rune, skip int) {
	first := strings.SplitN(string(head), "\n", openingLines+1)
	if len(first) > openingLines {
		first = first[:openingLines]
	}
	comma = separator(first)
	if named, ok := strings.CutPrefix(strings.TrimSpace(strings.ToLower(first[0])), "sep="); ok && utf8.RuneCountInString(named) == 1 {
		comma, _ = utf8.DecodeRuneInString(named)
		skip++
	}
	for i, line := range first[skip:] {
		filled := 0
		for cell := range strings.SplitSeq(line, string(comma)) {
			if strings.Trim(cell, " \t\r\"") != "" {
				filled++
			}
		}
		if filled > 1 {
			return comma, skip + i
		}
	}
	return comma, skip
}

// separator is the one that the first lines hold most often; decimal commas
// beside semicolons or tabs do not count.
func separator(first []string) rune {
	text := []byte(strings.Join(first, "\n"))
	for _, c := range ";\t" {
		if bytes.Count(text, []byte(string(c))) >= len(first)-1 && bytes.ContainsRune(text, c) {
			return c
		}
	}
	best, most := ',', 0
	for _, c := range ",;\t" {
		if n := strings.Count(string(text), string(c)); n > most {
			best, most = c, n
		}
	}
	return best
}

// unitsBelow writes the units of a second header row behind the names above
// them; false where the row is none.
func unitsBelow(header, below []string) ([]string, bool) {
	if len(below) != len(header) {
		return header, false
	}
	joined, said := make([]string, len(header)), false
	for i, cell := range below {
		joined[i] = header[i]
		cell = strings.Trim(strings.TrimSpace(cell), "()[]")
		if cell == "" {
			continue
		}
		if _, ok := kitOf(cell); !ok {
			return header, false
		}
		joined[i], said = header[i]+" ("+cell+")", true
	}
	return joined, said
}

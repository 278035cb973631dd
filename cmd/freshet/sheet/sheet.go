// Package sheet reads growers' spreadsheets, saved as CSV, into entries: it
// guesses what each column means and says so, asks for units and bases that
// the sheet does not tell, and reports each row it cannot read with line,
// column, reason and hint.
package sheet

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	freshetv1 "freshet.example/api/freshet/v1"
	"freshet.example/cmd/freshet/words"
)

// A Row is one line of a sheet after its header.
type Row struct {
	Line  int // of the file, from 1
	Cells []string
}

// Bad says why a row cannot be read.
type Bad struct {
	Line   int    `json:"line"`
	Column string `json:"column,omitempty"` // its header; empty where the whole row is meant
	Value  string `json:"value,omitempty"`
	Reason string `json:"reason"` // a name of the contract's ErrorReason
	Words  string `json:"words"`
	Hint   string `json:"hint,omitempty"`
}

func badRow(line int, column, value string, err error) *Bad {
	b := &Bad{Line: line, Column: column, Value: clipped(value), Reason: "MALFORMED", Words: err.Error()}
	var p *words.Problem
	if errors.As(err, &p) {
		b.Reason, b.Words, b.Hint = p.ReasonName(), p.Words, p.Hint
	}
	return b
}

// clipped keeps a cell that went wrong from filling the screen.
func clipped(text string) string {
	const most = 60
	if utf8.RuneCountInString(text) > most {
		return string([]rune(text)[:most]) + "…"
	}
	return text
}

func problem(reason freshetv1.ErrorReason, said, hint string) error {
	return &words.Problem{Reason: reason, Words: said, Hint: hint}
}

// Header reads the first line of a sheet, with the units of a line below it.
func Header(file string) (header []string, err error) {
	err = open(file, func(r *lines) error {
		header, err = r.header()
		return err
	})
	return header, err
}

// header reads the header and leaves the reader at the first row.
func (r *lines) header() ([]string, error) {
	first, err := r.Read()
	if errors.Is(err, io.EOF) {
		return nil, problem(freshetv1.ErrorReason_ERROR_REASON_MALFORMED, "the file is empty", "save the sheet as CSV with a line of headers first")
	}
	if err != nil {
		return nil, err
	}
	header := make([]string, len(first))
	for i, h := range first {
		header[i] = strings.TrimSpace(strings.TrimPrefix(h, "\ufeff"))
	}
	second, err := r.Read()
	if joined, ok := unitsBelow(header, second); ok {
		return joined, nil
	}
	r.ahead, r.aheadErr, r.waits = slices.Clone(second), err, true
	return header, nil
}

// next is the next row; the one that was looked at for units first.
func (r *lines) next() ([]string, error) {
	if r.waits {
		r.waits = false
		return r.ahead, r.aheadErr
	}
	return r.Read()
}

// Each reads the rows after the header in order. Rows that are no CSV are
// given as Bad. An error of row ends the reading.
func Each(file string, columns int, row func(Row, *Bad) error) error {
	return open(file, func(r *lines) error {
		if _, err := r.header(); err != nil {
			return err
		}
		for {
			cells, err := r.next()
			if errors.Is(err, io.EOF) {
				return nil
			}
			line, bad := r.place(cells, columns, err)
			if bad == nil && blank(cells) {
				continue
			}
			if err := row(Row{line, cells}, bad); err != nil {
				return err
			}
		}
	})
}

// place tells the line of a row, and what is wrong with it as CSV.
func (r *lines) place(cells []string, columns int, err error) (int, *Bad) {
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		return r.skipped + parse.StartLine, badRow(r.skipped+parse.StartLine, "", "", problem(freshetv1.ErrorReason_ERROR_REASON_MALFORMED,
			"the line is no CSV: "+parse.Err.Error(), "quotes go around a whole cell, and a quote within it is doubled"))
	}
	if err != nil {
		return 0, badRow(0, "", "", err)
	}
	line, _ := r.FieldPos(0)
	line += r.skipped
	if len(cells) != columns {
		return line, badRow(line, "", strings.Join(cells, ","), problem(freshetv1.ErrorReason_ERROR_REASON_MALFORMED,
			"the row has "+many(len(cells), "cell")+", the header "+many(columns, "cell"), "put a value that holds the separator in quotes"))
	}
	for _, c := range cells {
		if !utf8.ValidString(c) {
			return line, badRow(line, "", "", problem(freshetv1.ErrorReason_ERROR_REASON_BAD_TEXT, "the row is not UTF-8", "save the sheet as CSV UTF-8"))
		}
	}
	return line, nil
}

func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

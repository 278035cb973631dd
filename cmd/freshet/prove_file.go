package main

import (
	"encoding/csv"
	"errors"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"freshet.example/husbandry/published"
)

// A figureFile is a file of published figures, read.
type figureFile struct {
	name   string
	rows   []figureRow
	bad    []proof  // lines that are no rows
	passed []string // columns that mean nothing here
}

// A figureRow is one published figure and the line it stands on.
type figureRow struct {
	published.Row
	line int
}

// Columns of a file of figures, by the headers people give them.
var figureColumns = map[string]func(*published.Row) *string{
	"quantity":  func(r *published.Row) *string { return &r.Quantity },
	"inputs":    func(r *published.Row) *string { return &r.Inputs },
	"expected":  func(r *published.Row) *string { return &r.Expected },
	"unit":      func(r *published.Row) *string { return &r.Unit },
	"tolerance": func(r *published.Row) *string { return &r.Tolerance },
	"source":    func(r *published.Row) *string { return &r.Source },
	"tag":       func(r *published.Row) *string { return &r.Tag },
}

var headerSpellings = map[string]string{"input": "inputs", "units": "unit", "tol": "tolerance", "sources": "source", "tags": "tag", "value": "expected", "expected value": "expected", "name": "quantity"}

const columnsHint = "the first line must name the columns quantity and expected, and where there are any inputs, unit, tolerance, source, tag"

// readFigures reads a file of published figures: CSV with commas, semicolons or
// tabs, columns in any order under a line of headers.
func readFigures(name string) (*figureFile, error) {
	raw, err := os.ReadFile(name)
	if err != nil {
		return nil, wrong(err.Error(), "give the file's path")
	}
	text := decoded(raw)
	if strings.TrimSpace(text) == "" {
		return &figureFile{name: name}, nil
	}
	if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
		return nil, wrong(name+" is no text", "save the sheet as CSV in UTF-8; "+columnsHint)
	}
	return readRows(name, text, headerLine(text))
}

// headerLine counts the remarks before the headers, which begin with "#".
func headerLine(text string) int {
	for before := 0; ; before++ {
		line, rest, _ := strings.Cut(text, "\n")
		if line = strings.TrimSpace(line); rest == "" || line != "" && line[0] != '#' {
			return before
		}
		text = rest
	}
}

// after leaves out so many lines of a text.
func after(text string, lines int) string {
	for range lines {
		_, text, _ = strings.Cut(text, "\n")
	}
	return text
}

func rowsReader(text string, comma rune) *csv.Reader {
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comma, reader.FieldsPerRecord = comma, -1
	return reader
}

// separator is what stands most often between the headers.
func separator(text string) rune {
	first, _, _ := strings.Cut(text, "\n")
	best := ','
	for _, r := range ";\t" {
		if strings.Count(first, string(r)) > strings.Count(first, string(best)) {
			best = r
		}
	}
	return best
}

// readRows reads the headers, which stand behind so many lines, and the rows
// under them.
func readRows(name, text string, before int) (*figureFile, error) {
	text = after(text, before)
	comma := separator(text)
	reader := rowsReader(text, comma)
	header, err := reader.Read()
	if err != nil {
		return nil, wrong(name+" has no line of headers: "+err.Error(), columnsHint)
	}
	file := &figureFile{name: name}
	cells, found := file.columns(header)
	if !found["quantity"] || !found["expected"] {
		return nil, wrong(name+" is no file of figures", columnsHint)
	}
	at := reader.InputOffset()
	return file, file.records(text[at:], before+strings.Count(text[:at], "\n"), comma, cells)
}

// columns finds what each column holds, and keeps the headers that mean nothing.
func (f *figureFile) columns(header []string) (cells []func(*published.Row) *string, found map[string]bool) {
	cells, found = make([]func(*published.Row) *string, len(header)), map[string]bool{}
	for i, h := range header {
		key := strings.ToLower(strings.TrimSpace(h))
		if spelt := headerSpellings[key]; spelt != "" {
			key = spelt
		}
		if figureColumns[key] != nil && !found[key] {
			cells[i], found[key] = figureColumns[key], true
		} else if key != "" {
			f.passed = append(f.passed, strings.TrimSpace(h))
		}
	}
	return cells, found
}

// records reads the rows that stand behind so many lines. One that is no CSV is
// listed, and reading goes on at the line below, so that a quote which nobody
// closed swallows no other row.
func (f *figureFile) records(text string, lines int, comma rune, cells []func(*published.Row) *string) error {
	reader := rowsReader(text, comma)
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		var fault *csv.ParseError
		if errors.As(err, &fault) {
			f.refuse(figureRow{line: lines + fault.StartLine}, "the line is no CSV: "+fault.Err.Error())
			text, lines = after(text, fault.StartLine), lines+fault.StartLine
			reader = rowsReader(text, comma)
			continue
		}
		if err != nil {
			return err
		}
		line, _ := reader.FieldPos(0)
		f.take(lines+line, record, cells)
	}
}

// take keeps a record as a row, or says why it is none.
func (f *figureFile) take(line int, record []string, cells []func(*published.Row) *string) {
	row := figureRow{line: line}
	said := false
	for i, cell := range record {
		cell = strings.TrimSpace(cell)
		said = said || cell != ""
		if i < len(cells) && cells[i] != nil {
			*cells[i](&row.Row) = cell
		}
	}
	why := ""
	switch {
	case !said:
		return
	case len(record) > len(cells):
		why = "the line has more cells than the header; put cells that hold a comma in quotes"
	case row.Quantity == "":
		why = "no quantity is named"
	case row.Expected == "":
		why = "no figure is given to hold the answer against"
	}
	if why != "" {
		f.refuse(row, why)
		return
	}
	f.rows = append(f.rows, row)
}

func (f *figureFile) refuse(row figureRow, why string) {
	f.bad = append(f.bad, proof{Line: row.line, Quantity: row.Quantity, Inputs: row.Inputs, Expected: row.Expected, Verdict: published.NotRead.String(), Why: why})
}

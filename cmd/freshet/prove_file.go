package main

import (
	"bytes"
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

var headerSpellings = map[string]string{"input": "inputs", "units": "unit", "tol": "tolerance", "sources": "source", "tags": "tag", "value": "expected", "expected value": "expected"}

const columnsHint = "the first line must name the columns quantity and expected, and where there are any inputs, unit, tolerance, source, tag"

// readFigures reads a file of published figures: CSV with commas, semicolons or
// tabs, columns in any order under a line of headers.
func readFigures(name string) (*figureFile, error) {
	raw, err := os.ReadFile(name)
	if err != nil {
		return nil, wrong(err.Error(), "give the file's path")
	}
	raw = bytes.TrimPrefix(raw, []byte("\ufeff"))
	if len(bytes.TrimSpace(raw)) == 0 {
		return &figureFile{name: name}, nil
	}
	if !utf8.Valid(raw) {
		return nil, wrong(name+" is no text", "save the sheet as CSV in UTF-8; "+columnsHint)
	}
	reader := csv.NewReader(bytes.NewReader(raw))
	reader.Comma, reader.FieldsPerRecord = separator(raw), -1
	header, err := reader.Read()
	if err != nil {
		return nil, wrong(name+" has no line of headers: "+err.Error(), columnsHint)
	}
	return readRows(name, header, reader)
}

// separator is what stands most often between the headers.
func separator(raw []byte) rune {
	first, _, _ := bytes.Cut(raw, []byte("\n"))
	best := ','
	for _, r := range ";\t" {
		if bytes.Count(first, []byte(string(r))) > bytes.Count(first, []byte(string(best))) {
			best = r
		}
	}
	return best
}

func readRows(name string, header []string, reader *csv.Reader) (*figureFile, error) {
	file := &figureFile{name: name}
	cells := make([]func(*published.Row) *string, len(header))
	found := map[string]bool{}
	for i, h := range header {
		key := strings.ToLower(strings.TrimSpace(h))
		if spelt := headerSpellings[key]; spelt != "" {
			key = spelt
		}
		if figureColumns[key] != nil && !found[key] {
			cells[i], found[key] = figureColumns[key], true
		} else if key != "" {
			file.passed = append(file.passed, strings.TrimSpace(h))
		}
	}
	if !found["quantity"] || !found["expected"] {
		return nil, wrong(name+" is no file of figures", columnsHint)
	}
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return file, nil
		}
		var fault *csv.ParseError
		if errors.As(err, &fault) {
			file.refuse(figureRow{line: fault.StartLine}, "the line is no CSV: "+fault.Err.Error())
			continue
		}
		if err != nil {
			return nil, err
		}
		line, _ := reader.FieldPos(0)
		file.take(line, record, cells)
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

package published

import (
	"errors"
	"strconv"
	"strings"
)

// A Reference is an input that is a column of a file of data beside the file of
// figures: "data/chickwts.csv:weight", and of some rows only:
// "data/orange.csv:y:tree=3", "data/weather.csv:tmax:date=2013*" for those that
// begin so, "data/npk.csv:yield:without=5" without the fifth.
type Reference struct {
	File   string // "data/orange.csv"
	Column string // "y"
	Where  string // "tree", empty for all rows
	Is     string // "3"
}

// ParseReference reads a Reference; false where the value is none.
func ParseReference(value string) (Reference, bool) {
	file, rest, ok := strings.Cut(value, ":")
	if !ok || !strings.HasPrefix(file, "data/") {
		return Reference{}, false
	}
	column, filter, _ := strings.Cut(rest, ":")
	where, is, _ := strings.Cut(filter, "=")
	return Reference{file, column, where, is}, column != ""
}

// without in place of a column leaves out one row, counted from 1.
const without = "without"

// Columns reads the text of a file of the NIST reference datasets, whose
// columns stand under the last line that begins with "Data:".
func Columns(text string) ([][]string, error) {
	var rows [][]string
	for line := range strings.Lines(text) {
		if names, ok := strings.CutPrefix(line, "Data:"); ok {
			rows = [][]string{strings.Fields(names)}
		} else if fields := strings.Fields(line); rows != nil && len(fields) == len(rows[0]) {
			rows = append(rows, fields)
		}
	}
	if rows == nil {
		return nil, errors.New("no line begins with \"Data:\"")
	}
	return rows, nil
}

// List takes the referred column out of a table under a row of names, as an input that is a list.
// Blanks within a cell become underscores.
func (r Reference) List(table [][]string) (string, error) {
	column, where := columnOf(table, r.Column), columnOf(table, r.Where)
	if column < 0 || where < 0 && r.Where != "" && r.Where != without {
		return "", errors.New(r.File + " has no column " + r.Column + " " + r.Where)
	}
	var cells []string
	for i, row := range table[1:] {
		if where < 0 && r.Is != strconv.Itoa(i+1) || where >= 0 && r.takes(row[where]) {
			cells = append(cells, strings.ReplaceAll(row[column], " ", "_"))
		}
	}
	if len(cells) == 0 {
		return "", errors.New(r.File + " has no row with " + r.Where + " " + r.Is)
	}
	return "[" + strings.Join(cells, " ") + "]", nil
}

func (r Reference) takes(cell string) bool {
	if start, open := strings.CutSuffix(r.Is, "*"); open {
		return strings.HasPrefix(cell, start)
	}
	return cell == r.Is
}

func columnOf(table [][]string, name string) int {
	if len(table) == 0 {
		return -1
	}
	for i, c := range table[0] {
		if strings.EqualFold(c, name) {
			return i
		}
	}
	return -1
}

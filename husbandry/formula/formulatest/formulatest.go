// Package formulatest holds published check values against Formulas. Only
// tests import it.
package formulatest

import (
	"encoding/csv"
	"maps"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// A Row is one published figure: what was asked, of which inputs, and what
// came, within which tolerance.
type Row struct{ Quantity, Inputs, Expected, Unit, Tolerance, Source, Tag string }

// Rows reads a file of published figures.
func Rows(t *testing.T, path string) []Row {
	t.Helper()
	var rows []Row
	for i, r := range table(t, path) {
		if i > 0 {
			rows = append(rows, Row{r[0], r[1], r[2], r[3], r[4], r[5], r[6]})
		}
	}
	return rows
}

func table(t *testing.T, path string) [][]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// Columns reads a file of data as lists, one a column, of the rows whose
// columns have the values wanted.
func Columns(t *testing.T, path string, wanted map[string]string) map[string]string {
	t.Helper()
	rows := table(t, path)
	columns := map[string]string{}
	for _, r := range rows[1:] {
		keep := true
		for c, name := range rows[0] {
			if want, asked := wanted[name]; asked && r[c] != want {
				keep = false
			}
		}
		for c, name := range rows[0] {
			if keep {
				columns[name] += " " + strings.ReplaceAll(r[c], " ", "_")
			}
		}
	}
	return columns
}

// Find returns the formula that answers to a quantity, and the inputs that the
// name itself holds.
func Find(formulas []formula.Formula, quantity string) (*formula.Formula, map[string]string) {
	for i := range formulas {
		if typed, ok := formulas[i].Matches(quantity); ok {
			return &formulas[i], typed
		}
	}
	return nil, nil
}

// Check asks the formulas for every row and holds the answers against what was
// expected. Data gives the inputs that a row describes in other words, such as
// a file of data; nil to take the row's inputs as written.
func Check(t *testing.T, formulas []formula.Formula, rows []Row, data func(Row) map[string]string) {
	t.Helper()
	for _, row := range rows {
		f, typed := Find(formulas, row.Quantity)
		if f == nil {
			t.Errorf("%s: no formula answers to this name", row.Quantity)
			continue
		}
		given := formula.Parse(row.Inputs)
		if data != nil {
			if own := data(row); own != nil {
				given = own
			}
		}
		maps.Copy(typed, given)
		answer, err := f.Ask(typed)
		if err != nil {
			t.Errorf("%s: %v", row.Quantity, err)
			continue
		}
		if !Agrees(answer, row) {
			t.Errorf("%s is %.12g %s, want %s within %s", row.Quantity, answer.Value, answer.Text, row.Expected, row.Tolerance)
		}
	}
}

// Agrees reports whether an answer is what a row expects. A tolerance is "rel
// 1e-8", "rel 1%", "abs 0.01", "0.05" or "exact"; words in brackets behind it
// are remarks, of which "(lower is fine)" is heeded.
func Agrees(answer formula.Answer, row Row) bool {
	want, err := strconv.ParseFloat(row.Expected, 64)
	if err != nil || (answer.Text != "" && math.IsNaN(answer.Value)) {
		return answer.Text == row.Expected
	}
	if strings.Contains(row.Tolerance, "lower is fine") && answer.Value < want {
		return true
	}
	return math.Abs(answer.Value-want) <= allowed(row.Tolerance, want)+printed(row.Expected)
}

// printed is half a unit of the last digit printed, when there are many.
func printed(number string) float64 {
	digits, exponent, _ := strings.Cut(strings.ToLower(number), "e")
	_, decimals, _ := strings.Cut(digits, ".")
	if len(strings.TrimLeft(strings.ReplaceAll(digits, ".", ""), "-0")) < 12 {
		return 0
	}
	power, _ := strconv.Atoi(exponent)
	return math.Pow10(power-len(decimals)) / 2
}

func allowed(tolerance string, want float64) float64 {
	words := strings.Fields(tolerance)
	if len(words) == 0 || words[0] == "exact" {
		return 1e-12 * math.Abs(want)
	}
	number := words[len(words)-1]
	relative := words[0] == "rel"
	if relative || words[0] == "abs" {
		number = words[1]
	}
	percent := strings.HasSuffix(number, "%")
	v, err := strconv.ParseFloat(strings.TrimSuffix(number, "%"), 64)
	if err != nil {
		return math.NaN()
	}
	if percent {
		v /= 100
	}
	if relative {
		return v * math.Abs(want)
	}
	return v
}

// Package formulatest asks Formulas for published figures. Only tests import
// it.
package formulatest

import (
	"encoding/csv"
	"maps"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/published"
)

// A Row is one published figure, and the folder in which the data lie that its
// inputs may refer to.
type Row struct {
	published.Row
	Folder string
}

// Question is a row that asks and prints nothing.
func Question(quantity, inputs string) Row {
	return Row{Row: published.Row{Quantity: quantity, Inputs: inputs}}
}

// Rows reads a file of published figures.
func Rows(t *testing.T, path string) []Row {
	t.Helper()
	var rows []Row
	for _, r := range Lines(t, path) {
		rows = append(rows, Row{published.Row{Quantity: r[0], Inputs: r[1], Expected: r[2], Unit: r[3], Tolerance: r[4], Source: r[5], Tag: r[6]}, filepath.Dir(path)})
	}
	return rows
}

// Lines reads the rows of a file below its header.
func Lines(t *testing.T, path string) [][]string {
	t.Helper()
	return table(t, path)[1:]
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

// given is what a row gives: what the quantity's name holds, what is written,
// and the columns of data that are referred to.
func (r Row) given(t *testing.T, held map[string]string) map[string]string {
	t.Helper()
	for name, value := range formula.Parse(r.Inputs) {
		if reference, ok := published.ParseReference(value); ok {
			value = r.column(t, reference)
		}
		held[name] = value
	}
	return held
}

func (r Row) column(t *testing.T, reference published.Reference) string {
	t.Helper()
	name := filepath.Join(r.Folder, reference.File)
	if !strings.HasSuffix(name, ".dat") {
		return listed(t, reference, table(t, name))
	}
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	columns, err := published.Columns(string(text))
	if err != nil {
		t.Fatal(err)
	}
	return listed(t, reference, columns)
}

func listed(t *testing.T, reference published.Reference, columns [][]string) string {
	t.Helper()
	list, err := reference.List(columns)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Ask asks the formula of a name "name=value;name=value".
func Ask(t *testing.T, formulas []formula.Formula, name, inputs string) (formula.Answer, error) {
	t.Helper()
	f, held := Find(formulas, name)
	if f == nil {
		t.Fatalf("no formula %q", name)
	}
	return f.Ask(Question(name, inputs).given(t, held))
}

// Worked gives what the work of a formula gave beside its error, which Ask
// holds back.
func Worked(formulas []formula.Formula, name, inputs string) (held formula.Answer) {
	for _, f := range formulas {
		if f.Name == name {
			work := f.Work
			f.Work = func(in *formula.Given) (formula.Answer, error) {
				a, err := work(in)
				held = a
				return a, err
			}
			_, _ = f.Ask(formula.Parse(inputs))
		}
	}
	return held
}

// NoNumber tells whether an answer holds none.
func NoNumber(a formula.Answer) bool {
	none := func(v float64) bool { return v == 0 || math.IsNaN(v) }
	return none(a.Value) && none(a.Low) && none(a.High)
}

// Number reads the number that a text begins with.
func Number(t *testing.T, text string) float64 {
	t.Helper()
	word, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	v, err := strconv.ParseFloat(word, 64)
	if err != nil {
		t.Fatalf("%q is no number", text)
	}
	return v
}

// Check asks the formulas for every row and holds the answers against what is
// printed. Each row is a test of its own, so that -failfast ends at the first.
func Check(t *testing.T, formulas []formula.Formula, rows []Row) {
	t.Helper()
	for _, row := range rows {
		t.Run(row.Quantity, func(t *testing.T) { row.check(t, formulas) })
	}
}

func (r Row) check(t *testing.T, formulas []formula.Formula) {
	t.Helper()
	f, held := Find(formulas, r.Quantity)
	if f == nil {
		t.Fatal("no formula answers to this name")
	}
	answer, err := f.Ask(r.given(t, maps.Clone(held)))
	verdict, answer := published.Judge(r.Row, f, answer, err)
	if verdict != published.Agrees {
		t.Errorf("%s %s: %.12g %s %s, %s prints %s within %s (%v)", r.Quantity, verdict, answer.Value, answer.Text, answer.Unit, r.Source, r.Expected, r.Tolerance, err)
	}
}

package remedy

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// TestPublished asks our Formulas every row of testdata/published/remedy.csv.
func TestPublished(t *testing.T) {
	file, err := os.Open("../../testdata/published/remedy.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		t.Run(row[0]+" "+row[1], func(t *testing.T) { provePublished(t, row) })
	}
}

// provePublished compares within the printed tolerance; a cell of a table exactly.
func provePublished(t *testing.T, row []string) {
	answer, err := ask(t, row[0], row[1])
	if err != nil {
		t.Fatalf("%v (source: %s)", err, row[5])
	}
	if want, err := strconv.ParseFloat(row[2], 64); err == nil {
		room, err := strconv.ParseFloat(row[4], 64)
		if err != nil {
			room = 1e-9
		}
		if !(math.Abs(answer.Value-want) <= room) {
			t.Errorf("got %v, %s prints %v", answer.Value, row[5], want)
		}
		return
	}
	got := answer.Text
	if !math.IsNaN(answer.Low) {
		got = short(answer.Low) + "-" + short(answer.High)
	}
	if got != row[2] {
		t.Errorf("got %q, %s prints %q", got, row[5], row[2])
	}
}

// ask finds a formula by name and asks it "name=value;name=value".
func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	for i := range Formulas {
		typed, ok := Formulas[i].Matches(name)
		if !ok {
			continue
		}
		for key, value := range formula.Parse(strings.TrimSpace(inputs)) {
			typed[key] = value
		}
		return Formulas[i].Ask(typed)
	}
	t.Fatalf("no formula %q", name)
	return formula.Answer{}, nil
}

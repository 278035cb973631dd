package crop

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
)

// TestPublished asks our Formulas every row of testdata/published/crop.csv.
func TestPublished(t *testing.T) {
	for _, row := range readCSV(t, "../../testdata/published/crop.csv") {
		t.Run(row[0]+" "+row[1], func(t *testing.T) { provePublished(t, row) })
	}
}

// readCSV returns the rows of a file below its header.
func readCSV(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func provePublished(t *testing.T, row []string) {
	answer, err := ask(t, row[0], row[1])
	if err != nil {
		t.Fatalf("%v (source: %s)", err, row[5])
	}
	if answer.Text == row[2] {
		return
	}
	if low, high, ok := strings.Cut(row[2], "-"); ok && low != "" && !strings.ContainsAny(high, " ,") {
		if answer.Low != number64(t, low) || answer.High != number64(t, high) {
			t.Errorf("got %v to %v, %s prints %s", answer.Low, answer.High, row[5], row[2])
		}
		return
	}
	want, err := strconv.ParseFloat(row[2], 64)
	if err != nil {
		t.Fatalf("got %q, %s prints %q", answer.Text, row[5], row[2])
	}
	if off := math.Abs(answer.Value - want); !(off <= slack(t, row[4], want)) {
		t.Errorf("got %v, %s prints %v (tolerance %s)", answer.Value, row[5], want, row[4])
	}
}

// ask finds a formula by name and asks it "name=value;name=value".
func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	for i := range Formulas {
		named, ok := Formulas[i].Matches(name)
		if !ok {
			continue
		}
		for key, value := range formula.Parse(inputs) {
			named[key] = value
		}
		return Formulas[i].Ask(named)
	}
	t.Fatalf("no formula %q", name)
	return formula.Answer{}, nil
}

// slack reads a tolerance: "abs 0.02 or rel 1%", "rel 1e-9", "0.05", "exact".
// Exact leaves room for the rounding of floating point.
func slack(t *testing.T, text string, want float64) float64 {
	t.Helper()
	room := 1e-9 * math.Max(1, math.Abs(want))
	for part := range strings.SplitSeq(text, " or ") {
		word, rest, _ := strings.Cut(part, " ")
		switch word {
		case "exact":
		case "abs":
			room = number64(t, rest)
		case "rel":
			percent, inPercent := strings.CutSuffix(rest, "%")
			room = number64(t, percent) * math.Abs(want)
			if inPercent {
				room /= 100
			}
		default:
			room = math.Max(room, number64(t, part))
		}
	}
	return room
}

// number64 reads the number that a text begins with.
func number64(t *testing.T, text string) float64 {
	t.Helper()
	word, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	v, err := strconv.ParseFloat(word, 64)
	if err != nil {
		t.Fatalf("%q is no number", text)
	}
	return v
}

// TestPublishedWeather asks sums over the days of a year, by scipy.
func TestPublishedWeather(t *testing.T) {
	formulatest.Check(t, Formulas, formulatest.Rows(t, "../../testdata/published/weather.csv"))
}

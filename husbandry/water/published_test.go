package water

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// TestPublished asks our Formulas every row of testdata/published/water.csv.
func TestPublished(t *testing.T) {
	file, err := os.Open("../../testdata/published/water.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		t.Run(row[0]+" "+row[1], func(t *testing.T) { provePublished(t, row[0], row[1], row[2], row[4], row[5]) })
	}
}

// provePublished compares an answer with what a source prints: a number, a
// range ("1.5-5.3") or a bound ("<3").
func provePublished(t *testing.T, name, inputs, printed, tolerance, source string) {
	t.Helper()
	answer, err := ask(t, name, inputs)
	if err != nil {
		t.Fatalf("%v (source: %s)", err, source)
	}
	low, high, isRange := strings.Cut(printed, "-")
	switch {
	case isRange && low != "":
		near(t, answer.Low, decimal(t, low), tolerance, source)
		near(t, answer.High, decimal(t, high), tolerance, source)
	case strings.HasPrefix(printed, "<"):
		near(t, answer.High, decimal(t, printed[1:]), tolerance, source)
	case strings.HasPrefix(printed, ">"):
		near(t, answer.Low, decimal(t, printed[1:]), tolerance, source)
	default:
		near(t, answer.Value, decimal(t, printed), tolerance, source)
		return
	}
	if name == "tolerance_range" && answer.Text != printed {
		t.Errorf("reads %q, %s prints %q", answer.Text, source, printed)
	}
}

// ask finds a formula by name and asks it "name=value;name=value".
func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	for i := range Formulas {
		if _, ok := Formulas[i].Matches(name); ok {
			return Formulas[i].Ask(formula.Parse(inputs))
		}
	}
	t.Fatalf("no formula %q", name)
	return formula.Answer{}, nil
}

// near compares within a tolerance: "abs 0.01", "rel 1%", "exact".
func near(t *testing.T, got, want float64, tolerance, source string) {
	t.Helper()
	kind, size, _ := strings.Cut(tolerance, " ")
	room := 1e-9 * math.Max(1, math.Abs(want))
	switch kind {
	case "exact":
	case "abs":
		room += decimal(t, size)
	case "rel":
		room += decimal(t, strings.TrimSuffix(size, "%")) / 100 * math.Abs(want)
	default:
		t.Fatalf("tolerance %q", tolerance)
	}
	if !(math.Abs(got-want) <= room) {
		t.Errorf("got %v, %s prints %v (tolerance %s)", got, source, want, tolerance)
	}
}

func decimal(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

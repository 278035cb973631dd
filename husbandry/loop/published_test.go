package loop

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// TestPublished asks our Formulas every row of testdata/published/loop.csv.
func TestPublished(t *testing.T) {
	file, err := os.Open("../../testdata/published/loop.csv")
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

func provePublished(t *testing.T, row []string) {
	answer, err := ask(t, row[0], row[1])
	if err != nil {
		t.Fatalf("%v (source: %s)", err, row[5])
	}
	if low, high, ok := strings.Cut(row[2], "-"); ok && low != "" {
		if answer.Low != number64(t, low) || answer.High != number64(t, high) {
			t.Errorf("got %v to %v, %s prints %s", answer.Low, answer.High, row[5], row[2])
		}
		return
	}
	want, err := strconv.ParseFloat(row[2], 64)
	if err != nil {
		if answer.Text != row[2] {
			t.Errorf("got %q, %s prints %q", answer.Text, row[5], row[2])
		}
		return
	}
	if off := math.Abs(answer.Value - want); !(off <= slack(t, row[4], want)) {
		t.Errorf("got %v, %s prints %v (tolerance %s)", answer.Value, row[5], want, row[4])
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
		for pair := range strings.SplitSeq(inputs, ";") {
			if key, value, ok := strings.Cut(pair, "="); ok {
				typed[key] = value
			}
		}
		return Formulas[i].Ask(typed)
	}
	t.Fatalf("no formula %q", name)
	return formula.Answer{}, nil
}

// slack reads a tolerance: "abs 0.02 or rel 1%", "0.05", "exact". Exact leaves
// room for the rounding of floating point.
func slack(t *testing.T, text string, want float64) float64 {
	t.Helper()
	room := 1e-9 * math.Max(1, math.Abs(want))
	for part := range strings.SplitSeq(text, " or ") {
		word, rest, _ := strings.Cut(part, " ")
		switch word {
		case "exact":
		case "abs":
			room = math.Max(room, number64(t, rest))
		case "rel":
			percent, _, _ := strings.Cut(rest, "%")
			room = math.Max(room, number64(t, percent)/100*math.Abs(want))
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

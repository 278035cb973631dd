package fish

import (
	"encoding/csv"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// TestPublishedFigures asks the formulas of this package for every row of
// testdata/published/fish.csv.
func TestPublishedFigures(t *testing.T) {
	file, err := os.Open("../../testdata/published/fish.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		checkPublished(t, row[0], row[1], row[2], row[4])
	}
}

func checkPublished(t *testing.T, quantity, inputs, expected, tolerance string) {
	t.Helper()
	for i := range Formulas {
		held, ok := Formulas[i].Matches(quantity)
		if !ok {
			continue
		}
		for name, value := range formula.Parse(inputs) {
			held[name] = value
		}
		answer, err := Formulas[i].Ask(held)
		if err != nil {
			t.Errorf("%s %s: %v", quantity, inputs, err)
		} else if !agrees(answer, expected, tolerance) {
			t.Errorf("%s %s = %v [%v, %v] %q, published %s", quantity, inputs, answer.Value, answer.Low, answer.High, answer.Text, expected)
		}
		return
	}
	t.Errorf("%s is answered by no formula", quantity)
}

var (
	rangeForm  = regexp.MustCompile(`([0-9.]+)-([0-9.]+)`)
	numberForm = regexp.MustCompile(`^-?[0-9.]+(e-?[0-9]+)?`)
)

// agrees compares an answer with a published figure: a range with both ends,
// a number within its tolerance, words with words.
func agrees(a formula.Answer, expected, tolerance string) bool {
	if a.Text == expected {
		return true
	}
	if ends := rangeForm.FindStringSubmatch(expected); ends != nil {
		return near(a.Low, ends[1], "") && near(a.High, ends[2], "")
	}
	return near(a.Value, numberForm.FindString(expected), tolerance)
}

func near(v float64, published, tolerance string) bool {
	want, err := strconv.ParseFloat(published, 64)
	allowed := 0.0
	switch words := strings.Fields(tolerance); {
	case len(words) > 1 && words[0] == "abs":
		allowed, _ = strconv.ParseFloat(words[1], 64)
	case len(words) > 1 && words[0] == "rel":
		part, _ := strconv.ParseFloat(strings.TrimSuffix(words[1], "%"), 64)
		allowed = math.Abs(want) * part / 100
	case len(words) == 1:
		allowed, _ = strconv.ParseFloat(words[0], 64)
	}
	return err == nil && math.Abs(v-want) <= allowed+1e-9*math.Abs(want)
}

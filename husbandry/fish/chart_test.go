package fish

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// TestTroutChartIsPinned wants every cell of the chart among the published
// figures, but for the two that the copy misprints.
func TestTroutChartIsPinned(t *testing.T) {
	file, err := os.Open("../../testdata/published/fish.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	cells := map[string]bool{}
	for _, row := range rows {
		if row[0] == "rainbow trout daily feed" {
			given := formula.Parse(row[1])
			cells[given["T_F"]+" "+given["length_in"]] = true
		}
	}
	for f := 36; f <= 68; f++ {
		for _, class := range []string{"<1", "1-2", "2-3", "3-4", "4-5", "5-6", "6-7", "7-8", "8-9", "9-10", ">10"} {
			misprint := f >= 67 && class == "1-2"
			if !cells[strconv.Itoa(f)+" "+class] && !misprint {
				t.Errorf("cell %d degF, %s in is not pinned", f, class)
			}
		}
	}
}

// TestTroutChartFalls with length and rises with warmth, as the chart does.
func TestTroutChartFalls(t *testing.T) {
	for f := range troutChart {
		for c := range troutChart[f] {
			if c > 0 && troutChart[f][c] > troutChart[f][c-1] {
				t.Errorf("%d degF: longer trout of class %d eat more", f+36, c)
			}
			if f > 0 && troutChart[f][c] < troutChart[f-1][c]-0.05 && c != 1 {
				t.Errorf("%d degF: trout of class %d eat less than in colder water", f+36, c)
			}
		}
	}
}

// TestTroutChartEnds takes the chart to its ends and past them.
func TestTroutChartEnds(t *testing.T) {
	for _, at := range []float64{36, 68} {
		if _, err := TroutRation(quantity.Fahrenheit(at), 0); err != nil {
			t.Errorf("%v degF: %v", at, err)
		}
	}
	for _, at := range []float64{math.Nextafter(36, 0), math.Nextafter(68, 100), math.NaN()} {
		if share, err := TroutRation(quantity.Fahrenheit(at), 0); share != 0 || err == nil {
			t.Errorf("%v degF is on the chart", at)
		}
	}
	for _, class := range []LengthClass{-1, 11} {
		if share, err := TroutRation(50, class); share != 0 || err == nil {
			t.Errorf("class %d is on the chart", class)
		}
	}
	if class, err := LengthClassByName("long"); class != 0 || err == nil {
		t.Error("a long trout has a class")
	}
	if class, err := LengthClassByName(">10"); err != nil || class.String() != ">10" {
		t.Errorf("class %v, %v", class, err)
	}
}

// TestTroutClassByWeight holds the class against the chart's fish to the pound:
// just heavier fish than a bound belong to the longer class.
func TestTroutClassByWeight(t *testing.T) {
	for i, perPound := range []float64{2542, 304, 88.3, 37.8, 19.7, 11.6, 7.35, 4.94, 3.47, 2.53} {
		bound := 453.59237 / perPound
		if class := TroutLengthClass(quantity.Grams(bound * 0.999)); class != LengthClass(i) {
			t.Errorf("just under %v g: class %v", bound, class)
		}
		if class := TroutLengthClass(quantity.Grams(bound * 1.001)); class != LengthClass(i+1) {
			t.Errorf("just over %v g: class %v", bound, class)
		}
	}
}

func TestCatfishWinterEnds(t *testing.T) {
	for _, at := range []float64{math.Nextafter(45, 0), math.Nextafter(65, 100), math.NaN()} {
		if _, err := CatfishWinterRation(quantity.Fahrenheit(at)); err == nil {
			t.Errorf("%v degF has a winter ration", at)
		}
	}
	for _, c := range []struct {
		at   quantity.Fahrenheit
		want WinterRation
	}{{45, WinterRation{1, 2, "twice a week"}}, {55, WinterRation{1, 3.5, "every other day"}}, {65, WinterRation{1, 3.5, "every other day"}}} {
		if got, err := CatfishWinterRation(c.at); err != nil || got != c.want {
			t.Errorf("%v degF: %v, %v", c.at, got, err)
		}
	}
}

// TestRationTablesJoin: classes follow each other without a gap, and heavier
// fish never eat a larger share.
func TestRationTablesJoin(t *testing.T) {
	for _, table := range [][]rationClass{tilapiaRations[:], catfishRations[:], otherRations[:]} {
		for i, c := range table {
			if c.atTo > c.atFrom || c.to <= c.from || c.classification == "" {
				t.Errorf("class %+v", c)
			}
			if i > 0 && (table[i-1].to != c.from || table[i-1].atTo < c.atFrom) {
				t.Errorf("%+v does not join %+v", c, table[i-1])
			}
		}
	}
	for name, ends := range map[string][2]float64{"Nile tilapia": {0.02, 5000}, "channel catfish": {0.1, 20000}, "koi": {0.1, 20000}} {
		s, _ := SpeciesByName(name)
		for _, weight := range []float64{math.Nextafter(ends[0], 0), math.Nextafter(ends[1], 1e9)} {
			if share, err := RationPercent(s, quantity.Grams(weight), s.OptimumLow.Value, 1); share != 0 || err == nil {
				t.Errorf("%s of %v g has a ration", name, weight)
			}
		}
	}
}

// TestEveryFigureIsAskedInWords: each quantity of the table of figures has a
// question of its own, and none is left over.
func TestEveryFigureIsAskedInWords(t *testing.T) {
	asked, quantities := map[string]bool{}, map[string]bool{}
	for _, f := range figures {
		quantities[f.Quantity] = true
		words := figureWords[f.Quantity]
		if !strings.HasSuffix(words.title, "?") {
			t.Errorf("%q is asked by %q", f.Quantity, words.title)
		}
		asked[words.title] = true
	}
	if len(figureWords) != len(quantities) || len(asked) != len(quantities) {
		t.Errorf("%d quantities, %d words, %d different questions", len(quantities), len(figureWords), len(asked))
	}
}

// TestRationSaysItsTable: each species' ration names the table that it is of.
func TestRationSaysItsTable(t *testing.T) {
	for name, want := range map[string]string{
		"Nile tilapia": "SRAC 283", "rainbow trout": "Leitritz & Lewis 1980", "channel catfish": "winter by", "koi": otherRationSource,
	} {
		s, err := SpeciesByName(name)
		if err != nil || !strings.Contains(s.rationsFrom(), want) {
			t.Errorf("%s: %q, %v", name, s.rationsFrom(), err)
		}
	}
}

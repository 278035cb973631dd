package crop

import (
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// figuresIn are the numbers of a text, a dash between two of them left out.
func figuresIn(t *testing.T, text string) []float64 {
	t.Helper()
	list := []float64{}
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return !strings.ContainsRune("0123456789.", r) }) {
		list = append(list, formulatest.Number(t, word))
	}
	return list
}

// TestGuidelineWordsAndFigures: where the appendix says more than a range, the
// figures are what its words span. A month counts thirty days.
func TestGuidelineWordsAndFigures(t *testing.T) {
	told := 0
	for _, g := range Guidelines {
		if said := figuresIn(t, g.AirWords); len(said) > 0 {
			told++
			if g.Air.Low != slices.Min(said) || g.Air.High != slices.Max(said) {
				t.Errorf("%s: air of %v degC, and in words %q", g.Crop, g.Air, g.AirWords)
			}
		}
		if said := figuresIn(t, g.GrowthWords); len(said) > 0 {
			told++
			low, high := said[0], said[1]
			if strings.Contains(g.GrowthWords, "months spring") {
				low, high = 30*said[0], 30*said[3]
			}
			if g.Growth.Low != low || g.Growth.High != high {
				t.Errorf("%s: growth of %v days, and in words %q", g.Crop, g.Growth, g.GrowthWords)
			}
		}
	}
	if told != 10 {
		t.Errorf("%d are told in words", told)
	}
}

func TestPlainKeepsEveryDigit(t *testing.T) {
	if short, long := plain(1.23456789, 0), plain(1.23456789, 12); short != "1.23456789" || long != "1.234567890000" {
		t.Error(short, long)
	}
	if got := plain(20, 0); got != "20" {
		t.Error(got)
	}
	for i := range yieldFormulas {
		if f := &yieldFormulas[i]; f.Name == "field_yield" {
			a, err := f.Ask(map[string]string{"crop": "cabbage"})
			if err != nil || a.Text != "13/15/20" {
				t.Errorf("%q (%v)", a.Text, err)
			}
		}
	}
}

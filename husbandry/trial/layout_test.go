package trial

import (
	"math"
	"slices"
	"testing"
)

// Each bed holds every arm as often as it should; the same seed draws the same, another another.
func TestLayoutsAreWholeAndDrawnByTheSeed(t *testing.T) {
	b := Blocks{Beds: 7, Arms: 3, Plots: 2}
	first, err := b.Layout(4)
	if err != nil || len(first) != 7 {
		t.Fatal(first, err)
	}
	for _, bed := range first {
		sorted := slices.Sorted(slices.Values(bed))
		if !slices.Equal(sorted, []int{0, 0, 1, 1, 2, 2}) {
			t.Errorf("%v", bed)
		}
	}
	again, _ := b.Layout(4)
	other, _ := b.Layout(5)
	same := func(x, y [][]int) bool { return slices.EqualFunc(x, y, slices.Equal[[]int]) }
	if !same(first, again) || same(first, other) {
		t.Errorf("%v, %v, %v", first, again, other)
	}
}

// Each arm stands on each place about equally often: of 3,000 draws a third each, within five spreads.
func TestLayoutsFavourNoPlace(t *testing.T) {
	counts := [3][3]float64{}
	const draws = 3000
	for seed := range uint64(draws) {
		beds, err := Blocks{Beds: 1, Arms: 3, Plots: 1}.Layout(seed)
		if err != nil {
			t.Fatal(err)
		}
		for place, arm := range beds[0] {
			counts[place][arm]++
		}
	}
	for _, place := range counts {
		for _, n := range place {
			if !(math.Abs(n-draws/3) <= 5*math.Sqrt(draws*2/9.0)) {
				t.Errorf("%v", counts)
			}
		}
	}
}

// Two arms on one plot each are pairs: package trial's power of pairs, whose
// figures are checked against published tables, gives the same.
func TestBlocksOfTwoArmsArePairs(t *testing.T) {
	for _, beds := range []int{2, 5, 12, 60} {
		got, err := Blocks{beds, 2, 1}.Power(1.1, 0.9, 0.05)
		want, other := Power(float64(beds), 1.1, 0.9*math.Sqrt2, 0.05, Pairs)
		if err != nil || other != nil || !(math.Abs(got-want) <= 1e-12) {
			t.Errorf("%d beds: %g, pairs %g (%v, %v)", beds, got, want, err, other)
		}
		notice, err := Blocks{beds, 2, 1}.Detectable(0.9, 0.8, 0.05)
		pairs, other := Detectable(float64(beds), 0.9*math.Sqrt2, 0.8, 0.05, Pairs)
		if err != nil || other != nil || !(math.Abs(notice-pairs) <= 1e-9) {
			t.Errorf("%d beds notice %g, pairs %g (%v, %v)", beds, notice, pairs, err, other)
		}
	}
	pairs, _ := BedsNeeded(1, 1*math.Sqrt2, 0.8, 0.05, Pairs)
	if beds, err := (Blocks{1, 2, 1}).BedsFor(1, 1, 0.8, 0.05); err != nil || beds != pairs.Each {
		t.Errorf("%d beds, pairs %d, %v", beds, pairs.Each, err)
	}
}

// More plots and more arms leave more to tell chance from; two plots in each of
// four beds are eight of each, with 11 degrees of freedom.
func TestBlocksOfSeveralPlots(t *testing.T) {
	if df := (Blocks{4, 2, 2}).df(); df != 11 {
		t.Errorf("%g degrees of freedom", df)
	}
	few, _ := Blocks{4, 2, 1}.Power(1, 1, 0.05)
	more, _ := Blocks{4, 2, 2}.Power(1, 1, 0.05)
	third, _ := Blocks{4, 3, 1}.Power(1, 1, 0.05)
	if !(few < third && third < more) {
		t.Errorf("%g, %g, %g", few, third, more)
	}
}

func TestBlocksThatCannotBe(t *testing.T) {
	for _, b := range []Blocks{{0, 2, 1}, {201, 2, 1}, {2, 1, 1}, {2, 7, 1}, {2, 2, 0}, {2, 2, 11}} {
		if _, err := b.Layout(1); err == nil {
			t.Errorf("%v", b)
		}
	}
	if _, err := (Blocks{1, 2, 1}).Power(1, 1, 0.05); err == nil {
		t.Error("a lone pair tells of chance")
	}
	if _, err := (Blocks{4, 2, 1}).Detectable(1, 0.4, 0.05); err == nil {
		t.Error("a power of 0.4")
	}
	if beds, err := (Blocks{1, 2, 1}).BedsFor(0.03, 1, 0.8, 0.05); err == nil {
		t.Errorf("%d beds", beds)
	}
	if _, err := (Blocks{4, 2, 1}).BedsFor(-1, 1, 0.8, 0.05); err == nil {
		t.Error("a difference below nothing")
	}
}

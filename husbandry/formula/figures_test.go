package formula

import "testing"

func TestFigures(t *testing.T) {
	for f, want := range map[Figures]int{Usual: 3, Rough: 2, Fine: 4} {
		if f.Digits() != want {
			t.Errorf("%d: %d digits, want %d", f, f.Digits(), want)
		}
	}
	for _, f := range Finely([]Formula{{Name: "a"}, {Name: "b", Figures: Rough}}) {
		if f.Figures != Fine {
			t.Error(f.Name, f.Figures)
		}
	}
}

package formula

import (
	"errors"
	"strings"
	"testing"
)

var sightings = []Fact{
	{Quantity: "heron: first Seen", Title: "When was it first seen?", Given: "year=1.0000000;place=weir", Low: 3, High: 3, Unit: "d", Source: "one", Caution: "cover the tank"},
	{Quantity: "heron: first Seen", Given: "year=2", Low: 4, High: 6, Unit: "wk", Source: "two"},
	{Quantity: "heron: first Seen", Given: "year=2", Low: 5, High: 6, Unit: "wk", Source: "three"},
	{Quantity: "otters", Title: "How many?", Low: 1, High: 1},
}

func TestFactsBecomeFormulas(t *testing.T) {
	all := Facts(sightings)
	if len(all) != 2 || all[0].Name != "published_heron_first_seen" || all[0].Also[0] != "heron: first Seen" || len(all[1].Cautions) != 0 || all[0].Cautions[0] != "cover the tank" {
		t.Fatalf("%+v", all)
	}
	if in := all[0].Inputs; len(in) != 2 || in[0].Name != "year" || in[1].Name != "place" || len(all[1].Inputs) != 0 {
		t.Errorf("%+v", in)
	}
	a, err := all[0].Ask(map[string]string{"year": "1.0", "place": "WEIR"})
	if err != nil || a.Value != 3 || a.Low == a.Low || a.Unit != "d" || a.Source != "one" { //nolint:staticcheck // NaN
		t.Errorf("%+v %v", a, err)
	}
	if a, err = all[1].Ask(nil); err != nil || a.Value != 1 {
		t.Errorf("%+v %v", a, err)
	}
}

func TestFactsThatAreNotOne(t *testing.T) {
	heron := &Facts(sightings)[0]
	for typed, want := range map[string]string{"": "say which year", "year=2": "say which source", "year=3": "no published figure", "year=2;place=weir": "no published figure", "place=mill": "no published figure",
		"year=1.00000001": "no published figure"} {
		_, err := heron.Ask(Parse(typed))
		var several *AmbiguousError
		var unknown *UnknownFactError
		if err == nil || !strings.Contains(err.Error(), want) || errors.As(err, &several) == errors.As(err, &unknown) {
			t.Errorf("%q: %v, want %s", typed, err, want)
		}
	}
	voles := []Fact{{Quantity: "voles", Given: "depth=0.1", Low: 7}}
	if f, err := FactOf(voles, "voles", map[string]string{"depth": "0.10"}); err != nil || f.Low != 7 {
		t.Errorf("%+v %v", f, err)
	}
	if f, err := FactOf(sightings, "heron: first Seen", map[string]string{"place": "weir"}); err != nil || f.Source != "one" {
		t.Errorf("%+v %v", f, err)
	}
	if _, err := FactOf(sightings, "osprey", nil); err == nil {
		t.Error("an osprey was found")
	}
}

// A range keeps both its ends.
func TestFactsThatAreRanges(t *testing.T) {
	a, err := Facts(sightings[1:2])[0].Ask(nil)
	if err != nil || a.Low != 4 || a.High != 6 || a.Value == a.Value { //nolint:staticcheck // NaN
		t.Errorf("%+v %v", a, err)
	}
}

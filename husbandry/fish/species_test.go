package fish

import (
	"math"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

// The species table again, from its sources: name; class; temperatures degC of
// death by cold, first feed, first growth, optimum from and to, last feed, death
// by heat; least oxygen mg/L, most un-ionized ammonia mg/L as N, feed
// conversion, density kg/m3.
const speciesPinned = `
Nile tilapia    | warm | 12 17 17 27 30 34 36 | 4 0.05 1.7 20
blue tilapia    | warm | 8.9 17 17 27 30 34 36 | 4 0.05 1.7 20
red tilapia     | warm | 12 17 17 27 30 34 36 | 4 0.05 1.8 20
goldfish        | warm | 0.5 10 10 19.3 28.7 32 37.2 | 4 0.05 2.0 20
common carp     | warm | 4 10 18 23 30 32 34 | 4 0.05 2.0 20
koi             | warm | 4 10 18 23 30 32 34 | 4 0.05 2.0 20
channel catfish | warm | 5 7.2222222222 18 26 29 32 33.5 | 4 0.05 1.8 20
rainbow trout   | cold | 0.5 2.2222222222 2.2222222222 14 16 20 25 | 6 0.02 1.2 20
yellow perch    | cool | 0.5 10 10 23 25 26 30 | 5 0.02 1.7 20
barramundi      | warm | 16 20 20 30.2 32.8 34 35 | 4 0.05 1.3 20
silver perch    | warm | 2 10 10 23 28 33 38 | 4 0.05 1.8 20
`

var columnNames = []string{
	"species_lethal_low", "species_feeding_low", "species_growth_low", "species_optimum_low", "species_optimum_high", "species_feeding_high",
	"species_lethal_high", "species_oxygen_minimum", "species_unionized_ammonia_limit", "species_feed_conversion", "species_density",
}

func TestSpeciesTable(t *testing.T) {
	lines := strings.Split(strings.TrimSpace(speciesPinned), "\n")
	if len(lines) != len(SpeciesNames()) {
		t.Fatalf("%d species, %d pinned", len(SpeciesNames()), len(lines))
	}
	for i, line := range lines {
		fields := strings.Split(line, "|")
		name := strings.TrimSpace(fields[0])
		if SpeciesNames()[i] != name {
			t.Errorf("species %d is %s, want %s", i, SpeciesNames()[i], name)
		}
		class, err := ask(t, "species_class", "species="+name)
		if err != nil || class.Text != strings.TrimSpace(fields[1]) {
			t.Errorf("%s: class %s, %v", name, class.Text, err)
		}
		for j, want := range strings.Fields(fields[2] + fields[3]) {
			a, err := ask(t, columnNames[j], "species="+name)
			if err != nil || a.Source == "" || !(math.Abs(a.Value-formulatest.Number(t, want)) <= 1e-9*a.Value) {
				t.Errorf("%s of %s: %v (%s), %v, want %s", columnNames[j], name, a.Value, a.Source, err, want)
			}
		}
	}
}

// TestSpeciesTemperaturesRise: each species dies, feeds, grows and thrives in
// that order, so that the bell has a shape.
func TestSpeciesTemperaturesRise(t *testing.T) {
	for _, s := range species {
		ladder := []quantity.Celsius{s.LethalLow.Value, s.FeedLow.Value, s.OptimumLow.Value, s.OptimumHigh.Value, s.FeedHigh.Value, s.LethalHigh.Value}
		for i := range ladder[1:] {
			if ladder[i] >= ladder[i+1] {
				t.Errorf("%s: %v degC is not below %v degC", s.Name, ladder[i], ladder[i+1])
			}
		}
		if s.GrowthLow.Value < s.FeedLow.Value || s.GrowthLow.Value >= s.OptimumLow.Value {
			t.Errorf("%s grows from %v degC", s.Name, s.GrowthLow.Value)
		}
	}
}

func TestSpeciesByLatinName(t *testing.T) {
	s, err := SpeciesByName("oncorhynchus mykiss")
	if err != nil || s.Name != "rainbow trout" {
		t.Errorf("got %s, %v", s.Name, err)
	}
	if _, err := SpeciesByName("shark"); err == nil || err.Error() != "no species called shark is known" {
		t.Errorf("got %v", err)
	}
}

// TestDeadlyTemperaturesAreRefused, just past the bounds and at them.
func TestDeadlyTemperaturesAreRefused(t *testing.T) {
	for _, s := range species {
		low, high := float64(s.LethalLow.Value), float64(s.LethalHigh.Value)
		for _, at := range []float64{math.Nextafter(low, -1), math.Nextafter(high, 100), math.NaN()} {
			if growth, err := GrowthResponse(s, quantity.Celsius(at)); growth != 0 || err == nil {
				t.Errorf("%s grows at %v degC", s.Name, at)
			}
			if units, err := GrowthUnits(s, quantity.Celsius(at)); units != 0 || err == nil {
				t.Errorf("%s has growth units at %v degC", s.Name, at)
			}
			if share, err := RationPercent(s, 100, quantity.Celsius(at), 1); share != 0 || err == nil {
				t.Errorf("%s is fed at %v degC", s.Name, at)
			}
		}
		for _, at := range []float64{low, high} {
			growth, err := GrowthResponse(s, quantity.Celsius(at))
			ration, err2 := RationPercent(s, 100, quantity.Celsius(at), 1)
			if growth != 0 || ration != 0 || err != nil || err2 != nil {
				t.Errorf("%s at %v degC grows %v and eats %v: %v, %v", s.Name, at, growth, ration, err, err2)
			}
		}
	}
}

// TestGrowthAtOptimumAgainst72F: SRAC prints about three for tilapia.
func TestGrowthAtOptimumAgainst72F(t *testing.T) {
	s, _ := SpeciesByName("Nile tilapia")
	response, err := GrowthResponse(s, quantity.Fahrenheit(72).Celsius())
	if err != nil || 1/response < 2 || 1/response > 4 {
		t.Errorf("optimum grows %v times as fast, %v", 1/response, err)
	}
}

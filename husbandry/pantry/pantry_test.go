package pantry

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

// No answer about canning comes without the caution, by type and by name.
func TestCanningCarriesItsCaution(t *testing.T) {
	load, err := Load("snap beans", Quart)
	if err != nil {
		t.Fatal(err)
	}
	if pounds, caution := load.Read(); pounds != 14 || caution != CanningCaution || !strings.Contains(caution, "Botulism kills") {
		t.Error(pounds, caution)
	}
	stores := map[string]string{
		"freezer_life": FreezingCaution, "blanching_time": FreezingCaution, "frozen_pints_beets": FreezingCaution, "frozen_pints_asparagus": FreezingCaution, "frozen_pints_summer_squash": FreezingCaution,
		"dried_storage": DryingCaution, "dried_fruit_storage": DryingCaution, "dry_yield": DryingCaution, "dried_weight": DryingCaution,
		"published_blanching_water": FreezingCaution, "published_dried_vegetable_storage": DryingCaution,
		"herb_drying": HerbCaution, "herb_storage": HerbCaution, "fresh_herb": HerbCaution,
	}
	for _, f := range Formulas {
		want := stores[f.Name]
		if want == "" {
			want = CanningCaution
		}
		answer, err := ask(t, f.Name, anyInputs(f.Name))
		if err != nil {
			t.Errorf("%s: %v", f.Name, err)
		} else if strings.Join(answer.Cautions, "") != want {
			t.Errorf("%s carries %q", f.Name, answer.Cautions)
		}
	}
}

// anyInputs are inputs that a formula takes, so that each is asked once.
func anyInputs(name string) string {
	switch name {
	case "canner_load_quarts", "canner_load_pints", "quarts_per_bushel_low", "quarts_per_bushel_high", "quarts_per_bushel", "bushel_weight", "pounds_per_quart":
		return "food=snap beans"
	case "jars_from_produce":
		return "food=snap beans;produce_lb=30;jar=quart"
	case "produce_for_jars":
		return "food=snap beans;jars=7;jar=quart"
	case "boiling_point":
		return "altitude_ft=500"
	case "blanching_time", "dried_storage", "dry_yield":
		return "crop=peas"
	case "published_dried_vegetable_storage":
		return "T_F=60"
	case "published_gauge_pressure_for_240_f":
		return ""
	case "dried_fruit_storage":
		return "store_f=70"
	case "dried_weight":
		return "crop=peas;fresh_lb=8"
	case "fresh_herb":
		return "dried=2"
	case "is_low_acid":
		return "ph=5"
	case "safety_boil":
		return "altitude_ft=<1000"
	}
	switch {
	case strings.HasPrefix(name, "boiling_water_"):
		return "jar=pint;altitude_ft=500"
	case strings.Contains(name, "_gauge_"):
		return "altitude_ft=500"
	case strings.HasSuffix(name, "_acidification"):
		return "jar=quart"
	}
	return ""
}

func TestFormulasAreDescribed(t *testing.T) {
	names := map[string]bool{}
	for _, f := range Formulas {
		if names[f.Name] || f.Title == "" || f.Source == "" || f.Range == "" {
			t.Errorf("%q: described twice or not at all", f.Name)
		}
		names[f.Name] = true
		for _, i := range f.Inputs {
			if i.Meaning == "" || i.Low > i.High {
				t.Errorf("%s: input %q has no meaning or a turned range", f.Name, i.Name)
			}
		}
	}
}

// Answers in other forms than the published file holds.
func TestAnswers(t *testing.T) {
	for _, q := range []struct {
		name, inputs string
		value        float64
		low, high    float64
		text         string
	}{
		{"jars_from_produce", "food=tomatoes whole/halved;produce_lb=53;jar=quart", 0, 15, 21, ""},
		{"jars_from_produce", "food=tomatoes whole/halved;produce_lb=53;jar=pint", 0, 30, 42, ""},
		{"jars_from_produce", "food=tomatoes whole/halved;produce_kg=24.0403956;jar=quart", 0, 14, 20, ""},
		{"produce_for_jars", "food=tomatoes whole/halved;jars=21;jar=quart", 0, 53, 74.2, ""},
		{"produce_for_jars", "food=tomatoes whole/halved;jars=42;jar=pints", 0, 53, 74.2, ""},
		{"quarts_per_bushel", "food=snap beans", 0, 12, 20, ""},
		{"dial_gauge_snap_beans", "altitude_ft=500;jar=pint", 11, 0, 0, "for 20 minutes"},
		{"dial_gauge_snap_beans", "altitude_ft=500", 11, 0, 0, "for 25 minutes"},
		{"dial_gauge_whole_tomatoes_in_juice", "altitude_ft=500;jar=pint", 11, 0, 0, "for 25 minutes, with acid in every jar"},
		{"dial_gauge_whole_tomatoes_in_juice", "altitude_ft=500;jar=quart", 11, 0, 0, "for 25 minutes, with acid in every jar"},
		{"jar_storage", "", 0, 50, 70, "never above 95 degF"},
		{"boiling_point", "altitude_ft=500", 211.1, 0, 0, ""},
		{"boiling_point", "altitude_ft=3500", 205.8, 0, 0, ""},
		{"safety_boil", "altitude_ft=<1000", 10, 0, 0, ""},
		{"safety_boil", "altitude_ft=1000", 11, 0, 0, ""},
		{"safety_boil", "altitude_ft=2500", 12, 0, 0, ""},
		{"safety_boil", "altitude_ft=10000", 20, 0, 0, ""},
		{"is_low_acid", "pH=4.6", 0, 0, 0, "not low-acid by this measurement; follow the guide's food and method all the same"},
		{"is_low_acid", "pH=4.61", 0, 0, 0, "low-acid: pressure can it, by the guide"},
		{"dried_fruit_storage", "T_F=60.1", 6, 0, 0, ""},
		{"dried_weight", "crop=carrots;fresh_lb=30", 2.5, 0, 0, ""},
		{"dried_weight", "crop=carrots;fresh_kg=13.6077711", 2.5, 0, 0, ""},
		{"herb_drying", "", 0, 95, 115, ""},
		{"herb_storage", "", 0, 6, 12, ""},
		{"fresh_herb", "dried=2", 6, 0, 0, ""},
		{"freezer_life", "", 0, 8, 12, ""},
	} {
		answer, err := ask(t, q.name, q.inputs)
		if err != nil || !same(answer.Value, q.value) || !same(answer.Low, q.low) || !same(answer.High, q.high) || answer.Text != q.text {
			t.Errorf("%s %s: %+v %v", q.name, q.inputs, answer, err)
		}
	}
}

// same compares; an answer that has none is NaN, written 0 here.
func same(got, want float64) bool {
	return math.Abs(got-want) < 1e-6 || (math.IsNaN(got) && want == 0)
}

// An older source is named beside the newer.
func TestBlanchingDisagrees(t *testing.T) {
	answer, err := ask(t, "blanching_time", "crop=Cauliflower")
	if err != nil || answer.Value != 3 || len(answer.Others) != 1 || answer.Others[0].Value != 4 {
		t.Error(answer, err)
	}
}

// What the guide's copies do not print is refused and never worked out.
func TestNotInOurTable(t *testing.T) {
	for _, q := range []struct{ name, inputs string }{
		{"canner_load_pints", "food=tomato sauce thin"},
		{"quarts_per_bushel", "food=tomato sauce thick"},
		{"pounds_per_quart", "food=tomato sauce thick"},
		{"produce_for_jars", "food=tomato sauce thick;jars=3;jar=pint"},
		{"jars_from_produce", "food=tomato sauce thick;produce_lb=3;jar=pint"},
		{"bushel_weight", "food=rutabagas"},
		{"canner_load_quarts", "food=tomato"},
		{"canner_load_quarts", "food=okra"},
		{"quarts_per_bushel", "food=okra"},
		{"pounds_per_quart", "food=okra"},
		{"jars_from_produce", "food=snap beans;produce_lb=3;jar=gallon"},
		{"produce_for_jars", "food=snap beans;jars=3;jar=gallon"},
		{"boiling_water_raw_whole_tomatoes", "jar=gallon;altitude_ft=0"},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=500-2000"},
		{"dial_gauge_snap_beans", "altitude_ft=0;jar=gallon"},
		{"lemon_juice_acidification", "jar=bucket"},
		{"blanching_time", "crop=lettuce"},
		{"dried_storage", "crop=lettuce"},
		{"dry_yield", "crop=lettuce"},
		{"dried_weight", "crop=lettuce;fresh_lb=1"},
	} {
		var missing *NotInTableError
		if _, err := ask(t, q.name, q.inputs); !errors.As(err, &missing) || !strings.Contains(err.Error(), "use the current public guide") {
			t.Errorf("%s %s: %v", q.name, q.inputs, err)
		}
	}
	for _, call := range []func() error{
		func() error { _, err := BoilingWater("snap beans", Quart, 0); return err },
		func() error { _, err := BoilingWater("tomatoes", Quart, 0); return err },
		func() error { _, err := DialGauge("beans", Quart, 0); return err },
		func() error { _, err := WeightedGauge("corn", Quart, 0); return err },
		func() error { _, err := Acidify("", Quart); return err },
		func() error { _, err := FrozenPints("okra"); return err },
	} {
		var missing *NotInTableError
		if err := call(); !errors.As(err, &missing) {
			t.Error(err)
		}
	}
}

// Altitudes that are no altitude, and tomatoes without acid, are refused.
func TestRefusals(t *testing.T) {
	for _, q := range []struct{ name, inputs string }{
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=high"},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=0-high"},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=-5"},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=>10000"},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=>1000"},
		{"safety_boil", ""},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=0-20000"},
		{"boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft=500;acidified=no"},
		{"safety_boil", "altitude_ft=high"},
		{"freezer_life", "T_F=cold"},
		{"freezer_life", "T_F=>0"},
	} {
		if _, err := ask(t, q.name, q.inputs); err == nil {
			t.Errorf("%s %s was taken", q.name, q.inputs)
		}
	}
}

// Bands are read as they are printed.
func TestBands(t *testing.T) {
	for _, q := range []struct {
		altitude string
		minutes  float64
	}{{"0-1000", 85}, {"<=1000", 85}, {"<1000", 85}, {">=6001", 100}, {">6000", 100}, {"1000.5", 90}, {" 3000 ", 90}} {
		answer, err := ask(t, "boiling_water_raw_whole_tomatoes", "jar=pint;altitude_ft="+q.altitude)
		if err != nil || answer.Value != q.minutes {
			t.Errorf("%q: %v %v", q.altitude, answer.Value, err)
		}
	}
}

// The bounds that formulas describe.
func TestDescribedBounds(t *testing.T) {
	for _, want := range []struct {
		formula, input string
		low, high      float64
	}{
		{"boiling_water_raw_whole_tomatoes", "altitude_ft", 0, 10000}, {"dial_gauge_snap_beans", "altitude_ft", 0, 8000}, {"weighted_gauge_snap_beans", "altitude_ft", 0, 10000},
		{"jars_from_produce", "produce_lb", 0, 100000}, {"produce_for_jars", "jars", 0, 100000}, {"is_low_acid", "ph", 0, 14}, {"boiling_point", "altitude_ft", 0, 4000},
		{"safety_boil", "altitude_ft", 0, 10000}, {"freezer_life", "freezer_f", -40, 0}, {"dried_fruit_storage", "store_f", 60, 80}, {"fresh_herb", "dried", 0, 1000}, {"dried_weight", "fresh_lb", 0, 100000},
	} {
		for _, f := range Formulas {
			for _, i := range f.Inputs {
				if f.Name == want.formula && i.Name == want.input && (i.Low != want.low || i.High != want.high) {
					t.Errorf("%s %s: %v to %v", f.Name, i.Name, i.Low, i.High)
				}
			}
		}
	}
}

// Jars and produce agree: what n jars take at most fills n jars at least.
func TestJarsAndProduceAgree(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	foods := []string{"tomatoes whole/halved", "tomato juice", "tomato sauce thin", "snap beans", "cucumbers for pickles"}
	for range 1000 {
		food, jar, n := foods[r.IntN(len(foods))], Jar(r.IntN(2)), float64(1+r.IntN(200))
		need, err := ProduceFor(food, n, jar)
		if err != nil {
			t.Fatal(err)
		}
		few, err := JarsFrom(food, quantity.Pounds(need.value.High+1e-9), jar)
		many, err2 := JarsFrom(food, quantity.Pounds(need.value.Low+1e-9), jar)
		if err != nil || err2 != nil || few.value.Low != n || many.value.High != n || need.value.Low > need.value.High {
			t.Fatalf("%s, %v jars of %v: %v %v %v", food, n, jar, need, few, many)
		}
	}
}

// Water boils cooler the higher one lives.
func TestBoilingPointFalls(t *testing.T) {
	before := quantity.Fahrenheit(213)
	for altitude := quantity.Feet(0); altitude <= 4000; altitude += 50 {
		point, err := BoilingPoint(altitude)
		if err != nil || point.value >= before {
			t.Fatal(altitude, point, err)
		}
		before = point.value
	}
}

// Jars that the guide has no figures for, and weights of unknown crops.
func TestNoValueBesideAnError(t *testing.T) {
	if jar, err := ParseJar("gallon"); err == nil || jar != Pint {
		t.Error(jar, err)
	}
	if dried, err := DriedWeight("lettuce", 1); err == nil || dried != 0 {
		t.Error(dried, err)
	}
	if yields[3] != (Yield{"tomato sauce thick", 46, 28, 53, 0, 0, 0}) {
		t.Error("our copies print no quarts of thick sauce")
	}
	if plain(1.0/3) != "0.333333" {
		t.Error(plain(1.0 / 3))
	}
}

// Pints and quarts of raw tomatoes take the same time at each altitude.
func TestPintsOfRawTomatoes(t *testing.T) {
	for altitude, want := range map[quantity.Feet]quantity.Minutes{1000: 85, 3000: 90, 6000: 95, 10000: 100} {
		for _, jar := range []Jar{Pint, Quart} {
			if p, err := BoilingWater("raw whole tomatoes", jar, altitude); err != nil || p.value.Minutes != want {
				t.Error(altitude, jar, p, err)
			}
		}
	}
}

// The lists that others offer as choices, and figures that no formula gives.
func TestFacts(t *testing.T) {
	if got := strings.Join(Foods(), ", "); got != "tomatoes whole/halved, tomato juice, tomato sauce thin, tomato sauce thick, snap beans, cucumbers for pickles" {
		t.Error(got)
	}
	degrees, psi := SterilisingTemperature()
	if degrees.value != (Span{240, 250}) || psi.value != (Span{10, 15}) {
		t.Error(degrees, psi)
	}
	for crop, bushel := range map[string]quantity.Pounds{"asparagus": 0, "summer squash": 40, "beets": 52} {
		if f, err := FrozenPints(crop); err != nil || f.Bushel != bushel || f.Source == "" {
			t.Error(f, err)
		}
	}
	thick, err := BushelWeight("tomato sauce thick")
	if err != nil || thick.value != 53 {
		t.Error(thick, err)
	}
	both, err := BushelWeight("cucumbers")
	if err != nil || both.value != 48 {
		t.Error(both, err)
	}
}

func TestDigitsOfASpan(t *testing.T) {
	if got := (Span{Low: 1.000005 - 1e-12, High: 1.000005 + 1e-12}).words(); got != "1-1.00001" {
		t.Error(got)
	}
}

package crop

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

// TestFormulas asks every formula the questions of testdata/formulas.csv. The
// answers are those of the sources and of the tests of the functions; here they
// show that each formula hands its inputs to the right function.
func TestFormulas(t *testing.T) {
	asked := map[string]bool{}
	for _, row := range formulatest.Lines(t, "testdata/formulas.csv") {
		asked[row[0]] = true
		t.Run(row[0]+" "+row[1], func(t *testing.T) {
			answer, err := ask(t, row[0], row[1])
			if err != nil {
				t.Fatal(err)
			}
			for i, got := range []float64{answer.Value, answer.Low, answer.High} {
				if want := row[2+i]; want == "" != math.IsNaN(got) {
					t.Errorf("got %v, want %q", got, want)
				} else if want != "" {
					near(t, row[0], got, nil, formulatest.Number(t, want), 2e-9)
				}
			}
			if answer.Text != row[5] {
				t.Errorf("got %q, want %q", answer.Text, row[5])
			}
			if answer.Source == "" {
				t.Error("names no source")
			}
		})
	}
	for _, f := range Formulas {
		if !asked[f.Name] && !strings.HasPrefix(f.Name, "published_") { // single figures are asked by TestPublished
			t.Errorf("%s is never asked", f.Name)
		}
	}
}

func TestFormulasAreWellFormed(t *testing.T) {
	names := map[string]bool{}
	for _, f := range Formulas {
		if f.Title == "" || f.Source == "" || f.Range == "" || f.Work == nil || len(f.Inputs) == 0 {
			t.Errorf("%s does not say what it is", f.Name)
		}
		if f.Name != strings.ToLower(f.Name) || strings.Contains(f.Name, " ") {
			t.Errorf("%s is not lower_snake", f.Name)
		}
		for _, name := range append([]string{f.Name}, f.Also...) {
			if names[name] {
				t.Errorf("%s names two formulas", name)
			}
			names[name] = true
		}
		inputs := map[string]bool{}
		for _, in := range f.Inputs {
			for _, name := range append([]string{in.Name}, aliasNames(in)...) {
				if inputs[name] {
					t.Errorf("%s has two inputs %s", f.Name, name)
				}
				inputs[name] = true
			}
			if in.Meaning == "" {
				t.Errorf("%s does not say what %s is", f.Name, in.Name)
			}
		}
	}
}

func aliasNames(in formula.Input) []string {
	names := []string{}
	for _, a := range in.Also {
		names = append(names, a.Name)
	}
	return names
}

// TestFormulasRefuse takes each good question and puts each number in it just
// outside of its bounds, and to no number.
func TestFormulasRefuse(t *testing.T) {
	for _, row := range formulatest.Lines(t, "testdata/formulas.csv") {
		i := slices.IndexFunc(Formulas, func(f formula.Formula) bool { return f.Name == row[0] })
		f := &Formulas[i]
		good := formula.Parse(row[1])
		for _, in := range f.Inputs {
			if _, given := good[in.Name]; !given || in.Low >= in.High {
				continue
			}
			step := 1e-4 * math.Max(1, math.Max(math.Abs(in.Low), math.Abs(in.High)))
			for _, bad := range []string{text(in.Low - step), text(in.High + step), "NaN", "+Inf", "x", ""} {
				typed := formula.Parse(row[1])
				typed[in.Name] = bad
				if answer, err := f.Ask(typed); err == nil {
					t.Errorf("%s with %s=%s answers %v", row[0], in.Name, bad, answer.Value)
				}
			}
		}
		if _, err := f.Ask(map[string]string{"triffid": "1"}); err == nil {
			t.Errorf("%s takes a triffid", row[0])
		}
		typed := formula.Parse(row[1])
		if _, named := typed["crop"]; named {
			typed["crop"] = "triffid"
			if answer, err := f.Ask(typed); err == nil && row[0] != "companions" && typed["threshold_ds_m"] == "" {
				t.Errorf("%s knows the triffid: %v", row[0], answer)
			}
		}
	}
}

func text(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func TestFormulasRefuseNonsense(t *testing.T) {
	for _, q := range [][2]string{
		{"growing_degree_days_sum", "days=90/65,72"}, {"growing_degree_days_sum", "days=x/65"}, {"growing_degree_days_sum", "days=90/x"},
		{"sowing_interval_by_heat", "at_harvest=85;at_sowing=70/50"}, {"sowing_interval_by_heat", "at_harvest=85/65;at_sowing=70"},
		{"degree_days_simple_mean", "tmax_celsius=[20 30];tmin_celsius=[10];base_celsius=10"},
		{"daylight_hours", "latitude_degrees=north;year_day=1"}, {"daylight_hours", "latitude_degrees=45degxN;year_day=1"}, {"daylight_hours", "latitude_degrees=91;year_day=1"},
		{"daylight_hours", "latitude_degrees=45;year_day=1.5"}, {"extraterrestrial_radiation", "latitude_degrees=x;year_day=1"}, {"sunset_hour_angle", "latitude_degrees=x;declination_rad=0.1"},
		{"solar_radiation", "sunshine_h=7/x;daylight_h=10.9;above_mj=25"}, {"solar_radiation", "sunshine_h=x;daylight_h=10.9;above_mj=25"}, {"solar_radiation", "sunshine_h=7/0;daylight_h=10.9;above_mj=25"},
		{"net_radiation_rio", "tmax_celsius=25;tmin_celsius=19;actual_vapour_kpa=2;sunshine_h=x"}, {"net_radiation_rio", "tmax_celsius=25;tmin_celsius=19;actual_vapour_kpa=2;sunshine_h=7;latitude_degrees=x"},
		{"hargreaves", "tmax_celsius=26;tmin_celsius=14;latitude_degrees=x;year_day=1"}, {"hargreaves", "tmax_celsius=26;tmin_celsius=14"},
		{"hargreaves_sum", "latitude_degrees=x;tmax_celsius=[6];tmin_celsius=[1]"}, {"hargreaves_sum", "latitude_degrees=45;tmax_celsius=[6 7];tmin_celsius=[1]"},
		{"reference_evapotranspiration", "latitude_degrees=x;elevation_m=200;year_day=196;tmax_celsius=26;tmin_celsius=15"},
		{"reference_evapotranspiration_hour", "latitude_degrees=x;elevation_m=8;year_day=274;temperature_celsius=38;humidity_percent=52;wind_m_s=3;solar_mj=2;zone_west=15;here_west=16"},
		{"reference_evapotranspiration_hour", "latitude_degrees=16;elevation_m=8;year_day=274;temperature_celsius=38;humidity_percent=52;wind_m_s=3;solar_mj=2"},
		{"reference_evapotranspiration", "latitude_degrees=45;elevation_m=200;year_day=196;tmax_celsius=26;tmin_celsius=15;u10_km_h=500"},
		{"psychrometric_constant", "elevation_m=99999"}, {"psychrometric_constant", ""}, {"vapour_pressure_from_wet_bulb", "dry_celsius=25;wet_celsius=19;elevation_m=99999"},
		{"vapour_pressure_from_wet_bulb", "dry_celsius=25;wet_celsius=19;pressure_kpa=90;psychrometer=hairy"},
		{"crop_coefficient_on_day", "crop=lettuce;stages=lettuce;day=35"}, {"yield_per_plant", "crop=basil"}, {"relative_yield", "extract_ds_m=3"},
		{"bearing_window", "crop=lettuce;planted=May"}, {"first_bearing_years", "crop=fig;planted=May"}, {"deficiency_suspects", "leaves=blue;signs=dead spots"},
	} {
		if answer, err := ask(t, q[0], q[1]); err == nil {
			t.Errorf("%s of %s is %v", q[0], q[1], answer)
		}
	}
}

func TestFormulasSayWhatTheyAssumed(t *testing.T) {
	answer, err := ask(t, "reference_evapotranspiration", "lat=45;z=200;J=196;Tmax=26;Tmin=15;Tdew=Tmin")
	if err != nil || len(answer.Cautions) != 4 || !strings.Contains(strings.Join(answer.Cautions, " "), "estimated: wind 2 m/s") {
		t.Errorf("got %q, %v", answer.Cautions, err)
	}
	answer, err = ask(t, "growing_degree_days", "Tmax_F=90;Tmin_F=40")
	if err != nil || len(answer.Others) != 3 || answer.Others[0].Value != 15 || answer.Others[0].Basis != "simple mean" {
		t.Errorf("got %v, %v", answer.Others, err)
	}
	answer, err = ask(t, "salinity_slope", "crop=broccoli")
	if err != nil || len(answer.Others) != 1 || answer.Others[0].Value != 15.8 {
		t.Errorf("got %v, %v", answer.Others, err)
	}
	answer, err = ask(t, "salinity_slope", "crop=garlic")
	if err != nil || !strings.Contains(answer.Source, "from memory") {
		t.Errorf("got %q, %v", answer.Source, err)
	}
	answer, err = ask(t, "days_from_sowing", "crop=water spinach")
	if err != nil || len(answer.Cautions) != 1 || !strings.Contains(answer.Cautions[0], "law") {
		t.Errorf("got %q, %v", answer.Cautions, err)
	}
}

func TestPlainNumbers(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{{0.7, 1, "0.7"}, {1, 2, "1.00"}, {0.35, 1, "0.35"}, {2, 1, "2.0"}, {4.5, 0, "4.5"}, {8, 0, "8"}} {
		if got := plain(c.v, c.decimals); got != c.want {
			t.Errorf("%v is written %s", c.v, got)
		}
	}
}

// TestScalarFormulasAllocateNothing holds the promise of the package for what is
// asked in a loop.
func TestScalarFormulasAllocateNothing(t *testing.T) {
	air := Air{30.2, 2, 4.42, 2.85, 0.246, 0.0674}
	rule, day := ruleC{SingleSineTo, 10, 30}, daysC{35, 5}
	for name, call := range map[string]func(){
		"Evapotranspiration":        func() { _, _ = Evapotranspiration(14.33, 0.14, air) },
		"ExtraterrestrialRadiation": func() { _, _ = ExtraterrestrialRadiation(45, 196) },
		"SaturationVapourPressure":  func() { _, _ = SaturationVapourPressure(20) },
		"NetLongwave":               func() { _, _ = NetLongwave(25, 19, 2, 14, 18) },
		"Rule.Day":                  func() { _, _ = rule.Day(day) },
		"RelativeYield":             func() { _, _ = RelativeYield(3, 2, 10) },
		"Hargreaves":                func() { _, _ = Hargreaves(26, 14, 40) },
	} {
		if n := testing.AllocsPerRun(100, call); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

func BenchmarkEvapotranspiration(b *testing.B) {
	air := Air{30.2, 2, 4.42, 2.85, 0.246, 0.0674}
	for b.Loop() {
		_, _ = Evapotranspiration(14.33, 0.14, air)
	}
}

func BenchmarkDegreeDays(b *testing.B) {
	rule, day := ruleC{SingleSineTo, 10, 30}, daysC{35, 5}
	for b.Loop() {
		_, _ = rule.Day(day)
	}
}

func TestRangeErrorsNameTheirSource(t *testing.T) {
	var out *quantity.RangeError
	if _, err := ExtraterrestrialRadiation(91, 1); !errors.As(err, &out) || out.Name != "latitude" || out.Unit != "deg" || !strings.Contains(out.Source, "FAO-56") {
		t.Errorf("got %v", err)
	}
	if _, err := RelativeYield(-1, 1, 1); !errors.As(err, &out) || !strings.Contains(out.Source, "FAO-61") {
		t.Errorf("got %v", err)
	}
}

// TestSignsAsTold: a sign is known by words that only it has; others are
// refused with the signs that the key holds.
func TestSignsAsTold(t *testing.T) {
	find := func(signs string) (formula.Answer, error) {
		for i := range Formulas {
			if Formulas[i].Name == "deficiency_suspects" {
				return Formulas[i].Ask(map[string]string{"leaves": YoungLeaves.String(), "signs": signs})
			}
		}
		return formula.Answer{}, errors.New("no such formula")
	}
	for told, want := range map[string]string{
		"yellow between the veins": "iron; manganese; zinc", "Yellow Between Green Veins + spots": "manganese", "rosette": "zinc", "brittle thick": "boron",
	} {
		a, err := find(told)
		if err != nil || a.Text != want || len(a.Cautions) != 1+strings.Count(want, ";")+1 {
			t.Errorf("%q is %q %q (%v), want %q", told, a.Text, a.Cautions, err, want)
		}
	}
	for told, want := range map[string]string{
		"purple spots": "which knows yellow between green veins; scorched edges; ", "": "missing", "young leaves": "several rows for young leaves: young leaves curl or twist; young leaves wilt", "rosette+": "no row for ",
	} {
		if a, err := find(told); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %q (%v)", told, a.Text, err)
		}
	}
}

package water

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/quantity"
)

// One line an example: formula, inputs, answer. The answers follow from the
// published rows, from atomic weights, or from the tests of the functions.
const examples = `
uia_fraction | ph=8;temperature_celsius=24 | 0.0502
uia_fraction | pH=8;temperature_fahrenheit=75.2 | 0.0502
uia_fraction | ph=8;temperature_celsius=25;salinity_g_per_kg=34 | 0.042785
uia_fraction | ph=8;temperature_celsius=5;ionic_strength=0.05 | 0.0099364
uia_fraction | ph=8;temperature_celsius=5;conductivity_us_per_cm=3125 | 0.0099364
uia_concentration | tan_mg_n_per_l=3;ph=8.6;temperature_celsius=30 | 0.72664
uia_concentration | tan_mg_L=3;ph=8.6;temperature_celsius=30 | 0.72664
uia_concentration | total_NH4_mg_L_as_NH4=18.039;ph=8.6;temperature_celsius=30 | 3.39268
uia_concentration | total_NH3_mg_L_as_NH3=17.031;ph=8.6;temperature_celsius=30 | 3.39268
uia_concentration | tan_mmol_per_l=0.03;ph=8.5;temperature_celsius=15 | 0.00238259
uia_pka | temperature_celsius=25 | 9.24638
nh3_from_nh4_units | total_NH4_mg_L_as_NH4=0.2;ph=7.7;temperature_celsius=18 | 0.00317812
uia_fraction_with_activity | ph=8;temperature_celsius=5;ionic_strength=0.05 | 0.0099364
ionic_strength_from_conductivity | conductivity_us_per_cm=1000 | 0.016
ionic_strength_from_salinity | salinity_g_per_kg=34 | 0.70138
ammonia_safety | tan_mg_n_per_l=2;ph=8;temperature_celsius=25 | unsafe: NH3 0.11 of 0.050 mg/L as N; total ammonia below 0.93 mg/L as N, or pH below 7.7, or temperature below 14 degC alone would make it safe
ammonia_safety | tan_mg_n_per_l=0;ph=8;temperature_celsius=25;limit_mg_n_per_l=0.02 | safe: NH3 0 of 0.020 mg/L as N; total ammonia above 0.37 mg/L as N alone would make it unsafe
ph_at_ammonia_limit | tan_mg_n_per_l=0.1;temperature_celsius=25 | 9.24638
ph_at_ammonia_limit | tan_mg_n_per_l=0.01;temperature_celsius=25 | none within range
temperature_at_ammonia_limit | tan_mg_n_per_l=1;ph=8;limit_mg_n_per_l=0.0502 | 24.0
temperature_at_ammonia_limit | tan_mg_n_per_l=0.01;ph=8 | none within range
ammonia_at_limit | ph=8;temperature_celsius=24 | 0.996
epa2013_acute_salmonid | ph=7;temperature_celsius=20 | 17
epa2013_acute_no_salmonid | ph=8;temperature_celsius=10 | 8.8
epa2013_chronic | ph=7;temperature_celsius=20 | 1.9
epa2013_four_day | ph=7;temperature_celsius=20 | 4.8
epa2013_four_day | ph=7;temperature_celsius=20;ccc=1.88 | 4.7
epa1999_acute_salmonid | ph=8 | 5.6151
epa1999_acute_no_salmonid | ph=8 | 8.4076
epa1999_chronic_early_life | ph=8;temperature_celsius=20 | 1.709
epa1999_chronic_no_early_life | ph=8;temperature_celsius=0 | 3.952
epa1986_acute_salmonid | ph=8;temperature_celsius=20 | 5.617
epa1986_acute_no_salmonid | ph=7.2;temperature_celsius=28 | 13.32
epa1986_chronic_salmonid | ph=8;temperature_celsius=20 | 0.7647
epa1986_chronic_no_salmonid | ph=7.2;temperature_celsius=28 | 0.9882
do_saturation | temperature_celsius=20;pressure_atm=1 | 9.0921
do_saturation | temperature_celsius=20;pressure_mmHg=760 | 9.0921
do_saturation | temperature_celsius=20;pressure_hpa=1013.25 | 9.0921
do_saturation | temperature_celsius=20;pressure_kPa=101.325 | 9.0921
do_saturation | temperature_celsius=20;elevation_m=0 | 9.0921
do_saturation | temperature_celsius=25;salinity_g_per_kg=0;elevation_ft=5280 | 6.757535
do_saturation | temperature_celsius=20;pressure_atm=1;elevation_m=3000 | 9.0921
do_salinity_correction | temperature_celsius=10;salinity_g_per_kg=35 | 9.0243
do_salinity_correction | temperature_celsius=10;salinity_g_per_kg=35;elevation_m=0 | 9.0243
do_percent | do_mg_per_l=4.54605;temperature_celsius=20;pressure_atm=1 | 50
do_percent | do_mg_per_l=4.54605;temperature_celsius=20;elevation_m=0 | 50
do_from_percent | percent=50;temperature_celsius=20;pressure_atm=1 | 4.54605
do_from_percent | percent=50;temperature_celsius=20;elevation_m=0 | 4.54605
pressure_from_elevation | elevation_m=1609.344 | 625.758
pressure_from_elevation | elevation_ft=5280 | 625.758
pk1_carbonic | temperature_celsius=25 | 6.352
pk2_carbonic | temperature_celsius=25 | 10.329
pkh_carbonic | temperature_celsius=25 | 1.468
pkw | temperature_celsius=25 | 14.0
co2_concentration | ph=7;temperature_celsius=25;alkalinity_mg_per_l=100 | 19.754
co2_concentration | ph=7;temperature_celsius=25;alkalinity_dkh=5.6029 | 19.754
co2_concentration | ph=7;temperature_celsius=25;alkalinity_meq_per_l=1.99828 | 19.754
co2_concentration | ph=7;temperature_celsius=10;alkalinity_mg_per_l=80;ionic_strength=0.05 | 16.7869
co2_with_activity | ph=8.5;temperature_celsius=25;alkalinity_mg_per_l=50;ionic_strength=0.0133 | 0.266918
co2_factor | ph=7;temperature_celsius=25 | 0.19754
ph_from_co2 | co2_mg_per_l=19.754;temperature_celsius=25;alkalinity_mg_per_l=100 | 7
co2_in_balance_with_air | temperature_celsius=25 | 0.636782
co2_in_balance_with_air | temperature_celsius=10;pressure_atm=0.9 | 0.905311
inorganic_carbon | ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10 | 0.4847376
inorganic_carbon | ph=7.5;temperature_celsius=15;alkalinity_mg_per_l=80 | 1.728912
ph_from_inorganic_carbon | carbon_mmol_per_l=1.728912;temperature_celsius=15;alkalinity_mg_per_l=80 | 7.5
base_per_tan | base=KOH;tan_g=14.007 | 112.21
base_per_tan | base=potassium hydroxide;tan_g=14.007 | 112.21
base_equivalent | base=KOH | 56.105
base_equivalent | base=calcium hydroxide | 37.046
base_equivalent | base=NaHCO3 | 84.006
base_for_alkalinity | base=KOH;volume_litres=1000;rise_mg_per_l=50.043 | 56.105
base_for_alkalinity | base=KOH;volume_m3=1;rise_dkh=2.80388 | 56.105
base_for_alkalinity | base=KOH;volume_gal=264.172;rise_mg_per_l=50.043 | 56.105
alkalinity_from_base | base=KOH;volume_litres=1000;dose_g=56.105 | 50.043
ph_after_base_closed | base=KOH;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10;rise_mg_per_l=2.7802 | 6.4
ph_after_base_open | base=NaHCO3;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10;rise_mg_per_l=5.8495 | 6.4
base_plan_days | base=NaHCO3;volume_litres=1000;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10;tan_mg_n_per_l=3;wanted_mg_per_l=80 | 5
base_plan_days | base=NaHCO3;volume_litres=1000;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=60;tan_mg_n_per_l=3;wanted_mg_per_l=50 | 0
base_plan_days | base=NaHCO3;volume_litres=1000;ph=8;temperature_celsius=25;alkalinity_mg_per_l=100;tan_mg_n_per_l=3;wanted_mg_per_l=50 | 0
base_plan_first_dose | base=NaHCO3;volume_litres=1000;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10;tan_mg_n_per_l=3;wanted_mg_per_l=80;most_ph_a_day=0.2 | 9.8173
base_plan_first_dose | base=NaHCO3;volume_litres=1000;ph=8;temperature_celsius=25;alkalinity_mg_per_l=100;tan_mg_n_per_l=3;wanted_mg_per_l=50 | not defined for these values
base_plan_first_ph | base=KOH;volume_litres=1000;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10;tan_mg_n_per_l=3;wanted_mg_per_l=80 | 6.4
base_plan_first_ph | base=KOH;volume_litres=1000;ph=8;temperature_celsius=25;alkalinity_mg_per_l=100;tan_mg_n_per_l=3;wanted_mg_per_l=50 | not defined for these values
base_plan_highest_nh3 | base=KOH;volume_litres=1000;ph=6.2;temperature_celsius=25;alkalinity_mg_per_l=10;tan_mg_n_per_l=3;wanted_mg_per_l=80 | 0.031588
base_plan_highest_nh3 | base=KOH;volume_litres=1000;ph=8;temperature_celsius=25;alkalinity_mg_per_l=100;tan_mg_n_per_l=3;wanted_mg_per_l=50 | not defined for these values
dose_conversion | per=US gallon | 0.003785412
dose_conversion | per=gal | 0.003785412
dose_conversion | per=cubic foot | 0.028316847
dose_conversion | per=litre | 0.001
dose_conversion | per=cubic metre | 1
dose_conversion | per=acre-foot | 2.719362
dose_conversion | per=million gallons | 8.345404
dose_for_concentration | rise_mg_per_l=2;volume_litres=500 | 1
dose_days | dose_g=100;volume_litres=1000;most_mg_per_l_a_day=30 | 4
dose_days | dose_g=1;volume_litres=1000000000;most_mg_per_l_a_day=100000 | 1
dose_days | dose_g=0.0001;volume_litres=100;most_mg_per_l_a_day=1 | 1
iron_dose | volume_litres=4800 | 137.143
iron_dose | volume_litres=4800;interval_weeks=2;iron_mg_per_l=1;iron_fraction=0.1 | 48
iron_dose | volume_litres=4800;iron_mg_per_l=2;iron_percent=7 | 137.143
iron_dose | interval_weeks=2.5 | 2
chloride_ratio | fish=catfish | 10
chloride_ratio_computed | chloride_mg_per_l=60;nitrite_mg_n_per_l=5 | 12
chloride_ratio_computed | chloride_mg_per_l=60;nitrite_mg_no2_per_l=16.42215 | 12
chloride_for_fish | fish=catfish;nitrite_mg_n_per_l=14.007;chloride_mg_per_l=60 | 400.05
chloride_for_fish | fish=salmon;nitrite_mg_n_per_l=1 | 104
chloride_needed | ratio=6;nitrite_mg_per_l=3 | 18
salt_from_chloride | chloride_mg_per_l=35.45 | 58.44
chloride_from_salt | salt_mg_per_l=58.44 | 35.45
chlorine_after_top_up | tap_mg_per_l=2;replaced_fraction=0.25 | 0.5
thiosulfate_dose | volume_litres=1000;tap_mg_per_l=1 | 2 to 7
ammonia_from_chloramine | chloramine_mg_per_l=5.1473 | 1.4007
ammonia_from_total_chlorine | tap_mg_per_l=7.09 | 1.4007
hardness_from_calcium_magnesium | calcium_mg_per_l=40.078;magnesium_mg_per_l=24.305 | 200.172
tolerance_range | organism=plants;parameter=pH | 5.5 to 7.5
tolerance_range | organism=bacteria;parameter=pH | 6 to 8.5
nh3_change_by_ammonia | before_tan_mg_n_per_l=1;before_ph=7;before_temperature_celsius=20;after_tan_mg_n_per_l=2;after_ph=8;after_temperature_celsius=25 | 0.0264865
nh3_change_by_ph | before_tan_mg_n_per_l=1;before_ph=7;before_temperature_celsius=20;after_tan_mg_n_per_l=2;after_ph=8;after_temperature_celsius=25 | 0.0627725
nh3_change_by_temperature | before_tan_mg_n_per_l=1;before_ph=7;before_temperature_celsius=20;after_tan_mg_n_per_l=2;after_ph=8;after_temperature_celsius=25 | 0.0141235
`

// An example is one line of examples.
type example struct {
	formula *formula.Formula
	typed   map[string]string
	want    string
}

func readExamples(t *testing.T) []example {
	t.Helper()
	var all []example
	for line := range strings.Lines(strings.TrimSpace(examples)) {
		f := strings.Split(strings.TrimSpace(line), " | ")
		all = append(all, example{formulaNamed(t, f[0]), formula.Parse(f[1]), f[2]})
	}
	return all
}

func formulaNamed(t *testing.T, name string) *formula.Formula {
	t.Helper()
	for i := range Formulas {
		if Formulas[i].Name == name {
			return &Formulas[i]
		}
	}
	t.Fatalf("no formula %q", name)
	return nil
}

func TestExamples(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range readExamples(t) {
		seen[e.formula.Name] = true
		answer, err := e.formula.Ask(e.typed)
		if err != nil {
			t.Errorf("%s %v: %v", e.formula.Name, e.typed, err)
			continue
		}
		if got := said(answer); got != e.want && !alike(answer, e.want) {
			t.Errorf("%s %v: got %s, want %s", e.formula.Name, e.typed, got, e.want)
		}
	}
	for _, f := range Formulas {
		if !seen[f.Name] && !strings.HasPrefix(f.Name, "published_") { // single figures are asked by TestPublished
			t.Errorf("%s has no example", f.Name)
		}
	}
}

func said(a formula.Answer) string {
	switch {
	case a.Low == a.Low:
		return quantity.Show(a.Low, 7) + " to " + quantity.Show(a.High, 7)
	case a.Text != "":
		return a.Text
	default:
		return quantity.Show(a.Value, 7)
	}
}

// alike compares a number to about the digits that the example prints.
func alike(a formula.Answer, want string) bool {
	if low, high, ok := strings.Cut(want, " to "); ok {
		l, _ := strconv.ParseFloat(low, 64)
		h, _ := strconv.ParseFloat(high, 64)
		return math.Abs(a.Low-l) <= 1e-9 && math.Abs(a.High-h) <= 1e-9
	}
	v, err := strconv.ParseFloat(want, 64)
	return err == nil && math.Abs(a.Value-v) <= math.Max(1e-9, 2e-3*math.Abs(v))
}

// TestInputBounds: for each bound that a formula states there is an example that
// takes the bound, and refuses what lies just outside of it or is no number.
func TestInputBounds(t *testing.T) {
	byFormula := map[*formula.Formula][]example{}
	for _, e := range readExamples(t) {
		byFormula[e.formula] = append(byFormula[e.formula], e)
	}
	for f, list := range byFormula {
		for _, input := range f.Inputs {
			if input.Low == 0 && input.High == 0 {
				continue
			}
			if !bounded(list, input, input.Low, input.Low-beside(input.Low)) || !bounded(list, input, input.High, input.High+beside(input.High)) {
				t.Errorf("%s: %s is not held to %v to %v", f.Name, input.Name, input.Low, input.High)
			}
		}
	}
}

// beside is a step that a bound of that size can tell.
func beside(bound float64) float64 { return math.Max(1e-12, 1e-9*math.Abs(bound)) }

func bounded(list []example, input formula.Input, bound, outside float64) bool {
	for _, e := range list {
		_, inside := e.formula.Ask(with(e, input, bound))
		_, beyond := e.formula.Ask(with(e, input, outside))
		_, nothing := e.formula.Ask(with(e, input, nan))
		var wrong *quantity.RangeError
		if inside == nil && errors.As(beyond, &wrong) && errors.As(nothing, &wrong) {
			return true
		}
	}
	return false
}

// with gives the example's inputs, one of them changed.
func with(e example, input formula.Input, v float64) map[string]string {
	typed := map[string]string{}
	for name, text := range e.typed {
		typed[name] = text
	}
	for _, alias := range input.Also {
		delete(typed, alias.Name)
	}
	typed[input.Name] = strconv.FormatFloat(v, 'g', -1, 64)
	return typed
}

func TestFormulasSayWhatTheyAre(t *testing.T) {
	names := map[string]bool{}
	for _, f := range Formulas {
		if f.Title == "" || f.Source == "" || f.Range == "" || f.Name != strings.ToLower(f.Name) {
			t.Errorf("%s: title %q, source %q, range %q", f.Name, f.Title, f.Source, f.Range)
		}
		for _, name := range append([]string{f.Name}, f.Also...) {
			if names[name] {
				t.Errorf("%s stands twice", name)
			}
			names[name] = true
		}
		for _, input := range f.Inputs {
			if input.Meaning == "" {
				t.Errorf("%s: %s has no meaning", f.Name, input.Name)
			}
		}
	}
}

func TestAnswersCarryWhatBelongsToThem(t *testing.T) {
	asked := func(name, inputs string) formula.Answer {
		answer, err := ask(t, name, inputs)
		if err != nil {
			t.Fatal(err)
		}
		return answer
	}
	if a := asked("uia_fraction", "ph=8;temp_C=25;salinity=34"); a.Source != khoo {
		t.Errorf("salt water's source is %q", a.Source)
	}
	if a := asked("uia_concentration", "ph=8;temp_C=25;total_ammonia_mM=1"); a.Unit != "mmol/L" {
		t.Errorf("unit %q", a.Unit)
	}
	if a := asked("chloride_ratio", "fish=salmon"); a.Unit != "mg Cl per mg NO2-N" || len(a.Others) != len(Ratios)-1 || a.Others[0].Value != 10 {
		t.Errorf("%+v", a)
	}
	if a := asked("chloride_ratio", "fish=catfish"); a.Unit != "mg Cl per mg nitrite" {
		t.Errorf("%+v", a)
	}
	if a := asked("epa2013_acute_salmonid", "ph=8;temp_C=20"); len(a.Others) != 1 || !(math.Abs(a.Others[0].Value-5.615) <= 0.001) {
		t.Errorf("%+v", a.Others)
	}
	// 0.016 mol/kg, computed apart: 12 % below the plain formula's 0.0503.
	if a := asked("uia_fraction", "ph=8;temp_C=25"); len(a.Others) != 1 || !(math.Abs(a.Others[0].Value/a.Value-0.880) <= 0.005) {
		t.Errorf("%v, %+v", a.Value, a.Others)
	}
	if a := asked("co2_concentration", "ph=7;temp_C=25;alkalinity_mg_L=100"); len(a.Others) != 1 || !(math.Abs(a.Others[0].Value/a.Value-0.876) <= 0.005) {
		t.Errorf("%v, %+v", a.Value, a.Others)
	}
	if limitInput.Default != quantity.Show(float64(HarmfulUnionized), 1) {
		t.Errorf("default limit %s", limitInput.Default)
	}
	if a := asked("chlorine_after_top_up", "tap_mg_L=1;fraction=0.1"); a.Others[0].Value != 0.05 {
		t.Errorf("%+v", a.Others)
	}
	if a := asked("dose_conversion", "per=acre-foot"); a.Unit != "lb" {
		t.Errorf("unit %q", a.Unit)
	}
	for inputs, more := range map[string]float64{"fish=catfish;nitrite_mg_n_per_l=0.5;chloride_mg_per_l=20": 80, "fish=catfish;nitrite_mg_n_per_l=0.5;chloride_mg_per_l=120": 0} {
		if a := asked("chloride_for_fish", inputs); len(a.Others) != 1 || a.Others[0].Value != more || a.Others[0].Unit != "mg/L" {
			t.Errorf("%s: %+v", inputs, a.Others)
		}
	}
	if a := asked("iron_dose", "interval_weeks=3"); a.Unit != "mg/L" {
		t.Errorf("unit %q", a.Unit)
	}
	low, high := asked("co2_factor", "ph=8.4;temp_C=20"), asked("co2_factor", "ph=8.5;temp_C=20")
	if len(high.Cautions) != len(low.Cautions)+1 {
		t.Errorf("no caution above pH 8.4: %v", high.Cautions)
	}
	if a := asked("base_per_tan", "base=KOH;tan_g=1"); !strings.Contains(strings.Join(a.Cautions, " "), burns) {
		t.Errorf("lye without a caution: %v", a.Cautions)
	}
}

func TestFormulasRefuse(t *testing.T) {
	for _, c := range [][2]string{
		{"uia_fraction", "ph=8"}, {"uia_fraction", "ph=8;temp_C=20;colour=3"}, {"base_per_tan", "base=HCl;tan_g=1"}, {"chloride_ratio", "fish=koi"},
		{"chloride_for_fish", "fish=koi;nitrite_mg_N_L=1"}, {"dose_conversion", "per=bucket"}, {"do_saturation", "temp_C=20"},
		{"do_percent", "do_mg_L=5;temp_C=20"}, {"do_saturation", "temp_C=20;elevation_m=9000"}, {"do_percent", "do_mg_L=5;temp_C=20;elevation_m=9000"},
		{"do_from_percent", "percent=50;temp_C=20;elevation_m=9000"}, {"ammonia_safety", "tan_mg_L=1;ph=8;temp_C=99"},
		{"epa2013_chronic", "ph=5;temp_C=20"}, {"epa2013_4day", "ph=5;temp_C=20"}, {"base_plan_days", "base=HCl;volume_L=1;ph=7;temp_C=20;alkalinity_mg_L=1;tan_mg_L=1;wanted_mg_per_l=1"},
		{"tolerance_range", "organism=plants;parameter=nitrate_mg_L"}, {"iron_dose", "iron_fraction=0.1"},
	} {
		if answer, err := ask(t, c[0], c[1]); err == nil {
			t.Errorf("%s %s gives %+v", c[0], c[1], answer)
		}
	}
}

package quantity

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// One line an example: formula, inputs, answer. The answers follow from the
// tests of the functions.
const examples = `
unit_no3n_from_no3 | no3_mg_l=62.004 | 14.007
unit_no3_from_no3n | no3n_mg_l=14.007 | 62.004
unit_no2n_from_no2 | no2_mg_l=46.005 | 14.007
unit_no2_from_no2n | no2n_mg_l=14.007 | 46.005
unit_nh3n_from_nh3 | nh3_mg_l=17.031 | 14.007
unit_nh3_from_nh3n | nh3n_mg_l=14.007 | 17.031
unit_nh4n_from_nh4 | nh4_mg_l=18.039 | 14.007
unit_nh4_from_nh4n | value=14.007 | 18.039
unit_caco3_from_dkh | dkh=10 | 178.4796
unit_dkh_from_caco3 | caco3_mg_L=178.4796 | 10
unit_caco3_from_meq | meq_L=2 | 100.086
unit_meq_from_caco3 | caco3_mg_l=100.086 | 2
unit_caco3_from_dgh | dgh=10 | 178.4796
unit_dgh_from_caco3 | caco3_mg_l=178.4796 | 10
unit_celsius_from_fahrenheit | temperature_fahrenheit=212 | 100
unit_fahrenheit_from_celsius | temperature_celsius=100 | 212
unit_convert | value=10;from=gal;to=L | 37.85412
reading_canonical | quantity=nitrate;value=62.004;unit=mg/L as NO3 | 14.007
reading_canonical | quantity=air_temperature;value=-40;unit=degF | -40
reading_canonical | quantity=hardness;value=1000;unit=ug/L as CaCO3 | 1
reading_canonical | quantity=flow;value=5;unit=gpm | 1135.624
photon_flux_from_lux | lux=54000;lamp=sun | 1000
photon_flux_from_lux | lux=0;lamp=sun | 0
photon_flux_from_lux | lux=246000;lamp=sodium | 3000
salinity_from_specific_gravity | specific_gravity=1.026373;temperature_celsius=25 | 35.00006
salinity_from_specific_gravity | specific_gravity=1;temperature_celsius=40 | 0
specific_gravity_from_salinity | salinity_g_per_kg=35;temperature_celsius=25 | 1.026373
sea_water_density | salinity_g_per_kg=35;temperature_celsius=25 | 1023.343
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
		if !seen[f.Name] {
			t.Errorf("%s has no example", f.Name)
		}
	}
}

func said(a formula.Answer) string {
	switch {
	case a.Low == a.Low:
		return Show(a.Low, 7) + " to " + Show(a.High, 7)
	case a.Text != "":
		return a.Text
	default:
		return Show(a.Value, 7)
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
	return err == nil && math.Abs(a.Value-v) <= math.Max(1e-9, 2e-6*math.Abs(v))
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
		var wrong *RangeError
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

func TestMostTyped(t *testing.T) {
	f := &Formulas[0]
	var wrong *RangeError
	if _, err := f.Ask(map[string]string{"value": "1.001e12"}); !errors.As(err, &wrong) {
		t.Errorf("a typed slip is taken: %v", err)
	}
	if _, err := f.Ask(map[string]string{"value": "-1e12"}); err != nil {
		t.Error(err)
	}
}

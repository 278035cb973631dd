package remedy

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func TestFormulasAreDescribed(t *testing.T) {
	names := map[string]bool{}
	for _, f := range Formulas {
		if names[f.Name] || f.Title == "" || f.Source == "" || f.Range == "" {
			t.Errorf("%q: described twice or not at all", f.Name)
		}
		names[f.Name] = true
		if !slices.Contains(f.Cautions, LabelCaution) && !slices.Contains(f.Cautions, MedicineCaution) {
			t.Errorf("%s: no caution", f.Name)
		}
		for _, i := range f.Inputs {
			if i.Meaning == "" || i.Low > i.High {
				t.Errorf("%s: input %q has no meaning or a turned range", f.Name, i.Name)
			}
		}
	}
}

// Answers in other forms than the published file holds; 0 stands for none.
func TestAnswers(t *testing.T) {
	for _, q := range []struct {
		name, inputs     string
		value, low, high float64
		unit, words      string
		others           int
	}{
		{"remedy_judgement", "substance=spinosad;dose_g=10;active_fraction=0.1;reaching_fraction=0.5;volume_l=1000", 10, 0, 0, "times", "The lowest LC50 we hold is 10 times this", 0},
		{"remedy_judgement", "substance=spinosad;dose_g=1;volume_m3=1", 5, 0, 0, "times", "The lowest LC50 we hold is 5.0 times this", 0},
		{"remedy_judgement", "substance=spinosad;dose_g=1;volume_gal=264.172052358", 5, 0, 0, "times", "The lowest LC50 we hold is 5.0 times this", 0},
		{"remedy_judgement", "substance=neem oil;dose_ml=12;volume_l=1000", 10, 0, 0, "times", "The lowest LC50 we hold is 10 times this", 0},
		{"remedy_judgement", "substance=copper;dose_g=0.1;volume_l=1000;alkalinity=127", 9.5, 0, 0, "times", "alkalinity 127", 0},
		{"remedy_judgement", "substance=kelp;dose_g=1;volume_l=1000", 0, 0, 0, "times", "Not known", 0},
		{"remedy_dilution", "dose_g=2;volume_l=1000", 2, 0, 0, "mg/L", "", 0},
		{"remedy_dilution", "dose_ml=2;volume_l=1000", 2, 0, 0, "uL/L", "", 0},
		{"remedy_register", "substance=vinegar", 0, 0, 0, "", "Fish: not known in our table; lowers pH", 0},
		{"dose_mass", "dose_mg_L=2;volume_l=4800;active_fraction=0.07", 137.142857, 0, 0, "g", "", 2},
		{"lc50_formalin", "species=rainbow trout", 0, 100, 1230, "uL/L", "", 2},
		{"lc50_copper", "species=blue tilapia", 0, 0.18, 43.06, "mg/L", "", 4},
		{"lc50_copper", "alkalinity=16", 0, 0.05, 0.18, "mg/L", "", 2},
		{"lc50_sulfur", "", 180, 0, 0, "mg/L", "more than this", 0},
		{"formalin_short_bath", "T_C<=20", 250, 0, 0, "mg/L", "all fish, up to 60 min", 1},
		{"formalin_short_bath", "water_celsius=<=21", 250, 0, 0, "mg/L", "all fish, up to 60 min", 1},
		{"formalin_short_bath", "water_celsius=>21", 150, 0, 0, "mg/L", "all fish, up to 60 min", 1},
		{"formalin_short_bath_warm", "", 150, 0, 0, "mg/L", "all fish, up to 60 min", 1},
		{"formalin_bath_trout_salmon", "", 170, 0, 0, "uL/L", "trout and salmon, up to 60 min", 1},
		{"formalin_bath_trout_salmon", "T_C=<10", 250, 0, 0, "uL/L", "trout and salmon, up to 60 min", 1},
		{"formalin_bath_other_finfish", "", 250, 0, 0, "uL/L", "other finfish, up to 60 min", 1},
		{"formalin_bath_salmonids_hatchery", "", 167, 0, 0, "uL/L", "salmonids, up to 60 min", 1},
		{"formalin_bath_catfish_hatchery", "", 167, 0, 0, "uL/L", "channel catfish, up to 60 min", 1},
		{"hydrogen_peroxide_bath", "", 50, 0, 0, "uL/L", "northern pike fingerling, white sucker/yellow perch/fathead fry, up to 60 min", 3},
		{"permanganate_bath", "", 2, 0, 0, "mg/L", "any fish, indefinite, no end printed", 1},
		{"salt_bath", "", 0, 1, 2, "g/L", "transport, no end printed", 3},
		{"copper_sulfate_mass", "dose_mg_l=1;volume_l=453592.37;copper_fraction=0.5", 2, 0, 0, "lb", "", 0},
		{"copper_in_sulfate", "sulfate_mg_l=2", 0.509, 0, 0, "mg/L Cu", "", 0},
		{"withdrawal_days", "drug=ormetoprim", 42, 0, 0, "days", "", 0},
	} {
		answer, err := ask(t, q.name, q.inputs)
		if err != nil || !same(answer.Value, q.value) || !same(answer.Low, q.low) || !same(answer.High, q.high) ||
			answer.Unit != q.unit || !strings.Contains(answer.Text, q.words) || len(answer.Others) != q.others {
			t.Errorf("%s %s: %+v %v", q.name, q.inputs, answer, err)
		}
	}
}

func same(got, want float64) bool {
	return math.Abs(got-want) < 1e-6 || (math.IsNaN(got) && want == 0)
}

// Doses are given in the units of the scale at hand.
func TestDoseMassInOtherUnits(t *testing.T) {
	answer, err := ask(t, "dose_mass", "dose_mg_L=1000;volume_l=453.59237")
	if err != nil || !same(answer.Others[0].Value, 1) || !same(answer.Others[1].Value, 16) {
		t.Error(answer, err)
	}
}

// The other tests stand beside a range, each with its water.
func TestOthers(t *testing.T) {
	answer, err := ask(t, "lc50_copper_sulfate", "species=silver perch")
	if err != nil || answer.Others[1].Basis != "silver perch, 96 h, 30 degC" || answer.Others[1].Value != 1.07 || answer.Others[1].Source != linPerch {
		t.Error(answer, err)
	}
}

func TestRefusals(t *testing.T) {
	for _, q := range []struct{ name, inputs, words string }{
		{"remedy_judgement", "substance=moon dust;dose_g=1;volume_l=1000", "not known"},
		{"remedy_judgement", "substance=salt;dose_g=1;volume_l=0", "water in the loop"},
		{"remedy_register", "substance=moon dust", "not known"},
		{"lc50_formalin", "", "name the species"},
		{"lc50_formalin", "species=dragon", "not known"},
		{"lc50_copper", "species=blue tilapia;alkalinity=60", "not known"},
		{"lc50_spinosad", "species=carp;hours=24", "not known"},
		{"formalin_short_bath", "", "missing"},
		{"formalin_short_bath", "T_C=warm", "not a number"},
		{"formalin_bath_salmonids_hatchery", "T_C=9", "not known"},
		{"hydrogen_peroxide_bath", "group=dragons", "not known"},
		{"withdrawal_days", "drug=aspirin", "not known"},
		{"florfenicol_depletion", "T_C=27", "not known"},
		{"florfenicol_depletion", "species=carp;T_C=25", "unknown word"},
		{"copper_sulfate_mass", "acft=0;lb_per_acft=1", "acre-feet"},
		{"copper_sulfate_rule", "alkalinity=49", "outside 50 to 250"},
	} {
		if _, err := ask(t, q.name, q.inputs); err == nil || !strings.Contains(err.Error(), q.words) {
			t.Errorf("%s %s: %v", q.name, q.inputs, err)
		}
	}
	if _, err := strictest([]Bath{{Source: "one"}}, "another", nil); err == nil {
		t.Error("a source that says nothing was answered for")
	}
}

// The bounds that formulas describe.
func TestDescribedBounds(t *testing.T) {
	for _, want := range []struct {
		formula, input string
		low, high      float64
	}{
		{"remedy_judgement", "dose_g", 0, 1e6}, {"remedy_judgement", "dose_ml", 0, 1e6}, {"remedy_judgement", "active_fraction", 0.0001, 1}, {"remedy_judgement", "reaching_fraction", 0, 1},
		{"remedy_judgement", "volume_l", 1, 1e10}, {"remedy_judgement", "alkalinity", 0, 1000}, {"dose_mass", "dose_mg_l", 0, 1e5}, {"formalin_short_bath", "water_celsius", -2, 45},
		{"copper_sulfate_rule", "alkalinity", 50, 250}, {"copper_in_sulfate", "sulfate_mg_l", 0, 1e5}, {"copper_in_sulfate", "copper_fraction", 0.0001, 1},
		{"copper_rule_margin", "alkalinity", 1, 1000}, {"copper_rule_margin", "lc50_mg_l", 0.001, 1000}, {"copper_sulfate_mass", "dose_mg_l", 0, 1e5}, {"copper_sulfate_mass", "volume_l", 1, 1e10},
		{"copper_sulfate_mass", "copper_fraction", 0.0001, 1}, {"copper_sulfate_mass", "acre_feet", 0.001, 1e4}, {"copper_sulfate_mass", "lb_per_acre_foot", 0, 1e4}, {"formalin_oxygen", "formalin_mg_l", 0, 1000},
		{"florfenicol_depletion", "water_celsius", 25, 30},
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

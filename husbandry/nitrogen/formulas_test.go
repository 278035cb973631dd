package nitrogen

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	return formulatest.Ask(t, Formulas, name, inputs)
}

// Worked by hand from the published factors; one line an example: formula,
// inputs, answer, where two numbers are the ends of a range.
const examples = `
tan_from_feed | feed_kg=1;protein_fraction=0.5 | 0.046
tan_from_feed | feed_g=2000;protein_pct=50 | 0.092
tan_from_feed_ruleofthumb | feed_kg=2 | 0.06
tan_from_feed_ruleofthumb | feed_g=500 | 0.015
fao_ammonia_from_feed | feed_g=100;protein_fraction=0.5 | 5.856
fao_ammonia_from_feed | feed_kg=1;protein_fraction=0.5 | 58.56
ammonia_nh3_as_n | ammonia_g=17.031 | 14.007
ammonia_nh3_as_n | ammonia_g=0 | 0
tan_concentration_flowthrough | feed_lb_d=20;flow_gpm=100;ammonia_factor=3 | 0.6
tan_concentration_from_load | tan_g=144;flow_litres_per_minute=10 | 10
feed_nitrogen | feed_g=1000;protein_fraction=0.32 | 51.2
nitrogen_retention | fish_gain_n_g=14;feed_n_g=56 | 0.25
nitrogen_retention | fish_gain_n_g=-1;feed_n_g=10 | -0.1
solids_from_feed | feed_g=1000 | 250
nitrogen_in_mass | mass_g=200;nitrogen_fraction=0.04 | 8
nitrification_oxygen | tan_g=10 | 45.7
nitrification_oxygen | tan_g=10;basis=overall reaction | 43.4
nitrification_oxygen | tan_g=10;basis=Ebeling et al. 2006 | 41.8
nitrification_alkalinity | tan_g=10 | 71.4
nitrification_alkalinity | tan_g=10;basis=EPA 1975 with cells | 70.7
nitrification_alkalinity | tan_g=10;basis=Ebeling et al. 2006 | 70.5
nitrification_nitrate | tan_g=10 | 44.2
nitrification_nitrate | tan_g=10;basis=Ebeling et al. 2006 | 43.2
nitrification_co2 | tan_g=10 | 59.3
nitrification_co2 | tan_g=10;basis=Ebeling et al. 2006 | 58.5
nitrification_cells | tan_g=10 | 1.7
nitrification_cells | tan_g=10;basis=Ebeling et al. 2006 | 2.0
nitrification_alkalinity_range | tan_g=10 | 63 74
fao_biofilter_area | ammonia_g_d=5.7 | 10
fao_biofilter_area | ammonia_g_d=6;rate_g_m2_d=2 | 3
biofilter_area | tan_g=5.6 | 10
biofilter_area | tan_g=6;rate_g_m2_d=3 | 2
fao_biofilter_volume | area_m2=3;ssa_m2_m3=300 | 10
media_surface | volume_litres=10;ssa_m2_m3=300 | 3
media_specific_surface | media=volcanic tuff | 300
media_specific_surface | media=expanded clay | 275
media_specific_surface | media=bio-balls | 600
media_specific_surface | media=moving bed | 500
media_specific_surface | media=pea gravel | 295
biofilter_temperature_factor | temperature_celsius=25 | 1
biofilter_temperature_factor | temperature_celsius=10 | 0.6382978723404256
biofilter_age_factor | age_days=7 | 0.2
biofilter_age_factor | age_days=35 | 1
biofilter_age_factor | age_days=400 | 1
biofilter_capacity | area_m2=10;rate_g_m2_d=0.5;temperature_celsius=10;age_days=7 | 0.6382978723404256
biofilter_capacity | area_m2=10;temperature_celsius=25;age_days=35 | 5.6
plant_area_from_feed | feed_g_d=600;ratio_g_m2_d=60 | 10
feed_from_plant_area | area_m2=10;ratio_g_m2_d=60 | 600
feeding_rate_ratio_range | system=raft | 60 100
feeding_rate_ratio_range | system=NFT | 15 25
feeding_rate_ratio_range | crop=leafy | 40 50
feeding_rate_ratio_range | crop=fruiting | 50 80
feeding_rate_ratio_range | crop=lettuce | 57 57
plants_per_square_metre | crop=leafy | 20 25
plants_per_square_metre | crop=fruiting | 4 8
plant_nitrogen_uptake | area_m2=10;crop=leafy | 3.1 6.6
plant_nitrogen_uptake | area_m2=10;crop=herb | 2.2 3.3
plant_nitrogen_uptake | area_m2=10;crop=fruiting | 2.7 5.5
harvest_nitrogen | fresh_g=1000;dry_fraction=0.05;nitrogen_fraction=0.04 | 2
raft_tan_removal | area_m2=10 | 5.6
raft_tan_removal | | 0.56
raft_removal | area_m2=10;substance=NH3-N | 5.6
raft_removal | substance=NO2-N | 0.62
raft_removal | substance=COD | 30.3
raft_removal | substance=total N | 0.83
raft_removal | substance=total P | 0.17
dissolved_nitrogen | volume_litres=1000;ammonia_mg_l=1;nitrite_mg_l=2;nitrate_mg_l=30 | 33
nitrogen_amount | mass_g=100;mass_error_g=30;nitrogen_fraction=0.1;nitrogen_fraction_error=0.04 | 10
denitrification_left | tan_g=10;plants_g=3;water_out_g=1;stored_change_g=2 | 4
nitrogen_budget | feed_g=100;fish_gain_g=30;plants_g=20;stored_change_g=-5;water_out_g=4;solids_g=10;water_in_g=1 | 42
`

func TestWorkedByHand(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSpace(examples), "\n") {
		fields := strings.Split(line, "|")
		name, want := strings.TrimSpace(fields[0]), strings.Fields(fields[2])
		a, err := ask(t, name, strings.TrimSpace(fields[1]))
		switch {
		case err != nil:
			t.Errorf("%s: %v", line, err)
		case len(want) == 2 && !(near(a.Low, want[0], 0) && near(a.High, want[1], 0)):
			t.Errorf("%s: got %v to %v", line, a.Low, a.High)
		case len(want) == 1 && !near(a.Value, want[0], 0):
			t.Errorf("%s: got %v", line, a.Value)
		}
	}
}

// The bounds of every input, pinned apart from the code: formula, other
// inputs, input, lowest, highest.
const bounds = `
tan_from_feed | protein_fraction=0.3 | feed_kg | 0 1e6
tan_from_feed | feed_kg=1 | protein_fraction | 0.1 0.7
tan_from_feed_ruleofthumb | | feed_kg | 0 1e6
fao_ammonia_from_feed | protein_fraction=0.3 | feed_g | 0 1e9
fao_ammonia_from_feed | feed_g=1 | protein_fraction | 0.1 0.7
ammonia_nh3_as_n | | ammonia_g | 0 1e9
tan_concentration_flowthrough | flow_gpm=200;ammonia_factor=3 | feed_lb_d | 0 1e6
tan_concentration_flowthrough | feed_lb_d=10;ammonia_factor=3 | flow_gpm | 0.001 1e6
tan_concentration_flowthrough | feed_lb_d=10;flow_gpm=200 | ammonia_factor | 0.5 10
tan_concentration_from_load | flow_litres_per_minute=10 | tan_g | 0 1e9
tan_concentration_from_load | tan_g=10 | flow_litres_per_minute | 0.001 1e6
feed_nitrogen | protein_fraction=0.3 | feed_g | 0 1e9
feed_nitrogen | feed_g=1 | protein_fraction | 0.1 0.7
nitrogen_retention | feed_n_g=10 | fish_gain_n_g | -1e9 1e9
nitrogen_retention | fish_gain_n_g=10 | feed_n_g | 1e-6 1e9
solids_from_feed | | feed_g | 0 1e9
nitrogen_in_mass | nitrogen_fraction=0.1 | mass_g | 0 1e9
nitrogen_in_mass | mass_g=1 | nitrogen_fraction | 0 1
nitrification_oxygen | | tan_g | 0 1e9
nitrification_alkalinity | | tan_g | 0 1e9
nitrification_nitrate | | tan_g | 0 1e9
nitrification_co2 | | tan_g | 0 1e9
nitrification_cells | | tan_g | 0 1e9
nitrification_alkalinity_range | | tan_g | 0 1e9
fao_biofilter_area | rate_g_m2_d=0.5 | ammonia_g_d | 0 1e9
fao_biofilter_area | ammonia_g_d=1 | rate_g_m2_d | 0.01 5
biofilter_area | rate_g_m2_d=0.5 | tan_g | 0 1e9
biofilter_area | tan_g=1 | rate_g_m2_d | 0.01 5
fao_biofilter_volume | specific_surface_m2_m3=300 | area_m2 | 0 1e6
fao_biofilter_volume | area_m2=1 | specific_surface_m2_m3 | 10 20000
media_surface | specific_surface_m2_m3=300 | volume_litres | 0 1e9
media_surface | volume_litres=1 | specific_surface_m2_m3 | 10 20000
biofilter_capacity | temperature_celsius=20;age_days=40 | area_m2 | 0 1e6
biofilter_capacity | area_m2=1;temperature_celsius=20;age_days=40 | rate_g_m2_d | 0.01 5
biofilter_capacity | area_m2=1;age_days=40 | temperature_celsius | 7 35
biofilter_capacity | area_m2=1;temperature_celsius=20 | age_days | 0 36500
biofilter_temperature_factor | | temperature_celsius | 7 35
biofilter_age_factor | | age_days | 0 36500
plant_area_from_feed | ratio_g_m2_d=60 | feed_g_d | 0 1e9
plant_area_from_feed | feed_g_d=60 | ratio_g_m2_d | 5 300
feed_from_plant_area | ratio_g_m2_d=60 | area_m2 | 0 1e6
feed_from_plant_area | area_m2=60 | ratio_g_m2_d | 5 300
plant_nitrogen_uptake | crop=leafy | area_m2 | 0 1e6
harvest_nitrogen | dry_fraction=0.1;nitrogen_fraction=0.1 | fresh_g | 0 1e9
harvest_nitrogen | fresh_g=1;nitrogen_fraction=0.1 | dry_fraction | 0 1
harvest_nitrogen | fresh_g=1;dry_fraction=0.1 | nitrogen_fraction | 0 1
raft_tan_removal | | area_m2 | 0 1e6
raft_removal | substance=COD | area_m2 | 0 1e6
dissolved_nitrogen | ammonia_mg_l=1;nitrite_mg_l=1;nitrate_mg_l=1 | volume_litres | 0 1e9
dissolved_nitrogen | volume_litres=1;nitrite_mg_l=1;nitrate_mg_l=1 | ammonia_mg_l | 0 1e5
dissolved_nitrogen | volume_litres=1;ammonia_mg_l=1;nitrate_mg_l=1 | nitrite_mg_l | 0 1e5
dissolved_nitrogen | volume_litres=1;ammonia_mg_l=1;nitrite_mg_l=1 | nitrate_mg_l | 0 1e5
nitrogen_amount | nitrogen_fraction=0.1 | mass_g | -1e9 1e9
nitrogen_amount | mass_g=1;nitrogen_fraction=0.1 | mass_error_g | 0 1e9
nitrogen_amount | mass_g=1 | nitrogen_fraction | 0 1
nitrogen_amount | mass_g=1;nitrogen_fraction=0.1 | nitrogen_fraction_error | 0 1
denitrification_left | plants_g=1;water_out_g=1;stored_change_g=1 | tan_g | -1e9 1e9
denitrification_left | tan_g=1;water_out_g=1;stored_change_g=1 | plants_g | -1e9 1e9
denitrification_left | tan_g=1;plants_g=1;stored_change_g=1 | water_out_g | -1e9 1e9
denitrification_left | tan_g=1;plants_g=1;water_out_g=1 | stored_change_g | -1e9 1e9
nitrogen_budget | | feed_g | -1e9 1e9
nitrogen_budget | | feed_error_g | 0 1e9
nitrogen_budget | | water_in_g | -1e9 1e9
nitrogen_budget | | water_in_error_g | 0 1e9
nitrogen_budget | | fish_gain_g | -1e9 1e9
nitrogen_budget | | fish_gain_error_g | 0 1e9
nitrogen_budget | | plants_g | -1e9 1e9
nitrogen_budget | | plants_error_g | 0 1e9
nitrogen_budget | | stored_change_g | -1e9 1e9
nitrogen_budget | | stored_change_error_g | 0 1e9
nitrogen_budget | | water_out_g | -1e9 1e9
nitrogen_budget | | water_out_error_g | 0 1e9
nitrogen_budget | | solids_g | -1e9 1e9
nitrogen_budget | | solids_error_g | 0 1e9
nitrogen_budget | | level | 0.5 0.999
`

// TestBounds takes each input to its bounds and just past them, and feeds it
// what is not a number; every input with a unit must be listed.
func TestBounds(t *testing.T) {
	listed := map[string]bool{}
	for _, line := range strings.Split(strings.TrimSpace(bounds), "\n") {
		fields := strings.Split(line, "|")
		name, others, input := strings.TrimSpace(fields[0]), strings.TrimSpace(fields[1]), strings.TrimSpace(fields[2])
		listed[name+" "+input] = true
		ends := strings.Fields(fields[3])
		low, _ := strconv.ParseFloat(ends[0], 64)
		high, _ := strconv.ParseFloat(ends[1], 64)
		at := func(v float64) error {
			_, err := ask(t, name, others+";"+input+"="+strconv.FormatFloat(v, 'g', -1, 64))
			return err
		}
		for _, v := range []float64{low, high, low + (high-low)/3} {
			if err := at(v); err != nil {
				t.Errorf("%s: %s %v refused: %v", name, input, v, err)
			}
		}
		for _, v := range []float64{math.Nextafter(low, math.Inf(-1)), math.Nextafter(high, math.Inf(1)), math.NaN(), math.Inf(1), math.Inf(-1)} {
			var out *quantity.RangeError
			if err := at(v); !errors.As(err, &out) {
				t.Errorf("%s: %s %v gave %v, want a range error", name, input, v, err)
			}
			if a := formulatest.Worked(Formulas, name, others+";"+input+"="+strconv.FormatFloat(v, 'g', -1, 64)); !formulatest.NoNumber(a) {
				t.Errorf("%s: %s %v was refused and still answered: %+v", name, input, v, a)
			}
		}
	}
	for _, f := range Formulas {
		for _, i := range f.Inputs {
			if i.High != i.Low && !listed[f.Name+" "+i.Name] {
				t.Errorf("%s: bounds of %s are not pinned", f.Name, i.Name)
			}
		}
	}
}

// TestDeclaredBounds holds what the formulas declare against what they do.
func TestDeclaredBounds(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSpace(bounds), "\n") {
		fields := strings.Split(line, "|")
		name, input, ends := strings.TrimSpace(fields[0]), strings.TrimSpace(fields[2]), strings.Fields(fields[3])
		for _, f := range Formulas {
			for _, i := range f.Inputs {
				if f.Name == name && i.Name == input && !(near(i.Low, ends[0], 0) && near(i.High, ends[1], 0)) {
					t.Errorf("%s declares %s from %v to %v, want %v", name, input, i.Low, i.High, ends)
				}
			}
		}
	}
}

func TestFormulasAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Formulas {
		if seen[f.Name] || f.Title == "" || f.Source == "" || f.Range == "" || f.Work == nil {
			t.Errorf("%s is listed twice or lacks words", f.Name)
		}
		seen[f.Name] = true
		for _, i := range f.Inputs {
			if i.Name == "" || i.Meaning == "" {
				t.Errorf("%s has an input without words", f.Name)
			}
		}
	}
}

func TestOtherBasesAreNamed(t *testing.T) {
	a, err := ask(t, "tan_from_feed", "feed_kg=1;protein_fraction=0.5")
	if err != nil || len(a.Others) != 2 || a.Others[0].Value != 0.03 || !near(a.Others[1].Value, "58.56", 0) {
		t.Errorf("tan_from_feed: %+v, %v", a.Others, err)
	}
	a, err = ask(t, "nitrification_oxygen", "tan_g=1")
	if err != nil || len(a.Others) != 2 || a.Others[0].Value != 4.34 || a.Others[1].Value != 4.18 {
		t.Errorf("nitrification_oxygen: %+v, %v", a.Others, err)
	}
	if a, _ := ask(t, "tan_from_feed", "feed_kg=-1;protein_fraction=0.5"); len(a.Others) != 0 {
		t.Errorf("other bases for impossible feed: %+v", a.Others)
	}
	if a, _ := ask(t, "tan_from_feed", "feed_kg=1;protein_fraction=5"); len(a.Others) != 0 {
		t.Errorf("other bases for impossible protein: %+v", a.Others)
	}
}

func TestUnstatedFiguresAreRefused(t *testing.T) {
	var missing *NotStatedError
	_, err := ask(t, "nitrification_co2", "tan_g=1;basis=overall reaction")
	if !errors.As(err, &missing) || err.Error() != "overall reaction states no figure for carbon dioxide" {
		t.Errorf("got %v", err)
	}
	_, err = ask(t, "nitrification_oxygen", "tan_g=1;basis=EPA 1975 with cells")
	if !errors.As(err, &missing) {
		t.Errorf("got %v", err)
	}
	if cells, err := OverallReaction.CellsMade(1); cells != 0 || err == nil {
		t.Errorf("unstated cells are %v, %v", cells, err)
	}
}

func TestUnknownNames(t *testing.T) {
	_, err := MediaByName("marbles")
	if err == nil || err.Error() != "no filter media called marbles is known" {
		t.Errorf("media: %v", err)
	}
	if _, err := RatioFor("raft", "leafy"); err == nil {
		t.Error("a ratio nobody published was found")
	}
	if class, err := CropClassByName("moss"); class != 0 || err == nil {
		t.Error("moss is a crop class")
	}
	if _, err := SpacingFor(Herb); err == nil {
		t.Error("herbs have a published spacing")
	}
	if gold, err := RaftRemoval(1, "gold"); gold != 0 || err == nil {
		t.Error("rafts remove gold")
	}
	for _, class := range []CropClass{-1, 3} {
		if low, high, err := PlantUptake(1, class); low != 0 || high != 0 || err == nil || class.String() != "unknown" {
			t.Errorf("crop class %d is known", class)
		}
	}
	if Leafy.String() != "leafy" || Herb.String() != "herb" || Fruiting.String() != "fruiting" {
		t.Error("crop classes have lost their names")
	}
}

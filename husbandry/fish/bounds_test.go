package fish

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
	"freshet.example/husbandry/quantity"
)

// The bounds of every input, pinned apart from the code: formula, other
// inputs, input, lowest, highest. An end in brackets is declared but cannot be
// reached with the other inputs given.
const bounds = `
thermal_growth_coefficient_x1000 | end_g=10;temperature_celsius=10;days=10 | start_g | 0.001 100000
thermal_growth_coefficient_x1000 | start_g=10;temperature_celsius=10;days=10 | end_g | 0.001 100000
thermal_growth_coefficient_x1000 | start_g=10;temperature_celsius=10;days=10 | gain_g | [-100000] [100000]
thermal_growth_coefficient_x1000 | start_g=10;end_g=20;days=10 | temperature_celsius | [0] 45
thermal_growth_coefficient_x1000 | start_g=10;end_g=20;temperature_celsius=20 | days | 0.01 3650
thermal_growth_coefficient_x100 | end_g=10;temperature_celsius=10;days=10 | start_g | 0.001 100000
thermal_growth_coefficient_x100 | start_g=10;temperature_celsius=10;days=10 | end_g | 0.001 100000
thermal_growth_coefficient_x100 | start_g=10;temperature_celsius=10;days=10 | gain_g | [-100000] [100000]
thermal_growth_coefficient_x100 | start_g=10;end_g=20;days=10 | temperature_celsius | [0] 45
thermal_growth_coefficient_x100 | start_g=10;end_g=20;temperature_celsius=20 | days | 0.01 3650
weight_by_heat | coefficient_x1000=1;degree_days=10 | start_g | 0.001 100000
weight_by_heat | start_g=1;degree_days=10 | coefficient_x1000 | 0.01 20
weight_by_heat | start_g=1;coefficient_x1000=1 | degree_days | 0.1 200000
degree_days_of_water | days_each=10 | temperatures | 0 45
degree_days_of_water | temperatures=20 | days_each | 0.01 3650
weight_after_season | coefficient_x1000=1;temperatures=20;days_each=10 | start_g | 0.001 100000
weight_after_season | start_g=1;temperatures=20;days_each=10 | coefficient_x1000 | 0.01 20
weight_after_season | start_g=1;coefficient_x1000=1;days_each=10 | temperatures | [0] 45
weight_after_season | start_g=1;coefficient_x1000=1;temperatures=20 | days_each | 0.01 3650
growth_rate_of_season | coefficient_x1000=1;temperatures=20;days_each=10 | start_g | 0.001 [100000]
growth_rate_of_season | start_g=1;temperatures=20;days_each=10 | coefficient_x1000 | 0.01 20
growth_rate_of_season | start_g=1;coefficient_x1000=1;days_each=10 | temperatures | [0] 45
growth_rate_of_season | start_g=1;coefficient_x1000=1;temperatures=20 | days_each | 0.01 [3650]
growth_coefficient_of_heat | end_g=10;degree_days=10 | start_g | 0.001 100000
growth_coefficient_of_heat | start_g=10;degree_days=10 | end_g | 0.001 100000
growth_coefficient_of_heat | start_g=1;end_g=10 | degree_days | 0.1 200000
iwama_tautz_weight | temperature_celsius=10;days=10 | start_g | 0.001 100000
iwama_tautz_weight | start_g=1;days=10 | temperature_celsius | 0 45
iwama_tautz_weight | start_g=1;temperature_celsius=10 | days | 0.01 3650
specific_growth_rate | end_g=10;days=10 | start_g | 0.001 100000
specific_growth_rate | start_g=10;days=10 | end_g | 0.001 100000
specific_growth_rate | start_g=10;days=10 | gain_g | [-100000] [100000]
specific_growth_rate | start_g=10;end_g=20 | days | 0.01 3650
growth_rate_of_gain | days=10 | gain_fraction | -0.999 1000
growth_rate_of_gain | gain_fraction=1 | days | 0.01 3650
average_daily_gain | end_g=10;days=10 | start_g | 0.001 100000
average_daily_gain | start_g=10;days=10 | end_g | 0.001 100000
average_daily_gain | start_g=10;days=10 | gain_g | [-100000] [100000]
average_daily_gain | start_g=10;end_g=20 | days | 0.01 3650
daily_gain_of_rate | rate_percent_per_day=1;days=10 | start_g | 0.001 100000
daily_gain_of_rate | start_g=1;days=10 | rate_percent_per_day | -50 50
daily_gain_of_rate | start_g=1;rate_percent_per_day=1 | days | 0.01 3650
weight_by_rate | rate_percent_per_day=1;days=10 | start_g | 0.001 100000
weight_by_rate | start_g=1;days=10 | rate_percent_per_day | -50 50
weight_by_rate | start_g=1;rate_percent_per_day=1 | days | 0.01 3650
percent_weight_gain | end_g=10 | start_g | 0.001 100000
percent_weight_gain | start_g=10 | end_g | 0.001 100000
percent_weight_gain | start_g=10 | gain_g | [-100000] [100000]
feed_conversion_ratio | gain_g=1 | feed_g | 0 1e9
feed_conversion_ratio | feed_g=1 | gain_g | 1e-6 1e9
protein_efficiency_ratio | protein_g=1 | gain_g | -100000 100000
protein_efficiency_ratio | gain_g=1 | protein_g | 1e-6 1e9
fish_survival | counted=1 | stocked | 1 1e7
fish_survival | stocked=1 | counted | 0 1e7
growth_response | species=Nile tilapia | temperature_celsius | [0] [45]
growth_units | species=Nile tilapia | temperature_celsius | [0] [45]
fish_above_weight | target_g=10 | mean_g | 0.001 100000
fish_above_weight | mean_g=10;target_g=10 | variation | 0.001 2
fish_above_weight | mean_g=10 | target_g | 0.001 100000
fish_weight_at_share | below_fraction=0.5 | mean_g | 0.001 100000
fish_weight_at_share | mean_g=10;below_fraction=0.5 | variation | 0.001 2
fish_weight_at_share | mean_g=10 | below_fraction | 0.0001 0.9999
heat_to_weight | target_g=10;coefficient_x1000=1 | start_g | 0.001 100000
heat_to_weight | start_g=10;coefficient_x1000=1 | target_g | 0.001 100000
heat_to_weight | start_g=10;target_g=20 | coefficient_x1000 | 0.01 20
days_to_weight | target_g=10;coefficient_x1000=1;temperature_celsius=10 | start_g | 0.001 100000
days_to_weight | start_g=10;coefficient_x1000=1;temperature_celsius=10 | target_g | 0.001 100000
days_to_weight | start_g=10;target_g=20;temperature_celsius=10 | coefficient_x1000 | 0.01 20
days_to_weight | start_g=10;target_g=20;coefficient_x1000=1 | temperature_celsius | 0.1 45
days_to_weight | start_g=10;target_g=20;coefficient_x1000=1;temperature_celsius=10 | coefficient_variation | 0.001 2
days_to_weight | start_g=10;target_g=20;coefficient_x1000=1;temperature_celsius=10 | level | 0.5 0.999
von_bertalanffy_length | k=1;t0=0;t=1 | longest | 1e-6 1e7
von_bertalanffy_length | longest=1;t0=0;t=1 | k | 1e-6 100
von_bertalanffy_length | longest=1;k=1e-6;t=1 | t0 | -100000 100000
von_bertalanffy_length | longest=1;k=1e-6;t0=1 | t | -100000 100000
gompertz_weight | b=1;k=1;t=1 | a | 1e-6 1e7
gompertz_weight | a=1;k=1;t=1 | b | 1e-6 1e7
gompertz_weight | a=1;b=1;t=1 | k | 1e-6 100
gompertz_weight | a=1;b=1;k=1 | t | -100000 100000
logistic_weight | middle=1;scale=1;t=1 | asymptote | 1e-6 1e7
logistic_weight | asymptote=1;scale=1;t=1 | middle | -100000 100000
logistic_weight | asymptote=1;middle=1;t=1 | scale | 1e-6 1e7
logistic_weight | asymptote=1;middle=1;scale=1 | t | -100000 100000
fish_ration_percent | species=rainbow trout;temperature_celsius=15 | weight_g | 0.001 100000
fish_ration_percent | species=Nile tilapia;weight_g=100 | temperature_celsius | [0] [45]
fish_ration_percent | species=Nile tilapia;weight_g=100;temperature_celsius=20 | appetite | 0 1
fish_ration | species=Nile tilapia;weight_g=100;temperature_celsius=20 | fish | 0 1e7
fish_ration | species=rainbow trout;fish=1;temperature_celsius=15 | weight_g | 0.001 100000
fish_ration | species=Nile tilapia;fish=1;weight_g=100 | temperature_celsius | [0] [45]
fish_ration | species=Nile tilapia;fish=1;weight_g=100;temperature_celsius=20 | appetite | 0 1
rainbow_trout_daily_feed | length_in=4-5 | temperature_fahrenheit | [32] [113]
catfish_winter_daily_ration | | temperature_fahrenheit | [32] [113]
feed_per_fish | pct=1 | fish_g | 0.001 100000
feed_from_biomass | feed_percent=1 | biomass_kg | 0 1e6
feed_from_biomass | biomass_kg=1 | feed_percent | 0 30
haskell_ration | length_gain_in=0.01;length_in=5 | conversion | 0.1 20
haskell_ration | conversion=1;length_in=5 | length_gain_in | 0 1
haskell_ration | conversion=1;length_gain_in=0.01 | length_in | 0.1 100
oxygen_rate | | feed_percent | 0.05 30
oxygen_rate | feed_percent=1 | oxygen_g_per_kg_feed | 50 2000
oxygen_rate_at_temperature | from_celsius=10;temperature_celsius=10 | use_mg_kg_h | 10 3000
oxygen_rate_at_temperature | use_mg_kg_h=100;temperature_celsius=10 | from_celsius | 0 45
oxygen_rate_at_temperature | use_mg_kg_h=100;from_celsius=10 | temperature_celsius | 0 45
oxygen_depletion_minutes | biomass_kg=1;do_start=7;do_crit=3;use_mg_kg_h=100 | volume_litres | 1 1e8
oxygen_depletion_minutes | volume_litres=1;do_start=7;do_crit=3;use_mg_kg_h=100 | biomass_kg | 0.001 1e6
oxygen_depletion_minutes | volume_litres=1;biomass_kg=1;do_crit=3;use_mg_kg_h=100 | do_start | 0 40
oxygen_depletion_minutes | volume_litres=1;biomass_kg=1;do_start=7;use_mg_kg_h=100 | do_crit | 0 40
oxygen_depletion_minutes | volume_litres=1;biomass_kg=1;do_start=7;do_crit=3 | use_mg_kg_h | 10 3000
aeration_supply | temperature_celsius=20;do_full=9;do_held=5 | power_watts | 0 1e6
aeration_supply | power_watts=1;temperature_celsius=20;do_full=9;do_held=5 | efficiency_kg_kwh | 0.05 10
aeration_supply | power_watts=1;do_full=9;do_held=5 | temperature_celsius | 0 45
aeration_supply | power_watts=1;temperature_celsius=20;do_held=5 | do_full | 0 40
aeration_supply | power_watts=1;temperature_celsius=20;do_full=9 | do_held | 0 40
oxygen_cautious_rate | | feed_percent | 0.05 30
pump_stop_minutes | species=Nile tilapia;biomass_kg=1;do_start=7 | volume_litres | 1 1e8
pump_stop_minutes | species=Nile tilapia;volume_litres=1;do_start=7 | biomass_kg | 0.001 1e6
pump_stop_minutes | species=Nile tilapia;volume_litres=1;biomass_kg=1 | do_start | 0 40
pump_stop_minutes | species=Nile tilapia;volume_litres=1;biomass_kg=1;do_start=7 | feed_percent | 0.05 [30]
pump_stop_minutes | species=Nile tilapia;volume_litres=1;biomass_kg=1;do_start=7 | use_mg_kg_h | 10 3000
carbon_dioxide_from_oxygen | | oxygen_g | 0 1e9
tank_time_constant | loss_w_per_k=1 | volume_litres | 1 1e8
tank_time_constant | volume_litres=1 | loss_w_per_k | 0.01 1e6
tank_time_constant_from_readings | second_celsius=20;air_celsius=19;elapsed_hours=1 | first_celsius | [0] 45
tank_time_constant_from_readings | first_celsius=30;air_celsius=-5;elapsed_hours=1 | second_celsius | 0 [45]
tank_time_constant_from_readings | first_celsius=30;second_celsius=20;elapsed_hours=1 | air_celsius | -60 [60]
tank_time_constant_from_readings | first_celsius=30;second_celsius=20;air_celsius=10 | elapsed_hours | 0.01 10000
hours_to_temperature | air_celsius=10;limit_celsius=15;time_constant_hours=1 | temperature_celsius | 0 45
hours_to_temperature | temperature_celsius=20;limit_celsius=15;time_constant_hours=1 | air_celsius | -60 60
hours_to_temperature | temperature_celsius=20;air_celsius=10;time_constant_hours=1 | limit_celsius | 0 45
hours_to_temperature | temperature_celsius=20;air_celsius=10;limit_celsius=15 | time_constant_hours | 0.1 100000
hours_to_lethal | species=Nile tilapia;air_celsius=10;time_constant_hours=1 | temperature_celsius | 0 45
hours_to_lethal | species=Nile tilapia;temperature_celsius=20;time_constant_hours=1 | air_celsius | -60 60
hours_to_lethal | species=Nile tilapia;temperature_celsius=20;air_celsius=10 | time_constant_hours | 0.1 100000
stocking_limit | | tank_litres | 1 1e8
stocking_biomass | volume_m3=1 | density_kg_m3 | 0.1 300
stocking_biomass | density_kg_m3=1 | volume_m3 | 0.001 100000
loop_capacity | tank_litres=1000 | feed_percent | 0.05 30
loop_capacity | filter_surface_m2=1 | protein_fraction | 0.1 0.7
loop_capacity | alkalinity_g=1 | protein_fraction | 0.1 0.7
loop_capacity | filter_surface_m2=1 | temperature_celsius | 7 35
loop_capacity | solids_removal_g=1;density_kg_m3=1 | tank_litres | 0 1e8
loop_capacity | tank_litres=1000 | density_kg_m3 | 0.1 300
loop_capacity | solids_removal_g=1 | oxygen_g_per_hour | 0 1e6
loop_capacity | oxygen_drop_mg_l=1;solids_removal_g=1 | flow_litres_per_minute | 0 1e6
loop_capacity | flow_litres_per_minute=1;solids_removal_g=1 | oxygen_drop_mg_l | 0 40
loop_capacity | solids_removal_g=1 | filter_surface_m2 | 0 1e6
loop_capacity | filter_surface_m2=1 | filter_rate_g_m2_d | 0.01 5
loop_capacity | filter_surface_m2=1 | filter_age_days | 0 36500
loop_capacity | tank_litres=1000 | solids_removal_g | 0 1e9
loop_capacity | tank_litres=1000 | alkalinity_g | 0 1e9
loop_capacity | tank_litres=1000 | carbon_dioxide_removal_g | 0 1e9
loop_capacity | tank_litres=1000 | plant_area_m2 | 0 1e6
loop_capacity | plant_area_m2=1 | plant_ratio_g_m2_d | 5 300
flow_index | length_in=5;flow_gpm=5 | load_lb | 0 1e6
flow_index | load_lb=5;flow_gpm=5 | length_in | 0.1 100
flow_index | load_lb=5;length_in=5 | flow_gpm | 0.01 1e6
load_by_flow_index | length_in=5;flow_gpm=5 | flow_index | 0.01 10
load_by_flow_index | flow_index=1;flow_gpm=5 | length_in | 0.1 100
load_by_flow_index | flow_index=1;length_in=5 | flow_gpm | 0.01 1e6
flow_index_scaling | do_in=11;do_in_new=8;do_min=5 | flow_index | 0.01 10
flow_index_scaling | flow_index=1;do_in_new=8;do_min=5 | do_in | [0] 40
flow_index_scaling | flow_index=1;do_in=11;do_min=5 | do_in_new | 0 40
flow_index_scaling | flow_index=1;do_in=11;do_in_new=8 | do_min | 0 [40]
load_temperature_factor | delta_F=5 | load_lb | 0 1e6
load_temperature_factor | load_lb=5 | delta_F | -15 15
trout_feed_by_flow | do_in=11;do_out=5 | flow_gpm | 0.01 1e6
trout_feed_by_flow | flow_gpm=5;do_out=5 | do_in | 0 40
trout_feed_by_flow | flow_gpm=5;do_in=11 | do_out | 0 40
harvest_density | survival=0.9;weight_g=10 | stock_per_m3 | 0.1 100000
harvest_density | stock_per_m3=10;weight_g=10 | survival | 0 1
harvest_density | stock_per_m3=10;survival=0.9 | weight_g | 0.001 100000
annual_production | tank_m3=1;interval_weeks=6 | kg_per_m3 | 0.1 300
annual_production | kg_per_m3=1;interval_weeks=6 | tank_m3 | 0.001 100000
annual_production | kg_per_m3=1;tank_m3=1 | interval_weeks | 0.1 520
density_from_gallons | | lb_per_gal | 0 2
dressed_weight | yield_percent=30 | live_kg | 0 1e6
dressed_weight | live_kg=30 | yield_percent | 0 100
fish_nitrogen_percent | | crude_protein_pct | 0 100
fish_nitrogen_percent | crude_protein_pct=20 | factor | 4 8
fish_gain_nitrogen | | gain_kg | -1e6 1e6
condition_factor | length_cm=10 | weight_g | 0.001 100000
condition_factor | weight_g=10 | length_cm | 0.1 300
english_condition_factor | | k | 1e-6 1e-4
weight_from_condition | length_in=10 | c | 1e-5 1e-2
weight_from_condition | c=1e-4 | length_in | 0.1 100
weight_from_length | b=3;length_cm=10 | a | 1e-7 10
weight_from_length | a=0.01;length_cm=10 | b | 2 4
weight_from_length | a=0.01;b=3 | length_cm | 0.1 300
number_to_weigh | fish=100 | variation | 0.001 2
number_to_weigh | fish=100 | precision | 0.005 1
number_to_weigh | fish=100 | level | 0.5 0.999
number_to_weigh | | fish | 1 1e7
fish_alive | at=1;kind=counted;fish=5 | now | -1e12 1e12
`

type pinned struct {
	name, others, input string
	low, high           float64
	lowOpen, highOpen   bool // the end is reached and may be tried
}

func pins(t *testing.T) []pinned {
	t.Helper()
	var all []pinned
	for _, line := range strings.Split(strings.TrimSpace(bounds), "\n") {
		fields := strings.Split(line, "|")
		ends := strings.Fields(fields[3])
		low, errLow := strconv.ParseFloat(strings.Trim(ends[0], "[]"), 64)
		high, errHigh := strconv.ParseFloat(strings.Trim(ends[1], "[]"), 64)
		if errLow != nil || errHigh != nil {
			t.Fatalf("cannot read %s", line)
		}
		all = append(all, pinned{
			strings.TrimSpace(fields[0]), strings.TrimSpace(fields[1]), strings.TrimSpace(fields[2]),
			low, high, ends[0][0] != '[', ends[1][0] != '[',
		})
	}
	return all
}

// TestBounds takes each input to its bounds and just past them, and feeds it
// what is not a number.
func TestBounds(t *testing.T) {
	for _, p := range pins(t) {
		at := func(v float64) error {
			_, err := ask(t, p.name, p.others+";"+p.input+"="+strconv.FormatFloat(v, 'g', -1, 64))
			return err
		}
		if err := at(p.low); p.lowOpen && err != nil {
			t.Errorf("%s: %s %v refused: %v", p.name, p.input, p.low, err)
		}
		if err := at(p.high); p.highOpen && err != nil {
			t.Errorf("%s: %s %v refused: %v", p.name, p.input, p.high, err)
		}
		for _, v := range []float64{math.Nextafter(p.low, math.Inf(-1)), math.Nextafter(p.high, math.Inf(1)), math.NaN(), math.Inf(1), math.Inf(-1)} {
			var out *quantity.RangeError
			if err := at(v); !errors.As(err, &out) {
				t.Errorf("%s: %s %v gave %v, want a range error", p.name, p.input, v, err)
			}
			if a := formulatest.Worked(Formulas, p.name, p.others+";"+p.input+"="+strconv.FormatFloat(v, 'g', -1, 64)); !formulatest.NoNumber(a) {
				t.Errorf("%s: %s %v was refused and still answered: %+v", p.name, p.input, v, a)
			}
		}
	}
}

// TestDeclaredBounds holds what the formulas declare against what they do, and
// wants every bounded input pinned above.
func TestDeclaredBounds(t *testing.T) {
	listed := map[string]pinned{}
	for _, p := range pins(t) {
		listed[p.name+" "+p.input] = p
	}
	for _, f := range Formulas {
		for _, i := range f.Inputs {
			p, ok := listed[f.Name+" "+i.Name]
			if ok && (i.Low != p.low || i.High != p.high) {
				t.Errorf("%s declares %s from %v to %v, want %v to %v", f.Name, i.Name, i.Low, i.High, p.low, p.high)
			}
			if !ok && i.Low != i.High {
				t.Errorf("%s: bounds of %s are not pinned", f.Name, i.Name)
			}
		}
	}
}

package fish

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
	"freshet.example/husbandry/formula/formulatest"
)

func ask(t *testing.T, name, inputs string) (formula.Answer, error) {
	t.Helper()
	return formulatest.Ask(t, Formulas, name, inputs)
}

// Worked by hand or with an independent calculator from the published factors;
// one line an example: formula, inputs, answer; two numbers are the ends of a
// range, three the value and then its range.
const examples = `
thermal_growth_coefficient_x1000 | W0_g=1;W1_g=8;T_C=10;days=100 | 1
thermal_growth_coefficient_x1000 | W0_g=1;gain_g=7;T_F=50;days=100 | 1
thermal_growth_coefficient_x100 | W0_g=1;W1_g=8;T_C=10;days=100 | 0.1
weight_by_heat | start_g=1;coefficient_x1000=1;degree_days=1000 | 8
weight_by_heat | start_g=1;coefficient_x100=0.1;degree_days=1000 | 8
degree_days_of_water | temperatures=[10 20 30];days_each=5 | 300
weight_after_season | start_g=1;coefficient_x1000=1;temperatures=[10 10];days_each=50 | 8
growth_rate_of_season | start_g=1;coefficient_x100=0.1;temperatures=[10 10];days_each=50 | 2.0794415
growth_coefficient_of_heat | W0_g=1;W1_g=8;degree_days=500 | 2
iwama_tautz_weight | W0_g=1;T_C=10;days=100;exponent=1/3 | 8
iwama_tautz_weight | W0_g=1;T_C=10;days=100;exponent=0.3333 | 8
iwama_tautz_weight | W0_g=1;T_C=10;days=100 | 8.16981285
specific_growth_rate | W0_g=10;W1_g=20;days=10 | 6.931472
growth_rate_of_gain | gain_fraction=1;days=10 | 6.931472
average_daily_gain | W0_g=10;W1_g=30;days=10 | 2
daily_gain_of_rate | W0_g=10;SGR_pct=6.931471805599453;days=10 | 1
weight_by_rate | W0_g=10;SGR_pct=6.931471805599453;days=10 | 20
percent_weight_gain | W0_g=10;W1_g=15 | 50
feed_conversion_ratio | feed_kg=3;gain_g=2000 | 1.5
protein_efficiency_ratio | gain_g=50;protein_g=20 | 2.5
fish_survival | stocked=200;counted=150 | 75
growth_response | species=Nile tilapia;T_C=28.5 | 1
growth_response | species=Nile tilapia;T_C=17 | 0
growth_response | species=Nile tilapia;T_C=34 | 0
growth_response | species=Nile tilapia;T_C=22.75 | 0.480135125
growth_units | species=Nile tilapia;T_C=22.75 | 13.683851055
growth_response | species=rainbow trout;T_C=15 | 1
growth_response | species=channel catfish;T_C=10 | 0
fish_above_weight | mean_g=500;variation=0.25;target_g=500 | 0.45100986225
fish_above_weight | mean_g=500;target_g=600 | 0.193906409
fish_weight_at_share | mean_g=500;variation=0.25;below_fraction=0.5 | 485.07125007
fish_weight_at_share | mean_g=500;below_fraction=0.9 | 665.035406
heat_to_weight | start_g=1;target_g=8;coefficient_x1000=1 | 1000
heat_to_weight | start_g=8;target_g=1;coefficient_x1000=1 | 0
days_to_weight | start_g=1;target_g=8;coefficient_x1000=1;T_C=10;coefficient_variation=0.15;level=0.9 | 100 78.242527117 127.80773281
days_to_weight | start_g=1;target_g=8;coefficient_x1000=1;T_C=10 | 100 82.599677662 121.06584775
von_bertalanffy_length | longest=40;k=0.5;t0=0;t=2 | 25.28482
von_bertalanffy_length | longest=40;k=0.5;t0=1;t=2 | 15.738773611
gompertz_weight | A=100;B=5;K=0.1;t=10 | 15.891318918
logistic_weight | Asym=200;xmid=10;scal=5;t=10 | 100
logistic_weight | Asym=200;xmid=10;scal=5;t=15 | 146.2117
fish_ration_percent | species=Nile tilapia;weight_g=50;T_C=28 | 4
fish_ration_percent | species=Nile tilapia;weight_g=100;T_C=28;appetite=0.5 | 1.75
fish_ration_percent | species=Nile tilapia;weight_g=100;T_C=22 | 1.75
fish_ration_percent | species=Nile tilapia;weight_g=100;T_C=32 | 1.75
fish_ration_percent | species=Nile tilapia;weight_g=158.11388300841898;T_C=28 | 2.5
fish_ration_percent | species=Nile tilapia;weight_g=0.02;T_C=28 | 20
fish_ration_percent | species=Nile tilapia;weight_g=0.5;T_C=28 | 15
fish_ration_percent | species=Nile tilapia;weight_g=5;T_C=28 | 10
fish_ration_percent | species=Nile tilapia;weight_g=20;T_C=28 | 7
fish_ration_percent | species=Nile tilapia;weight_g=250;T_C=28 | 1.5
fish_ration_percent | species=Nile tilapia;weight_g=450;T_C=28 | 1
fish_ration_percent | species=Nile tilapia;weight_g=5000;T_C=28 | 1
fish_ration_percent | species=Nile tilapia;weight_g=100;T_C=16.9 | 0
fish_ration_percent | species=Nile tilapia;weight_g=100;T_C=34.1 | 0
fish_ration_percent | species=channel catfish;weight_g=0.1;T_C=27 | 10
fish_ration_percent | species=channel catfish;weight_g=4.999999999;T_C=27 | 6
fish_ration_percent | species=channel catfish;weight_g=5;T_C=27 | 5
fish_ration_percent | species=channel catfish;weight_g=99.999999999;T_C=27 | 2
fish_ration_percent | species=channel catfish;weight_g=20000;T_C=27 | 1
fish_ration_percent | species=channel catfish;weight_g=500;T_F=60 | 0.5
fish_ration_percent | species=channel catfish;weight_g=500;T_F=65 | 0.5
fish_ration_percent | species=channel catfish;weight_g=500;T_F=50 | 0.2857142857
fish_ration_percent | species=goldfish;weight_g=0.1;T_C=25 | 10
fish_ration_percent | species=goldfish;weight_g=4.999999999;T_C=25 | 5
fish_ration_percent | species=goldfish;weight_g=5;T_C=25 | 5
fish_ration_percent | species=goldfish;weight_g=49.999999999;T_C=25 | 2
fish_ration_percent | species=goldfish;weight_g=50;T_C=25 | 2
fish_ration_percent | species=koi;weight_g=20000;T_C=25 | 1
fish_ration_percent | species=rainbow trout;weight_g=4;T_F=50 | 3.4
fish_ration | species=Nile tilapia;fish=200;weight_g=100;T_C=28 | 700
rainbow_trout_daily_feed | T_F=50;length_in=4-5 | 2
rainbow_trout_daily_feed | T_C=10;length_in=4-5 | 2
rainbow_trout_daily_feed | temperature_celsius=10.2;length_in=4-5 | 2
rainbow_trout_daily_feed | T_F=67;length_in=1-2 | 8.1
rainbow_trout_daily_feed | T_F=68;length_in=1-2 | 8.4
catfish_winter_daily_ration | T_F=45 | 0.2857142857
catfish_winter_daily_ration | T_F=54.9 | 0.2857142857
catfish_winter_daily_ration | T_F=55 | 0.5
catfish_winter_daily_ration | temperature_celsius=15 | 0.5
feed_per_fish | fish_g=200;pct=1.5 | 3
feed_per_fish | fish_g=200;pct=1-2 | 2 4
feed_from_biomass | biomass_kg=10;pct=2 | 0.2
haskell_ration | conversion=1.5;length_gain_in=0.02;length_in=5 | 1.8
oxygen_rate | feed_percent=2.4;oxygen_g_per_kg_feed=300 | 300
oxygen_rate | feed_percent=2.4 | 274
oxygen_rate_at_temperature | use_mg_kg_h=100;from_celsius=15;T_C=25 | 200
oxygen_rate_at_temperature | use_mg_kg_h=100;from_celsius=25;T_C=20 | 70.71068
oxygen_depletion_minutes | volume_litres=1000;biomass_kg=10;do_start=7;do_crit=4;use_mg_kg_h=300 | 60
oxygen_depletion_minutes | volume_m3=1;biomass_kg=10;do_start=3;do_crit=4;use_mg_kg_h=300 | 0
oxygen_cautious_rate | feed_percent=1 | 253.84
oxygen_cautious_rate | feed_percent=3 | 583.491275168
pump_stop_minutes | species=Nile tilapia;volume_L=1000;biomass_kg=20;do_start=7;feed_percent=1 | 35.45541
pump_stop_minutes | species=Nile tilapia;volume_L=1000;biomass_kg=20;do_start=7;feed_percent=1;use_mg_kg_h=500 | 18
pump_stop_minutes | species=rainbow trout;volume_L=1000;biomass_kg=20;do_start=7;feed_percent=1 | 11.81847
pump_stop_minutes | species=Nile tilapia;volume_L=1000;biomass_kg=20;do_start=7 | 30.848790318
carbon_dioxide_from_oxygen | oxygen_g=2 | 2.750734421
tank_time_constant | volume_L=1000;loss_w_per_k=20 | 58.13889
tank_time_constant_from_readings | first_celsius=25;second_celsius=15;air_celsius=5;elapsed_hours=10 | 14.42695
hours_to_temperature | T_C=25;air_celsius=5;limit_celsius=15;time_constant_hours=10 | 6.931472
hours_to_temperature | T_C=15;air_celsius=35;limit_celsius=25;time_constant_hours=10 | 6.931472
hours_to_temperature | T_C=15;air_celsius=5;limit_celsius=15;time_constant_hours=10 | 0
hours_to_lethal | species=Nile tilapia;T_C=22;air_celsius=2;time_constant_hours=10 | 6.931472
hours_to_lethal | species=Nile tilapia;T_C=32;air_celsius=40;time_constant_hours=10 | 6.931472
hours_to_lethal | species=Nile tilapia;T_C=11;air_celsius=20;time_constant_hours=10 | 0
hours_to_lethal | species=Nile tilapia;T_C=37;air_celsius=20;time_constant_hours=10 | 0
stocking_limit | tank_L=500 | 10
stocking_limit | tank_L=499 | 4.99
stocking_limit | tank_L=<500 | 1
stocking_biomass | density_kg_m3=20;volume_m3=2 | 40
loop_capacity | tank_litres=1000 | 20
loop_capacity | feed_percent=1;tank_litres=1000;density_kg_m3=30 | 30
loop_capacity | feed_percent=1;oxygen_g_per_hour=10 | 42.82635
loop_capacity | feed_percent=1;flow_litres_per_minute=100;oxygen_drop_mg_l=3 | 77.08743
loop_capacity | feed_percent=1;filter_surface_m2=10 | 19.02174
loop_capacity | feed_percent=1;filter_surface_m2=10;filter_rate_g_m2_d=0.28;protein_fraction=0.64 | 4.755435
loop_capacity | feed_percent=1;filter_surface_m2=10;temperature_celsius=10;filter_age_days=7 | 2.428307
loop_capacity | feed_percent=1;solids_removal_g=100 | 40
loop_capacity | feed_percent=1;alkalinity_g=21.02016 | 10
loop_capacity | feed_percent=1;carbon_dioxide_removal_g=68.76836052 | 10
loop_capacity | feed_percent=1;carbon_dioxide_removal_g=687.6836052;alkalinity_g=21.02016 | 10
loop_capacity | feed_percent=1;carbon_dioxide_removal_g=68.76836052;alkalinity_g=210.2016 | 10
loop_capacity | feed_percent=1;carbon_dioxide_removal_g=0.6876836052 | 0.1
loop_capacity | feed_percent=1;plant_area_m2=10 | 60
loop_capacity | plant_area_m2=10;plant_ratio_g_m2_d=90 | 60
flow_index | load_lb=150;length_in=10;flow_gpm=10 | 1.5
load_by_flow_index | flow_index=1.5;length_in=10;flow_gpm=10 | 150
flow_index_scaling | flow_index=1.5;do_in=11;do_in_new=8;do_min=5 | 0.75
flow_index_scaling | flow_index=1.5;do_in=11;do_in_new=4;do_min=5 | 0
load_temperature_factor | load_lb=100;delta_F=10 | 44.4
trout_feed_by_flow | flow_gpm=100;do_in=11;do_out=5 | 32.7
trout_feed_by_flow | flow_gpm=100;do_in=5;do_out=11 | 0
harvest_density | stock_per_m3=100;survival=0.9;weight_g=500 | 45
annual_production | kg_per_m3=50;tank_m3=10;interval_weeks=26 | 1
density_from_gallons | lb_per_gal=1 | 119.82642732
density_from_gallons | | 29.95661
fish_yield | species=Nile tilapia;cut=fillet | 36.5 36.84
fish_yield | species=Nile tilapia;cut=dress-out by strain | 29.6 33.1
fish_yield | species=Nile tilapia;cut=headless carcass | 78.18 78.18
fish_yield | species=rainbow trout;cut=eviscerated | 83 83
dressed_weight | live_kg=10;yield_percent=36.5 | 3.65
fish_nitrogen_percent | crude_protein_pct=17.5 | 2.8
fish_nitrogen_percent | crude_protein_pct=10;factor=5 | 2
fish_gain_nitrogen | gain_kg=10 | 285 265 305
fish_gain_nitrogen | gain_kg=0.001 | 0.0285 0.0265 0.0305
fish_gain_nitrogen | gain_kg=-10 | -285 -305 -265
condition_factor | weight_g=100;length_cm=20 | 1.25
english_condition_factor | k=1e-5 | 3.613e-4
weight_from_condition | c=3e-4;length_in=10 | 0.3
weight_from_length | a=0.01;b=3;length_cm=10 | 10
number_to_weigh | variation=0.3;precision=0.1;level=0.95;fish=1000000 | 35
number_to_weigh | variation=0.3;precision=0.1;level=0.95;fish=100 | 26
number_to_weigh | fish=1000 | 64
number_to_weigh | variation=0.01;fish=1000 | 2
number_to_weigh | variation=0.3;fish=1 | 1
fish_alive | at=[1 2 3];kind=[counted died stocked];fish=[100 3 10];now=5 | 107
`

func TestWorkedByHand(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSpace(examples), "\n") {
		fields := strings.Split(line, "|")
		a, err := ask(t, strings.TrimSpace(fields[0]), strings.TrimSpace(fields[1]))
		if err != nil {
			t.Errorf("%s: %v", line, err)
		} else if !matches(a, strings.Fields(fields[2])) {
			t.Errorf("%s: got %v, %v to %v", line, a.Value, a.Low, a.High)
		}
	}
}

// matches holds an answer against seven figures.
func matches(a formula.Answer, want []string) bool {
	same := func(v float64, text string) bool {
		want, err := strconv.ParseFloat(text, 64)
		return err == nil && math.Abs(v-want) <= 2e-7*math.Abs(want)
	}
	switch len(want) {
	case 1:
		return same(a.Value, want[0])
	case 2:
		return same(a.Low, want[0]) && same(a.High, want[1])
	}
	return same(a.Value, want[0]) && same(a.Low, want[1]) && same(a.High, want[2])
}

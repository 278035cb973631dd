package loop

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// Every formula, asked by name with the inputs people type. The expected values
// were worked out apart from the code, from the formula its Source names.
func TestFormulas(t *testing.T) {
	asked := map[string]bool{}
	for _, q := range []struct {
		name, inputs string
		want         float64
		unit         string
	}{
		{"tank_volume_rectangular", "length_m=4;width_m=2;depth_m=0.5", 4, "m3"},
		{"tank_volume_rect", "L_ft=10;W_ft=4;D_ft=2", 80, "ft3"},
		{"tank_volume_round", "dia_m=2;d_m=1.5", 4.712388980, "m3"},
		{"pipe_volume", "D_mm=50;L_m=10", 19.63495408, "L"},
		{"pipe_volume", "id_in=2.067;L_m=1", 2.164918, "L"},
		{"retention_time", "volume_l=6000;gpm=10", 2.641720524, "h"},
		{"retention_time", "volume_gal=1000;L_min=63.0901964", 1, "h"},
		{"clarifier_flow", "volume_m3=1;retention_h=2", 8.333333333, "L/min"},
		{"turnovers_per_hour", "volume_m3=6;flow_l_per_min=200", 2, "1/h"},
		{"makeup_water", "total_volume_l=2000;pct=3", 0.06, "m3/d"},
		{"makeup_balance", "evaporation_l=10;plants_l=20;solids_l=5;exchange_l=40;rain_l=15", 60, "L/d"},
		{"makeup_balance", "", 0, "L/d"},
		{"settler_surface_loading", "L_min=372;area_m2=2", 0.0031, "m3/s/m2"},
		{"settler_surface_loading", "gpm=9.2;area_ft2=2", 0.003123809, "m3/s/m2"},
		{"settler_area", "L_min=372", 2, "m2"},
		{"settler_diameter", "L_min=372", 1.595769122, "m"},
		{"settler_flow", "area_m2=2;loading_m_s=0.0031", 372, "L/min"},
		{"outlet_flow", "D_mm=25;head_m=0.5", 55.33833, "L/min"},
		{"outlet_flow", "Cd=0.8;D_mm=25;head_m=0.5", 73.78444, "L/min"},
		{"timer_cycle", "on_min=15;off_min=45;L_min=20", 24, "1/d"},
		{"drain_down", "bed_area_m2=4;depth_m=0.25;pipes_l=30;films_l=20", 450, "L"},
		{"drain_down_margin", "tank_area_m2=2;free_height_m=0.3;drain_down_l=450", 150, "L"},
		{"drain_down_margin", "tank_area_m2=2;free_height_m=0.2;drain_down_l=450", -50, "L"},
		{"friction_hazen_williams", "L_m=20;D_mm=50;L_min=100;C=140", 0.352165, "m"},
		{"friction_trade_table", "nominal_in=2;gpm=50", 4.67, "ft"},
		{"trade_table_margin", "nominal_in=2;gpm=50", 1.17278964, "times"},
		{"friction_trade_table", "nominal_in=2;gpm=50;length_ft=10", 0.467, "ft"},
		{"friction_darcy", "Re=100000;L_m=100;D_m=0.1;v_m_s=2;roughness_mm=0.1", 4.556584, "m"},
		{"friction_darcy", "L_m=20;D_mm=50;L_min=100", 0.3186, "m"},
		{"minor_loss_k", "fitting=tee branch", 1.8, ""},
		{"fitting_loss", "K=10;L_min=117.8097245;D_mm=50", 0.509858, "m"},
		{"pipe_speed", "L_min=117.8097245;D_mm=50", 1, "m/s"},
		{"reynolds_number", "L_min=117.8097245;D_mm=50", 49800.797, ""},
		{"reynolds_number", "L_min=117.8097245;D_mm=50;nu_m2_s=1e-6", 50000, ""},
		{"inside_diameter", "nominal_in=2", 0.0525018, "m"},
		{"nominal_error", "nominal_in=2", 1.1741, ""},
		{"system_head", "L_min=117.8097245;static_m=2;L_m=20;D_mm=50;k=4", 2.62401, "m"},
		{"system_head", "L_min=117.8097245;static_m=2;L_m=20;D_mm=50", 2.42007, "m"},
		{"water_power", "L_min=60;head_m=3", 29.41995, "W"},
		{"water_power", "L_min=60;head_m=3;efficiency=0.3", 98.0665, "W"},
		{"cover_heat_loss_us", "U=0.70;A_ft2=2688;dT_F=50", 94080, "BTU/h"},
		{"cover_heat_loss_us", "U=0.70;A_ft2=2688;dT_F=50;infiltration_pct=15", 108192, "BTU/h"},
		{"water_warming_btu", "gal=300;dT_F=80", 200256, "BTU"},
		{"cover_heat_loss", "U=0.7;area_ft2=2688;inside_f=60;outside_f=10", 27572.29, "W"},
		{"cover_heat_loss", "u_w_m2_k=4;area_m2=100;inside_celsius=15;outside_celsius=-5", 8000, "W"},
		{"air_change_heat_loss", "ACH=2;volume_m3=100;inside_celsius=15;outside_celsius=-5", 1320, "W"},
		{"water_warming_energy", "kg=1000;dT=10", 11.627778, "kWh"},
		{"water_warming_time", "water_l=1000;dT_C=10;heater_w=1000", 11.627778, "h"},
		{"tank_heat_loss", "u_w_m2_k=2;area_m2=8;water_celsius=25;air_celsius=5", 320, "W"},
		{"cooling_time", "water_kg=1000;u_w_m2_k=2;area_m2=8;start_celsius=25;limit_celsius=15;air_celsius=5", 50.37311, "h"},
		{"daily_energy", "power_w=40", 0.96, "kWh"},
		{"daily_energy", "power_w=1000;hours_per_day=2", 2, "kWh"},
		{"backup_time", "battery_wh=1200;load_w=50", 10.2, "h"},
		{"backup_time", "battery_kwh=1;usable=0.8;efficiency=0.9;load_w=72", 10, "h"},
		{"battery_for", "load_w=50;hours=10.2", 1200, "Wh"},
		{"monthly_cost", "kwh_per_day=2;price_per_kwh=0.3", 18, "in the currency of the price"},
		{"monthly_cost", "kwh_per_day=2;price_per_kwh=0.3;days=31", 18.6, "in the currency of the price"},
		{"duty_point", "curve=0:4 100:0;static_m=2;L_m=1;D_m=1", 50, "L/min"},
		{"cover_u_value", "cover=glass", 6.92746, "W/m2 K"},
		{"evaporation", "area_m2=10;water_celsius=25;air_celsius=20;humidity_percent=60;air_speed_m_s=0", 55.572538, "L/d"},
		{"evaporation", "area_m2=10;water_celsius=25;air_celsius=20;humidity_percent=60", 60.455429, "L/d"},
		{"siphon_cycle", "area_m2=1;high_head_m=0.5;low_head_m=0.2;D_mm=25;L_min=10", 15.434233, "min"},
	} {
		t.Run(q.name+" "+q.inputs, func(t *testing.T) {
			asked[q.name] = true
			answer, err := ask(t, q.name, q.inputs)
			if err != nil {
				t.Fatal(err)
			}
			if !(math.Abs(answer.Value-q.want) <= 2e-4*math.Abs(q.want)+1e-9) || answer.Unit != q.unit {
				t.Errorf("got %v %s, want %v %s", answer.Value, answer.Unit, q.want, q.unit)
			}
		})
	}
	for _, f := range Formulas {
		if !asked[f.Name] && f.Name != "settler_removal" && !strings.HasPrefix(f.Name, "published_") { // single figures are asked by TestPublished
			t.Errorf("%s is not asked", f.Name)
		}
	}
}

// A formula says what it is, and its inputs are described.
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

// What can hurt carries its caution.
func TestCautions(t *testing.T) {
	for name, want := range map[string]string{
		"backup_time": ElectricityCaution, "battery_for": BackupCaution, "water_power": ElectricityCaution, "duty_point": ElectricityCaution,
		"water_warming_energy": ElectricityCaution, "drain_down": OverflowCaution, "drain_down_margin": OverflowCaution,
		"clarifier_flow": SludgePitCaution, "settler_area": SludgePitCaution, "friction_hazen_williams": OversizeCaution, "cover_heat_loss": HeatCaution,
	} {
		for _, f := range Formulas {
			if f.Name == name && !slices.Contains(f.Cautions, want) {
				t.Errorf("%s lacks its caution", name)
			}
		}
	}
}

// Answers in words, and what other bases say.
func TestAnswersBesideTheNumber(t *testing.T) {
	siphon, err := ask(t, "siphon_cycle", "area_m2=1;high_head_m=0.5;low_head_m=0.2;D_mm=25;L_min=10")
	if err != nil || siphon.Text != "fills in 12 min, drains in 3.434 min, 93.3 floods a day" {
		t.Error(siphon.Text, err)
	}
	timer, err := ask(t, "timer_cycle", "on_min=15;off_min=45;L_min=20")
	if err != nil || timer.Text != "300 L a flood" {
		t.Error(timer.Text, err)
	}
	duty, err := ask(t, "duty_point", "curve=0:4 100:0;static_m=2;L_m=1;D_m=1")
	if err != nil || duty.Text != "at a head of 2 m" {
		t.Error(duty.Text, err)
	}
	heat, err := ask(t, "cover_heat_loss", "U=0.7;area_ft2=2688;inside_f=60;outside_f=10")
	if err != nil || !(math.Abs(heat.Others[0].Value-94080) <= 1) { // calculator page citing ASAE EP406
		t.Error(heat.Others, err)
	}
	trade, err := ask(t, "friction_trade_table", "nominal_in=2;gpm=50;length_ft=100")
	if err != nil || !(math.Abs(trade.Others[0].Value-3.98) <= 0.02) { // Illinois 77/906
		t.Error(trade.Others, err)
	}
	cover, err := ask(t, "cover_u_value", "cover=double polyethylene")
	if err != nil || len(cover.Others) != 3 || cover.Others[1].Value != 0.75 {
		t.Error(cover.Others, err)
	}
	makeup, err := ask(t, "makeup_water", "system=FAO")
	if err != nil || makeup.Low != 1 || makeup.High != 3 || makeup.Unit != "% of total volume per day" {
		t.Error(makeup, err)
	}
	uvi, err := ask(t, "makeup_water", "system=UVI")
	if err != nil || uvi.Value != 1.5 || uvi.Unit != "% of total volume per day" { // 1.65 m3 a day of 110, as UVI prints
		t.Error(uvi, err)
	}
	us, err := ask(t, "settler_surface_loading", "value_gpm_ft2=147")
	if err != nil || !(math.Abs(us.Value-0.09983) <= 1e-4) {
		t.Error(us, err)
	}
}

// The bounds that formulas describe, in their own units, are those of the functions.
func TestDescribedBounds(t *testing.T) {
	for _, want := range []struct {
		formula, input string
		low, high      float64
		initial        string
	}{
		{"tank_volume_rectangular", "length_ft", 0.003280839895, 32808.39895, "-"},
		{"settler_surface_loading", "value_gpm_ft2", 0.0147254, 147.2543, "-"},
		{"friction_darcy", "reynolds", 1, 1e8, "-"},
		{"friction_darcy", "roughness_mm", 0, 10, "0.0015"},
		{"inside_diameter", "nominal_in", 0.5, 6, ""},
		{"friction_trade_table", "gpm", 1, 200, ""},
		{"trade_table_margin", "gpm", 1, 200, ""},
		{"water_warming_energy", "cp", 4.186, 4.186, "4.186"},
		{"retention_time", "volume_m3", 0.0001, 100000, ""},
	} {
		for _, f := range Formulas {
			for _, i := range f.Inputs {
				if f.Name == want.formula && i.Name == want.input &&
					(!(math.Abs(i.Low-want.low) <= 1e-5*want.low) || !(math.Abs(i.High-want.high) <= 1e-5*want.high) || i.Default != want.initial) {
					t.Errorf("%s %s: %v to %v default %q", f.Name, i.Name, i.Low, i.High, i.Default)
				}
			}
		}
	}
}

// Questions that have no answer are refused, with the reason.
func TestRefusals(t *testing.T) {
	for _, q := range []struct{ name, inputs, words string }{
		{"siphon_cycle", "area_m2=1;high_head_m=0.5;low_head_m=0.2;D_mm=25;L_min=35", "stalls"},
		{"friction_hazen_williams", "nominal_in=5.5;gpm=10;length_ft=100", "schedule 40"},
		{"friction_hazen_williams", "nominal_in=7;gpm=10;length_ft=100", "outside 0.5 to 6"},
		{"friction_hazen_williams", "gpm=10;length_ft=100", "diameter_m is missing"},
		{"friction_trade_table", "nominal_in=2;gpm=51", "no cell"},
		{"friction_trade_table", "nominal_in=0.5;gpm=10", "no cell"},
		{"friction_darcy", "L_m=1;D_m=0.1;L_min=14", "outside 5000"},
		{"friction_darcy", "L_m=1;D_m=3;L_min=14", "inside diameter"},
		{"friction_darcy", "L_m=1;D_m=0.1;v_m_s=30", "speed of water"},
		{"minor_loss_k", "fitting=funnel", "unknown word"},
		{"fitting_loss", "K=1;L_min=0;D_m=0.1", "flow"},
		{"reynolds_number", "L_min=0;D_m=0.1", "flow"},
		{"settler_diameter", "L_min=0", "flow"},
		{"settler_surface_loading", "value_gpm_ft2=148", "surface loading"},
		{"drain_down_margin", "tank_area_m2=0;free_height_m=0.3;drain_down_l=450", "area"},
		{"duty_point", "curve=0-4;static_m=2;L_m=1;D_m=1", "flow:head"},
		{"duty_point", "curve=0:x 1:2;static_m=2;L_m=1;D_m=1", "flow:head"},
		{"cover_u_value", "cover=straw", "greenhouse cover"},
		{"settler_removal", "settler=magic", "unknown word"},
		{"makeup_water", "system=none", "unknown word"},
	} {
		if _, err := ask(t, q.name, q.inputs); err == nil || !strings.Contains(err.Error(), q.words) {
			t.Errorf("%s %s: %v", q.name, q.inputs, err)
		}
	}
}

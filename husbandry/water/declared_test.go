package water

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"freshet.example/husbandry/formula"
)

// declared is in what range an input may be asked, with the rest of the question
// as it stands: what is asked at an end is answered, what is asked past it is not.
const declared = `
co2_concentration                | ph=7;temperature_celsius=20 | alkalinity_mg_per_l | 0 1e5
thiosulfate_dose                 | tap_mg_per_l=1 | volume_litres | 0 1e9
chloride_from_salt               | | salt_mg_per_l | 0 1e5
dose_for_concentration           | volume_litres=1000 | rise_mg_per_l | 0 1e5
ionic_strength_from_conductivity | | conductivity_us_per_cm | 0 6250
ionic_strength_from_salinity     | | salinity_g_per_kg | 0 45
base_for_alkalinity              | base=NaHCO3;volume_litres=1000 | rise_mg_per_l | 0 1e5
base_per_tan                     | base=KOH | tan_g | 0 1e12
alkalinity_from_base             | base=NaHCO3;dose_g=0.001 | volume_litres | 0.001 1e9
alkalinity_from_base             | base=NaHCO3;volume_litres=1e9 | dose_g | 0 1e12
ph_after_base_closed             | base=KHCO3;ph=7;temperature_celsius=20;alkalinity_mg_per_l=100 | rise_mg_per_l | 0 1000
ph_after_base_open               | base=KHCO3;ph=7;temperature_celsius=20;alkalinity_mg_per_l=100 | rise_mg_per_l | 0 1000
base_plan_days                   | base=NaHCO3;volume_litres=1000;ph=7;temperature_celsius=25;alkalinity_mg_per_l=100;tan_mg_n_per_l=3 | wanted_mg_per_l | 0 500
ph_from_co2                      | temperature_celsius=20;alkalinity_mg_per_l=100 | co2_mg_per_l | 1e-4 1e5
ph_from_co2                      | temperature_celsius=20;co2_mg_per_l=10 | alkalinity_mg_per_l | 0.1 1e5
co2_in_balance_with_air          | temperature_celsius=20 | co2_in_air_ppm | 200 10000
ph_from_inorganic_carbon         | temperature_celsius=20;alkalinity_mg_per_l=0 | carbon_mmol_per_l | 0 10000
ph_from_inorganic_carbon         | temperature_celsius=20;carbon_mmol_per_l=1000 | alkalinity_mg_per_l | 0 50000
epa2013_four_day                 | ph=7;temperature_celsius=20 | chronic_mg_n_per_l | 0 1e5
dose_days                        | volume_litres=1e9;most_mg_per_l_a_day=1e5 | dose_g | 0 1e12
dose_days                        | dose_g=0.001;most_mg_per_l_a_day=100 | volume_litres | 0.001 1e9
dose_days                        | dose_g=0.001;volume_litres=1000 | most_mg_per_l_a_day | 0.001 1e5
iron_dose                        | | interval_weeks | 2 3
iron_dose                        | volume_litres=1000 | iron_mg_per_l | 0 5
iron_dose                        | volume_litres=1000 | iron_fraction | 0.005 1
chloride_for_fish                | fish=catfish | nitrite_mg_n_per_l | 0 1e5
chloride_ratio_computed          | chloride_mg_per_l=100 | nitrite_mg_n_per_l | 0.001 1e5
chloride_needed                  | nitrite_mg_per_l=1 | ratio | 0 1000
ammonia_from_chloramine          | | chloramine_mg_per_l | 0 20
do_percent                       | temperature_celsius=20;pressure_atm=1 | do_mg_per_l | 0 100
do_from_percent                  | temperature_celsius=20;pressure_atm=1 | percent | 0 1000
`

// TestDeclaredEnds asks each at both ends and just past them, and reads what is
// told of the input.
func TestDeclaredEnds(t *testing.T) {
	for _, line := range strings.Split(strings.TrimSpace(declared), "\n") {
		fields := strings.Split(line, "|")
		name, others, input := strings.TrimSpace(fields[0]), strings.TrimSpace(fields[1]), strings.TrimSpace(fields[2])
		ends := strings.Fields(fields[3])
		low, _ := strconv.ParseFloat(ends[0], 64)
		high, _ := strconv.ParseFloat(ends[1], 64)
		at := func(v float64) error {
			_, err := ask(t, name, strings.TrimPrefix(others+";", ";")+input+"="+strconv.FormatFloat(v, 'g', -1, 64))
			return err
		}
		if d := declaredInput(name, input); d.Low != low || d.High != high {
			t.Errorf("%s tells that %s goes from %v to %v, not %v", name, input, d.Low, d.High, ends)
		}
		for _, v := range []float64{low, high} {
			if err := at(v); err != nil {
				t.Errorf("%s: %s %v is refused: %v", name, input, v, err)
			}
		}
		for _, v := range []float64{math.Nextafter(low, math.Inf(-1)), math.Nextafter(high, math.Inf(1))} {
			if err := at(v); err == nil {
				t.Errorf("%s: %s %v is answered", name, input, v)
			}
		}
	}
}

func declaredInput(name, input string) formula.Input {
	for _, f := range Formulas {
		for _, i := range f.Inputs {
			if f.Name == name && i.Name == input {
				return i
			}
		}
	}
	return formula.Input{}
}

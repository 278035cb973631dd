package husbandry

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

// edgesTested are the rooms whose own tests ask every formula beyond the ends of
// every input (formulatest.Edges), most of them lists and slow to work out.
var edgesTested = map[string]bool{"trial": true, "pool": true, "watch": true, "fit": true, "chance": true, "outlook": true}

// everyday completes the usual question where usual alone is refused.
var everyday = map[string]string{
	"crop": "tomato", "food": "snap beans", "jar": "quarts", "substance": "salt", "nutrient": "iron", "chloride_for_fish.fish": "catfish",
	"first_frost.days": "280x12", "last_frost.days": "100x12", "frost_chance_after.days": "100x12",
	"frost_free_days.last": "100x12", "frost_free_days.first": "280x12",
	"bearing_window.planted": "2026-05-01", "good_days.from": "2026-05-01", "good_days.to": "2026-06-01",
	"stands_open.today": "2026-05-01", "stands_open.first": "2026-06-01", "stands_open.last_frost": "2026-04-20", "stands_open.first_frost": "2026-10-20", "first_bearing_years.crop": "blueberry", "first_bearing_years.planted": "2026-05-01", "perennial_yield.crop": "blueberry",
	"crop_coefficient_on_day.stages": "tomato, Jan, arid region", "crop_coefficient_on_day.day": "12",
	"sowing_interval_by_heat.at_sowing": "70/50 70/50 70/50", "sowing_interval_by_heat.at_harvest": "80/60",
	"catfish_winter_daily_ration.temperature_fahrenheit": "50", "tank_time_constant_from_readings.first_celsius": "20",
	"fish_alive.at": "1 2", "fish_alive.kind": "stocked died", "fish_alive.fish": "10 1", "fish_alive.now": "3",
	"loop_capacity.tank_litres": "1000", "loop_capacity.density_kg_m3": "20",
	"duty_point.curve": "0:4.5 20:4 40:2.5", "duty_point.static_m": "3", "duty_point.diameter_m": "0.025",
	"inside_diameter.nominal_in": "2", "nominal_error.nominal_in": "2", "trade_table_margin.nominal_in": "2", "trade_table_margin.gpm": "10",
	"dried_weight.crop": "carrots", "reading_canonical.unit": "degC", "unit_convert.from": "L", "unit_convert.to": "m3",
}

// answered gives every formula of a room that some published figure asks a
// question to which there is an answer; else the usual one.
func answered(t *testing.T, room Room) map[string]map[string]string {
	t.Helper()
	questions := map[string]map[string]string{}
	for _, row := range formulatest.Rows(t, "../testdata/published/"+room.Name+".csv") {
		f, typed := formulatest.Find(room.Formulas, row.Quantity)
		if f == nil || questions[f.Name] != nil {
			continue
		}
		for name, value := range formula.Parse(row.Inputs) {
			typed[name] = value
		}
		if _, err := f.Ask(typed); err == nil {
			questions[f.Name] = typed
		}
	}
	for i := range room.Formulas {
		if f := &room.Formulas[i]; questions[f.Name] == nil && slices.ContainsFunc(f.Inputs, ranged) {
			questions[f.Name] = everydayQuestion(t, Entry{room.Name, f})
		}
	}
	return questions
}

func ranged(input formula.Input) bool { return input.Low < input.High }

func everydayQuestion(t *testing.T, entry Entry) map[string]string {
	t.Helper()
	typed := usual(entry)
	for _, input := range entry.Inputs {
		for _, name := range []string{input.Name, entry.Name + "." + input.Name} {
			if text, ok := everyday[name]; ok && len(input.Choices) == 0 {
				typed[input.Name] = text
			}
		}
	}
	if _, err := entry.Ask(typed); err != nil {
		t.Errorf("%s.%s with %v: %v", entry.Room, entry.Name, typed, err)
	}
	return typed
}

// Below, above, no number, no end: each is refused by an error that names what
// was wrong, the range, and who states it. Nothing is guessed.
func TestWhatLiesOutsideIsRefusedWithRangeAndSource(t *testing.T) {
	asked := 0
	for _, room := range Rooms() {
		if edgesTested[room.Name] {
			continue
		}
		questions := answered(t, room)
		for i := range room.Formulas {
			f := &room.Formulas[i]
			for _, input := range f.Inputs {
				if ranged(input) {
					asked += refusesOutside(t, f, input, questions[f.Name])
				}
			}
		}
	}
	if asked < 2500 {
		t.Errorf("only %d questions were asked", asked)
	}
}

func refusesOutside(t *testing.T, f *formula.Formula, input formula.Input, question map[string]string) (asked int) {
	t.Helper()
	for _, v := range []float64{input.Low - 1, input.High + max(1, math.Abs(input.High)/1e6), math.NaN(), math.Inf(1), math.Inf(-1)} {
		typed := instead(question, input, strconv.FormatFloat(v, 'g', -1, 64))
		answer, err := f.Ask(typed)
		asked++
		var outside *quantity.RangeError
		switch {
		case err == nil:
			t.Errorf("%s: %s of %g was taken: %v %v", f.Name, input.Name, v, answer.Value, answer.Text)
		case !errors.As(err, &outside) || outside.Name == "" || outside.Source == "" || outside.Low > outside.High:
			t.Errorf("%s: %s of %g is refused without a range and who states it: %v", f.Name, input.Name, v, err)
		}
	}
	return asked
}

// instead is a question with another text for one input, or for the first value
// of it where it is a list.
func instead(question map[string]string, input formula.Input, text string) map[string]string {
	typed := map[string]string{}
	for name, given := range question {
		typed[name] = given
	}
	for _, also := range input.Also {
		delete(typed, also.Name)
	}
	if strings.HasPrefix(typed[input.Name], "[") {
		_, rest, _ := strings.Cut(typed[input.Name], " ")
		text = "[" + text + " " + rest
	}
	typed[input.Name] = text
	return typed
}

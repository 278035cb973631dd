package signs

import (
	"math"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

// Records as they come in life: Look answers each, with no more than what it shows.
func TestThinAndOddRecords(t *testing.T) {
	hours := func(n int) []Hour { return make([]Hour, n) }
	series := func(n int, v func(i int) float64) []float64 {
		list := make([]float64, n)
		for i := range list {
			list[i] = v(i)
		}
		return list
	}
	none := func(int) float64 { return math.NaN() }
	for _, c := range []struct {
		name   string
		record Record
		most   int
	}{
		{"nothing at all", Record{}, 0},
		{"hours and nothing read", Record{Hours: hours(weeks)}, 0},
		{"one reading", Record{Hours: hours(1), Probe: map[quantity.Quantity][]float64{ph: {7}}}, 0},
		{"one test", Record{Hours: hours(9), Tests: map[quantity.Quantity][]Test{quantity.TotalAmmonia: {{Hour: 8, Value: 3}}}}, 0},
		{"a probe that never spoke", Record{Hours: hours(weeks), Probe: map[quantity.Quantity][]float64{oxygen: series(weeks, none), warmth: series(weeks, none)}}, 0},
		{"all censored", Record{Hours: hours(weeks), Tests: map[quantity.Quantity][]Test{quantity.Nitrite: {{Hour: 1, Value: 0.05, Below: true}, {Hour: 90, Value: 0.05, Below: true}, {Hour: 190, Value: 0.05, Below: true}, {Hour: weeks - 40, Value: 0.05, Below: true}, {Hour: weeks - 4, Value: 0.05, Below: true}}}}, 0},
		{"all equal, by hand", Record{Hours: hours(weeks), Tests: map[quantity.Quantity][]Test{quantity.Nitrate: {{Hour: 1, Value: 20}, {Hour: 90, Value: 20}, {Hour: 190, Value: 20}, {Hour: weeks - 40, Value: 20}, {Hour: weeks - 4, Value: 20}}}}, 0},
		{"all equal, by a probe", Record{Hours: hours(weeks), Probe: map[quantity.Quantity][]float64{warmth: series(weeks, func(int) float64 { return 0 })}}, 1},
		{"nothing for most of it, then one reading", Record{Hours: hours(400 * Day), Probe: map[quantity.Quantity][]float64{ph: append(series(400*Day-1, none), 7)}}, 0},
		{"outliers as large as may be", Record{Hours: hours(weeks), Probe: map[quantity.Quantity][]float64{
			oxygen: series(weeks, func(i int) float64 { return math.Pow(-1, float64(i)) * 1e150 }), warmth: series(weeks, func(i int) float64 { return float64(i%2) * 1e300 }),
		}}, 3},
		{"tests of nothing and below nothing", Record{Hours: hours(weeks), Tests: map[quantity.Quantity][]Test{quantity.Alkalinity: {{Hour: 1}, {Hour: 2, Value: -3}, {Hour: 3}, {Hour: 4}, {Hour: weeks - 1}}}}, 1},
		{"no deaths counted", Record{Hours: hours(weeks), Deaths: []Death{{Hour: weeks - 1}}}, 0},
	} {
		list, err := Look(c.record)
		if err != nil || len(list) > c.most {
			t.Errorf("%s: %v, %+v", c.name, err, list)
		}
	}
}

func TestRecordsThatCannotBe(t *testing.T) {
	day := make([]Hour, Day)
	for want, r := range map[string]Record{
		"400 days":           {Hours: make([]Hour, 400*Day+1)},
		"one for each hour":  {Hours: day, Probe: map[quantity.Quantity][]float64{ph: {7}}},
		"order of time":      {Hours: day, Tests: map[quantity.Quantity][]Test{ph: {{Hour: 3}, {Hour: 2}}}},
		"within the record":  {Hours: day, Tests: map[quantity.Quantity][]Test{ph: {{Hour: Day}}}},
		"not a number":       {Hours: day, Tests: map[quantity.Quantity][]Test{ph: {{Value: math.Inf(1)}}}},
		"none below 0":       {Hours: day, Deaths: []Death{{Count: -1}}},
		"deaths must be":     {Hours: day, Deaths: []Death{{Hour: 5}, {Hour: 4}}},
		"air pressure 2 atm": {Hours: day, Pressure: 2},
	} {
		if list, err := Look(r); err == nil || list != nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %v", want, err, list)
		}
	}
}

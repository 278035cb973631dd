package husbandry

import (
	"math"
	"os"
	"strings"
	"testing"

	"freshet.example/husbandry/crop"
	"freshet.example/husbandry/fish"
	"freshet.example/husbandry/loop"
	"freshet.example/husbandry/pool"
	"freshet.example/husbandry/quantity"
	"freshet.example/husbandry/trial"
)

// An outside function takes numbers and may refuse them, and no formula asks it.
type outside struct {
	good   []float64
	beyond []float64 // for each number, one that lies outside its range
	ask    func(x []float64) error
}

func only[T any](_ T, err error) error { return err }

var outsiders = map[string]outside{
	"crop.HourAngle": {[]float64{12, 75, 80}, []float64{24.1, -1, 361}, func(x []float64) error {
		return only(crop.HourAngle(100, quantity.Hours(x[0]), crop.Meridian{Zone: crop.Degrees(x[1]), Here: crop.Degrees(x[2])}))
	}},
	"crop.HourlyExtraterrestrialRadiation": {[]float64{40, 0.2}, []float64{91, 7.1}, func(x []float64) error {
		return only(crop.HourlyExtraterrestrialRadiation(crop.Degrees(x[0]), 100, crop.Radians(x[1])))
	}},
	"crop.HourlyNetLongwave": {[]float64{20, 1.5, 0.7}, []float64{61, -0.1, 1.1}, func(x []float64) error {
		return only(crop.HourlyNetLongwave(quantity.Celsius(x[0]), quantity.Kilopascals(x[1]), quantity.Fraction(x[2])))
	}},
	"crop.BearingWindowByHeat": {[]float64{2, 100, 20, 60}, []float64{-1, -1, 61, -1}, func(x []float64) error {
		days := []crop.Temperatures[quantity.Celsius]{{Max: quantity.Celsius(x[2]), Min: 10}, {Max: 30, Min: 20}, {Max: 60, Min: 50}, {Max: 60, Min: 50}, {Max: 60, Min: 50}}
		need := crop.DegreeDays[quantity.Celsius]{Total: quantity.Celsius(x[1]), Rule: crop.Rule[quantity.Celsius]{Method: crop.SimpleMean}}
		return only(crop.BearingWindowByHeat(crop.Planting{Crop: "tomato", Transplant: true, Area: quantity.SquareMetres(x[0])}, need, days,
			[]crop.Past{{Transplant: true, ToFirst: 60, Bearing: x[3]}}))
	}},
	"crop.GapsAndGluts": {[]float64{1}, []float64{-1}, func(x []float64) error {
		return only(crop.GapsAndGluts(nil, crop.Want{Crop: "lettuce", PerWeek: quantity.Kilograms(x[0])}, crop.Span{Last: 20}))
	}},
	"crop.SowThisWeek": {[]float64{1, 5}, []float64{-1, -1}, func(x []float64) error {
		beds := []crop.Bed{{Name: "south", Covered: true, Free: []quantity.SquareMetres{quantity.SquareMetres(x[1])}}}
		return only(crop.SowThisWeek(nil, []crop.Want{{Crop: "lettuce", PerWeek: quantity.Kilograms(x[0]), Transplant: true}}, beds, crop.Season{LastFrost: -1, FirstFrost: 1000}))
	}},
	"fish.DayOfHeat": {[]float64{20, 100}, []float64{46, 200001}, func(x []float64) error {
		_, _, err := fish.DayOfHeat([]fish.DegreeDays{fish.DegreeDays(x[0])}, fish.DegreeDays(x[1]))
		return err
	}},
	"fish.DaysToWeight": {[]float64{20, 350, 1.2, 26}, []float64{-1, -1, -1, 46}, func(x []float64) error {
		return only(fish.DaysToWeight(quantity.Grams(x[0]), quantity.Grams(x[1]), fish.TGC1000(x[2]), quantity.Celsius(x[3])))
	}},
	"fish.GrowthWithKin": {[]float64{1.2, 1.1}, []float64{21, -21}, func(x []float64) error {
		return only(fish.GrowthWithKin([]fish.TGC1000{fish.TGC1000(x[0])}, []fish.TGC1000{fish.TGC1000(x[1])}))
	}},
	"fish.HeatFan": {[]float64{20, 350, 1.2, 0.2, 0.8}, []float64{-1, -1, -1, 2.1, 1}, func(x []float64) error {
		return only(fish.HeatFan(quantity.Grams(x[0]), quantity.Grams(x[1]), fish.TGC1000(x[2]), quantity.Fraction(x[3]), quantity.Fraction(x[4])))
	}},
	"loop.HazenWilliamsUS": {[]float64{60, 0.2, 0.05, 150}, []float64{-1, -1, -1, -1}, func(x []float64) error {
		return only(loop.HazenWilliamsUS(quantity.Feet(x[0]), quantity.Feet(x[1]), loop.CubicFeetPerSecond(x[2]), x[3]))
	}},
	"loop.LaminarFactor": {[]float64{1000}, []float64{2001}, func(x []float64) error { return only(loop.LaminarFactor(x[0])) }},
	"loop.SwameeJain":    {[]float64{30000, 1e-4}, []float64{4999, 0.011}, func(x []float64) error { return only(loop.SwameeJain(x[0], x[1])) }},
	"pool.Discoveries": {[]float64{0.01, 0.1}, []float64{1.1, 0.51}, func(x []float64) error {
		return only(pool.Discoveries([]float64{0.2, x[0]}, quantity.Fraction(x[1])))
	}},
	"pool.JamesStein": {[]float64{3, 0.5}, []float64{1e151, 0}, func(x []float64) error {
		return only(pool.JamesStein([]float64{1, 2, x[0], 4, 5}, x[1]))
	}},
	"quantity.Express": {[]float64{25}, []float64{-300}, func(x []float64) error {
		return only(quantity.Express(quantity.WaterTemperature, x[0], quantity.UnitFahrenheit, quantity.NoBasis))
	}},
	"trial.Paired": {[]float64{3, 2.5, 0.95}, []float64{1e200, 1e200, 1}, func(x []float64) error {
		return only(trial.Paired([]float64{1, 2, x[0]}, []float64{1.5, 2, x[1]}, quantity.Fraction(x[2])))
	}},
}

// notWalked are the functions without a formula that this test does not ask, and why.
var notWalked = map[string]string{
	"chance.Root": "no error: takes a function", "chance.RootAbove": "no error: takes a function",
	"crop.CropNames": "no number", "crop.DayOf": "whole numbers", "crop.DayOfSeason": "whole numbers",
	"crop.Supply":           "no error: sums up",
	"fish.TroutLengthClass": "no error: places any weight in a class, after its caller has looked at it",
	"fit.LeastSquares":      "lists; fit's own tests of edges", "fit.Minimise": "no error: takes a function",
	"husbandry.Catalogue": "no number", "husbandry.Find": "no number", "husbandry.Rooms": "no number",
	"pantry.Foods":  "no number",
	"outlook.Learn": "a loop's record; outlook's own tests of bounds", "outlook.LearnKin": "a list of curves; outlook's own tests of bounds",
	"plan.HabitOf": "no number", "plan.Lay": "a season; plan's own tests of edges", "plan.Sow": "a season; plan's own tests of edges",
	"pool.Alike": "traits, of which no number means not known; pool's own tests of bounds", "pool.Distance": "traits, of which no number means not known; pool's own tests of bounds",
	"published.Bare": "reads words", "published.Columns": "reads words", "published.DisputeOf": "no error: looks a figure up", "published.Factor": "reads words",
	"published.Judge": "no error: its verdict tells", "published.ParseReference": "reads words",
	"quantity.ParseMeasure": "reads words", "quantity.ShowChange": "no error: writes words", "quantity.Units": "no number",
	"outlook.LearnStrays": "many forecasts; outlook's own tests", "outlook.WriteStrays": "a table of the program; outlook's own tests",
	"remedy.Concern": "no error: no number is not known", "remedy.Lowest": "no error: looks a test up", "remedy.Substances": "no number",
	"signs.Look": "a loop's record; signs' own tests", "watch.RunningSums": "no error: a step of cusum_up, which looks at the values",
}

// What no formula asks refuses what lies outside as well, and gives no panic for it.
func TestFunctionsWithoutFormulaRefuseWhatLiesOutside(t *testing.T) {
	for name, o := range outsiders {
		if err := o.ask(o.good); err != nil {
			t.Errorf("%s refuses %v: %v", name, o.good, err)
		}
		for i := range o.good {
			for _, v := range []float64{o.beyond[i], math.NaN(), math.Inf(1), math.Inf(-1)} {
				x := append([]float64{}, o.good...)
				x[i] = v
				if o.ask(x) == nil {
					t.Errorf("%s takes %v", name, x)
				}
			}
		}
	}
}

// Each function that has a reason to stand without a formula is asked above, or
// has a reason not to be.
func TestFunctionsWithoutFormulaAreWalked(t *testing.T) {
	text, err := os.ReadFile("../cmd/check/no_formula.txt")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]bool{}
	for line := range strings.Lines(string(text)) {
		words := strings.Fields(line)
		if len(words) == 0 || words[0] == "#" {
			continue
		}
		name := words[0]
		listed[name] = true
		_, asked := outsiders[name]
		if asked == (notWalked[name] != "") {
			t.Errorf("%s is asked: %v; reason not to: %q", name, asked, notWalked[name])
		}
	}
	for name := range outsiders {
		if !listed[name] {
			t.Errorf("%s has a formula, whose range is tried there", name)
		}
	}
	for name := range notWalked {
		if !listed[name] {
			t.Errorf("%s has a formula, or is no more: take its reason out", name)
		}
	}
}

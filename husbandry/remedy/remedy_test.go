package remedy

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

// Nothing is ever called safe or harmless: not in the register, not in a
// judgement, at whatever dilution.
func TestNothingIsCalledSafe(t *testing.T) {
	for _, s := range Substances() {
		for _, volume := range []bool{false, true} {
			for _, amount := range []float64{0, 1e-9, 1, 1e5} {
				j, err := Judge(s.Name, PerLitre{amount, volume}, Water{})
				if err != nil {
					t.Fatal(err)
				}
				words := strings.ToLower(j.Words)
				for _, banned := range []string{"safe", "harmless", "no risk", "no effect"} {
					if strings.Contains(words, banned) {
						t.Errorf("%s: %q in %q", s.Name, banned, words)
					}
				}
				if j.Known == strings.Contains(j.Words, "Not known: we hold no published lethal concentration") || j.Known == math.IsNaN(j.Margin) {
					t.Errorf("%s: %+v", s.Name, j)
				}
				if s.KeepOut != strings.HasPrefix(j.Words, "Keep it out of the loop. ") {
					t.Errorf("%s: %q", s.Name, j.Words)
				}
			}
		}
	}
}

// The register is whole: at least 25 substances, each described, each found by
// every name it has, and no name twice. Every test belongs to a substance.
func TestRegister(t *testing.T) {
	names := map[string]bool{}
	for i, s := range Substances() {
		if s.Use == "" || s.Counted == "" || s.Fish == "" || s.Filter == "" || s.Plants == "" || s.Waiting == "" {
			t.Errorf("%s is not fully described", s.Name)
		}
		for _, name := range append([]string{s.Name}, s.Also...) {
			found, err := Find(strings.ToUpper(name))
			if err != nil || found != &substances[i] || names[strings.ToLower(name)] {
				t.Errorf("%s: %v", name, err)
			}
			names[strings.ToLower(name)] = true
		}
	}
	if len(Substances()) < 25 {
		t.Error("the register is short")
	}
	for _, test := range tests {
		if s, err := Find(test.Substance); err != nil || s.Name != test.Substance || test.Source == "" || test.Low > test.High || test.Low <= 0 {
			t.Errorf("%+v: %v", test, err)
		}
	}
	var missing *NotKnownError
	if _, err := Find("moon dust"); !errors.As(err, &missing) || err.Error() != `not known: we hold no published figure for "moon dust", which is not in our register; its label and its maker know more` {
		t.Error(err)
	}
	if _, err := Find("Neem"); err == nil || !strings.Contains(err.Error(), "(near it: neem oil, azadirachtin product)") {
		t.Error(err)
	}
	if _, err := Find("Seaweed"); err == nil || !strings.Contains(err.Error(), "(near it: seaweed extract)") {
		t.Error(err)
	}
	if j, err := Judge("moon dust", PerLitre{}, Water{}); err == nil || j != (Judgement{}) {
		t.Error(j, err)
	}
}

// What should never reach the loop is marked.
func TestKeepOut(t *testing.T) {
	want := []string{"detergent", "liquid soap", "pyrethrins", "pyrethroids", "lime sulfur", "copper", "metaldehyde", "copper sulfate", "formalin",
		"potassium permanganate", "chlorine", "ammonium fertiliser", "acid", "malachite green", "rotenone", "medicated feed"}
	var got []string
	for _, s := range Substances() {
		if s.KeepOut {
			got = append(got, s.Name)
		}
	}
	if !slices.Equal(got, want) {
		t.Error(got)
	}
}

// The lowest test is the one that does not flatter: for copper the hardest water
// tested that is not harder than the loop's, over all species.
func TestLowest(t *testing.T) {
	for _, q := range []struct {
		substance  string
		volume     bool
		alkalinity quantity.AlkalinityCaCO3
		species    string
		low        float64
	}{
		{"copper", false, 0, "channel catfish", 0.05},
		{"copper", false, 10, "channel catfish", 0.05},
		{"copper", false, 16, "channel catfish", 0.05},
		{"copper", false, 60, "channel catfish", 0.05},
		{"copper", false, 76, "blue tilapia", 0.69},
		{"copper", false, 112, "channel catfish", 0.73},
		{"copper", false, 127, "channel catfish", 0.95},
		{"copper", false, 500, "channel catfish", 0.98},
		{"copper sulfate", false, 100, "silver perch", 1.07},
		{"formalin", true, 0, "striped bass", 30},
		{"formalin", false, 0, "American eel (glass eel)", 83.96},
		{"Bti", false, 0, "brown and brook trout alevins", 1561},
		{"salt", false, 0, "goldfish 39.5 g", 10.96},
		{"pyrethroids", false, 0, "six species, coho salmon to yellow perch", 0.110},
		{"neem oil", true, 0, "Tilapia mossambica", 0.12},
	} {
		got, ok := Lowest(q.substance, q.volume, Water{q.alkalinity})
		if !ok || got.Species != q.species || got.Low != q.low {
			t.Errorf("%+v: %+v", q, got)
		}
	}
	if got, ok := Lowest("neem oil", false, Water{}); ok || got != (Test{}) {
		t.Error("a dose in grams was set against millilitres", got)
	}
}

// Alkalinity that is not known, of the loop or of a test, passes nothing over.
func TestLowestWhereAlkalinityIsNotKnown(t *testing.T) {
	rows := []Test{
		{Substance: "x", Species: "fish", Hours: 96, Low: 9, High: 9, Unit: MilligramPerL, Alkalinity: 0.5},
		{Substance: "x", Species: "fish", Hours: 96, Low: 5, High: 5, Unit: MilligramPerL, Alkalinity: 100},
		{Substance: "x", Species: "fish", Hours: 96, Low: 7, High: 7, Unit: MilligramPerL},
		{Substance: "x", Species: "fish", Hours: 47, Low: 1, High: 1, Unit: MilligramPerL},
	}
	for loop, want := range map[float64]float64{0: 5, 0.4: 7, 0.7: 7, 99: 7, 100: 5} {
		if got, ok := lowest(rows, "x", false, loop); !ok || got.Low != want {
			t.Errorf("alkalinity %v: %v", loop, got)
		}
	}
	unknown := Test{Substance: "x", Species: "fish", Hours: 96, Low: 20, High: 20, Unit: MilligramPerL}
	if got, ok := lowest([]Test{rows[0], unknown}, "x", false, 0.4); !ok || got.Low != 9 {
		t.Error("unknown water is not soft water", got)
	}
	if got, ok := lowest(rows[:1], "x", false, 0); !ok || got.Low != 9 {
		t.Error(got)
	}
	if got, ok := lowest([]Test{rows[0], rows[1], {Substance: "x", Species: "fish", Hours: 48, Low: 6, High: 6}}, "x", false, 0.5); !ok || got.Low != 6 {
		t.Error(got)
	}
}

// The water of every test, again from the abstracts: alkalinity, then degC. All
// others print neither where we read them.
func TestWaterOfTests(t *testing.T) {
	want := map[string]string{
		"copper, channel catfish": "16/0 76/0 127/0 240/0", "copper, blue tilapia": "16/0 57/0 112/0 225/0",
		"copper sulfate, silver perch": "0/20 0/30", "potassium permanganate, silver perch": "0/20 0/30", "formalin, silver perch": "0/20 0/30",
		"copper sulfate, marbled eel elvers": "0/20 0/30", "potassium permanganate, marbled eel elvers": "0/20 0/30", "formalin, marbled eel elvers": "0/20 0/30",
		"pyrethrins, six species, coho salmon to yellow perch": "0/12", "pyrethroids, six species, coho salmon to yellow perch": "0/12",
		"household soap, mummichog soap L": "0/20", "household soap, mummichog soap I": "0/20",
		"detergent, silverside": "0/20", "detergent, eel": "0/20", "detergent, winter flounder": "0/20", "detergent, mullet": "0/20", "detergent, mummichog": "0/20",
		"potassium permanganate, American eel (glass eel)": "0/22", "salt, American eel (glass eel)": "0/22", "formalin, American eel (glass eel)": "0/22",
	}
	got := map[string]string{}
	for _, test := range tests {
		key, water := test.Substance+", "+test.Species, short(test.Alkalinity)+"/"+short(test.Celsius)
		got[key] = strings.TrimSpace(got[key] + " " + water)
	}
	for key, water := range got {
		known, ok := want[key]
		if ok && water != known || !ok && strings.Trim(water, "0/ ") != "" {
			t.Errorf("%s: %s", key, water)
		}
	}
}

// A spray of 5 g copper, a tenth of which drips into 1,000 L, in soft water.
func TestJudgement(t *testing.T) {
	c, err := Dilution(5, false, 0.2, 0.1, 1000)
	if err != nil || !(math.Abs(c.Amount-0.1) <= 1e-12) || c.Volume {
		t.Fatal(c, err)
	}
	j, err := Judge("Copper fungicide", c, Water{16})
	want := "Keep it out of the loop. This is 2.0 times the lowest LC50 we hold (0.05 mg/L, channel catfish, 96 h, alkalinity 16; " + catfishCopper +
		"): at or above what killed half the fish: expect deaths. Fish: kills at hundredths"
	if err != nil || !(math.Abs(j.Margin-0.5) <= 1e-12) || !strings.HasPrefix(j.Words, want) {
		t.Error(j.Words, err)
	}
	j, err = Judge("sulfur", PerLitre{1, false}, Water{})
	want = "The lowest LC50 we hold is 180 times this (more than 180 mg/L, bluegill and rainbow trout, 96 h; EXTOXNET, sulfur dust): below the US EPA's levels of concern"
	if err != nil || !strings.HasPrefix(j.Words, want) {
		t.Error(j.Words, err)
	}
	j, err = Judge("potassium permanganate", PerLitre{0, false}, Water{})
	want = "Keep it out of the loop. Nothing reaches the water by this reckoning (1.65 mg/L, marbled eel elvers, 96 h, 30 degC;"
	if err != nil || !strings.HasPrefix(j.Words, want) {
		t.Error(j.Words, err)
	}
	j, err = Judge("spinosad", PerLitre{4, false}, Water{})
	if err != nil || !strings.Contains(j.Words, "1.2 times") || !strings.Contains(j.Words, "within twofold") {
		t.Error(j.Words, err)
	}
	for _, c := range []struct { // a twentieth of the 5 mg/L that killed half the carp is where it begins
		amount  float64
		tooMuch bool
	}{{4, true}, {0.26, true}, {0.24, false}} {
		j, err = Judge("spinosad", PerLitre{c.amount, false}, Water{})
		if err != nil || strings.HasPrefix(j.Words, "Do not use so much of it over fish water. The lowest LC50") != c.tooMuch {
			t.Error(c, j.Words, err)
		}
	}
	j, err = Judge("kelp", PerLitre{1, false}, Water{})
	want = "Not known: we hold no published lethal concentration that counts extract. Fish: not known. Filter: oxygen demand, some salt. Plants: mild. Waiting: " + noLabel + "."
	if err != nil || j.Words != want {
		t.Error(j.Words, err)
	}
}

// US EPA levels of concern, concentration over LC50.
func TestConcern(t *testing.T) {
	for _, q := range []struct {
		quotient float64
		words    string
	}{
		{math.NaN(), "not known"}, {2, "at or above"}, {1, "at or above"}, {0.999, "within twofold"}, {0.5, "within twofold"}, {0.499, "within tenfold"}, {0.1, "within tenfold"},
		{0.0999, "within twentyfold"}, {0.05, "within twentyfold"}, {0.0499, "below"}, {0, "below"},
	} {
		if got := Concern(q.quotient); !strings.HasPrefix(got, q.words) {
			t.Errorf("%v: %s", q.quotient, got)
		}
	}
}

// Printed units reduce to milligrams or microlitres a litre.
func TestUnits(t *testing.T) {
	for unit, want := range map[Unit]float64{GramPerL: 2000, MilligramPerL: 2, MicrogramPerL: 0.002, MillilitrePerL: 2000, MicrolitrePerL: 2} {
		test := Test{Low: 2, High: 3, Unit: unit}
		if got := test.PerLitre(); !(math.Abs(got-want) <= 1e-12) {
			t.Errorf("%s: %v", unit, got)
		}
	}
	for _, unit := range []Unit{MillilitrePerL, MicrolitrePerL} {
		if test := (Test{Unit: unit}); !test.Volume() {
			t.Errorf("%s counts a liquid", unit)
		}
	}
	for _, unit := range []Unit{GramPerL, MilligramPerL, MicrogramPerL} {
		if test := (Test{Unit: unit}); test.Volume() {
			t.Errorf("%s counts a solid", unit)
		}
	}
}

func TestWords(t *testing.T) {
	if got := (&Test{Alkalinity: 0.5, Celsius: 0.5}).water(); got != ", alkalinity 0.5, 0.5 degC" {
		t.Error(got)
	}
	if got := (&Test{}).water(); got != "" || short(1.0/3) != "0.3333" {
		t.Error(got, short(1.0/3))
	}
	if _, err := together("x", []Test{{Unit: MilligramPerL}, {Unit: MicrolitrePerL}}); err == nil {
		t.Error("two units were put together")
	}
}

// More water dilutes, more dripping does not.
func TestDilutionProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		dose, active, reaching, loop := r.Float64()*100, quantity.Fraction(0.01+r.Float64()*0.9), quantity.Fraction(r.Float64()), quantity.Litres(100+r.Float64()*1e5)
		c, err := Dilution(dose, true, active, reaching, loop)
		twice, err2 := Dilution(dose, true, active, reaching, loop*2)
		mass, err3 := Mass(quantity.MgPerL(c.Amount), loop, active)
		if err != nil || err2 != nil || err3 != nil || !c.Volume || !(math.Abs(c.Amount-2*twice.Amount) <= 1e-9) || !(math.Abs(float64(mass)-dose*float64(reaching)) <= 1e-6) {
			t.Fatal(dose, active, reaching, loop, c, twice, mass)
		}
	}
}

// CuSO4.5H2O is 25.45 % copper.
func TestCopperShare(t *testing.T) {
	if !(math.Abs(copperShare-0.2545) <= 0.00005) {
		t.Error(copperShare)
	}
}

// Thresholds of formalin disagree by source and change with the water.
func TestFormalinBaths(t *testing.T) {
	for _, q := range []struct {
		group  string
		water  quantity.Celsius
		source string
		high   float64
		times  float64
	}{
		{"all fish", 21, ufas, 250, 60}, {"all fish", 21.01, ufas, 150, 60}, {"all fish", -2, ufas, 250, 60}, {"all fish", 45, ufas, 150, 60},
		{"trout and salmon", 9.99, fdaTable, 250, 60}, {"trout and salmon", 10, fdaTable, 170, 60}, {"trout and salmon", -2, fdaTable, 250, 60}, {"trout and salmon", 45, fdaTable, 170, 60},
		{"other finfish", 30, fdaTable, 250, 60}, {"salmonids", 10.01, hatchery, 167, 60}, {"channel catfish", 21.2, hatchery, 167, 60}, {"any fish, indefinite", 20, ufas, 25, 0},
	} {
		found, err := Baths("formalin", q.group, q.water)
		if err != nil || len(found) != 1 || found[0].Source != q.source || found[0].High != q.high || found[0].Minutes != q.times {
			t.Errorf("%+v: %+v %v", q, found, err)
		}
	}
	for _, q := range []struct {
		group string
		water quantity.Celsius
	}{{"salmonids", 10}, {"channel catfish", 21.1}, {"lampreys", 20}} {
		if _, err := Baths("formalin", q.group, q.water); err == nil {
			t.Errorf("%+v was answered", q)
		}
	}
	all, err := Baths("formalin", "", 25)
	if err != nil || len(all) != 6 {
		t.Error(all, err)
	}
}

// Other baths, as printed.
func TestOtherBaths(t *testing.T) {
	for _, q := range []struct {
		substance, group string
		low, high        float64
		unit             Unit
		minutes          float64
	}{
		{"hydrogen peroxide", "coldwater", 150, 150, MicrolitrePerL, 60}, {"hydrogen peroxide", "bluegill", 100, 100, MicrolitrePerL, 60}, {"hydrogen peroxide", "pike", 50, 50, MicrolitrePerL, 60},
		{"potassium permanganate", "", 2, 2, MilligramPerL, 0}, {"salt", "hours", 5, 10, GramPerL, 0}, {"salt", "dip", 30, 30, GramPerL, 10}, {"salt", "transport", 1, 2, GramPerL, 0},
	} {
		for _, water := range []quantity.Celsius{-2, 20, 45} {
			found, err := Baths(q.substance, q.group, water)
			if err != nil || len(found) != 1 || found[0].Low != q.low || found[0].High != q.high || found[0].Unit != q.unit || found[0].Minutes != q.minutes {
				t.Errorf("%+v: %+v %v", q, found, err)
			}
		}
	}
}

func TestWithdrawals(t *testing.T) {
	if days, err := WithdrawalDays("ormetoprim", ""); err != nil || days != 42 {
		t.Error("the longest counts where several fit", days, err)
	}
	for _, drug := range []string{"", "aspirin"} {
		if days, err := WithdrawalDays(drug, ""); err == nil || days != 0 {
			t.Error(drug, days, err)
		}
	}
	if days, err := FlorfenicolDepletion(27); err == nil || days != 0 {
		t.Error("between the trial's temperatures nothing is known", days)
	}
}

func TestDigitsOfATest(t *testing.T) {
	if got := (&Test{Alkalinity: 1.2345 + 1e-9, Celsius: 1.2345 - 1e-9}).water(); got != ", alkalinity 1.235, 1.234 degC" {
		t.Error(got)
	}
}

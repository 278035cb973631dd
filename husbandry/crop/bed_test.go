package crop

import (
	"math"
	"strings"
	"testing"

	"freshet.example/husbandry/quantity"
)

func whole(t *testing.T, name string, got int, err error, want int) {
	t.Helper()
	if err != nil || got != want {
		t.Errorf("%s: got %d, %v, want %d", name, got, err, want)
	}
}

func TestPlantsInABed(t *testing.T) {
	n, err := PlantsInRows(1.2, 40, 30)
	whole(t, "rows", n, err, 10)
	n, err = PlantsInRows(1.19, 40, 30)
	whole(t, "no part of a plant", n, err, 9)
	n, err = PlantsStaggered(3, 20)
	whole(t, "staggered: 75 squares times 1.1547", n, err, 86)
	few, many, err := PlantsFor("lettuce", 2)
	whole(t, "lettuce, few", few, err, 40)
	whole(t, "lettuce, many", many, err, 50)
	m2, err := AreaFor("lettuce", 45)
	same(t, "area for lettuce", m2, err, 2)
}

// TestRoundingForgivesDust checks that a hair of floating point neither adds nor
// takes a plant, and that more than a hair does.
func TestRoundingForgivesDust(t *testing.T) {
	for v, want := range map[float64][2]int{3: {3, 3}, 3 + 0.9e-9: {3, 3}, 3 + 1.5e-9: {3, 4}, 3 - 0.9e-9: {3, 3}, 3 - 1.5e-9: {2, 3}} {
		if roundDown(v) != want[0] || roundUp(v) != want[1] {
			t.Errorf("%v rounds to %d and %d, want %v", v, roundDown(v), roundUp(v), want)
		}
	}
}

func TestSeeds(t *testing.T) {
	n, err := SeedsNeeded(24, 0.8, 0.1)
	whole(t, "24 plants", n, err, 33)
	n, err = SeedsNeeded(10, 0.5, 0)
	whole(t, "half come up", n, err, 20)
	// The fewest seeds by summing the binomial in exact arithmetic.
	for _, c := range []struct {
		plants              int
		germination, chance quantity.Fraction
		want                int
	}{{10, 0.8, 0.9, 15}, {1, 0.5, 0.9, 4}, {24, 0.85, 0.95, 32}, {7, 1, 0.999, 7}} {
		n, err := SeedsForChance(c.plants, c.germination, c.chance)
		whole(t, "sure of it", n, err, c.want)
	}
	grams, err := SeedMass("lettuce", 1400)
	same(t, "lettuce seed", grams, err, 2)
	if _, err := SeedMass("potato", 10); err == nil {
		t.Error("potatoes have seeds in a gram")
	}
}

func TestChanceThatEnoughComeUp(t *testing.T) {
	same(t, "two of three at a half", enoughComeUp(3, 2, 0.5), nil, 0.5)
	same(t, "all of two at 0.9", enoughComeUp(2, 2, 0.9), nil, 0.81)
	same(t, "any of two at 0.9", enoughComeUp(2, 1, 0.9), nil, 0.99)
	same(t, "sure seed", enoughComeUp(5, 5, 1), nil, 1)
}

func TestFeed(t *testing.T) {
	for crop, want := range map[string]Figure{"basil": {81.4, 99.6, UVI}, "lettuce": {40, 50, FAO589Memory}, "tomato": {50, 80, FAO589Memory},
		"broccoli": {50, 80, FAO589Memory}, "fig": {50, 80, FAO589Memory}, "parsley": {40, 50, FAO589Memory}, "carrot": {40, 50, FAO589Memory}} {
		if got, err := FeedRatio(crop); err != nil || got != want {
			t.Errorf("%s lives on %v, %v", crop, got, err)
		}
	}
	low, high, err := FeedForArea("lettuce", 10)
	same(t, "least feed", low, err, 400)
	same(t, "most feed", high, err, 500)
	least, most, err := AreaForFeed("tomato", 400)
	same(t, "least area", least, err, 5)
	same(t, "most area", most, err, 8)
}

func TestLight(t *testing.T) {
	mol, err := DailyLight(20, 0.6)
	same(t, "20 MJ under a cover", mol, err, 20*0.45*4.57*0.6)
	mol, err = LampLight(200, 16)
	same(t, "lamps, 200 umol for 16 h", mol, err, 11.52)
	for crop, want := range map[string]Figure{"lettuce": {12, 17, Practice}, "basil": {12, 17, Practice}, "tomato": {20, 30, Practice},
		"fig": {20, 30, Practice}, "carrot": {15, 25, Practice}} {
		if got, err := LightNeed(crop); err != nil || got != want {
			t.Errorf("%s wants %v, %v", crop, got, err)
		}
	}
}

func TestPollination(t *testing.T) {
	for _, c := range []struct {
		crop string
		f    Flowering
		want string
	}{
		{"muskmelon", Flowering{Covered: true}, "muskmelon sets no fruit unless you pollinate by hand"},
		{"muskmelon", Flowering{Covered: true, Bees: true}, ""},
		{"muskmelon", Flowering{Covered: true, ByHand: true}, ""},
		{"muskmelon", Flowering{}, ""},
		{"sweet corn", Flowering{Covered: true, Bees: true}, "shake the sweet corn"},
		{"tomato", Flowering{Covered: true}, "tap or shake the tomato"},
		{"tomato", Flowering{Covered: true, Bees: true}, ""},
		{"sweet pepper", Flowering{Covered: true}, ""},
		{"lettuce", Flowering{Covered: true}, ""},
	} {
		got, err := PollinationWarning(c.crop, c.f)
		if err != nil || !strings.Contains(got, c.want) || (got == "") != (c.want == "") {
			t.Errorf("%s in %+v: got %q, %v", c.crop, c.f, got, err)
		}
	}
}

func TestCompanions(t *testing.T) {
	cabbage := CompanionsOf("cabbages")
	if len(cabbage) != 5 || !cabbage[0].Evidence || !cabbage[2].Evidence || cabbage[3].Evidence || cabbage[4].Evidence {
		t.Errorf("cabbage has %v", cabbage)
	}
	if len(CompanionsOf("triffid")) != 0 {
		t.Error("something is told of the triffid")
	}
	for _, c := range companions {
		if c.Evidence != strings.Contains(c.Source, "from memory") || !c.Evidence && c.Source != custom {
			t.Errorf("%s with %s: evidence %v by %q", c.Crop, c.With, c.Evidence, c.Source)
		}
	}
}

func TestDeficiencies(t *testing.T) {
	for _, c := range []struct {
		leaves LeafAge
		seen   []Sign
		want   string
	}{
		// Green, Maloy and Capizzi: the three kinds of yellowing of young leaves.
		{YoungLeaves, []Sign{VeinsStayGreen}, "iron manganese zinc"},
		{YoungLeaves, []Sign{VeinsStayGreen, DeadSpots}, "manganese"},
		{YoungLeaves, []Sign{Rosette}, "zinc"},
		// IPNI: nutrients that move show on old leaves.
		{OldLeaves, []Sign{EvenYellowing}, "nitrogen"},
		{OldLeaves, []Sign{VeinsStayGreen}, "magnesium"},
		{OldLeaves, []Sign{ScorchedEdges}, "potassium"},
		{OldLeaves, []Sign{PurpleDark}, "phosphorus"},
		{OldLeaves, []Sign{WhipTail}, "molybdenum"},
		{YoungLeaves, []Sign{DeadTip}, "boron calcium"},
		{YoungLeaves, []Sign{CurledTip}, "copper calcium"},
		{FruitOnly, []Sign{BlackFruitBottom}, "calcium"},
		{OldLeaves, []Sign{Rosette}, ""},
		{OldLeaves, nil, ""},
	} {
		names := []string{}
		for _, s := range Suspects(c.leaves, c.seen...) {
			names = append(names, s.Nutrient)
		}
		if got := strings.Join(names, " "); got != c.want {
			t.Errorf("%v on %s: got %q, want %q", c.seen, c.leaves, got, c.want)
		}
	}
	calcium, err := DeficiencySigns("Calcium")
	if err != nil || len(calcium) != 2 {
		t.Errorf("calcium shows as %v, %v", calcium, err)
	}
}

func TestFrostDates(t *testing.T) {
	// R: quantile(c(115,117,120,123,126,129,132,135,139,142,146,150,154,159,164), type = 8).
	years := []float64{164, 117, 120, 123, 126, 129, 132, 135, 139, 142, 146, 150, 154, 159, 115}
	for p, want := range map[quantity.Fraction]float64{0.05: 115.2, 0.1: 116.733333333333, 0.25: 123.5, 0.5: 135, 0.75: 149.333333333333, 0.9: 159.666666666667, 0.95: 163.5} {
		day, err := LastFrost(years, p)
		near(t, "last frost", day, err, want, 1e-12)
		day, err = FirstFrost(years, 1-p)
		near(t, "first frost", day, err, want, 1e-12)
	}
	few := []float64{100, 110, 130, 90, 120}
	day, err := LastFrost(few, 0.875)
	same(t, "as sure as five years allow", day, err, 130)
	day, err = LastFrost(few, 0.125)
	same(t, "as unsure as five years allow", day, err, 90)
	day, err = LastFrost(few, 0.875+0.5e-12)
	same(t, "within the rounding of that", day, err, 130)
	for _, p := range []quantity.Fraction{0.125 - 1.5e-12, 0.875 + 1.5e-12} {
		if _, err := LastFrost(few, p); err == nil {
			t.Errorf("five years tell of a chance of %v", p)
		}
	}
	free, err := FrostFreeDays(few, []float64{280, 290, 300, 310, 270}, 0.5)
	same(t, "frost-free days", free, err, 180)
	free, err = FrostFreeDays(few, few, 0.8)
	same(t, "never fewer than none", free, err, 0)
	for day, want := range map[float64]float64{80: (5 + 1.0/6) / (5 + 1.0/3), 105: (3 + 1.0/6) / (5 + 1.0/3), 110: (2.5 + 1.0/6) / (5 + 1.0/3), 140: 1.0 / 32} {
		chance, err := FrostChanceAfter(few, day)
		same(t, "chance of frost", chance, err, want)
	}
}

func TestFrostChanceMirrorsLastFrost(t *testing.T) {
	r := seeded()
	for range someCases {
		years := make([]float64, 5+r.IntN(30))
		for i := range years {
			years[i] = between(r, 60, 160)
		}
		p := quantity.Fraction(between(r, 0.2, 0.8))
		day, err := LastFrost(years, p)
		if err != nil {
			t.Fatal(err)
		}
		chance, err := FrostChanceAfter(years, day)
		if err != nil || !(math.Abs(float64(1-p-chance)) <= 0.51/float64(len(years))) {
			t.Fatalf("after day %v, frost-free with chance %v, frost has chance %v, %v", day, p, chance, err)
		}
	}
}

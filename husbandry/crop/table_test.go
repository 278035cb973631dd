package crop

import (
	"errors"
	"strings"
	"testing"

	"freshet.example/husbandry/formula/formulatest"
)

// cells gives each figure of a crop by its name.
func cells(c Crop) map[string]Figure {
	return map[string]Figure{"FromSowing": c.FromSowing, "FromTransplant": c.FromTransplant, "Bearing": c.Bearing, "YearsToBearing": c.YearsToBearing,
		"Base": c.Base, "Upper": c.Upper, "Air": c.Air, "Germination": c.Germination, "GerminationAt": c.GerminationAt, "SeedsPerGram": c.SeedsPerGram,
		"PH": c.PH, "Spacing": c.Spacing, "Density": c.Density, "Yield": c.Yield, "SowingInterval": c.SowingInterval}
}

var sourceNames = map[string]Source{"FAO589": FAO589, "FAO589Memory": FAO589Memory, "NDSU": NDSU, "UVI": UVI, "SeedChart": SeedChart,
	"Peet": Peet, "PerryWehner": PerryWehner, "IowaState": IowaState, "Memory": Memory, "Practice": Practice}

// TestCropTable holds every figure of the crop table against a list kept apart.
func TestCropTable(t *testing.T) {
	listed := 0
	for _, row := range formulatest.Lines(t, "testdata/crops.csv") {
		c, err := Find(row[0])
		if err != nil {
			t.Fatal(err)
		}
		want := Figure{formulatest.Number(t, row[2]), formulatest.Number(t, row[3]), sourceNames[row[4]]}
		if got := cells(c)[row[1]]; got != want {
			t.Errorf("%s %s is %v, the list says %v", row[0], row[1], got, want)
		}
		listed++
	}
	held := 0
	for _, c := range Crops {
		for name, f := range cells(c) {
			if f.Known() {
				held++
			}
			if f.Low > f.High || f.Low < 0 {
				t.Errorf("%s %s runs from %v to %v", c.Name, name, f.Low, f.High)
			}
		}
	}
	if held != listed {
		t.Errorf("the table holds %d figures, the list %d", held, listed)
	}
}

func TestCropTableIsWhole(t *testing.T) {
	if len(Crops) < 70 {
		t.Errorf("only %d crops", len(Crops))
	}
	for _, c := range Crops {
		if c.Latin == "" || !c.Bearing.Known() || !c.Air.Known() || !c.PH.Known() || !c.Density.Known() {
			t.Errorf("%s lacks what every crop has", c.Name)
		}
		if _, err := ExpectedYield(c.Name); err != nil {
			t.Errorf("%s has no yield: %v", c.Name, err)
		}
		if !c.FromSowing.Known() && !c.FromTransplant.Known() && !c.YearsToBearing.Known() {
			t.Errorf("%s has neither days nor years to its harvest", c.Name)
		}
		for _, name := range append([]string{c.Name, strings.ToUpper(c.Name)}, c.Also...) {
			if found, err := Find(name); err != nil || found.Name != c.Name {
				t.Errorf("%s finds %s, %v", name, found.Name, err)
			}
		}
	}
	if names := CropNames(); len(names) != len(Crops) || names[0] != "lettuce" {
		t.Errorf("names are %q", names)
	}
}

func TestCropRowsPointSomewhere(t *testing.T) {
	for _, c := range Crops {
		if c.KcRow != "" {
			if row, err := CropCoefficientOf(c.KcRow); err != nil || row.Crop != c.KcRow {
				t.Errorf("%s: %v, %v", c.Name, row, err)
			}
		}
		if c.StageRow != "" {
			if row, err := StagesOf(c.StageRow); err != nil || row.Crop != c.StageRow {
				t.Errorf("%s: %v, %v", c.Name, row, err)
			}
		}
		if c.SalinityRow != "" {
			if _, err := SalinityToleranceOf(c.SalinityRow); err != nil {
				t.Errorf("%s: %v", c.Name, err)
			}
		}
		if c.FieldYieldRow != "" {
			if _, err := FieldYieldOf(c.FieldYieldRow); err != nil {
				t.Errorf("%s: %v", c.Name, err)
			}
		}
	}
}

// TestCropTableRepeatsItsSources checks that a figure said to be from a
// published table is that table's.
func TestCropTableRepeatsItsSources(t *testing.T) {
	guideline := map[string]string{"chard": "swiss chard", "cabbage": "head cabbage", "sweet pepper": "pepper", "hot pepper": "pepper",
		"cherry tomato": "tomato", "bush bean": "beans and peas", "pole bean": "beans and peas", "pea": "beans and peas"}
	leaflet := map[string]string{"lettuce": "", "sweet corn": "corn", "sweet pepper": "pepper sweet", "bush bean": "beans bush", "pole bean": "beans pole",
		"mustard greens": "mustard", "honeydew melon": "melon honey dew"}
	for _, c := range Crops {
		name := c.Name
		if g, found := guideline[name]; found {
			name = g
		}
		if g, err := GuidelineFor(name); err == nil {
			for cell, want := range map[string]Figure{"PH": g.PH, "Germination": g.Germination, "GerminationAt": g.GerminationAt} {
				got := cells(c)[cell]
				if (got.Source == FAO589 || got.Source == FAO589Memory) && got != want {
					t.Errorf("%s %s is %v, the appendix has %v", c.Name, cell, got, want)
				}
			}
		}
		for _, got := range []Figure{c.FromSowing, c.FromTransplant} {
			name, renamed := leaflet[c.Name]
			if !renamed {
				name = c.Name
			}
			if got.Source != NDSU || name == "" {
				continue
			}
			m, err := MaturityOf(name)
			if err != nil || got.Low != m.Early || got.High != m.Late {
				t.Errorf("%s takes %v, the leaflet says %v, %v", c.Name, got, m, err)
			}
		}
	}
}

func TestFindRefuses(t *testing.T) {
	var missing *NotListedError
	if _, err := Find("triffid"); !errors.As(err, &missing) || missing.Error() != "the crop table has no row for triffid" {
		t.Errorf("got %v", err)
	}
	if _, err := StagesOf("lettuce"); !errors.As(err, &missing) || len(missing.Choices) != 4 {
		t.Errorf("got %v", err)
	} else if want := "FAO-56 Table 11 has several rows for lettuce: lettuce, Apr, Mediterranean; lettuce, Nov Jan, Mediterranean; " +
		"lettuce, Oct Nov, arid region; lettuce, Feb, Mediterranean"; missing.Error() != want {
		t.Errorf("got %q", missing.Error())
	}
	for _, name := range []string{"", " ", "(", "triffid"} {
		if row, err := MaturityOf(name); err == nil {
			t.Errorf("%q is %v", name, row)
		}
	}
	for name, call := range map[string]func(string) error{
		"Kc":        func(s string) error { return refused(CropCoefficientOf(s)) },
		"field":     func(s string) error { return refused(FieldYieldOf(s)) },
		"loop":      func(s string) error { return refused(LoopYieldOf(s, "raft", true)) },
		"expected":  func(s string) error { return refused(ExpectedYield(s)) },
		"guideline": func(s string) error { return refused(GuidelineFor(s)) },
		"later":     func(s string) error { return refused(LaterSalinityToleranceOf(s)) },
		"light":     func(s string) error { return refused(LightNeed(s)) },
		"feed":      func(s string) error { return refused(FeedRatio(s)) },
		"signs":     func(s string) error { return refused(DeficiencySigns(s)) },
		"years":     func(s string) error { return refused(YearsToBearing(s)) },
		"bearing":   func(s string) error { return refusedBoth(FirstBearingYears(s, 0)) },
		"perennial": func(s string) error { return refused(PerennialYield(s, 1, 1)) },
		"window":    func(s string) error { return refused(BearingWindow(Planting{Crop: s, Area: 1}, nil, Clime{})) },
		"warning":   func(s string) error { return refused(PollinationWarning(s, Flowering{})) },
		"mass":      func(s string) error { return refused(SeedMass(s, 1)) },
		"plants":    func(s string) error { return refusedBoth(PlantsFor(s, 1)) },
		"area":      func(s string) error { return refused(AreaFor(s, 1)) },
		"feed area": func(s string) error { return refusedBoth(FeedForArea(s, 1)) },
		"area feed": func(s string) error { return refusedBoth(AreaForFeed(s, 1)) },
		"gaps":      func(s string) error { return refused(GapsAndGluts(nil, Want{Crop: s, PerWeek: 1}, Span{0, 70})) },
		"sow": func(s string) error {
			_, err := SowThisWeek(nil, []Want{{Crop: s, PerWeek: 1}}, nil, Season{})
			return err
		},
	} {
		if err := call("triffid"); !errors.As(err, &missing) {
			t.Errorf("%s knows the triffid: %v", name, err)
		}
	}
}

// TestCommonDays: NDSU H-912 (June 2010) prints three figures for the melons and
// one for chives, rutabagas and the honey melons.
func TestCommonDays(t *testing.T) {
	for crop, want := range map[string]float64{"muskmelon": 83, "watermelon": 75, "chives": 90, "rutabagas": 90, "melon, honey ball": 105, "melon, honey dew": 115} {
		m, err := MaturityOf(crop)
		days, given := m.Common()
		if same(t, crop, days, err, want); !given {
			t.Errorf("%s has no common type", crop)
		}
	}
	beets, _ := MaturityOf("beets")
	if days, given := beets.Common(); given {
		t.Errorf("beets of the common type take %v", days)
	}
}

func TestRowsAnswerToPlainWords(t *testing.T) {
	for asked, want := range map[string]string{
		"Tomatoes": "tomatoes (transplant)", "radish": "radishes", "peas": "peas", "sweet pepper": "pepper (sweet, transplant)",
		"leaf lettuce": "lettuce, leaf", "cabbages": "cabbage (transplant)", "Chinese cabbage": "chinese cabbage", "winter squash": "squash, winter",
		"potato": "potatoes", "melon honey dew": "melon, honey dew", "aubergine": "eggplant", "bush beans": "beans, bush",
	} {
		if m, err := MaturityOf(asked); err != nil || m.Crop != want {
			t.Errorf("%s finds %q, %v", asked, m.Crop, err)
		}
	}
	for asked, want := range map[string]string{
		"cucumber, Jun-Aug arid": "cucumber, Jun Aug, arid region", "lettuce April Medit.": "lettuce, Apr, Mediterranean",
		"spinach, Mediterranean": "spinach, Apr Sep Oct, Mediterranean", "beans green, February-March": "beans, green, Feb Mar, California Mediterranean",
		"carrots Oct-Jan": "carrots, Oct Jan, arid climate", "radish march": "radish, Mar Apr, Mediterranean Europe",
		"broccoli september": "broccoli, Sep, California desert", "onion green october": "onion, green, Oct, arid region",
		"cauliflower sept": "cauliflower, Sep, California desert", "squash zucchini june": "squash, zucchini, May Jun, Mediterranean Europe",
		"citrus january": "citrus, Jan, Mediterranean", "cantaloupe august": "cantaloupe, Aug, California", "sweet melons december": "sweet melons, Dec Jan, arid region",
		"crucifers november": "crucifers, Oct Nov, Mediterranean", "sugar": "",
	} {
		if s, err := StagesOf(asked); s.Crop != want || (err == nil) != (want != "") {
			t.Errorf("%s finds %q, %v", asked, s.Crop, err)
		}
	}
	for asked, want := range map[string]string{"cherry": "", "peaches, no ground cover, killing frost": "apricots, peaches, stone fruit, no ground cover, killing frost",
		"strawberry": "strawberries", "zucchini": "squash, zucchini", "maize sweet fresh": "sweet corn (maize), fresh", "water": "watermelon", "wat": ""} {
		if c, err := CropCoefficientOf(asked); c.Crop != want || (err == nil) != (want != "") {
			t.Errorf("%s finds %q, %v", asked, c.Crop, err)
		}
	}
}

func TestSingular(t *testing.T) {
	for word, want := range map[string]string{"tomatoes": "tomato", "radishes": "radish", "peaches": "peach", "berries": "berry", "peas": "pea",
		"cress": "cress", "beet": "beet", "cabbages": "cabbage"} {
		if got := singular(word); got != want {
			t.Errorf("one of %s is %s", word, got)
		}
	}
	if withoutBrackets("a (b) c") != "a  c" || withoutBrackets("a") != "a" || withoutBrackets("a (b") != "a " {
		t.Error("brackets are not cut")
	}
}

// TestLaterSalinity holds Maas and Grattan (1999) and the fruits of Maas (1990),
// from memory.
func TestLaterSalinity(t *testing.T) {
	for crop, want := range map[string][2]float64{"broccoli": {1.3, 15.8}, "cabbage": {1, 14}, "cauliflower": {1.5, 14.4}, "cowpea": {4.9, 12},
		"garlic": {3.9, 14.3}, "muskmelon": {1, 8.4}, "pea": {3.4, 10.6}, "purslane": {6.3, 9.6}, "zucchini": {4.9, 10.5}, "turnip greens": {3.3, 4.3},
		"almond": {1.5, 19}, "apricot": {1.6, 24}, "blackberry": {1.5, 22}, "boysenberry": {1.5, 22}, "date palm": {4, 3.6}, "grape": {1.5, 9.6},
		"grapefruit": {1.8, 16}, "guava": {4.7, 9.8}, "orange": {1.7, 16}, "peach": {1.7, 21}, "plum": {1.5, 18}} {
		s, err := LaterSalinityToleranceOf(crop)
		if err != nil || float64(s.Threshold) != want[0] || s.Slope != want[1] {
			t.Errorf("%s: got %v, %v", crop, s, err)
		}
	}
	if len(laterSalinityRows) != 21 {
		t.Errorf("%d rows", len(laterSalinityRows))
	}
	var missing *NotListedError
	if _, err := SalinityToleranceOf("kale"); !errors.As(err, &missing) || !strings.Contains(missing.Asked, "MS*") {
		t.Errorf("kale has only a rating: %v", err)
	}
	yield, err := RelativeYield(1.2, 1.3, 13)
	same(t, "below the threshold", yield, err, 100)
	yield, err = RelativeYield(20, 1.3, 13)
	same(t, "never below nought", yield, err, 0)
}

// TestSalinityRatings holds the ratings of Maas (1990).
func TestSalinityRatings(t *testing.T) {
	got := map[string]string{}
	for _, s := range salinityRows {
		got[s.Crop] = s.Rating
	}
	for crop, want := range map[string]string{"artichoke": "MT*", "asparagus": "T", "bean": "S", "broccoli": "MS", "squash, zucchini": "MT", "okra": "S", "muskmelon": "MS", "pea": "S*", "beet (red)": "MT"} {
		if got[crop] != want {
			t.Errorf("%s is rated %q", crop, got[crop])
		}
	}
}

func TestLoopYields(t *testing.T) {
	for _, c := range []struct {
		crop, mode string
		yearly     bool
		want       float64
	}{{"basil", "batch", true, 25}, {"basil", "staggered", true, 23.4}, {"basil", "field", true, 7.7}, {"basil", "batch", false, 2}, {"basil", "staggered", false, 1.8},
		{"basil", "field", false, 0.6}, {"okra", "raft", true, 13.37}, {"okra", "raft", false, 3.04}, {"okra", "field", false, 0.15}} {
		y, err := LoopYieldOf(c.crop, c.mode, c.yearly)
		same(t, c.crop+" "+c.mode, y.Harvest, err, c.want)
	}
	if _, err := LoopYieldOf("basil", "raft", true); err == nil {
		t.Error("basil was not tried as raft")
	}
}

func TestExpectedYield(t *testing.T) {
	tomato, err := ExpectedYield("tomato")
	near(t, "tomato, average field", tomato.Low, err, 11*0.22417, 1e-4)
	near(t, "tomato, excellent field", tomato.High, err, 15*0.22417, 1e-4)
	if tomato.Source != Midwest {
		t.Errorf("source is %v", tomato.Source)
	}
	basil, err := ExpectedYield("basil")
	if err != nil || basil != (Figure{1.8, 2, UVI}) {
		t.Errorf("basil gives %v, %v", basil, err)
	}
	metric, err := FromShortTonsPerAcre(1)
	near(t, "short ton an acre, NIST SP 811", metric, err, 0.2241702, 1e-6)
	us, err := ToShortTonsPerAcre(metric)
	same(t, "and back", us, err, 1)
}

func TestWords(t *testing.T) {
	for want, got := range map[string]string{
		"leafy": Leafy.String(), "flower head": FlowerHead.String(), "fruiting": Fruiting.String(), "legume": Legume.String(), "bulb": Bulb.String(),
		"root": Root.String(), "herb": Herb.String(), "perennial": PerennialFruit.String(), "light feeder": LightFeeder.String(), "medium feeder": MediumFeeder.String(),
		"heavy feeder": HeavyFeeder.String(), "tender": Tender.String(), "half-hardy": HalfHardy.String(), "hardy": Hardy.String(), "not known": Unknown.String(),
		"common practice, no source": Practice.String(), "gap": Gap.String(), "enough": Enough.String(), "glut": Glut.String(),
		"old leaves": OldLeaves.String(), "young leaves": YoungLeaves.String(), "any leaves": AnyLeaves.String(), "fruit": FruitOnly.String(),
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	for s := Unknown; s <= Practice; s++ {
		if s.String() == "" {
			t.Errorf("source %d has no words", s)
		}
	}
	if (Figure{2, 5, Memory}).Middle() != 3.5 || (Figure{}).Known() || !(Figure{0, 0, Memory}).Known() {
		t.Error("figures are not read right")
	}
	if c, _ := Find("water spinach"); !strings.Contains(c.Note, "law") {
		t.Error("water spinach is grown without a word about the law")
	}
}

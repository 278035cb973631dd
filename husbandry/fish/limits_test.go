package fish

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"freshet.example/husbandry/nitrogen"
	"freshet.example/husbandry/quantity"
)

// A loop in which every part is known. By hand: space 20 kg of fish, 200 g of
// feed; oxygen 10 g/h, of which 149/167 may be used, 0.5 g a gram: 428.26 g;
// filter 5.6 g N at 0.02944 g a gram: 190.22 g; solids 300 g; carbonate 21.02016
// g at 0.2102016 g a gram: 100 g; plants 600 g.
func wholeLoop() Loop {
	return Loop{
		Ration: 1, Protein: 0.32, Temperature: 25,
		Tank: 1000, Density: 20, OxygenSupply: 10,
		FilterSurface: 10, FilterRate: 0.56, FilterAge: 100,
		SolidsRemoval: 75, Alkalinity: 21.02016, CarbonDioxideRemoval: 1000,
		PlantArea: 10, PlantRatio: 60,
	}
}

func TestEveryLimitOfALoop(t *testing.T) {
	c, err := Capacity(wholeLoop())
	if err != nil {
		t.Fatal(err)
	}
	want := []Limit{{Name: "space", Feed: 200}, {Name: "oxygen", Feed: 428.2634731}, {Name: "nitrification", Feed: 190.2173913}, {Name: "solids", Feed: 300}, {Name: "carbonate", Feed: 100}, {Name: "plants", Feed: 600}}
	if len(c.Limits) != len(want) || len(c.Missing) != 0 {
		t.Fatalf("got %+v", c)
	}
	for i, w := range want {
		got := c.Limits[i]
		if got.Name != w.Name || got.Source == "" || !(math.Abs(float64(got.Feed-w.Feed)) <= 1e-5) || !(math.Abs(float64(got.Biomass)-float64(w.Feed)/10) <= 1e-6) {
			t.Errorf("got %+v, want %+v", got, w)
		}
	}
	if c.Limits[c.Binding].Name != "carbonate" || c.Next != "carbonate" || !(math.Abs(float64(c.FeedGained)-10) <= 1e-6) || !(math.Abs(float64(c.BiomassGained)-1) <= 1e-6) {
		t.Errorf("binding %+v", c)
	}
	if c.Words() != "carbonate binds: 10 kg of fish, 100 g of feed a day; 10 % more of it carries 1 kg more" {
		t.Error(c.Words())
	}
}

func TestLimitsAreSaidInGoodEnglish(t *testing.T) {
	for want, l := range map[string]Limit{
		"solids carry 300 g of feed a day, 30 kg of fish":    {Name: "solids", Feed: 300, Biomass: 30},
		"space carries 205 g of feed a day, 20.5 kg of fish": {Name: "space", Feed: 205.4, Biomass: 20.54},
	} {
		if got := l.Words(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	l := wholeLoop()
	l.PlantArea, l.Alkalinity = 1, 0
	if c, err := Capacity(l); err != nil || !strings.HasPrefix(c.Words(), "plants bind: 6 kg") {
		t.Errorf("got %q, %v", c.Words(), err)
	}
}

// The standard test is 20 degC and no oxygen held, where 100 W at 0.9 kg/kWh
// bring 90 g/h; ten degrees more bring 1.024^10 = 1.2676506 of it.
func TestAerationByHand(t *testing.T) {
	for _, c := range []struct {
		celsius    quantity.Celsius
		full, held quantity.MgPerL
		want       float64
	}{{20, 9.09, 0, 90}, {30, 9.09, 0, 114.088554}, {20, 9.09, 4.545, 45}, {20, 5, 5, 0}, {20, 5, 7, 0}} {
		got, err := Aeration(100, AirStones, c.celsius, c.full, c.held)
		if err != nil || !(math.Abs(float64(got)-c.want) <= 1e-5) {
			t.Errorf("%+v: got %v, %v", c, got, err)
		}
	}
	for _, wrong := range []struct{ power, efficiency, celsius, full, held float64 }{
		{-1, 1, 20, 9, 5}, {1e6 + 1, 1, 20, 9, 5}, {1, 0.04, 20, 9, 5}, {1, 11, 20, 9, 5}, {1, 1, -1, 9, 5}, {1, 1, 46, 9, 5}, {1, 1, 20, 41, 5}, {1, 1, 20, 9, math.NaN()},
	} {
		if _, err := Aeration(quantity.Watts(wrong.power), KilogramsPerKWh(wrong.efficiency), quantity.Celsius(wrong.celsius), quantity.MgPerL(wrong.full), quantity.MgPerL(wrong.held)); err == nil {
			t.Errorf("%+v is accepted", wrong)
		}
	}
}

// TestNextPartBinds: with space at 200 g and the filter at 190.2 g, ten percent
// more filter is stopped by space.
func TestNextPartBinds(t *testing.T) {
	l := wholeLoop()
	l.Alkalinity = 0
	c, err := Capacity(l)
	if err != nil || c.Limits[c.Binding].Name != "nitrification" || c.Next != "space" || !(math.Abs(float64(c.FeedGained)-9.7826087) <= 1e-6) {
		t.Errorf("got %+v, %v", c, err)
	}
	if c.Words() != "nitrification binds: 19 kg of fish, 190 g of feed a day; 10 % more of it carries 1 kg more, then space binds" {
		t.Error(c.Words())
	}
}

func TestMissingPartsAreNamed(t *testing.T) {
	c, err := Capacity(Loop{Ration: 1, Tank: 1000, Density: 20})
	if err != nil || strings.Join(c.Missing, " ") != "oxygen nitrification solids carbonate plants" || len(c.Limits) != 1 {
		t.Errorf("got %+v, %v", c, err)
	}
	if _, err := Capacity(Loop{Ration: 1}); !errors.Is(err, ErrNothingKnown) {
		t.Errorf("an empty loop gave %v", err)
	}
	for _, l := range []Loop{{Ration: 1, Flow: 10}, {Ration: 1, OxygenDrop: 3}} {
		if _, err := Capacity(l); !errors.Is(err, ErrNothingKnown) {
			t.Errorf("%+v gave %v", l, err)
		}
	}
}

// TestCapacityIsTheLowest over random loops: nothing carries less than the
// binding part, and relaxing it never loses.
func TestCapacityIsTheLowest(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		l := wholeLoop()
		l.Tank, l.OxygenSupply = quantity.Litres(100+3000*r.Float64()), GramsPerHour(0.1+30*r.Float64())
		l.FilterSurface, l.Temperature = quantity.SquareMetres(1+30*r.Float64()), quantity.Celsius(7+28*r.Float64())
		l.SolidsRemoval, l.Alkalinity = quantity.Grams(1+200*r.Float64()), quantity.Grams(1+100*r.Float64())
		l.PlantArea = quantity.SquareMetres(0.1 + 20*r.Float64())
		c, err := Capacity(l)
		if err != nil {
			t.Fatal(err)
		}
		lowest := c.Limits[c.Binding]
		for _, limit := range c.Limits {
			if limit.Feed < lowest.Feed {
				t.Fatalf("%+v carries less than %+v", limit, lowest)
			}
		}
		if c.FeedGained < 0 || float64(c.FeedGained) > 0.1*float64(lowest.Feed)*(1+1e-9) {
			t.Fatalf("ten percent more of %+v gains %v g", lowest, c.FeedGained)
		}
	}
}

// TestWrongPartsAreRefused, each alone.
func TestWrongPartsAreRefused(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(*Loop){
		"ration":      func(l *Loop) { l.Ration = 0 },
		"protein":     func(l *Loop) { l.Protein = 32 },
		"temperature": func(l *Loop) { l.Temperature = 5 },
		"tank":        func(l *Loop) { l.Tank = quantity.Litres(nan) },
		"density":     func(l *Loop) { l.Density = 0 },
		"supply":      func(l *Loop) { l.OxygenSupply = -1 },
		"flow":        func(l *Loop) { l.Flow = quantity.LitresPerMinute(nan) },
		"drop":        func(l *Loop) { l.OxygenDrop = -1 },
		"surface":     func(l *Loop) { l.FilterSurface = -1 },
		"rate":        func(l *Loop) { l.FilterRate = 0 },
		"age":         func(l *Loop) { l.FilterAge = -1 },
		"solids":      func(l *Loop) { l.SolidsRemoval = -1 },
		"alkalinity":  func(l *Loop) { l.Alkalinity = -1 },
		"gas":         func(l *Loop) { l.CarbonDioxideRemoval = -1 },
		"plants":      func(l *Loop) { l.PlantArea = -1 },
		"ratio":       func(l *Loop) { l.PlantRatio = 0 },
	} {
		l := wholeLoop()
		spoil(&l)
		var out *quantity.RangeError
		if _, err := Capacity(l); !errors.As(err, &out) {
			t.Errorf("wrong %s gave %v", name, err)
		}
	}
}

// TestPartsWithoutAnAnswerCarryNothing: neither a missing nor a wrong part may
// leave a number behind.
func TestPartsWithoutAnAnswerCarryNothing(t *testing.T) {
	parts := []func(Loop) (quantity.Grams, bool, error){Loop.spaceFeed, Loop.oxygenFeed, Loop.filterFeed, Loop.solidsFeed, Loop.carbonateFeed, Loop.plantFeed}
	wrong := Loop{Ration: 1, Tank: -1, OxygenSupply: -1, FilterSurface: -1, SolidsRemoval: -1, Alkalinity: -1, PlantArea: -1}
	poor := Loop{Ration: 1, Alkalinity: 5}
	for i, part := range parts {
		if feed, known, err := part(Loop{Ration: 1}); feed != 0 || known || err != nil {
			t.Errorf("part %d of nothing carries %v, %v, %v", i, feed, known, err)
		}
		if feed, _, err := part(wrong); feed != 0 || err == nil {
			t.Errorf("part %d gone wrong carries %v, %v", i, feed, err)
		}
	}
	unfed := Loop{Ration: 1, FilterSurface: 1, FilterRate: 0.5, FilterAge: 50, Temperature: 20}
	if feed, _, err := unfed.filterFeed(); feed != 0 || err == nil {
		t.Errorf("a filter without protein carries %v, %v", feed, err)
	}
	if used, err := poor.alkalinityPerGram(); used != 0 || err == nil {
		t.Errorf("feed without protein uses %v, %v", used, err)
	}
	if feed, _, err := poor.carbonateFeed(); feed != 0 || err == nil {
		t.Errorf("alkalinity without protein carries %v, %v", feed, err)
	}
}

func TestCapacityFormulaListsAll(t *testing.T) {
	a, err := ask(t, "loop_capacity", "feed_percent=1;tank_litres=1000;filter_surface_m2=10;plant_area_m2=10")
	if err != nil || len(a.Others) != 3 || a.Others[0].Basis != "space" || !(math.Abs(a.Others[0].Value-20) <= 1e-9) || !strings.HasPrefix(a.Text, "nitrification binds") {
		t.Errorf("got %+v, %v", a, err)
	}
	if _, err := ask(t, "loop_capacity", ""); !errors.Is(err, ErrNothingKnown) {
		t.Errorf("got %v", err)
	}
}

// The defaults of the formula are the published ones.
func TestDefaultRateIsThatOfRafts(t *testing.T) {
	if nitrogen.RaftRate != 0.56 {
		t.Errorf("rafts remove %v", nitrogen.RaftRate)
	}
}

// Words keep the digits that they have room for.
func TestDigitsOfWords(t *testing.T) {
	l := Limit{Name: "solids", Feed: 20000001, Biomass: 20000000.1}
	if got := l.Words(); got != "solids carry 20000001 g of feed a day, 20000000.1 kg of fish" {
		t.Error(got)
	}
	if g, err := shareOf(100, "1.1"); err != nil || !(math.Abs(float64(g)-1.1) <= 1e-12) {
		t.Error(g, err)
	}
	if got := (Tally{Alive: 7, Counted: true, Unexplained: 1}).Words(); got != "7 fish; 1 more than expected at the last count" {
		t.Error(got)
	}
	if _, err := smallTanks(0.5); err != nil {
		t.Error(err)
	}
	if len(troutChart[0]) != 11 {
		t.Error("the chart has eleven classes of length")
	}
}

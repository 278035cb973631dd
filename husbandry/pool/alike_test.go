package pool

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"freshet.example/husbandry/quantity"
)

func tilapiaSite(celsius float64) Traits {
	return Traits{WaterCelsius: quantity.Celsius(celsius), Latitude: 30, Covered: 1, Litres: 2000, PlantedM2: 20, Species: "tilapia"}
}

var unknownSite = Traits{WaterCelsius: quantity.Celsius(math.NaN()), Latitude: math.NaN(), Covered: math.NaN(), Litres: quantity.Litres(math.NaN()), PlantedM2: math.NaN()}

// Worked by hand from the definition.
func TestDistanceIsTheMeanOfClimateSizeAndSpecies(t *testing.T) {
	own := tilapiaSite(26)
	for _, c := range []struct {
		what   string
		change func(*Traits)
		want   float64
	}{
		{"itself", func(*Traits) {}, 0},
		{"ten degrees colder", func(s *Traits) { s.WaterCelsius = 16 }, 0.5 / 3 / 3},
		{"forty degrees are no more than twenty", func(s *Traits) { s.WaterCelsius = -2 }, 1.0 / 3 / 3},
		{"as far south", func(s *Traits) { s.Latitude = -30 }, 0},
		{"nearer the pole", func(s *Traits) { s.Latitude = 49.95 }, 19.95 / 66.5 / 3 / 3},
		{"half of it in the open", func(s *Traits) { s.Covered = 0.5 }, 0.5 / 3 / 3},
		{"ten times the water", func(s *Traits) { s.Litres = 20000 }, 0.5 / 2 / 3},
		{"a tenth of the beds", func(s *Traits) { s.PlantedM2 = 2 }, 0.5 / 2 / 3},
		{"other fish", func(s *Traits) { s.Species = "trout" }, 1.0 / 3},
		{"fish not known", func(s *Traits) { s.Species = ""; s.WaterCelsius = 16 }, 0.5 / 3 / 2},
		{"size not known", func(s *Traits) { s.Litres, s.PlantedM2, s.Species = 0, 0, "trout" }, 1.0 / 2},
		{"nothing known", func(s *Traits) { *s = unknownSite }, 1},
	} {
		other := own
		c.change(&other)
		if d, err := Distance(own, other); err != nil || !(math.Abs(d-c.want) <= 1e-12) {
			t.Errorf("%s: %g, %v, not %g", c.what, d, err, c.want)
		}
		if back, _ := Distance(other, own); !(math.Abs(back-c.want) <= 1e-12) {
			t.Errorf("%s: %g the other way", c.what, back)
		}
	}
}

func TestTraitsOutOfRangeAreRefused(t *testing.T) {
	for what, change := range map[string]func(*Traits){
		"ice":            func(s *Traits) { s.WaterCelsius = -2.1 },
		"as in a spring": func(s *Traits) { s.WaterCelsius = 46 },
		"beyond a pole":  func(s *Traits) { s.Latitude = -91 },
		"a whole lake":   func(s *Traits) { s.Litres = 1.1e10 },
		"a whole county": func(s *Traits) { s.PlantedM2 = 1.1e8 },
		"boiling":        func(s *Traits) { s.WaterCelsius = 100 },
		"no such place":  func(s *Traits) { s.Latitude = 91 },
		"more than all":  func(s *Traits) { s.Covered = 1.1 },
		"less than none": func(s *Traits) { s.Litres = -1 },
		"no area":        func(s *Traits) { s.PlantedM2 = -1 },
	} {
		bad := tilapiaSite(20)
		change(&bad)
		if d, err := Distance(tilapiaSite(20), bad); err == nil || d != 0 {
			t.Errorf("%s: taken", what)
		}
		if _, err := Alike([]Traits{tilapiaSite(20), bad}, []int{0, 1}, 2); err == nil {
			t.Errorf("%s: sorted", what)
		}
	}
	for _, c := range []struct {
		sites, keepers, least int
	}{{0, 0, 3}, {3, 2, 3}, {3, 3, 1}, {5001, 5001, 3}, {3, 3, 5001}} {
		if _, err := Alike(make([]Traits, c.sites), make([]int, c.keepers), c.least); err == nil {
			t.Errorf("%v: sorted", c)
		}
	}
}

func TestLikeSitesComeTogether(t *testing.T) {
	warm, cold := tilapiaSite(26), Traits{WaterCelsius: 12, Latitude: 55, Litres: 30000, PlantedM2: 300, Species: "trout"}
	sites, keepers := []Traits{warm, cold, warm, cold, warm, cold, cold}, []int{0, 1, 2, 3, 4, 5, 6}
	got, err := Alike(sites, keepers, 3)
	if err != nil {
		t.Fatal(err)
	}
	for i := range sites {
		if (got[i] == got[0]) != (sites[i] == warm) {
			t.Errorf("%v", got)
		}
	}
	// Five are too few for two groups of three, and two sites of one keeper are one.
	if got, _ := Alike(sites[:5], keepers[:5], 3); slices.Max(got) != 0 {
		t.Errorf("two groups of five sites: %v", got)
	}
	if got, _ := Alike(sites[:6], []int{0, 1, 0, 3, 4, 5}, 3); slices.Max(got) != 0 {
		t.Errorf("two groups of five keepers: %v", got)
	}
}

// No group is ever of fewer keepers than asked for, whatever the sites are.
func TestNoGroupIsTooSmall(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 1000 {
		n, least := 1+r.IntN(40), 2+r.IntN(5)
		sites, keepers := make([]Traits, n), make([]int, n)
		for i := range sites {
			sites[i] = Traits{WaterCelsius: quantity.Celsius(30 * r.Float64()), Latitude: 60 * r.Float64(), Covered: float64(r.IntN(2)), Litres: quantity.Litres(math.Pow(10, 5*r.Float64())), PlantedM2: 100 * r.Float64(), Species: []string{"", "tilapia", "trout"}[r.IntN(3)]}
			keepers[i] = r.IntN(n)
		}
		got, err := Alike(sites, keepers, least)
		if err != nil {
			t.Fatal(err)
		}
		members := map[int]map[int]bool{}
		for i, g := range got {
			if members[g] == nil {
				members[g] = map[int]bool{}
			}
			members[g][keepers[i]] = true
		}
		for g, who := range members {
			if len(members) > 1 && len(who) < least {
				t.Fatalf("group %d of %d keepers where %d are the fewest: %v", g, len(who), least, got)
			}
		}
	}
}

// What is most unlike all others gathers its own, not whoever is first.
func TestTheMostUnlikeBegins(t *testing.T) {
	sites := []Traits{tilapiaSite(20), tilapiaSite(21), tilapiaSite(22), tilapiaSite(30)}
	got, err := Alike(sites, []int{0, 1, 2, 3}, 2)
	if want := []int{1, 1, 0, 0}; err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v, not %v", got, err, want)
	}
}

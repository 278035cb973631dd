package nitrogen

import (
	"math"
	"math/rand/v2"
	"testing"

	"freshet.example/husbandry/quantity"
)

// TestThereAndBack: area and volume, area and feed, undo each other.
func TestThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	same := func(got, want float64) bool { return math.Abs(got-want) <= 1e-12*math.Abs(want) }
	for range 1000 {
		area, surface, ratio := 1e5*r.Float64(), 10+1000*r.Float64(), 5+295*r.Float64()
		volume, err := FilterVolume(quantity.SquareMetres(area), SpecificSurface(surface))
		if err != nil {
			t.Fatal(err)
		}
		back, err := MediaArea(volume, SpecificSurface(surface))
		if err != nil || !same(float64(back), area) {
			t.Fatalf("%v m2 came back as %v, %v", area, back, err)
		}
		feed, err := FeedForArea(quantity.SquareMetres(area), FeedRatio(ratio))
		if err != nil {
			t.Fatal(err)
		}
		back, err = PlantArea(feed, FeedRatio(ratio))
		if err != nil || !same(float64(back), area) {
			t.Fatalf("%v m2 came back as %v, %v", area, back, err)
		}
	}
}

// TestFilterCapacityMatchesArea: a ripe warm filter of the area asked for
// handles exactly the load.
func TestFilterCapacityMatchesArea(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 1000 {
		tan, rate := GramsN(1000*r.Float64()), ArealN(0.1+r.Float64())
		area, err := FilterArea(tan, rate)
		if err != nil {
			t.Fatal(err)
		}
		capacity, err := FilterCapacity(area, rate, 25, 35)
		if err != nil || !(math.Abs(float64(capacity-tan)) <= 1e-9) {
			t.Fatalf("%v g became %v g, %v", tan, capacity, err)
		}
	}
}

// TestWarmerAndOlderIsFaster up to day 35.
func TestWarmerAndOlderIsFaster(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 1000 {
		temp, age := 7+27*r.Float64(), 34*r.Float64()
		here, _ := FilterCapacity(10, 0.5, quantity.Celsius(temp), quantity.Days(age))
		warmer, _ := FilterCapacity(10, 0.5, quantity.Celsius(temp+1), quantity.Days(age+1))
		if !(warmer > here) {
			t.Fatalf("at %v degC and day %v capacity falls", temp, age)
		}
	}
}

// TestAmmoniaStaysBelowFeedN: no basis may make more nitrogen than was fed.
func TestAmmoniaStaysBelowFeedN(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 1000 {
		feed, protein := quantity.Kilograms(100*r.Float64()), quantity.Fraction(0.25+0.45*r.Float64())
		fed, _ := FeedN(feed.Grams(), protein)
		tan, _ := TANFromProtein(feed, protein)
		rule, _ := TANRuleOfThumb(feed)
		fao, _ := AmmoniaFAO(feed.Grams(), protein)
		if tan.Grams() > fed || rule.Grams() > fed || fao.N() > fed {
			t.Fatalf("%v kg of %v protein: %v g N fed, %v %v %v", feed, protein, fed, tan, rule, fao)
		}
	}
}

func TestSolidsShareIsUsual(t *testing.T) {
	if SolidsNShare != 0.04 || FAORate != 0.57 || RaftRate != 0.56 {
		t.Error("a published constant changed")
	}
}

func BenchmarkFilterCapacity(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_, _ = FilterCapacity(10, 0.5, 22, 30)
	}
}

func TestNoAllocation(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() {
		_, _ = TANFromProtein(1, 0.3)
		_, _ = FilterCapacity(10, 0.5, 22, 30)
		_, _ = EbelingSlides.OxygenUsed(3)
		_, _ = Left(10, 3, 2)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
